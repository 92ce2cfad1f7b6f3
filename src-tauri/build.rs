//! Declares the shell's one command to Tauri's access control, and makes sure there are screens to put inside.
use std::{fs, io, path::Path};

/// Shown in place of the screens by an app that was compiled before they were built.
const NOT_BUILT: &str = "<!doctype html><title>Provenohm</title>\
    <p>The screens are not built yet. Run: cargo xtask run</p>\n";

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let screens = Path::new("../ui/dist");
    println!("cargo:rerun-if-changed={}", screens.display());
    keep_compilable(screens)?;
    let commands = tauri_build::AppManifest::new().commands(&["call"]);
    tauri_build::try_build(tauri_build::Attributes::new().app_manifest(commands))?;
    Ok(())
}

/// Tauri refuses to compile without the folder of built screens; the Rust side alone must not need Node.js.
fn keep_compilable(screens: &Path) -> io::Result<()> {
    let page = screens.join("index.html");
    if page.exists() {
        return Ok(());
    }
    fs::create_dir_all(screens)?;
    fs::write(page, NOT_BUILT)
}
