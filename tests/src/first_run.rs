//! The first run without a display: the app, driven through its real window, and what it leaves in a folder.
use std::{path::PathBuf, process::ExitCode};

use provenohm_tests::{Opening, Trouble, Window};

#[tokio::main]
async fn main() -> ExitCode {
    let folder = std::env::args_os().nth(1).map_or_else(|| PathBuf::from("target/first-run"), PathBuf::from);
    match drive(&folder).await {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            eprintln!(
                "The app could not be driven: {trouble}\nNext: run `cargo xtask test`, which names the first check that does not hold"
            );
            ExitCode::FAILURE
        }
    }
}

async fn drive(folder: &std::path::Path) -> Result<(), Trouble> {
    let record =
        tempfile::tempdir().map_err(|error| Trouble::System { what: "a folder for the record".to_owned(), error })?;
    let window = Window::open(&Opening { demo: true, ..Opening::phone(record.path()) }).await?;
    let picture = folder.join("start.png");
    window.picture(&picture).await?;
    println!("   {}", picture.display());
    Ok(())
}
