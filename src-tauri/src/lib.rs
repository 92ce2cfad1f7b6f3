//! The Tauri shell and nothing else: one window, one command, no rule of the trade.

mod door;
mod folders;
mod window;

use tauri::Manager as _;

/// Opens the app and returns when its window is closed. A phone's system starts the app here.
#[cfg_attr(mobile, tauri::mobile_entry_point)]
pub fn run() {
    let closed = tauri::Builder::default()
        .setup(|app| {
            let demo = std::env::var_os("PROVENOHM_DEMO").is_some();
            app.manage(door::Door::open(folders::of(app)?, demo));
            window::open(app)?;
            Ok(())
        })
        .invoke_handler(tauri::generate_handler![door::call])
        .run(tauri::generate_context!());
    if let Err(error) = closed {
        eprintln!("Provenohm could not open its window: {error}");
        std::process::exit(1);
    }
}
