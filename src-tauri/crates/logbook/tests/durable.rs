//! What was acknowledged is there: after a killed process, beside another program, in a copy, under a newer version.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_logbook::chain::Fault;
use provenohm_logbook::entry::body::{OpenedWhy, Person};
use provenohm_logbook::entry::{Body, Fact, Kind};
use provenohm_logbook::record::{By, Place, Record, WriteError};
use provenohm_logbook::store::OpenError;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use support::{Counted, Hand, JOB, PERSON, moment, replacing, taken};
use tempfile::TempDir;

fn place(folder: &Path) -> Place {
    Place { record: folder.join("record.sqlite"), device: folder.join("device.sqlite") }
}

fn open(folder: &Path, seed: u64) -> Hand {
    let mut random = Counted::from(seed);
    let record = Record::open(&place(folder), &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
    Hand { record, random, minutes: 0, person: PERSON }
}

fn start(folder: &Path) -> Hand {
    let mut hand = open(folder, 1);
    let card = Person { person: PERSON, name: "Recorder A".into(), role: String::new() };
    hand.record.keep_person(&card).unwrap();
    hand.job();
    hand
}

/// Why each log of the job was opened, in the order of their counters.
fn openings(hand: &Hand) -> Vec<OpenedWhy> {
    let mut entries = hand.record.view().entries(JOB.into()).unwrap();
    entries.sort_by_key(|entry| entry.envelope().lamport);
    let opened = entries.iter().filter(|entry| entry.envelope().seq.0 == 0);
    opened
        .map(|entry| match Fact::decode(Kind::LogOpened.number(), 1, entry.body().unwrap().1).unwrap().body {
            Body::LogOpened(opened) => opened.why,
            other => panic!("{other:?}"),
        })
        .collect()
}

/// Not a test of its own: the process that the next one kills.
#[test]
#[ignore = "run by the test that kills it"]
fn writer_process() {
    let Some(folder) = std::env::var_os("PROVENOHM_KILLED") else { return };
    let mut hand = open(Path::new(&folder), u64::from(std::process::id()));
    let mut number = hand.record.view().readings(JOB).unwrap().len() as u128;
    loop {
        number += 1;
        hand.record.keep_draft(PERSON, "run", &number.to_string()).unwrap();
        hand.append(taken(number, 100));
        println!("saved {number}");
        std::io::stdout().flush().unwrap();
    }
}

/// How many kills: more overnight.
fn kills() -> usize {
    std::env::var("PROVENOHM_KILLS").map_or(50, |number| number.parse().unwrap())
}

#[test]
fn fifty_kills_lose_nothing_that_was_acknowledged() {
    let folder = TempDir::new().unwrap();
    drop(start(folder.path()));
    let mut before = 0;
    for kill in 0..kills() {
        let mut writer = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "writer_process", "--ignored", "--nocapture", "--test-threads=1"])
            .env("PROVENOHM_KILLED", folder.path())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut acknowledged = before;
        let lines = BufReader::new(writer.stdout.take().unwrap()).lines();
        let saved = lines.map_while(Result::ok).filter_map(|line| line.strip_prefix("saved ")?.parse::<usize>().ok());
        let mut saved = saved.fuse();
        for number in saved.by_ref().take(1 + kill % 4) {
            acknowledged = number;
        }
        writer.kill().unwrap();
        writer.wait().unwrap();
        // Acknowledgements that were already on their way count too.
        acknowledged = saved.last().unwrap_or(acknowledged);
        assert!(acknowledged > before, "the writer wrote");

        let hand = open(folder.path(), 7);
        let readings = hand.record.view().readings(JOB).unwrap().len();
        assert!(readings == acknowledged || readings == acknowledged + 1, "{readings} after {acknowledged}");
        let draft: usize = hand.record.draft(PERSON, "run").unwrap().unwrap().parse().unwrap();
        assert!(draft >= readings, "half-typed text is as safe");
        before = readings;
    }
    let mut hand = open(folder.path(), 7);
    let report = hand.record.view().check(JOB.into()).unwrap();
    assert_eq!(report.len(), 1, "no kill made the device think its record was restored");
    let faults: Vec<_> = report.values().flat_map(|log| &log.faults).collect();
    // Each writer starts its clock anew.
    assert!(faults.iter().all(|fault| matches!(fault, Fault::ClockBack(_))), "{faults:?}");
    let written = hand.record.projection().unwrap();
    hand.record.rebuild().unwrap();
    assert_eq!(hand.record.projection().unwrap(), written);
}

#[test]
fn two_programs_append_to_one_record_and_lose_nothing() {
    let folder = TempDir::new().unwrap();
    drop(start(folder.path()));
    let path = folder.path();
    std::thread::scope(|threads| {
        for writer in 0..3u128 {
            threads.spawn(move || {
                let mut hand = open(path, 100 + writer as u64);
                for number in 0..20 {
                    hand.append(taken(1000 * writer + number, 100));
                }
            });
        }
    });
    let hand = open(path, 7);
    assert_eq!(hand.record.view().readings(JOB).unwrap().len(), 60);
    let report = hand.record.view().check(JOB.into()).unwrap();
    assert_eq!(report.len(), 1, "one device, one log");
    let faults = report.values().flat_map(|log| &log.faults);
    assert_eq!(faults.filter(|fault| !matches!(fault, Fault::ClockBack(_))).count(), 0);
}

#[test]
fn what_is_read_at_once_is_of_one_moment() {
    let folder = TempDir::new().unwrap();
    let hand = start(folder.path());
    let mut other = open(folder.path(), 2);
    let count = |view: provenohm_logbook::view::View<'_>| view.readings(JOB).map(|readings| readings.len());
    let seen = hand.record.at_once(|view| {
        let before = count(view)?;
        other.append(taken(1, 100));
        Ok::<_, provenohm_logbook::view::ReadError>((before, count(view)?))
    });
    assert_eq!(seen.unwrap(), (0, 0));
    assert_eq!(count(hand.record.view()).unwrap(), 1);
}

#[test]
fn programs_that_start_together_make_one_record() {
    for _ in 0..10 {
        let folder = TempDir::new().unwrap();
        let path = folder.path();
        let devices: Vec<_> = std::thread::scope(|threads| {
            let started: Vec<_> =
                (0..6u64).map(|seed| threads.spawn(move || open(path, seed).record.device().id())).collect();
            started.into_iter().map(|one| one.join().unwrap()).collect()
        });
        assert!(devices.iter().all(|device| *device == devices[0]));
    }
}

#[test]
fn a_restored_record_goes_on_in_a_new_log() {
    let (folder, backup) = (TempDir::new().unwrap(), TempDir::new().unwrap());
    let mut hand = start(folder.path());
    hand.append(taken(1, 100));
    drop(hand);
    std::fs::copy(place(folder.path()).record, place(backup.path()).record).unwrap();
    let mut hand = open(folder.path(), 2);
    let lost = hand.append(taken(2, 100));
    drop(hand);
    std::fs::copy(place(backup.path()).record, place(folder.path()).record).unwrap();
    for aside in ["record.sqlite-wal", "record.sqlite-shm"] {
        let _ = std::fs::remove_file(folder.path().join(aside));
    }

    let mut hand = open(folder.path(), 3);
    let new = hand.append(taken(3, 100));
    assert_ne!(new.log, lost.log);
    assert_eq!(openings(&hand), [OpenedWhy::First, OpenedWhy::Restored]);
    assert_eq!(hand.append(taken(4, 100)).log, new.log, "and stays there");
    drop(hand);
    assert_eq!(open(folder.path(), 4).append(taken(5, 100)).log, new.log, "also when opened again");
}

#[test]
fn a_copied_record_goes_on_in_logs_of_its_new_device() {
    let (folder, copy) = (TempDir::new().unwrap(), TempDir::new().unwrap());
    let first = start(folder.path()).append(taken(1, 100));
    std::fs::copy(place(folder.path()).record, place(copy.path()).record).unwrap();
    let mut hand = open(copy.path(), 9);
    assert_ne!(hand.append(taken(2, 100)).log, first.log);
    assert!(hand.undo(), "undo reaches what was written here");
    assert!(!hand.undo(), "and not what the other device wrote");
    assert_eq!(open(folder.path(), 2).append(taken(3, 100)).log, first.log, "the original goes on as before");
}

/// Both files of a record, written anew elsewhere.
fn whole_copy(from: &Path) -> TempDir {
    let copy = TempDir::new().unwrap();
    for file in ["record.sqlite", "device.sqlite"] {
        std::fs::copy(from.join(file), copy.path().join(file)).unwrap();
    }
    copy
}

#[test]
fn a_device_whose_own_file_was_copied_too_goes_on_as_a_new_one() {
    let folder = TempDir::new().unwrap();
    let mut hand = start(folder.path());
    let first = hand.append(taken(1, 100));
    let device = hand.record.device().id();
    drop(hand);
    let copy = whole_copy(folder.path());
    let mut restored = open(copy.path(), 9);
    let new = restored.record.device().id();
    assert_ne!(new, device);
    assert_ne!(restored.append(taken(2, 100)).log, first.log);
    drop(restored);
    assert_eq!(open(copy.path(), 10).record.device().id(), new, "and stays it");
    let mut original = open(folder.path(), 2);
    assert_eq!(original.record.device().id(), device);
    assert_eq!(original.append(taken(3, 100)).log, first.log, "the original goes on as before");
    drop(original);
    // Put back as new files under the names of those that went.
    for file in ["record.sqlite", "device.sqlite"] {
        let there = folder.path().join(file);
        let backed_up = std::fs::read(&there).unwrap();
        std::fs::remove_file(&there).unwrap();
        std::fs::write(&there, backed_up).unwrap();
    }
    assert_ne!(open(folder.path(), 3).append(taken(4, 100)).log, first.log);
}

#[test]
fn a_fork_is_kept_whole_and_the_device_opens_a_new_log() {
    // An image of the whole disk, in which no file is new: nothing can tell the two apart until their entries meet.
    let folder = TempDir::new().unwrap();
    drop(start(folder.path()));
    let twin = whole_copy(folder.path());
    let device = rusqlite::Connection::open(twin.path().join("device.sqlite")).unwrap();
    device.execute("DELETE FROM born", []).unwrap();
    drop(device);
    let (mut hand, mut other) = (open(folder.path(), 2), open(twin.path(), 3));
    let mine = hand.append(taken(1, 100));
    let theirs = other.append(taken(2, 200));
    assert_eq!((mine.log, mine.seq), (theirs.log, theirs.seq));

    let entries = other.record.view().entries(JOB.into()).unwrap();
    let received = hand.record.receive(&entries).unwrap();
    assert_eq!(received.closed, [mine.log].into());
    assert_eq!(hand.record.view().readings(JOB).unwrap().len(), 2, "both are shown");
    let report = hand.record.view().check(JOB.into()).unwrap();
    assert!(report[&mine.log].faults.contains(&Fault::Fork { seq: mine.seq }));
    assert_eq!(hand.record.view().heads(JOB.into()).unwrap().len(), 2);
    assert_ne!(hand.append(taken(3, 100)).log, mine.log);
    assert_eq!(openings(&hand), [OpenedWhy::First, OpenedWhy::Forked]);
    // Only one of the two is named when it is replaced.
    hand.append(replacing(4, 300, theirs));
    let readings = hand.record.view().readings(JOB).unwrap();
    let live: Vec<_> = readings.iter().filter(|one| one.is_live()).map(|one| one.taken.entry).collect();
    assert!(live.contains(&mine) && !live.contains(&theirs));
}

#[test]
fn a_newer_record_is_read_and_not_changed() {
    let folder = TempDir::new().unwrap();
    start(folder.path()).append(taken(1, 100));
    let raw = rusqlite::Connection::open(place(folder.path()).record).unwrap();
    raw.pragma_update(None, "user_version", 99).unwrap();
    let mut hand = open(folder.path(), 2);
    assert!(hand.record.is_read_only());
    assert_eq!(hand.record.view().readings(JOB).unwrap().len(), 1);
    let refused = hand.write(|writer| writer.append(taken(2, 100)));
    let Err(WriteError::NewerRecord) = refused else { panic!("{refused:?}") };
    assert!(hand.record.keep_draft(PERSON, "run", "4").is_err());
    assert!(WriteError::NewerRecord.to_string().contains("newer version"));

    raw.execute("UPDATE file SET number = 99 WHERE name = 'readable_from'", []).unwrap();
    let mut random = Counted::from(3);
    let refused = Record::open(&place(folder.path()), &mut |bytes: &mut [u8]| random.fill(bytes));
    assert!(matches!(refused, Err(OpenError::NeedsNewer)));
}

#[test]
fn another_database_is_not_taken_for_a_record() {
    let folder = TempDir::new().unwrap();
    let raw = rusqlite::Connection::open(place(folder.path()).record).unwrap();
    raw.execute_batch("CREATE TABLE something (else_ TEXT)").unwrap();
    let mut random = Counted::from(3);
    let refused = Record::open(&place(folder.path()), &mut |bytes: &mut [u8]| random.fill(bytes));
    assert!(matches!(refused, Err(OpenError::NotARecord)));
}

#[test]
fn sqlite_is_new_enough_and_every_commit_is_flushed() {
    let folder = TempDir::new().unwrap();
    drop(start(folder.path()));
    assert!(rusqlite::version_number() >= provenohm_logbook::store::OLDEST_SQLITE);
    let raw = rusqlite::Connection::open(place(folder.path()).record).unwrap();
    let mode: String = raw.pragma_query_value(None, "journal_mode", |row| row.get(0)).unwrap();
    assert_eq!(mode, "wal");
    let tables: Vec<String> = raw
        .prepare("SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0 AND name NOT LIKE 'sqlite%'")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    assert!(tables.is_empty(), "every table is strict: {tables:?}");
}

#[test]
fn a_refused_write_leaves_nothing() {
    let folder = TempDir::new().unwrap();
    let mut hand = start(folder.path());
    let before = hand.record.projection().unwrap();
    let mut random = Counted::from(5);
    let refused: Result<_, WriteError> = hand.record.write(
        By { person: PERSON, at: moment(9), random: &mut |bytes: &mut [u8]| random.fill(bytes) },
        |writer| {
            writer.append(taken(1, 100))?;
            writer.keep_draft("run", "12")?;
            Err::<(), _>(WriteError::NoReason)
        },
    );
    assert!(refused.is_err());
    assert_eq!(hand.record.projection().unwrap(), before);
    assert_eq!(hand.record.draft(PERSON, "run").unwrap(), None);
}
