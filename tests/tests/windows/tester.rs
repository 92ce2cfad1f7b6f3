//! A tester with nothing on record: flagged wherever its readings are, until its proof is recorded.
use provenohm_tests::{Entry, Job, Opening, Trouble, Window, single_phase};
use serde_json::json;

/// As the screens and the papers say it.
const FLAG: &str = "no verification on record";

#[tokio::test]
async fn a_reading_by_an_unproved_tester_is_flagged_until_its_verification_is_recorded() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening::phone(record.path())).await?;
    let job = Job::with(&window, &[(1, single_phase())]).await?;
    window.run(&job.board).await?;
    window.tap_in(Entry::Typed { digits: "487", unit: 'm' }).await?;
    window.until_shown(FLAG).await?;
    window.go(&format!("#/look/{}", job.job)).await?;
    window.until_shown(FLAG).await?;
    assert!(paper(&window, &job).await?.contains(FLAG));

    record_certificate(&window, &job).await?;

    window.go(&format!("#/look/{}", job.job)).await?;
    window.until_shown("required pairs have no reading").await?;
    window
        .until("the flag to be gone", "return !document.body.innerText.includes(arguments[0])", &[FLAG.into()])
        .await?;
    assert!(!paper(&window, &job).await?.contains(FLAG));
    Ok(())
}

/// Records, after the reading, a certificate of a day before it: by the screens, as a person would.
async fn record_certificate(window: &Window, job: &Job) -> Result<(), Trouble> {
    window.go(&format!("#/tester/{}/{}", job.tester, job.job)).await?;
    window.tap("verification-new").await?;
    window.fill_id("verification-date", "3 Mar 2020").await?;
    window.fill_id("verification-until", "3 Mar 2099").await?;
    window.fill_id("verification-by", "A laboratory").await?;
    window.fill_id("verification-certificate", "C-1").await?;
    for at in 0..3 {
        window.choose(&format!("as-left-{at}"), "good").await?;
        window.choose(&format!("conforms-{at}"), "yes").await?;
        window.tap(&format!("holds-add-{at}")).await?;
        window.fill_id(&format!("holds-from-{at}-0"), "0.1 MΩ").await?;
        window.fill_id(&format!("holds-to-{at}-0"), "999 MΩ").await?;
    }
    window.tap("verification-save").await?;
    let gone = "return document.getElementById('verification-save') === null";
    window.until("the certificate to be recorded", gone, &[]).await
}

/// The schedule as a table of text.
async fn paper(window: &Window, job: &Job) -> Result<String, Trouble> {
    let written = window.call("make_schedule", json!({ "job": job.job, "format": "csv" })).await?;
    Ok(std::fs::read_to_string(written["files"][0].as_str().unwrap()).unwrap())
}
