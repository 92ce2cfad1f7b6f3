//! Two phones and one job, by bundle files and nothing else: handed over, looked at before it is taken, recorded on both,
//! handed back, and one pair that both had read settled by a person.
use provenohm_tests::{Entry, Job, Opening, Trouble, Window, single_phase};
use serde_json::{Value, json};
use std::path::Path;

/// Gives a file's bytes (in base64) to the control that chooses one, as the system's own chooser does.
pub(crate) const CHOOSE: &str = "
    const bytes = Uint8Array.from(atob(arguments[0]), (one) => one.charCodeAt(0));
    const chosen = new DataTransfer();
    chosen.items.add(new File([bytes], 'hall.provenohm-bundle'));
    const control = document.getElementById('receive');
    control.files = chosen.files;
    control.dispatchEvent(new Event('change', { bubbles: true }));";

pub(crate) async fn hand_over(window: &Window, job: &str) -> Result<String, Trouble> {
    window.go(&format!("#/handover/{job}")).await?;
    window.until_shown("Further testers that go with it").await?;
    window.tap("hand-over").await?;
    let path = window.text("handed-path").await?;
    let encoded = std::process::Command::new("base64").args(["-w0", &path]).output().unwrap();
    Ok(String::from_utf8(encoded.stdout).unwrap())
}

/// Chooses the file; the sum in words.
pub(crate) async fn look_into(window: &Window, bundle: &str) -> Result<String, Trouble> {
    window.go("#/handover").await?;
    window.until_shown("Choose a bundle or a job file").await?;
    window.ask(CHOOSE, &[json!(bundle)]).await?;
    window.until("the sum", "return document.getElementById('bundle-words') !== null", &[]).await?;
    window.text("bundle-words").await
}

pub(crate) async fn take_in(window: &Window) -> Result<(), Trouble> {
    window.tap("receive-join").await?;
    window.until_shown("Taken in").await
}

/// Joined, same and to settle, which add up to what came.
fn adds_up(sum: &str) -> [u64; 3] {
    let numbers: Vec<u64> = sum.split(|c: char| !c.is_ascii_digit()).filter_map(|one| one.parse().ok()).collect();
    let [came, joined, same, settle] = numbers[..] else { panic!("{sum}") };
    assert_eq!(came, joined + same + settle, "{sum}");
    [joined, same, settle]
}

pub(crate) async fn open(record: &Path) -> Result<Window, Trouble> {
    Window::open(&Opening::phone(record)).await
}

#[tokio::test]
async fn two_phones_record_one_job_and_a_person_settles_what_both_read() -> Result<(), Trouble> {
    let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let one = open(here.path()).await?;
    let job = Job::with(&one, &[(2, single_phase())]).await?;
    let bundle = hand_over(&one, &job.job).await?;

    let two = open(there.path()).await?;
    let [joined, same, settle] = adds_up(&look_into(&two, &bundle).await?);
    assert!(joined > 0 && same == 0 && settle == 0);
    assert_eq!(two.call("jobs", json!({})).await?["jobs"], json!([]), "looked at, nothing taken");
    assert_eq!(two.serious_barriers().await?, Vec::<String>::new());
    take_in(&two).await?;
    assert_eq!(adds_up(&look_into(&two, &bundle).await?), [0, joined, 0], "again it changes nothing");

    let view = two.call("add_person", json!({ "job": job.job, "name": "B. Recorder" })).await?;
    let people = view["people"].as_array().unwrap();
    let other = people.iter().find(|one| one["name"] == "B. Recorder").unwrap()["id"].clone();
    two.call("be_person", json!({ "job": job.job, "person": other })).await?;
    two.call("confirm_cautions", json!({ "job": job.job })).await?;
    two.call("choose_tester", json!({ "board": job.board, "tester": job.tester })).await?;
    for (window, digits) in [(&one, "487"), (&two, "350")] {
        window.run(&job.board).await?;
        window.tap_in(Entry::Typed { digits, unit: 'm' }).await?;
    }
    two.go(&format!("#/handover/{}", job.job)).await?;
    two.until_shown("1 reading of this device not handed over yet").await?;
    let back = hand_over(&two, &job.job).await?;
    two.until_shown("Every reading of this device is in that file").await?;

    let [_, _, settle] = adds_up(&look_into(&one, &back).await?);
    assert_eq!(settle, 1, "one pair was read on both");
    take_in(&one).await?;
    one.tap("receive-settle").await?;
    one.until_shown("To settle 1 of 1").await?;
    let view = one.call("settling", json!({ "job": job.job })).await?;
    let choices = view["questions"][0]["choices"].as_array().unwrap();
    let theirs = choices.iter().position(|it| it["words"].as_str().unwrap().contains("350")).unwrap() + 1;
    one.tap(&format!("choice-{theirs}")).await?;
    one.until_shown("Nothing to settle").await?;
    let after = one.call("job", json!({ "job": job.job })).await?;
    assert_eq!(after["to_settle"], json!(0));
    let look = one.call("look", json!({ "job": job.job })).await?;
    assert_eq!(look["stop"], Value::from(0), "{look}");
    Ok(())
}
