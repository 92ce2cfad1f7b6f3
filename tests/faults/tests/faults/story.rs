//! A day's work on a record, told again and again on a disk that fails somewhere else each time.

use crate::support::{Counted, Hand, JOB, OTHER_PERSON, PERSON, id, job, taken};
use provenohm_assess::ids::{PersonId, ReadingId};
use provenohm_faults::{Disk, Left};
use provenohm_logbook::entry::Body;
use provenohm_logbook::entry::body::Person;
use provenohm_logbook::record::{Place, Record};
use provenohm_logbook::store::OpenError;
use provenohm_logbook::view::ReadError;
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Arc;

/// What is done, in order. It ends with the record open, so that what was saved last is in the write-ahead log alone.
const STORY: [Act; 17] = [
    Act::Open,
    Act::People,
    Act::Job,
    Act::Guest,
    Act::Take,
    Act::Take,
    Act::Type,
    Act::Close,
    Act::Open,
    Act::Take,
    Act::Erase,
    Act::Take,
    Act::Seal,
    Act::Close,
    Act::Open,
    Act::Take,
    Act::Type,
];

const GUEST: &str = "Recorder who asked to be erased";

#[derive(Clone, Copy, Debug)]
enum Act {
    Open,
    Close,
    People,
    Job,
    /// Somebody's card in the job's book.
    Guest,
    /// A reading, and a draft in the same write.
    Take,
    /// A draft alone.
    Type,
    Seal,
    /// The guest's card is erased.
    Erase,
}

/// A record on a disk, and what its program was told of it.
pub(crate) struct Story {
    pub(crate) disk: Arc<Disk>,
    hand: Option<Hand>,
    done: usize,
    number: u128,
    saved: BTreeSet<ReadingId>,
    /// Readings whose save failed.
    failed: BTreeSet<ReadingId>,
    typed: u128,
    erased: bool,
}

impl Story {
    pub(crate) fn new() -> Self {
        Self {
            disk: Disk::new().unwrap(),
            hand: None,
            done: 0,
            number: 0,
            saved: BTreeSet::new(),
            failed: BTreeSet::new(),
            typed: 0,
            erased: false,
        }
    }

    /// A story on a disk that does as it is asked.
    pub(crate) fn calm() -> Self {
        let mut story = Self::new();
        story.tell(|failure| panic!("{failure}"));
        story
    }

    /// Tells it to its end. An act that fails is said, tried again while the disk is as it is, and then on one that was
    /// mended.
    pub(crate) fn tell(&mut self, mut said: impl FnMut(&str)) {
        let mut failures = 0;
        while let Err(failure) = self.until_a_failure() {
            failures += 1;
            said(&failure);
            self.nothing_came_of_it();
            assert!(failures <= 2, "{failure}, although the disk was mended");
            if failures == 2 {
                self.disk.mend();
            }
        }
    }

    /// Tells it on; what failed, in words.
    pub(crate) fn until_a_failure(&mut self) -> Result<(), String> {
        while let Some(act) = STORY.get(self.done) {
            self.act(*act).map_err(|failure| format!("{act:?}: {failure}"))?;
            self.done += 1;
        }
        Ok(())
    }

    fn act(&mut self, act: Act) -> Result<(), String> {
        self.number += 1;
        let number = self.number;
        if matches!(act, Act::Close) {
            self.hand = None;
            return Ok(());
        }
        if self.hand.is_none() {
            self.hand = Some(open(&self.disk, number as u64).map_err(|error| error.to_string())?);
        }
        let hand = self.hand.as_mut().unwrap();
        hand.minutes = number as i64;
        let done = match act {
            Act::Open | Act::Close => Ok(()),
            Act::People => hand
                .record
                .keep_person(&card(PERSON, "Recorder A"))
                .and_then(|()| hand.record.keep_person(&card(OTHER_PERSON, GUEST))),
            // What was in doubt may be there.
            Act::Job if hand.record.view().books().map_err(|error| error.to_string())?.contains(&JOB.into()) => Ok(()),
            Act::Job => hand.write(job).map(drop),
            Act::Guest => {
                let guest = card(OTHER_PERSON, GUEST);
                hand.write(|writer| writer.append_in(JOB.into(), Body::from(guest))).map(drop)
            }
            Act::Take => {
                let reading = ReadingId(id(0x1_0000 + number));
                let saved = hand.write(|writer| {
                    writer.keep_draft("run", &number.to_string())?;
                    writer.append(taken(number, 100))
                });
                if saved.is_ok() {
                    self.saved.insert(reading)
                } else {
                    self.failed.insert(reading)
                };
                saved.map(drop)
            }
            Act::Type => hand.record.keep_draft(PERSON, "run", &number.to_string()),
            Act::Seal => hand.write(|writer| writer.seal(JOB.into())).map(drop),
            Act::Erase => hand.write(|writer| writer.erase_person(OTHER_PERSON, "asked by the person")).map(drop),
        };
        done.map_err(|error| error.to_string())?;
        match act {
            Act::Take | Act::Type => self.typed = number,
            Act::Erase => {
                self.erased = true;
                self.nothing_is_left_of_the_guest();
            }
            _ => {}
        }
        Ok(())
    }

    /// As long as the program lives, a save that failed left nothing, and one that was acknowledged stands.
    fn nothing_came_of_it(&self) {
        let Some(Ok(found)) = self.hand.as_ref().map(readings) else { return };
        assert_eq!(found, self.saved);
    }

    fn nothing_is_left_of_the_guest(&self) {
        for file in std::fs::read_dir(self.disk.folder()).unwrap() {
            let path = file.unwrap().path();
            let bytes = std::fs::read(&path).unwrap();
            let found = bytes.windows(GUEST.len()).any(|window| window == GUEST.as_bytes());
            assert!(!found, "{} still holds who was erased", path.display());
        }
    }

    /// The power goes if it has not yet, and comes back; the record must open as it is.
    pub(crate) fn power_cut(&mut self, left: Left) {
        self.disk.cut_power();
        self.hand = None;
        self.disk.power_on(left).unwrap();
        self.number += 1;
        self.hand = Some(open(&self.disk, self.number as u64).unwrap());
        self.holds();
    }

    /// What was acknowledged is there and at most one more, in a log that is whole and the only one; the tables are what
    /// the entries say.
    pub(crate) fn holds(&mut self) {
        let hand = self.hand.as_mut().unwrap();
        let found = readings(hand).unwrap();
        assert!(found.is_superset(&self.saved), "{found:?} lacks one of {:?}", self.saved);
        let more: Vec<_> = found.difference(&self.saved).collect();
        assert!(more.iter().all(|one| self.failed.contains(one)) && more.len() <= 1, "{more:?}");
        let draft = hand.record.draft(PERSON, "run").unwrap().map_or(0, |draft| draft.parse().unwrap());
        assert!(draft >= self.typed, "typed {}, found {draft}", self.typed);
        let report = hand.record.view().check(JOB.into()).unwrap();
        assert!(report.values().all(|log| log.faults.is_empty()), "{report:?}");
        assert!(report.len() <= 1, "no fault makes the device think its record was restored");
        let projected = hand.record.projection().unwrap();
        hand.record.rebuild().unwrap();
        assert_eq!(hand.record.projection().unwrap(), projected);
        let mut random = Counted::from(1);
        let file = self.disk.folder().join("record.sqlite");
        let inspected = Record::inspect(&file, &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
        assert!(inspected.reads_as_written(), "{:?}, {:?}", inspected.damage, inspected.altered);
        // From here on, that one counts as any other.
        self.saved = found;
    }

    /// How many readings were acknowledged.
    pub(crate) fn readings(&self) -> usize {
        self.saved.len()
    }
}

/// Opens the record of a disk.
pub(crate) fn open(disk: &Disk, seed: u64) -> Result<Hand, OpenError> {
    open_in(disk.folder(), seed)
}

/// Opens the record of a folder.
pub(crate) fn open_in(folder: &Path, seed: u64) -> Result<Hand, OpenError> {
    let place = Place { record: folder.join("record.sqlite"), device: folder.join("device.sqlite") };
    let mut random = Counted::from(seed);
    let record = Record::open(&place, &mut |bytes: &mut [u8]| random.fill(bytes))?;
    Ok(Hand { record, random, minutes: 0, person: PERSON })
}

fn readings(hand: &Hand) -> Result<BTreeSet<ReadingId>, ReadError> {
    let readings = hand.record.view().readings(JOB)?;
    Ok(readings.into_iter().map(|one| one.taken.value.reading.id).collect())
}

fn card(person: PersonId, name: &str) -> Person {
    Person { person, name: name.into(), role: String::new() }
}
