//! The one door between the screens and the record.
use std::{path::Path, sync::Arc};

use serde_json::Value;
use tauri::State;

use crate::seam::{Api, Failure};

/// The opened record, or why it could not be opened: the screens then show those words instead of nothing.
pub(crate) struct Door(Result<Arc<Api>, Failure>);

impl Door {
    pub(crate) fn open(folder: &Path) -> Self {
        Self(Api::open(folder).map(Arc::new))
    }
}

/// Does one operation of `provenohm-api`, off the thread that paints the window.
#[tauri::command]
pub(crate) async fn call(door: State<'_, Door>, operation: String, input: Value) -> Result<Value, Failure> {
    let api = Arc::clone(door.0.as_ref().map_err(Failure::clone)?);
    tauri::async_runtime::spawn_blocking(move || api.call(&operation, input))
        .await
        .unwrap_or_else(|stopped| Err(stopped.to_string().into()))
}
