//! The main job: a board of 54 readings, from key presses to a printed page.
use std::{path::PathBuf, process::Command};

use provenohm_tests::{Entry, Job, Opening, Trouble, Window};

/// What a sound board's tester shows in turn: mostly beyond its range.
const SHOWN: [Entry; 3] =
    [Entry::OverRange, Entry::Typed { digits: "487", unit: 'm' }, Entry::Typed { digits: "1.20", unit: 'm' }];

fn entry(at: usize) -> Entry {
    SHOWN[at % SHOWN.len()]
}

#[tokio::test]
async fn a_board_of_54_readings_survives_a_kill_and_becomes_a_schedule() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let opening = Opening::phone(record.path());
    let window = Window::open(&opening).await?;
    let job = Job::of_54_readings(&window).await?;
    job.prove_tester(&window).await?;
    assert_eq!(job.done(&window).await?, (0, 54));

    window.run(&job.board).await?;
    window.set_voltage_if_asked().await?;
    let before = window.taps().await?;
    for at in 0..20 {
        window.tap_in(entry(at)).await?;
        said_once(&window).await?;
    }
    let expected: usize = (0..20).map(|at| entry(at).taps()).sum();
    assert_eq!(window.taps().await? - before, expected, "one tap a character, one to save, none to go on");
    window.tap_digits("48").await?;
    window
        .until(
            "the core to hold what is typed",
            "return document.getElementById('entry').innerText.trim() === '48'",
            &[],
        )
        .await?;
    window.call("run", serde_json::json!({ "board": job.board })).await?;
    window.kill()?;

    let window = Window::open(&opening).await?;
    window.recording().await?;
    assert_eq!(window.text("entry").await?, "48", "half-typed digits are still there, on the same pair");
    assert_eq!(job.done(&window).await?, (20, 54), "nothing that was shown as saved is lost");
    window.tap_in(Entry::Typed { digits: "7", unit: 'm' }).await?;
    assert!(window.text("read-back").await?.contains("487 MΩ"));
    for at in 21..54 {
        window.tap_in(entry(at)).await?;
    }
    assert_eq!(job.done(&window).await?, (54, 54));

    let files = schedule(&window, &job).await?;
    for file in &files {
        assert!(file.starts_with(record.path()), "{}", file.display());
    }
    let text = Command::new("pdftotext").arg("-layout").arg(&files[0]).arg("-").output().unwrap();
    let text = String::from_utf8_lossy(&text.stdout).replace('\u{a0}', " ");
    assert_eq!(text.matches("1.20 MΩ").count(), count("1.20"), "{text}");
    assert!(text.contains("Not signed"), "{text}");
    let table = std::fs::read_to_string(&files[2]).unwrap();
    assert_eq!(table.matches(",1.20,MΩ,").count(), count("1.20"), "{table}");
    Ok(())
}

/// How many of the 54 show these digits.
fn count(shown: &str) -> usize {
    let is = |at: &usize| *at != 20 && matches!(entry(*at), Entry::Typed { digits, .. } if digits == shown);
    (0..54).filter(is).count()
}

/// A screen reader hears each save once.
async fn said_once(window: &Window) -> Result<(), Trouble> {
    let script = "
        const said = document.querySelector('[data-announce]').textContent.trim();
        const all = [...document.querySelectorAll('[aria-live], [role=status], [role=alert]')];
        return said === '' ? 0 : all.filter((one) => one.textContent.includes(said)).length";
    assert_eq!(window.ask(script, &[]).await?, 1);
    Ok(())
}

/// Opens the schedule and makes its three files.
async fn schedule(window: &Window, job: &Job) -> Result<Vec<PathBuf>, Trouble> {
    window.go(&format!("#/schedule/{}", job.job)).await?;
    window.until("the preview", "return (document.getElementById('preview')?.naturalWidth ?? 0) > 0", &[]).await?;
    let mut files = Vec::new();
    for format in ["pdf", "xlsx", "csv"] {
        window.tap(&format!("make-{format}")).await?;
        let script =
            "return document.getElementById('written-path')?.textContent.trim().endsWith('.' + arguments[0]) === true";
        window.until(&format!("the {format} file"), script, &[format.into()]).await?;
        files.push(PathBuf::from(window.text("written-path").await?));
    }
    Ok(files)
}
