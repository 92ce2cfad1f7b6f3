//! Work that takes longer than a moment: how far it is stands on the screen, and stopping it leaves nothing half done.
use crate::bench::picture;
use crate::hand_over::{CHOOSE, open};
use provenohm_assess::ids::{JobId, NoteId, PersonId};
use provenohm_assess::moment::Moment;
use provenohm_exchange::bundle::hand_over;
use provenohm_logbook::entry::body::{JobNames, JobOpened, Note, Origin, Person};
use provenohm_logbook::entry::{Noun, Object, ObjectId};
use provenohm_logbook::record::{By, Record, WriteError};
use provenohm_tests::Trouble;
use serde_json::json;
use std::io::Write as _;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use uuid::Uuid;

/// Enough that taking them in takes a good while longer than the second after which progress is shown.
const NOTES: u128 = 40_000;
/// What is looked into takes as long, and shows its sum then.
const PATIENCE: Duration = Duration::from_secs(120);

/// A bundle of a job with many notes, in base64.
fn many() -> String {
    let mut count = 0_u64;
    let mut random = move |bytes: &mut [u8]| {
        bytes.fill_with(|| {
            count = count.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            count.to_be_bytes()[0]
        });
        Ok(())
    };
    let (job, person) = (JobId(Uuid::from_u128(1)), PersonId(Uuid::from_u128(2)));
    let at: Moment = serde_json::from_value(json!("2026-06-01T09:00:00.000+02:00")).unwrap();
    let of = Object { noun: Noun::Job, id: ObjectId(job.0) };
    let mut record = Record::in_memory(&mut random).unwrap();
    record.keep_person(&Person { person, name: "A. Recorder".to_owned(), role: String::new() }).unwrap();
    let written = record.write(By { person, at, random: &mut random }, |writer| {
        writer.append(JobOpened { job, origin: Origin::Invented })?;
        writer.append(JobNames { job, name: "Long hall".to_owned(), place: String::new() })?;
        for nth in 0..NOTES {
            let (note, text) = (NoteId(Uuid::from_u128(1_000 + nth)), format!("Note {nth}"));
            writer.append_in(job.into(), Note { note, of, text, person: None, at: None })?;
        }
        Ok::<(), WriteError>(())
    });
    written.unwrap();
    let bytes = hand_over(&mut record, By { person, at, random: &mut random }, job, &[]).unwrap().bytes;
    let mut encoder = Command::new("base64").arg("-w0").stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
    let mut input = encoder.stdin.take().unwrap();
    let writing = std::thread::spawn(move || input.write_all(&bytes));
    let encoded = encoder.wait_with_output().unwrap().stdout;
    writing.join().unwrap().unwrap();
    String::from_utf8(encoded).unwrap()
}

#[tokio::test]
async fn taking_a_large_bundle_in_tells_how_far_it_is_and_stopped_leaves_nothing() -> Result<(), Trouble> {
    let bundle = many();
    let record = tempfile::tempdir().unwrap();
    let window = open(record.path()).await?;
    window.go("#/handover").await?;
    window.until_shown("Choose a bundle or a job file").await?;
    window.ask(CHOOSE, &[json!(bundle)]).await?;
    let begun = Instant::now();
    while window.ask("return document.getElementById('receive-join') === null", &[]).await? == json!(true) {
        assert!(begun.elapsed() < PATIENCE, "it is looked into");
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    window.tap("receive-join").await?;
    window.until("progress", "return document.getElementById('long-work')?.position > 0", &[]).await?;
    picture(&window, "long-work").await?;
    window.tap("long-work-stop").await?;
    window.until_shown("Stopped. Nothing was changed").await?;
    picture(&window, "long-work-stopped").await?;
    assert_eq!(window.call("jobs", json!({})).await?["jobs"], json!([]));
    Ok(())
}
