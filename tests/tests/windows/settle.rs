//! Settling by keyboard alone: one pair read on two devices, and one circuit added on both. Then both tell the same.
use std::path::PathBuf;

use crate::hand_over::{hand_over, look_into, open, take_in};
use provenohm_tests::{Entry, Job, Opening, Trouble, Window, single_phase};
use serde_json::{Value, json};

/// Leaves a picture of the screen, where pictures are asked for.
async fn picture(window: &Window, name: &str) -> Result<(), Trouble> {
    if let Some(folder) = std::env::var_os("PROVENOHM_PICTURES") {
        let width = window.ask("return String(innerWidth)", &[]).await?;
        let file = format!("settle-{name}-{}.png", width.as_str().unwrap_or_default());
        window.picture(&PathBuf::from(folder).join(file)).await?;
    }
    Ok(())
}

async fn add_circuit(window: &Window, board: &str, reference: &str) -> Result<(), Trouble> {
    let mut form = window.call("circuits", json!({ "board": board })).await?["next"].clone();
    form["reference"] = json!(reference);
    window.call("save_circuit", json!({ "board": board, "form": form })).await?;
    Ok(())
}

/// Gives what one window has to the other.
async fn give(from: &Window, to: &Window, job: &str) -> Result<(), Trouble> {
    let bundle = hand_over(from, job).await?;
    look_into(to, &bundle).await?;
    take_in(to).await
}

/// What a window tells of the job, but for whose device it is and what was never handed over.
async fn told(window: &Window, job: &Job) -> Result<Value, Trouble> {
    let look = window.call("look", json!({ "job": job.job })).await?;
    let circuits = window.call("circuits", json!({ "board": job.board })).await?;
    let readings = window.call("readings", json!({ "job": job.job })).await?;
    let open = window.call("settling", json!({ "job": job.job })).await?;
    Ok(json!([look, circuits["circuits"], readings["rows"], open["questions"]]))
}

/// The key of the choice with these words.
async fn key_of(window: &Window, words: &str) -> Result<String, Trouble> {
    let script = "return String([...document.querySelectorAll('#question li button')]
        .findIndex((one) => one.innerText.replaceAll('\\u00a0', ' ').includes(arguments[0])) + 1)";
    Ok(window.ask(script, &[json!(words)]).await?.as_str().unwrap().to_owned())
}

async fn settled_by_keyboard_alone(size: (u32, u32)) -> Result<(), Trouble> {
    let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let one = Window::open(&Opening { size, ..Opening::phone(here.path()) }).await?;
    let two = open(there.path()).await?;
    let job = Job::with(&one, &[(2, single_phase())]).await?;
    give(&one, &two, &job.job).await?;
    let view = two.call("add_person", json!({ "job": job.job, "name": "B. Recorder" })).await?;
    let people = view["people"].as_array().unwrap();
    let other = people.iter().find(|it| it["name"] == "B. Recorder").unwrap()["id"].clone();
    two.call("be_person", json!({ "job": job.job, "person": other })).await?;
    two.call("confirm_cautions", json!({ "job": job.job })).await?;
    two.call("choose_tester", json!({ "board": job.board, "tester": job.tester })).await?;
    for (window, digits, reference) in [(&one, "487", "7a"), (&two, "350", "7 A")] {
        window.run(&job.board).await?;
        window.tap_in(Entry::Typed { digits, unit: 'm' }).await?;
        add_circuit(window, &job.board, reference).await?;
    }
    give(&one, &two, &job.job).await?;
    give(&two, &one, &job.job).await?;

    // From the file that was joined straight to what waits.
    one.until_shown("2 things to settle").await?;
    one.ask("document.getElementById('receive-settle').focus()", &[]).await?;
    one.type_keys("\u{e007}").await?;
    one.until_shown("To settle 1 of 2").await?;
    one.until_shown("Two readings of one pair").await?;
    assert_eq!(one.serious_barriers().await?, Vec::<String>::new());
    picture(&one, "readings").await?;
    one.ask("window.taps = 0; addEventListener('pointerup', () => window.taps++, true)", &[]).await?;
    // Later writes nothing.
    one.type_keys("l").await?;
    one.until_shown("To settle 2 of 2").await?;
    one.until_shown("One circuit added twice?").await?;
    picture(&one, "circuits").await?;
    one.type_keys("l").await?;
    one.until_shown("To settle 1 of 2").await?;
    one.type_keys("?").await?;
    one.until_shown("B: keep both").await?;
    one.type_keys("\u{e00c}").await?;
    one.until("the keys closed", "return document.getElementById('keys') === null", &[]).await?;

    let theirs = key_of(&one, "350 MΩ").await?;
    one.type_keys(&theirs).await?;
    one.until_shown("Settled: 350 MΩ").await?;
    one.until_shown("To settle 1 of 1").await?;
    one.type_with_control('z').await?;
    one.until_shown("To settle 1 of 2").await?;
    one.type_keys(&key_of(&one, "350 MΩ").await?).await?;
    one.until_shown("To settle 1 of 1").await?;
    one.type_keys(&key_of(&one, "One and the same").await?).await?;
    // Written in two ways: one circuit with two names.
    one.until_shown("Two names of one circuit").await?;
    one.type_keys(&key_of(&one, "7a").await?).await?;
    one.until_shown("Nothing to settle").await?;
    picture(&one, "done").await?;
    assert_eq!(one.ask("return window.taps", &[]).await?, json!(0), "by keyboard alone");

    give(&one, &two, &job.job).await?;
    give(&two, &one, &job.job).await?;
    let (first, second) = (told(&one, &job).await?, told(&two, &job).await?);
    assert_eq!(first, second);
    assert_eq!(first[1].as_array().unwrap().len(), 3, "one circuit where two were added");
    assert_eq!(first[3], json!([]));
    Ok(())
}

#[tokio::test]
async fn two_readings_and_a_doubled_circuit_are_settled_by_keyboard_alone() -> Result<(), Trouble> {
    settled_by_keyboard_alone((1280, 800)).await
}

#[tokio::test]
async fn and_on_a_phone_with_a_keyboard() -> Result<(), Trouble> {
    settled_by_keyboard_alone((390, 844)).await
}

#[tokio::test]
async fn and_on_a_tablet() -> Result<(), Trouble> {
    settled_by_keyboard_alone((768, 1024)).await
}
