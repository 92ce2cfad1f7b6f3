//! The first run without a display: the main job, done in the real window, and what it leaves in a folder.
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use provenohm_tests::{Entry, Opening, Trouble, Window};
use serde_json::json;

/// What the tester shows of the next pairs. The demo job leaves three open, so that the last picture of the run still asks.
const SHOWN: [Entry; 2] = [Entry::Typed { digits: "487", unit: 'm' }, Entry::OverRange];

#[tokio::main]
async fn main() -> ExitCode {
    let folder = std::env::args_os().nth(1).map_or_else(|| PathBuf::from("target/first-run"), PathBuf::from);
    match drive(&folder).await {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            eprintln!(
                "The app could not be driven: {trouble}\nNext: run `cargo xtask test`, which names the check that fails"
            );
            ExitCode::FAILURE
        }
    }
}

async fn drive(folder: &Path) -> Result<(), Trouble> {
    let record =
        tempfile::tempdir().map_err(|error| Trouble::System { what: "a folder for the record".to_owned(), error })?;
    let window = Window::open(&Opening { demo: true, ..Opening::phone(record.path()) }).await?;
    let jobs = window.call("jobs", json!({})).await?;
    let job = id(&jobs["jobs"][0]["id"])?;
    let board = board_to_record(&window, job).await?;

    let shot = Shots { window: &window, folder };
    shot.of("1-jobs", "#/jobs", "screen-jobs").await?;
    shot.of("2-job", &format!("#/job/{job}"), "screen-job").await?;
    shot.of("3-circuits", &format!("#/circuits/{board}"), "screen-circuits").await?;

    window.go(&format!("#/cautions/{job}/{board}")).await?;
    window.until_shown_in("screen-cautions").await?;
    shot.keep("4-cautions").await?;
    window.call("confirm_cautions", json!({ "job": job })).await?;
    window.run(&board).await?;
    for entry in SHOWN {
        window.tap_in(entry).await?;
    }
    shot.keep("5-run").await?;

    shot.of("6-things-to-look-at", &format!("#/look/{job}"), "screen-look").await?;
    shot.of("7-testers", &format!("#/testers/{job}"), "screen-testers").await?;
    window.go(&format!("#/schedule/{job}")).await?;
    window.until("the preview", "return (document.getElementById('preview')?.naturalWidth ?? 0) > 0", &[]).await?;
    shot.keep("8-schedule").await?;
    for format in ["pdf", "xlsx", "csv"] {
        let written = window.call("make_schedule", json!({ "job": job, "format": format })).await?;
        let to = folder.join(format!("schedule.{format}"));
        std::fs::copy(id(&written["files"][0])?, &to)
            .map_err(|error| Trouble::System { what: to.display().to_string(), error })?;
        println!("   {}", to.display());
    }
    Ok(())
}

/// The first board of the demo job where something is left to read.
async fn board_to_record(window: &Window, job: &str) -> Result<String, Trouble> {
    let view = window.call("job", json!({ "job": job })).await?;
    let boards = view["boards"].as_array().into_iter().flatten();
    let open = boards.clone().find(|board| board["done"].as_u64() < board["of"].as_u64());
    let board =
        open.ok_or_else(|| Trouble::NotShown("the demo job has no board with something left to read".to_owned()))?;
    id(&board["id"]).map(str::to_owned)
}

/// Pictures of the window, in a folder.
struct Shots<'a> {
    window: &'a Window,
    folder: &'a Path,
}

impl Shots<'_> {
    /// Goes to a screen and keeps a picture of it.
    async fn of(&self, name: &str, place: &str, screen: &str) -> Result<(), Trouble> {
        self.window.go(place).await?;
        self.window.until_shown_in(screen).await?;
        self.keep(name).await
    }

    async fn keep(&self, name: &str) -> Result<(), Trouble> {
        let file = self.folder.join(format!("{name}.png"));
        self.window.picture(&file).await?;
        println!("   {}", file.display());
        Ok(())
    }
}

fn id(told: &serde_json::Value) -> Result<&str, Trouble> {
    told.as_str().ok_or_else(|| Trouble::NotShown(format!("text was expected, not {told}")))
}
