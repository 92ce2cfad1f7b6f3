//! Which device wrote what, who does which board, and files that come by another way than the chooser.
use crate::bench::picture;
use crate::hand_over::{hand_over, look_into, open, take_in};
use provenohm_tests::{Entry, Job, Trouble, single_phase};
use serde_json::json;

/// Drops files (in base64) on the window, as a hand does that drags them from a folder.
const DROP: &str = "
    const dropped = new DataTransfer();
    for (const text of arguments[0]) {
        const bytes = Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
        dropped.items.add(new File([bytes], 'hall.provenohm-bundle'));
    }
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: dropped, bubbles: true, cancelable: true }));";

/// Counts how often the chooser is opened; the system's own dialog would stay.
const CHOOSER: &str = "
    window.opened = 0;
    document.getElementById('receive').addEventListener('click', (event) => { event.preventDefault(); window.opened++; });";

#[tokio::test]
async fn boards_are_shared_out_and_a_device_that_came_by_a_drop_is_vouched_for() -> Result<(), Trouble> {
    let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let one = open(here.path()).await?;
    let job = Job::with(&one, &[(2, single_phase())]).await?;
    one.call("add_person", json!({ "job": job.job, "name": "B. Recorder" })).await?;
    one.go(&format!("#/circuits/{}", job.board)).await?;
    one.tap("board-edit").await?;
    one.until_shown("Who does this board").await?;
    picture(&one, "board-people").await?;
    one.tap_named("B. Recorder").await?;
    let noted = "return document.querySelectorAll('#board-people input:checked').length === 1";
    one.until("the board to be B. Recorder's", noted, &[]).await?;
    let bundle = hand_over(&one, &job.job).await?;

    let two = open(there.path()).await?;
    look_into(&two, &bundle).await?;
    take_in(&two).await?;
    two.go(&format!("#/job/{}", job.job)).await?;
    two.until_shown("B. Recorder").await?;
    let view = two.call("job", json!({ "job": job.job })).await?;
    let board = &view["boards"][0];
    let other = view["people"].as_array().unwrap().iter().find(|one| one["name"] == "B. Recorder").unwrap();
    assert_eq!(board["people"], json!([other["id"]]));
    // A note, not a lock: whoever is there records.
    two.call("be_person", json!({ "job": job.job, "person": view["people"][0]["id"] })).await?;
    two.call("confirm_cautions", json!({ "job": job.job })).await?;
    two.call("choose_tester", json!({ "board": job.board, "tester": job.tester })).await?;
    two.run(&job.board).await?;
    two.tap_in(Entry::Typed { digits: "350", unit: 'm' }).await?;
    let back = hand_over(&two, &job.job).await?;

    one.go("#/handover").await?;
    one.until_shown("Choose a bundle or a job file").await?;
    one.ask(CHOOSER, &[]).await?;
    one.type_with_control('o').await?;
    assert_eq!(one.ask("return window.opened", &[]).await?, json!(1), "Ctrl+O opens the chooser");
    one.ask(DROP, &[json!([back, bundle])]).await?;
    one.until("the sum", "return document.getElementById('bundle-words') !== null", &[]).await?;
    assert_ne!(one.text("bundle-words").await?, "", "looked at");
    picture(&one, "dropped").await?;
    take_in(&one).await?;
    // What was dropped beside it waits its turn, and brings nothing new.
    one.tap("receive-next").await?;
    one.until("the next file", "return document.getElementById('receive-join') !== null", &[]).await?;
    assert!(one.text("bundle-words").await?.contains("joined 0"));

    one.go(&format!("#/job/{}", job.job)).await?;
    one.until_shown("A device is known once").await?;
    picture(&one, "devices").await?;
    assert_eq!(one.serious_barriers().await?, Vec::<String>::new());
    let vouch = "document.querySelector('button[aria-label^=\"Vouch\"]').click(); return true";
    one.ask(vouch, &[]).await?;
    let known = "return document.querySelector('button[aria-label^=\"Vouch\"]') === null";
    one.until("the device to be known", known, &[]).await?;
    let devices = one.call("devices", json!({ "job": job.job })).await?;
    assert!(devices["lines"].as_array().unwrap().iter().all(|line| line["known"] == true), "{devices}");
    one.tap_named("Undo").await?;
    one.until(
        "the word to be taken back",
        "return document.querySelector('button[aria-label^=\"Vouch\"]') !== null",
        &[],
    )
    .await
}
