//! What a job file that can be read may still get wrong: a limit set that is not the one named, a circuit or a card
//! that cannot be, something named that is not there.

use super::{AcceptedOf, JobFile, NotAJobFile, Taken};
use provenohm_assess::circuit::{CircuitComplaint, Pair, Terminal};
use provenohm_assess::ids::{CircuitId, PersonId, ReadingId, TesterId};
use provenohm_assess::limits::{LimitSet, SetComplaint, SetName, shipped};
use provenohm_assess::quantity::Volts;
use provenohm_assess::tester::{CardComplaint, Holds, Verification};
use std::collections::{BTreeMap, BTreeSet};

/// What is wrong at a place of the file.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// An id that stands in its list twice.
    #[error("{0} stands in it twice")]
    Twice(String),
    /// Its person is not in the file.
    #[error("its person is not among the people")]
    NoPerson,
    /// Its tester is not in the file.
    #[error("its tester is not among the testers")]
    NoTester,
    /// One of its circuits is not in the file.
    #[error("one of its circuits is not on a board")]
    NoCircuit,
    /// A reading it names is not in the file.
    #[error("the reading it names is not in the file")]
    NoReading,
    /// Readings that replaced each other.
    #[error("what replaced it was replaced by it")]
    Circle,
    /// A correction or decision without its reason.
    #[error("it gives no reason")]
    NoReason,
    /// The text of the limit set cannot be read as one.
    #[error("the text of the limit set: {0}")]
    SetUnreadable(SetComplaint),
    /// The text is not the set that is named: another id, version or hash.
    #[error("the text is not the limit set named beside it")]
    OtherSet,
    /// The set bears id and version of one that comes with this program, and is not that one.
    #[error("the limit set bears the name of one that comes with this program and is another")]
    NotTheShipped,
    /// What cannot be a circuit.
    #[error("this cannot be a circuit: {0}")]
    Circuit(CircuitComplaint),
    /// What cannot be a tester's card.
    #[error("this cannot be a tester's card: {0}")]
    Card(CardComplaint),
    /// What is on record of a tester names another tester.
    #[error("it is of another tester")]
    OtherTester,
    /// A last day before the day the verification was made.
    #[error("its last day lies before the day it was made")]
    LastDay,
    /// An interval that ends below its beginning, or begins below zero.
    #[error("an interval that ends where it begins or before")]
    Interval,
    /// A reading at a test voltage that is not above zero.
    #[error("a test voltage that is not above zero")]
    TestVoltage,
}

type Checked = Result<(), NotAJobFile>;

impl JobFile {
    pub(super) fn check(&self) -> Checked {
        self.check_sets()?;
        self.check_testers()?;
        self.check_circuits()?;
        let named = Named {
            people: self.people.iter().map(|person| person.id).collect(),
            testers: once("testers", self.testers.iter().map(|tester| tester.id))?,
            circuits: once(
                "circuits",
                self.boards
                    .iter()
                    .flat_map(|board| board.circuits.iter().chain(&board.removed))
                    .map(|circuit| circuit.id),
            )?,
            readings: once("readings", self.readings.iter().map(|taken| taken.reading.id))?,
        };
        once("boards", self.boards.iter().map(|board| board.id))?;
        let strange = self.boards.iter().position(|board| !board.people.iter().all(|id| named.people.contains(id)));
        broken_unless(strange.is_none(), || format!("boards[{}]", strange.unwrap_or_default()), Fault::NoPerson)?;
        for (index, taken) in self.readings.iter().enumerate() {
            named.check(taken, &format!("readings[{index}]"))?;
        }
        if let Some(index) = self.replaced_in_a_circle() {
            return broken(format!("readings[{index}]"), Fault::Circle);
        }
        for (index, said) in self.not_tested.iter().enumerate() {
            let known = lives(&said.pair).all(|circuit| named.circuits.contains(&circuit));
            let place = || format!("not_tested[{index}]");
            broken_unless(known, place, Fault::NoCircuit)?;
            broken_unless(said.beside.iter().all(|id| named.readings.contains(id)), place, Fault::NoReading)?;
        }
        for (index, said) in self.recall_resolved.iter().enumerate() {
            let place = || format!("recall_resolved[{index}]");
            broken_unless(named.readings.contains(&said.reading), place, Fault::NoReading)?;
            broken_unless(named.people.contains(&said.person), place, Fault::NoPerson)?;
            broken_unless(!said.reason.trim().is_empty(), place, Fault::NoReason)?;
        }
        self.check_review(&named)
    }

    fn check_review(&self, named: &Named) -> Checked {
        for (index, asked) in self.requested.iter().enumerate() {
            let place = || format!("requested[{index}]");
            broken_unless(asked.readings.iter().all(|id| named.readings.contains(id)), place, Fault::NoReading)?;
            broken_unless(lives(&asked.pair).all(|id| named.circuits.contains(&id)), place, Fault::NoCircuit)?;
            broken_unless(named.people.contains(&asked.person), place, Fault::NoPerson)?;
            broken_unless(!asked.reason.trim().is_empty(), place, Fault::NoReason)?;
        }
        for (index, said) in self.accepted.iter().enumerate() {
            let place = || format!("accepted[{index}]");
            match &said.of {
                AcceptedOf::Reading { reading } => {
                    broken_unless(named.readings.contains(reading), place, Fault::NoReading)?;
                }
                AcceptedOf::NotTested { pair, .. } => {
                    broken_unless(lives(pair).all(|id| named.circuits.contains(&id)), place, Fault::NoCircuit)?;
                }
            }
            broken_unless(named.people.contains(&said.person), place, Fault::NoPerson)?;
            broken_unless(!said.reason.trim().is_empty(), place, Fault::NoReason)?;
        }
        Ok(())
    }

    /// The words of a limit under a standard's name are that standard's only if its hash says so.
    fn check_sets(&self) -> Checked {
        check_set("job", &self.job.limit_set, &self.job.limit_set_text)?;
        self.job.rules_also.iter().enumerate().try_for_each(|(index, rules)| {
            check_set(&format!("job.rules_also[{index}]"), &rules.limit_set, &rules.limit_set_text)
        })
    }

    fn check_testers(&self) -> Checked {
        for (index, tester) in self.testers.iter().enumerate() {
            if let Some(complaint) = tester.card.as_ref().and_then(|card| card.card.complaint()) {
                return broken(format!("testers[{index}].card"), Fault::Card(complaint));
            }
            for (at, it) in tester.verifications.iter().enumerate() {
                let place = || format!("testers[{index}].verifications[{at}]");
                check_verification(tester.id, &it.verification, place)?;
            }
            let named = (tester.lead_checks.iter().map(|it| it.check.tester))
                .chain(tester.quick_checks.iter().map(|it| it.check.tester))
                .chain(tester.damages.iter().map(|it| it.damage.tester));
            broken_unless(
                named.into_iter().all(|id| id == tester.id),
                || format!("testers[{index}]"),
                Fault::OtherTester,
            )?;
        }
        Ok(())
    }

    fn check_circuits(&self) -> Checked {
        for (at, board) in self.boards.iter().enumerate() {
            let lists = [("circuits", &board.circuits), ("removed", &board.removed)];
            for (list, index, circuit) in
                lists.iter().flat_map(|(list, all)| all.iter().enumerate().map(move |(index, one)| (list, index, one)))
            {
                let mut values = std::iter::once(&circuit.electrical).chain(&circuit.electrical_also);
                if let Some(complaint) = values.find_map(|one| one.complaints().first().copied()) {
                    return broken(format!("boards[{at}].{list}[{index}].electrical"), Fault::Circuit(complaint));
                }
            }
        }
        Ok(())
    }

    /// A reading was replaced by at most one other, so following that leads to an end or around.
    fn replaced_in_a_circle(&self) -> Option<usize> {
        let by: BTreeMap<_, _> =
            self.readings.iter().filter_map(|taken| Some((taken.reading.id, taken.replaced_by()?))).collect();
        let mut ends = BTreeSet::new();
        for (index, taken) in self.readings.iter().enumerate() {
            let mut way = BTreeSet::new();
            let mut at = taken.reading.id;
            while !ends.contains(&at) {
                if !way.insert(at) {
                    return Some(index);
                }
                match by.get(&at) {
                    Some(next) => at = *next,
                    None => break,
                }
            }
            ends.extend(way);
        }
        None
    }
}

/// What a reading may name.
struct Named {
    people: BTreeSet<PersonId>,
    testers: BTreeSet<TesterId>,
    circuits: BTreeSet<CircuitId>,
    readings: BTreeSet<ReadingId>,
}

impl Named {
    fn check(&self, taken: &Taken, place: &str) -> Checked {
        let at = || place.to_owned();
        let current = taken.current();
        broken_unless(self.people.contains(&current.person), at, Fault::NoPerson)?;
        let mut testers = taken.live.iter().map(|it| it.tester).chain([taken.reading.tester, current.tester]).flatten();
        broken_unless(testers.all(|tester| self.testers.contains(&tester)), at, Fault::NoTester)?;
        broken_unless(lives(&current.pair).all(|circuit| self.circuits.contains(&circuit)), at, Fault::NoCircuit)?;
        broken_unless(taken.replaced_by().is_none_or(|by| self.readings.contains(&by)), at, Fault::NoReading)?;
        let above_zero = taken.every().iter().all(|one| one.test_voltage_v > Volts::default());
        broken_unless(above_zero, at, Fault::TestVoltage)?;
        let unsaid = taken.corrections.iter().position(|it| it.reason.trim().is_empty());
        unsaid.map_or(Ok(()), |index| broken(format!("{place}.corrections[{index}]"), Fault::NoReason))
    }
}

fn check_verification(tester: TesterId, verification: &Verification, place: impl Fn() -> String) -> Checked {
    broken_unless(verification.tester == tester, &place, Fault::OtherTester)?;
    let lasts = verification.valid_until.is_none_or(|last| verification.made.can_last_until(last));
    broken_unless(lasts, &place, Fault::LastDay)?;
    let statements = verification.findings.iter().flat_map(|one| one.as_found.iter().chain(&one.as_left));
    let intervals = statements.flat_map(|one| match &one.holds {
        Holds::In(intervals) => intervals.as_slice(),
        Holds::NotStated => &[],
    });
    broken_unless(intervals.into_iter().all(|one| one.is_upright()), &place, Fault::Interval)
}

fn check_set(place: &str, named: &SetName, text: &str) -> Checked {
    let place = || format!("{place}.limit_set_text");
    let loaded = LimitSet::load(text.as_bytes())
        .map_err(|complaint| NotAJobFile::Broken { place: place(), reason: Fault::SetUnreadable(complaint) })?;
    broken_unless(loaded.name == *named, place, Fault::OtherSet)?;
    let namesake = |other: &SetName| other.id == named.id && other.version == named.version && other != named;
    let shipped = shipped().is_ok_and(|sets| sets.iter().any(|one| namesake(&one.name)));
    broken_unless(!shipped, place, Fault::NotTheShipped)
}

fn broken<T>(place: String, reason: Fault) -> Result<T, NotAJobFile> {
    Err(NotAJobFile::Broken { place, reason })
}

fn broken_unless(holds: bool, place: impl Fn() -> String, reason: Fault) -> Checked {
    if holds { Ok(()) } else { broken(place(), reason) }
}

fn lives(pair: &Pair) -> impl Iterator<Item = CircuitId> + '_ {
    pair.a.0.iter().chain(&pair.b.0).filter_map(|terminal| match terminal {
        Terminal::Live { circuit, .. } => Some(*circuit),
        Terminal::OtherCircuits | Terminal::Earth => None,
    })
}

fn once<T: Ord + Copy + std::fmt::Display>(
    list: &str,
    ids: impl Iterator<Item = T>,
) -> Result<BTreeSet<T>, NotAJobFile> {
    let mut seen = BTreeSet::new();
    for id in ids {
        if !seen.insert(id) {
            return broken(list.to_owned(), Fault::Twice(id.to_string()));
        }
    }
    Ok(seen)
}
