//! Readings with their history.

use super::circumstance::{Circumstance, Claim};
use super::facet::{Acting, Stated};
use super::query::{ReadError, View};
use super::sameness::Sameness;
use crate::entry::body::{Correction, NotTested, ReadingTaken, RecallResolved};
use crate::entry::{EntryRef, Kind, LogId, Noun, Object, ObjectId, Role};
use provenohm_assess::ids::{JobId, ReadingId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::Volts;
use provenohm_assess::reading::{Conditions, Reading};
use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// A reading on record, whatever became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadingOnRecord {
    /// As it was taken. Digits, comparator, unit and pair are final; where two circuits were said to be one, its pair is
    /// on the one that stands for both.
    pub taken: Stated<ReadingTaken>,
    /// The tester it was taken with.
    pub tester: Circumstance<Option<TesterId>>,
    /// The test voltage set, V d.c.
    pub test_voltage_v: Circumstance<Volts>,
    /// When it was taken.
    pub at: Circumstance<Moment>,
    /// The conditions it was taken under.
    pub conditions: Circumstance<Conditions>,
    /// The withdrawals, replacements, settlements and corrections that bear on it.
    pub acting: Vec<Acting>,
}

impl ReadingOnRecord {
    /// Whether it is current.
    #[must_use]
    pub fn is_live(&self) -> bool {
        self.taken.is_live()
    }

    /// Whether the time it was taken at rests on a clock that had gone back, and nobody has corrected it.
    #[must_use]
    pub fn has_doubtful_clock(&self) -> bool {
        self.taken.clock_back && !self.at.is_corrected()
    }

    /// Whether a person chose to let this reading stand beside another of the same slot: both are printed, the less
    /// favourable is judged.
    #[must_use]
    pub fn is_kept(&self) -> bool {
        self.acting.iter().any(|one| one.role == Role::Keeps)
    }

    /// The reading with its current circumstances: one, unless two live values of a circumstance wait to be settled;
    /// then every combination, the first values first.
    #[must_use]
    pub fn current(&self) -> Vec<Reading> {
        let mut readings = vec![self.taken.value.reading.clone()];
        readings = spread(readings, &self.tester.live(), |reading, tester| reading.tester = **tester);
        readings = spread(readings, &self.test_voltage_v.live(), |reading, volts| reading.test_voltage_v = **volts);
        readings = spread(readings, &self.at.live(), |reading, at| reading.at = **at);
        spread(readings, &self.conditions.live(), |reading, conditions| reading.conditions = **conditions)
    }
}

/// Every reading with every value.
fn spread<T>(readings: Vec<Reading>, values: &[T], put: impl Fn(&mut Reading, &T)) -> Vec<Reading> {
    let with = |reading: Reading, value| {
        let mut reading = reading;
        put(&mut reading, value);
        reading
    };
    readings.iter().flat_map(|reading| values.iter().map(|value| with(reading.clone(), value))).collect()
}

impl View<'_> {
    /// The readings of a job in the one order that holds on every device, those no longer current among them.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn readings(&self, job: JobId) -> Result<Vec<ReadingOnRecord>, ReadError> {
        self.readings_about(Object { noun: Noun::Job, id: ObjectId(job.0) })
    }

    /// The readings that touch something: a job, a circuit, a tester as first written, or one reading.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn readings_about(&self, object: Object) -> Result<Vec<ReadingOnRecord>, ReadError> {
        let mut taken = self.stated::<ReadingTaken>(object)?;
        let mut same = BTreeMap::new();
        for one in &mut taken {
            let job = one.value.job;
            let same: &Sameness = match same.entry(job) {
                Entry::Occupied(known) => known.into_mut(),
                Entry::Vacant(new) => new.insert(self.same_circuits(job)?),
            };
            same.on(&mut one.value.reading.pair);
        }
        // What corrects one reading is about it; for several, their jobs' corrections are read once.
        let about: BTreeSet<Object> = match object.noun {
            Noun::Reading => BTreeSet::from([object]),
            _ => taken.iter().map(|one| Object { noun: Noun::Job, id: ObjectId(one.value.job.0) }).collect(),
        };
        let mut corrections: BTreeMap<ReadingId, Vec<Stated<Correction>>> = BTreeMap::new();
        for object in about {
            for (reading, own) in self.corrections_about(object)? {
                corrections.entry(reading).or_default().extend(own);
            }
        }
        let mut found = Vec::with_capacity(taken.len());
        for one in taken {
            let own = corrections.get(&one.value.reading.id);
            found.push(self.on_record(one, own.map_or(&[], Vec::as_slice))?);
        }
        Ok(found)
    }

    /// One reading by its id; more than one only if a device gave an id twice.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn reading(&self, reading: ReadingId) -> Result<Vec<ReadingOnRecord>, ReadError> {
        let all = self.readings_about(Object { noun: Noun::Reading, id: ObjectId(reading.0) })?;
        Ok(all.into_iter().filter(|one| one.taken.value.reading.id == reading).collect())
    }

    /// The slots of a job that were not tested, whatever became of it.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn not_tested(&self, job: JobId) -> Result<Vec<Stated<NotTested>>, ReadError> {
        let mut all = self.stated::<NotTested>(Object { noun: Noun::Job, id: ObjectId(job.0) })?;
        let same = self.same_circuits(job)?;
        all.iter_mut().for_each(|one| same.on(&mut one.value.pair));
        Ok(all)
    }

    /// The entries by which this device took readings of a job, those that no longer stand too: also those of logs it
    /// closed, and those written before the record was set back.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn own_readings(&self, job: JobId) -> Result<Vec<EntryRef>, ReadError> {
        let mut logs = self.connection.prepare_cached("SELECT log FROM own_log")?;
        let own: BTreeSet<LogId> =
            logs.query_map([], |row| Ok(LogId(Uuid::from_bytes(row.get(0)?))))?.collect::<rusqlite::Result<_>>()?;
        let all = self.stated::<ReadingTaken>(Object { noun: Noun::Job, id: ObjectId(job.0) })?;
        Ok(all.into_iter().map(|one| one.entry).filter(|entry| own.contains(&entry.log)).collect())
    }

    /// What was said of a job's readings put in doubt, whatever became of it.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn recall_resolved(&self, job: JobId) -> Result<Vec<Stated<RecallResolved>>, ReadError> {
        self.stated(Object { noun: Noun::Job, id: ObjectId(job.0) })
    }

    /// Corrections of a job that stand, by the readings they name.
    pub(crate) fn corrections(&self, job: JobId) -> Result<BTreeMap<ReadingId, Vec<Stated<Correction>>>, ReadError> {
        self.corrections_about(Object { noun: Noun::Job, id: ObjectId(job.0) })
    }

    fn corrections_about(&self, object: Object) -> Result<BTreeMap<ReadingId, Vec<Stated<Correction>>>, ReadError> {
        let mut by_reading: BTreeMap<ReadingId, Vec<Stated<Correction>>> = BTreeMap::new();
        for one in self.stated::<Correction>(object)? {
            if one.is_live() {
                for reading in &one.value.readings {
                    by_reading.entry(*reading).or_default().push(one.clone());
                }
            }
        }
        Ok(by_reading)
    }

    fn on_record(
        &self,
        taken: Stated<ReadingTaken>,
        corrections: &[Stated<Correction>],
    ) -> Result<ReadingOnRecord, ReadError> {
        let entry = taken.entry;
        // A correction names the very entry, so that one of a fork's two branches is not corrected by the other's.
        let own: Vec<&Stated<Correction>> =
            corrections.iter().filter(|one| names(one, Role::Corrects, entry)).collect();
        let reading = &taken.value.reading;
        Ok(ReadingOnRecord {
            tester: circumstance(entry, reading.tester, &own, |it| it.tester.map(Some)),
            test_voltage_v: circumstance(entry, reading.test_voltage_v, &own, |it| it.test_voltage_v),
            at: circumstance(entry, reading.at, &own, |it| it.at),
            conditions: circumstance(entry, reading.conditions, &own, |it| it.conditions),
            acting: if taken.named { self.acting_on(entry)? } else { Vec::new() },
            taken,
        })
    }
}

fn names(one: &Stated<Correction>, role: Role, entry: EntryRef) -> bool {
    one.names.iter().any(|naming| naming.role == role && naming.entry == entry)
}

fn circumstance<T>(
    entry: EntryRef,
    first: T,
    corrections: &[&Stated<Correction>],
    value: impl Fn(&Correction) -> Option<T>,
) -> Circumstance<T> {
    let touching: Vec<_> = corrections.iter().filter_map(|one| value(&one.value).map(|value| (*one, value))).collect();
    let overruled: Vec<bool> = touching
        .iter()
        .map(|(one, _)| touching.iter().any(|(other, _)| names(other, Role::Overrules, one.entry)))
        .collect();
    let mut claims = vec![Claim { entry, value: first, live: touching.is_empty(), reason: None }];
    claims.extend(touching.into_iter().zip(overruled).map(|((one, value), overruled)| Claim {
        entry: one.entry,
        value,
        live: !overruled,
        reason: one.reason.clone(),
    }));
    Circumstance { claims }
}

impl crate::record::Writer<'_> {
    /// Corrects circumstances of readings in one act. Earlier corrections of them are overruled; the old values stay
    /// visible.
    ///
    /// # Errors
    /// [`crate::record::WriteError`] in words, among them that a reason is needed.
    pub fn correct(&mut self, mut correction: Correction, reason: &str) -> Result<EntryRef, crate::record::WriteError> {
        correction.readings.sort_unstable();
        correction.readings.dedup();
        let (mut readings, mut overruled) = (Vec::new(), Vec::new());
        let standing = self.view().corrections(correction.job)?;
        for id in &correction.readings {
            readings.extend(self.view().reading(*id)?.into_iter().map(|one| one.taken.entry));
            overruled.extend(standing.get(id).into_iter().flatten().map(|one| one.entry));
        }
        let fact = crate::entry::Fact::naming(correction, Role::Corrects, readings)
            .and_naming(Role::Overrules, overruled)
            .because(reason);
        debug_assert_eq!(fact.body.kind(), Kind::Correction);
        self.append(fact)
    }
}
