//! The recall of one failed tester in a record of 1,000,000 readings of 2,000 testers, beside one scan of its entries.
use std::path::Path;

use provenohm_api::{Api, Host};
use provenohm_assess::ids::{JobId, PersonId, ReadingId, TesterId};
use provenohm_assess::reading::Reading;
use provenohm_exchange::job_file::JobFile;
use provenohm_logbook::entry::body::{JobNames, JobOpened, Origin, Person, ReadingTaken};
use provenohm_logbook::record::{By, Place, Record, WriteError};
use rusqlite::{Connection, OpenFlags, params};
use serde_json::json;
use uuid::Uuid;

use crate::figure::{Pairs, Row};
use crate::{Broken, job::Job};

/// Testers beside the failed one, each with a job of its own.
const OTHERS: u128 = 1_999;
const READINGS_EACH: usize = 500;
const PAIRS: usize = 5;

pub(crate) fn row() -> Result<Row, Broken> {
    let folder = tempfile::tempdir()?;
    let mut job = Job::make(folder.path(), 10, 17)?;
    job.record(READINGS_EACH)?;
    let file: JobFile = serde_json::from_str(&job.file()?)?;
    let tester = job.ask("testers", json!({}))?["testers"][0]["id"].take();
    drop(job);
    others(folder.path(), &file)?;

    let api = Api::open(folder.path(), Host::system())?;
    // At an unknown time it is a failure as found everywhere: every reading since the last good proof is in doubt.
    api.call("report_damage", json!({ "tester": tester, "what": "dropped" }))?;
    drop(api);

    let scan = Connection::open_with_flags(folder.path().join("record.sqlite"), OpenFlags::SQLITE_OPEN_READ_ONLY)?;
    let mut lines = 0;
    let mut pairs = Pairs::default();
    for _ in 0..PAIRS {
        // Opened anew each time: nothing is judged yet.
        let api = Api::open(folder.path(), Host::system())?;
        let recall = || -> Result<(), Broken> {
            lines = api.call("recall", json!({ "tester": tester }))?["counts"]["all"].as_u64().unwrap_or(0);
            Ok(())
        };
        let beside = || -> Result<(), Broken> {
            let bytes: i64 = scan.query_row("SELECT sum(length(body)) FROM entry", [], |row| row.get(0))?;
            std::hint::black_box(bytes);
            Ok(())
        };
        pairs.measure(recall, beside)?;
    }
    let all = (OTHERS + 1) * READINGS_EACH as u128;
    Ok(pairs.row(format!("recall {lines} of {all} readings"), "one scan of the entries"))
}

/// The readings of the other testers. One job of one tester goes through the record's own door; the rest are its rows copied
/// under other ids, since what is timed never reads them: they only have to be there, in every table and index.
fn others(folder: &Path, file: &JobFile) -> Result<(), Broken> {
    let place = Place { record: folder.join("record.sqlite"), device: folder.join("device.sqlite") };
    let before = last_entry(&place)?;
    one_other(&place, file)?;
    let mut connection = Connection::open(&place.record)?;
    let after = last_entry(&place)?;
    let writing = connection.transaction()?;
    for nth in 2..=OTHERS {
        let id = Uuid::from_u128(nth);
        let by = i64::try_from(nth).unwrap_or(0) * (after - before);
        let one = Uuid::from_u128(1);
        let all = params![before, after, by, id.as_bytes().as_slice(), one.as_bytes().as_slice()];
        for copy in COPIES {
            writing.prepare_cached(copy)?.execute(all)?;
        }
    }
    Ok(writing.commit()?)
}

/// ?1 to ?2: the rows copied; ?3: how far their numbers move; ?4: the new id of job, tester and log; ?5: the id it replaces.
const COPIES: [&str; 3] = [
    "INSERT INTO entry SELECT id + ?3, ?4, seq, hash, prev, kind, lamport, recorded_ms, envelope, salt, body
     FROM entry WHERE id > ?1 AND id <= ?2 AND ?5 IS NOT NULL",
    "INSERT INTO about SELECT noun, CASE object WHEN ?5 THEN ?4 ELSE randomblob(16) END, kind, entry + ?3, subject
     FROM about WHERE entry > ?1 AND entry <= ?2",
    "INSERT INTO standing SELECT entry + ?3, readable, withdrawn, replaced, set_aside
     FROM standing WHERE entry > ?1 AND entry <= ?2 AND ?4 IS NOT NULL AND ?5 IS NOT NULL",
];

fn last_entry(place: &Place) -> Result<i64, Broken> {
    let connection = Connection::open_with_flags(&place.record, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
    Ok(connection.query_row("SELECT max(id) FROM entry", [], |row| row.get(0))?)
}

fn one_other(place: &Place, file: &JobFile) -> Result<(), Broken> {
    let mut count = 0_u64;
    let mut random = move |bytes: &mut [u8]| {
        for byte in bytes {
            count = count.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            *byte = count.to_be_bytes()[0];
        }
        Ok(())
    };
    let mut record = Record::open(place, &mut random)?;
    let Some(last) = file.readings.last() else { return Ok(()) };
    let (person, at): (PersonId, _) = (last.reading.person, last.recorded_at);
    record.keep_person(&Person { person, name: "A. Recorder".to_owned(), role: String::new() })?;
    let (job, tester) = (JobId(Uuid::from_u128(1)), TesterId(Uuid::from_u128(1)));
    record.write(By { person, at, random: &mut random }, |writer| {
        writer.append(JobOpened { job, origin: Origin::Invented })?;
        writer.append(JobNames { job, name: "Another job".to_owned(), place: String::new() })?;
        for (nth, taken) in file.readings.iter().cycle().take(READINGS_EACH).enumerate() {
            let id = ReadingId(Uuid::from_u128(1_000 + nth as u128));
            let reading = Reading { id, tester: Some(tester), ..taken.reading.clone() };
            writer.append(ReadingTaken { job, reading, why: None })?;
        }
        Ok::<(), WriteError>(())
    })?;
    Ok(())
}
