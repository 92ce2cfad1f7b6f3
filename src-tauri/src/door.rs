//! The one door between the screens and the record.
use std::path::PathBuf;
use std::sync::Arc;

use provenohm_api::{Api, Failure, Host};
use provenohm_wire::Wire;
use serde_json::{Value, json};
use tauri::State;

/// The record, opened or not: where it is not, the operations say why, and one of them is the way on.
pub(crate) struct Door(Result<Arc<Api>, Failure>);

/// Where the record lies, and where the papers made from it go.
pub(crate) struct Folders {
    pub(crate) record: PathBuf,
    pub(crate) papers: PathBuf,
}

impl Door {
    /// Opens the record. With `demo`, an empty one starts with the invented job.
    pub(crate) fn open(folders: Folders, demo: bool) -> Self {
        let host = Host::system().with_papers(folders.papers);
        let opened = Api::open_or_say(&folders.record, host).map(Arc::new);
        if let (Ok(api), true) = (&opened, demo) {
            // What refuses the demo refuses the first screen too, and is said there.
            let _ = fill_if_empty(api);
        }
        if let Ok(api) = &opened {
            attend_to_office(Arc::clone(api));
        }
        Self(opened)
    }
}

/// Keeps this device in step with its office as long as the app is open. It is only ever in the middle of something that
/// may break off.
fn attend_to_office(api: Arc<Api>) {
    std::thread::spawn(move || {
        loop {
            api.wait_for_wish(api.attend(&Wire));
        }
    });
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
