//! The one window.
use tauri::{App, Error, WebviewUrl, WebviewWindow, WebviewWindowBuilder};

/// Opens the window of `tauri.conf.json`, in the size `PROVENOHM_WINDOW` asks for (`390x844`, CSS pixels).
///
/// With `PROVENOHM_BLANK` set it shows one line of text instead of the app: what a cold start is measured beside.
pub(crate) fn open(app: &App) -> tauri::Result<()> {
    let config = app.config().app.windows.first().ok_or(Error::WindowNotFound)?;
    let mut config = config.clone();
    if std::env::var_os("PROVENOHM_BLANK").is_some() {
        config.url = WebviewUrl::App("blank.html".into());
    }
    let builder = WebviewWindowBuilder::from_config(app, &config)?;
    #[cfg(desktop)]
    let builder = match size_asked() {
        Some((width, height)) => builder.inner_size(width, height),
        None => builder,
    };
    come_back(&builder.build()?)
}

#[cfg(desktop)]
fn size_asked() -> Option<(f64, f64)> {
    let asked = std::env::var("PROVENOHM_WINDOW").ok()?;
    let (width, height) = asked.split_once('x')?;
    Some((width.parse().ok()?, height.parse().ok()?))
}

/// A killed web process is started again; the screens then rebuild themselves from the record, at the place it remembers.
/// On macOS and iOS Tauri does this by itself.
#[cfg(target_os = "linux")]
fn come_back(window: &WebviewWindow) -> tauri::Result<()> {
    use webkit2gtk::WebViewExt as _;
    let start = window.url()?;
    window.with_webview(move |view| {
        // Not `reload`, which does nothing for a page that was killed before it had loaded once.
        view.inner().connect_web_process_terminated(move |view, _| view.load_uri(start.as_str()));
    })
}

#[cfg(not(target_os = "linux"))]
fn come_back(_: &WebviewWindow) -> tauri::Result<()> {
    Ok(())
}
