//! Where the record lies.
use std::path::PathBuf;

use tauri::{App, Manager as _};

/// `PROVENOHM_DATA` if it is set, so that a trial or a test never touches the real record; else the
/// system's own folder for this app's data.
pub(crate) fn of_record(app: &App) -> tauri::Result<PathBuf> {
    match std::env::var_os("PROVENOHM_DATA") {
        Some(folder) => Ok(PathBuf::from(folder)),
        None => app.path().app_data_dir(),
    }
}
