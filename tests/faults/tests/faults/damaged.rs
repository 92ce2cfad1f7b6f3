//! A record whose files are no longer what was written: bits turned, files cut, pages wiped, what lies beside it gone or
//! made up. It is opened or refused, and what of it is as it was written is there before and after.

use crate::story::{Story, open_in};
use crate::support::{Counted, Hand, JOB, taken};
use crate::{asked_for, seed};
use provenohm_logbook::entry::Entry;
use provenohm_logbook::record::{Inspected, Record};
use std::collections::BTreeSet;
use std::path::Path;
use tempfile::TempDir;

const RECORD: &str = "record.sqlite";
const LOG: &str = "record.sqlite-wal";
const SHARED: &str = "record.sqlite-shm";

/// What a day's work leaves on the disk when its program is killed: the write-ahead log holds the last of it.
struct Left {
    record: Vec<u8>,
    log: Vec<u8>,
    entries: BTreeSet<Vec<u8>>,
}

impl Left {
    fn by(story: &Story) -> Self {
        let file = |name| std::fs::read(story.disk.folder().join(name)).unwrap();
        let inspected = inspect(story.disk.folder()).unwrap();
        let entries = entries(&inspected.record);
        Self { record: file(RECORD), log: file(LOG), entries }
    }

    /// Its files, spoiled by chance.
    fn spoiled(&self, chance: &mut fastrand::Rng) -> TempDir {
        let folder = TempDir::new().unwrap();
        let (mut record, mut log, mut shared) = (self.record.clone(), Some(self.log.clone()), None);
        for _ in 0..chance.u8(1..4) {
            let file = match &mut log {
                Some(log) if chance.bool() => log,
                _ => &mut record,
            };
            let at = chance.usize(..file.len().max(1));
            match chance.u8(..6) {
                0 => file.truncate(at),
                1 => log = None,
                2 => shared = Some((0..32 * 1024).map(|_| chance.u8(..)).collect::<Vec<u8>>()),
                3 => {
                    let page = at / 4096 * 4096;
                    file.iter_mut().skip(page).take(4096).for_each(|byte| *byte = 0);
                }
                _ => file.iter_mut().skip(at).take(1).for_each(|byte| *byte ^= 1 << chance.u8(..8)),
            }
        }
        std::fs::write(folder.path().join(RECORD), record).unwrap();
        for (name, bytes) in [(LOG, log), (SHARED, shared)] {
            if let Some(bytes) = bytes {
                std::fs::write(folder.path().join(name), bytes).unwrap();
            }
        }
        folder
    }
}

fn inspect(folder: &Path) -> Result<Inspected, String> {
    let mut random = Counted::from(1);
    Record::inspect(&folder.join(RECORD), &mut |bytes: &mut [u8]| random.fill(bytes)).map_err(|error| error.to_string())
}

fn entries(record: &Record) -> BTreeSet<Vec<u8>> {
    let view = record.view();
    let books = view.books().unwrap();
    books.into_iter().flat_map(|book| view.entries(book).unwrap()).map(|entry: Entry| entry.to_wire()).collect()
}

/// What verifies of the record in a folder: nothing, where it is refused.
fn verifying(folder: &Path) -> BTreeSet<Vec<u8>> {
    inspect(folder).map(|found| entries(&found.record)).unwrap_or_default()
}

/// Another day begins on it, as far as it lets itself be opened. What it then says of its readings.
fn goes_on(hand: &mut Hand) -> Option<usize> {
    hand.minutes = 100;
    let readings = hand.record.view().readings(JOB).ok()?.len();
    let _ = hand.write(|writer| writer.append(taken(0x99, 100)));
    Some(readings)
}

#[test]
fn whatever_became_of_its_files_nothing_that_verifies_is_lost() {
    let story = Story::calm();
    let whole = Left::by(&story);
    let (mut opened, mut refused, mut less) = (0, 0, 0);
    for case in 0..asked_for().map_or(150, |number| 150 + number * 100) {
        println!("case {case}");
        let mut chance = fastrand::Rng::with_seed((seed() << 24) + case);
        let folder = whole.spoiled(&mut chance);
        let before = verifying(folder.path());
        assert!(before.is_subset(&whole.entries), "what was altered is not taken for what was written");
        less += usize::from(before != whole.entries);
        match open_in(folder.path(), 1000 + case) {
            Ok(mut hand) => {
                opened += 1;
                let said = goes_on(&mut hand);
                assert!(said.is_none_or(|readings| readings <= story.readings()));
            }
            Err(_) => refused += 1,
        }
        assert!(folder.path().join(RECORD).exists(), "nothing is deleted by itself");
        let after = verifying(folder.path());
        assert!(after.is_superset(&before), "{} of {} are left", after.intersection(&before).count(), before.len());
        let mut random = Counted::from(2);
        let mut fresh = Record::in_memory(&mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
        if inspect(folder.path()).is_ok() {
            fresh.salvage(&folder.path().join(RECORD), &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
            assert!(entries(&fresh).is_superset(&before), "and goes on in a new record");
        }
    }
    assert!(opened > 0 && refused > 0 && less > 0, "opened {opened}, refused {refused}, less was there in {less}");
}
