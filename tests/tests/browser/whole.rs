//! A job's whole way through an office: recorded by two phones while no hub is reached, joined there, settled, signed off and
//! made into a schedule in a browser by keys alone, and that paper verified by the program.
use super::login::picture;
use super::phones::{enrolled, office};
use provenohm_tests::{Entry, Hub, Job, Trouble, Window, program, single_phase};
use serde_json::{Value, json};
use std::process::Command;

const TAB: &str = "\u{e004}";
const ENTER: &str = "\u{e007}";

/// Tab until the focus is where it says.
async fn tab_to(window: &Window, what: &str) -> Result<(), Trouble> {
    let there = format!("const it = document.activeElement; return {what}");
    for _ in 0..80 {
        if window.ask(&there, &[]).await? == json!(true) {
            return Ok(());
        }
        window.type_keys(TAB).await?;
    }
    Err(Trouble::NotShown(format!("no Tab leads to {what}")))
}

/// The key of the choice with these words.
async fn key_of(window: &Window, words: &str) -> Result<String, Trouble> {
    let script = "return String([...document.querySelectorAll('#question li button')]
        .findIndex((one) => one.innerText.replaceAll('\\u00a0', ' ').includes(arguments[0])) + 1)";
    Ok(window.ask(script, &[json!(words)]).await?.as_str().unwrap().to_owned())
}

async fn no_barriers(window: &Window, name: &str) -> Result<(), Trouble> {
    picture(window, name).await?;
    assert_eq!(window.serious_barriers().await?, Vec::<String>::new(), "{name}");
    Ok(())
}

async fn read(phone: &Window, digits: &'static str) -> Result<(), Trouble> {
    phone.tap_in(Entry::Typed { digits, unit: 'm' }).await
}

#[tokio::test]
async fn a_job_goes_through_the_office_by_keys_alone() -> Result<(), Trouble> {
    let (there, here, other) =
        (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (hub, browser) = office(there.path()).await?;
    let listen = hub.address.trim_start_matches("http://").to_owned();
    let one = enrolled(&browser, here.path(), "Phone one").await?;
    let two = enrolled(&browser, other.path(), "Phone two").await?;
    let job = Job::with(&one, &[(1, single_phase())]).await?;
    job.prove_tester(&one).await?;
    one.call("keep_in_step", json!({})).await?;
    two.until_shown("Trial hall, Invented").await?;
    two.call("fetch_job", json!({ "job": job.job })).await?;
    two.go("#/jobs").await?;
    two.until_shown("Trial hall").await?;
    let view = two.call("add_person", json!({ "job": job.job, "name": "B. Recorder" })).await?;
    let people = view["people"].as_array().unwrap();
    let person = people.iter().find(|it| it["name"] == "B. Recorder").unwrap()["id"].clone();
    two.call("be_person", json!({ "job": job.job, "person": person })).await?;
    two.call("confirm_cautions", json!({ "job": job.job })).await?;
    two.call("choose_tester", json!({ "board": job.board, "tester": job.tester })).await?;

    // Without the hub both go on, and one pair is read twice.
    drop(hub);
    one.run(&job.board).await?;
    two.run(&job.board).await?;
    read(&one, "487").await?;
    read(&one, "512").await?;
    read(&one, "498").await?;
    read(&two, "350").await?;
    one.go("#/office").await?;
    one.call("keep_in_step", json!({})).await?;
    one.until_shown("Not reached since").await?;
    let _hub = Hub::serve_over(there.path(), &listen, None)?;
    for phone in [&one, &two] {
        phone.call("keep_in_step", json!({})).await?;
        phone.go("#/office").await?;
        phone.until_shown("In step with the office").await?;
    }

    // The office, by keys: what stands side by side, the sign-off, the paper.
    browser.go(&format!("#/job/{}", job.job)).await?;
    browser.until_shown("3 of 3").await?;
    browser.ask("window.taps = 0; addEventListener('pointerup', () => window.taps++, true)", &[]).await?;
    browser.go(&format!("#/settle/{}", job.job)).await?;
    browser.until_shown("Two readings of one pair").await?;
    no_barriers(&browser, "whole-settle").await?;
    browser.type_keys(&key_of(&browser, "350 MΩ").await?).await?;
    browser.until_shown("Nothing to settle").await?;
    browser.go(&format!("#/signoff/{}", job.job)).await?;
    browser.until_shown("Sign off 3 readings").await?;
    no_barriers(&browser, "whole-signoff").await?;
    // Whoever is logged in signs under their own name.
    tab_to(&browser, "it.id === 'sign-off-do'").await?;
    browser.type_keys(ENTER).await?;
    let said = "return document.getElementById('sign-off-said')?.textContent.includes('Signed as No. 1 by A. Office')";
    browser.until("the sign-off is said", said, &[]).await?;
    browser.go(&format!("#/schedule/{}", job.job)).await?;
    browser.until_shown("Signed as No. 1 by A. Office").await?;
    no_barriers(&browser, "whole-schedule").await?;
    tab_to(&browser, "it.id === 'make-pdf'").await?;
    browser.type_keys(ENTER).await?;
    let papers = there.path().join("papers");
    let made = || std::fs::read_dir(&papers).into_iter().flatten().flatten().map(|file| file.path()).next();
    browser.until_shown(".pdf").await?;
    assert_eq!(browser.ask("return window.taps", &[]).await?, Value::from(0), "by keys alone");

    let paper = made().unwrap();
    // The browser has the very file.
    tab_to(&browser, "it.id === 'written-path-save'").await?;
    browser.type_keys(ENTER).await?;
    let saved = browser.until_saved(1).await?;
    assert_eq!(std::fs::read(&saved[0]).unwrap(), std::fs::read(&paper).unwrap());
    let verified = Command::new(program("provenohm-office")?).arg("verify").arg(&saved[0]).output().unwrap();
    let told = String::from_utf8(verified.stdout).unwrap();
    assert!(verified.status.success() && told.contains("A. Office"), "{told}");
    // And the phones have what the office decided.
    one.call("keep_in_step", json!({})).await?;
    one.go(&format!("#/job/{}", job.job)).await?;
    one.until_shown("Signed as No. 1 by A. Office").await
}
