//! Bundles: taking one in, verified and projected, beside the bare insert of the same rows; a known one again beside its
//! first time; and its size beside what no packing could save.
use std::collections::HashMap;
use std::path::Path;
use std::time::Duration;

use provenohm_api::{Api, Host};
use provenohm_assess::ids::{JobId, PersonId, ReadingId};
use provenohm_assess::reading::Reading;
use provenohm_exchange::bundle::hand_over;
use provenohm_exchange::job_file::{JobFile, Taken};
use provenohm_logbook::entry::body::{JobNames, JobOpened, Origin, Person, ReadingTaken};
use provenohm_logbook::record::{By, Record, WriteError};
use rusqlite::Connection;
use serde_json::json;
use uuid::Uuid;

use crate::figure::{Pairs, Row, timed};
use crate::{Broken, job::Job};

/// Entries that come in, and how often that is measured.
const SIZES: [(usize, usize); 2] = [(100_000, 3), (1_000_000, 1)];
/// Readings written in one transaction while the bundle is made.
const AT_ONCE: usize = 10_000;
/// Boards of 50 circuits with three readings each: 10,050 readings.
const BOARDS: usize = 67;
const READINGS: usize = 10_000;
/// Bits of an id of version 7 that are chance (RFC 9562, 5.7), and those of an entry's salt.
const CHANCE_BITS: f64 = 74.0 + 128.0;

pub(crate) fn rows() -> Result<Vec<Row>, Broken> {
    let mut rows = Vec::new();
    for (entries, pairs) in SIZES {
        rows.extend(taken_in(entries, pairs)?);
    }
    rows.push(size()?);
    Ok(rows)
}

fn taken_in(entries: usize, pairs: usize) -> Result<[Row; 2], Broken> {
    let bundle = bundle(entries)?;
    let (mut first, mut again) = (Pairs::default(), Pairs::default());
    for _ in 0..pairs {
        let folder = tempfile::tempdir()?;
        let api = Api::open(folder.path(), Host::system())?;
        let receive = || api.receive(&bundle, false).map(drop);
        let (once, twice) = (timed(receive)?, timed(receive)?);
        drop(api);
        first.add(once, bare(folder.path())?);
        again.add(twice, once);
    }
    Ok([
        first.row(format!("taking in {entries} readings"), "the bare insert of the same rows"),
        again.row(format!("the same {entries} again"), "their first time"),
    ])
}

/// The rows of a record written into the same tables of another file, in one transaction, by SQLite alone.
fn bare(folder: &Path) -> Result<Duration, Broken> {
    let db = Connection::open(folder.join("bare.sqlite"))?;
    db.execute_batch("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;")?;
    db.execute("ATTACH ?1 AS source", [folder.join("record.sqlite").to_string_lossy()])?;
    let mut made =
        db.prepare("SELECT type, name, sql FROM source.sqlite_master WHERE sql IS NOT NULL ORDER BY type DESC")?;
    let made: Vec<(String, String, String)> =
        made.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?.collect::<Result<_, _>>()?;
    made.iter().try_for_each(|(_, _, sql)| db.execute_batch(sql))?;
    let tables = made.iter().filter(|(kind, _, _)| kind == "table");
    let copies: Vec<String> =
        tables.map(|(_, name, _)| format!("INSERT OR REPLACE INTO main.{name} SELECT * FROM source.{name};")).collect();
    timed(|| Ok(db.execute_batch(&format!("BEGIN; {} COMMIT;", copies.concat()))?))
}

/// A bundle of one job with that many readings.
fn bundle(entries: usize) -> Result<Vec<u8>, Broken> {
    let folder = tempfile::tempdir()?;
    let mut like = Job::make(folder.path(), 1, 1)?;
    like.record(1)?;
    let file: JobFile = serde_json::from_str(&like.file()?)?;
    let Some(last) = file.readings.last() else { return Ok(Vec::new()) };
    let mut count = 0_u64;
    let mut random = move |bytes: &mut [u8]| {
        for byte in bytes {
            count = count.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            *byte = count.to_be_bytes()[0];
        }
        Ok(())
    };
    let mut record = Record::in_memory(&mut random)?;
    let (person, at): (PersonId, _) = (last.reading.person, last.recorded_at);
    let job = JobId(Uuid::from_u128(1));
    record.keep_person(&Person { person, name: "A. Recorder".to_owned(), role: String::new() })?;
    for from in (0..entries).step_by(AT_ONCE) {
        record.write(By { person, at, random: &mut random }, |writer| {
            if from == 0 {
                writer.append(JobOpened { job, origin: Origin::Invented })?;
                writer.append(JobNames { job, name: "Bench".to_owned(), place: String::new() })?;
            }
            for nth in from..entries.min(from + AT_ONCE) {
                let id = ReadingId(Uuid::from_u128(1_000 + nth as u128));
                let reading = Reading { id, tester: None, ..last.reading.clone() };
                writer.append(ReadingTaken { job, reading, why: None })?;
            }
            Ok::<(), WriteError>(())
        })?;
    }
    Ok(hand_over(&mut record, By { person, at, random: &mut random }, job, &[])?.bytes)
}

/// Bytes of a bundle of readings as the screens record them, beside what no packing could save of them: the chance in ids
/// and salts, and the entropy of what was shown and of the times between. Hashes and signatures are what it costs that
/// nobody can change one unseen.
fn size() -> Result<Row, Broken> {
    let folder = tempfile::tempdir()?;
    let mut job = Job::make(folder.path(), BOARDS, 50)?;
    job.record(READINGS)?;
    let file: JobFile = serde_json::from_str(&job.file()?)?;
    let written = job.ask("hand_over", json!({ "job": job.id(), "testers": [] }))?;
    let bytes = std::fs::metadata(written["files"][0].as_str().unwrap_or_default())?.len();
    let shown = entropy(file.readings.iter().map(|one| format!("{:?}", one.reading.shown)));
    let ms = |one: &Taken| one.reading.at.timestamp_millis();
    let between = entropy(file.readings.windows(2).map(|two| ms(&two[1]) - ms(&two[0])));
    let floor = file.readings.len() as f64 * (CHANCE_BITS + shown + between) / 8.0;
    Ok(Row::of_bytes(
        format!("bundle of {} readings", file.readings.len()),
        bytes as f64,
        "entropy of the source",
        floor,
    ))
}

/// Bits that one of these carries, by how often each of them comes.
fn entropy<T: std::hash::Hash + Eq>(all: impl Iterator<Item = T>) -> f64 {
    let mut counts: HashMap<T, f64> = HashMap::new();
    all.for_each(|one| *counts.entry(one).or_default() += 1.0);
    let sum: f64 = counts.values().sum();
    counts.values().map(|count| -(count / sum) * (count / sum).log2()).sum()
}
