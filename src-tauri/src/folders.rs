//! Where the record lies and where papers go.
use std::path::PathBuf;

use tauri::{App, Manager as _};

use crate::door::Folders;

/// Both under `PROVENOHM_DATA` if it is set, so that a trial or a test never touches the real record; else the record in
/// the system's folder for this app's data, and papers among the person's own documents.
pub(crate) fn of(app: &App) -> tauri::Result<Folders> {
    if let Some(folder) = std::env::var_os("PROVENOHM_DATA") {
        let record = PathBuf::from(folder);
        let papers = record.join("papers");
        return Ok(Folders { record, papers });
    }
    let places = app.path();
    let record = places.app_data_dir()?;
    // A system without a documents folder keeps the papers beside the record.
    let papers = places.document_dir().unwrap_or_else(|_| record.clone()).join("Provenohm");
    Ok(Folders { record, papers })
}
