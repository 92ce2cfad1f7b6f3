//! The one door between the screens and the record.
use std::path::PathBuf;

use provenohm_api::{Api, Failure, Host};
use serde_json::{Value, json};
use tauri::State;

/// The opened record, or why it could not be opened: the screens then show those words instead of nothing.
pub(crate) struct Door(Result<Api, Failure>);

/// Where the record lies, and where the papers made from it go.
pub(crate) struct Folders {
    pub(crate) record: PathBuf,
    pub(crate) papers: PathBuf,
}

impl Door {
    /// Opens the record. With `demo`, an empty one starts with the invented job.
    pub(crate) fn open(folders: Folders, demo: bool) -> Self {
        let host = Host::system().with_papers(folders.papers);
        let opened = Api::open(&folders.record, host).and_then(|api| {
            if demo {
                fill_if_empty(&api)?;
            }
            Ok(api)
        });
        Self(opened)
    }
}

fn fill_if_empty(api: &Api) -> Result<(), Failure> {
    let jobs = api.call("jobs", json!({}))?;
    if jobs["jobs"].as_array().is_some_and(Vec::is_empty) {
        api.call("make_demo", json!({}))?;
    }
    Ok(())
}

/// Does one operation of `provenohm-api`, off the thread that paints the window.
#[tauri::command(async)]
pub(crate) fn call(door: State<'_, Door>, operation: String, input: Value) -> Result<Value, Failure> {
    match &door.0 {
        Ok(api) => api.call(&operation, input),
        Err(not_opened) => Err(not_opened.clone()),
    }
}
