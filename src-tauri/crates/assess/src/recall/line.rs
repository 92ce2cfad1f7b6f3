//! One recall: the readings it puts in doubt, each with what caused it and how it is sorted.

use super::class::{Again, Class, Unknown};
use super::entries::FailingEntry;
use super::error::{Lowest, lowest};
use super::load::{held_from, voltage_failed};
use crate::ids::ReadingId;
use crate::judge::{Asked, judge};
use crate::judgement::{Judgement, TesterReason, TesterState, Value};
use crate::moment::When;
use crate::quantity::{Ohms, Shown};
use crate::reading::Reading;
use crate::tester::{Holds, Point, Prepared, ProofEvent, Statement, TesterHistory, Verification};

/// An entry that put a reading in doubt, and what it leaves of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cause {
    /// The entry.
    pub entry: FailingEntry,
    /// When the failure was found, or the damage done.
    pub found: When,
    /// What is left of the reading with what was found there.
    pub class: Class,
}

/// A reading put in doubt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The reading.
    pub reading: ReadingId,
    /// The tester's state for it without the failing entries.
    pub before: TesterState,
    /// What is said of it with them.
    pub judgement: Judgement,
    /// What put it in doubt, the most urgent first; never empty.
    pub causes: Vec<Cause>,
}

impl Line {
    /// What is left of it: the most urgent of what its causes leave.
    #[must_use]
    pub fn class(&self) -> Option<&Class> {
        self.causes.first().map(|cause| &cause.class)
    }
}

/// A tester's history with and without some failing entries.
#[derive(Clone, Debug)]
pub struct Recall<'a> {
    history: &'a TesterHistory,
    with: Prepared,
    without: Prepared,
}

impl<'a> Recall<'a> {
    /// The recall of these entries together. Entries that are not in the history change nothing.
    #[must_use]
    pub fn new(history: &'a TesterHistory, entries: &[FailingEntry]) -> Self {
        let kept = history.events.iter().filter(|event| !entries.contains(&FailingEntry::of_event(event)));
        let without = TesterHistory { events: kept.cloned().collect(), ..history.clone() };
        Self { history, with: Prepared::new(history), without: Prepared::new(&without) }
    }

    /// The recall of everything that failed with a tester.
    #[must_use]
    pub fn of_all(history: &'a TesterHistory) -> Self {
        Self::new(history, &FailingEntry::of(history))
    }

    /// The line of a reading, if it is put in doubt: its tester's state is another one than without the failing
    /// entries, and is *in doubt* or *barred*. The tester in `asked` is not looked at.
    #[must_use]
    pub fn line(&self, asked: &Asked<'_>) -> Option<Line> {
        let judgement = judge(&Asked { tester: Some(&self.with), ..*asked });
        if !matches!(judgement.tester.state, TesterState::InDoubt | TesterState::Barred) {
            return None;
        }
        let before = judge(&Asked { tester: Some(&self.without), ..*asked }).tester.state;
        if before == judgement.tester.state {
            return None;
        }
        let causes = self.causes(asked.reading, &judgement);
        Some(Line { reading: asked.reading.id, before, judgement, causes })
    }

    /// What puts a reading in doubt that was judged with this history, the most urgent first. With everything that
    /// failed taken together, these are the readings whose tester is *in doubt* or *barred*, so that a job judged
    /// already needs no judging again.
    #[must_use]
    pub fn causes(&self, reading: &Reading, judgement: &Judgement) -> Vec<Cause> {
        let failures = judgement.tester.reasons.iter().filter_map(|r| FailingEntry::of_reason(r).map(|of| (r, of)));
        let mut causes: Vec<Cause> = failures
            .map(|(why, (entry, found))| Cause { entry, found, class: self.class(why, reading, judgement) })
            .collect();
        causes.sort_by(|a, b| (&b.class, a.entry).cmp(&(&a.class, b.entry)));
        causes
    }

    fn class(&self, reason: &TesterReason, reading: &Reading, judgement: &Judgement) -> Class {
        let unknown = |because| Class::CannotBeJudged { because };
        let Some(limit) = judgement.value.limit.as_ref().map(|l| l.minimum_ohm) else {
            return unknown(Unknown::NoLimit);
        };
        match judgement.value.value {
            Value::Below | Value::TooClose => return Class::TestAgain { because: Again::DidNotMeet },
            Value::CannotBeJudged => return unknown(Unknown::NotJudgedBefore),
            Value::Meets => {}
        }
        let shown = reading.shown;
        match reason {
            TesterReason::FailedBefore { verification, requirement, point_ohm, .. }
            | TesterReason::FailedAfter { verification, requirement, point_ohm, .. } => {
                let looking_back = matches!(reason, TesterReason::FailedAfter { .. });
                let said_in_what = requirement.is_some() || point_ohm.is_some();
                let found = self.events().filter_map(|event| match event {
                    ProofEvent::Verification(v) if v.id == *verification => Some(v),
                    _ => None,
                });
                let statements = found.flat_map(|v| statements(v, reading, looking_back));
                let classes = statements.map(|s| {
                    if said_in_what { by_statement(s, shown, limit) } else { unknown(Unknown::NotSaidInWhat) }
                });
                classes.max().unwrap_or_else(|| unknown(Unknown::NothingMeasured))
            }
            TesterReason::QuickCheckFailedBefore { check, .. } | TesterReason::QuickCheckFailedAfter { check, .. } => {
                let found = self.events().find_map(|event| match event {
                    ProofEvent::QuickCheck(q) if q.id == *check => Some(q),
                    _ => None,
                });
                let reckoned = found.map_or(Err(Unknown::NothingMeasured), |q| lowest(shown, &q.points, None));
                compared(reckoned, limit)
            }
            _ => unknown(Unknown::NothingMeasured),
        }
    }

    fn events(&self) -> impl Iterator<Item = &'a ProofEvent> {
        self.history.events.iter()
    }
}

/// What a verification found at the test voltage of a reading. Before it the tester was as found; after it as left.
/// Where nothing was adjusted, either stands for both.
fn statements<'v>(
    v: &'v Verification,
    reading: &Reading,
    looking_back: bool,
) -> impl Iterator<Item = &'v Statement> + use<'v> {
    let volts = reading.test_voltage_v;
    v.findings.iter().filter(move |f| f.test_voltage_v == volts).filter_map(move |f| {
        let (first, second) = if looking_back { (&f.as_found, &f.as_left) } else { (&f.as_left, &f.as_found) };
        first.as_ref().or_else(|| second.as_ref().filter(|_| !v.adjusted))
    })
}

/// By the errors found, and where the output voltage fell short by the load from which up it held.
fn by_statement(statement: &Statement, shown: Shown, limit: Ohms) -> Class {
    let reckoned = match &statement.holds {
        // Only the voltage fell short: the paper says where the indications themselves hold.
        Holds::In(intervals) if statement.points.is_empty() && voltage_failed(statement) => {
            let top = intervals.iter().map(|i| i.to_ohm).max();
            let ohms = top.map_or(shown.ohms(), |top| top.min(shown.ohms()));
            let holds = intervals.iter().any(|i| i.from_ohm <= ohms && ohms <= i.to_ohm);
            if holds { Ok(Lowest { ohms, error_percent: None }) } else { Err(Unknown::NothingMeasured) }
        }
        _ => {
            let points: Vec<Point> = statement.points.iter().chain(&statement.undecided).copied().collect();
            lowest(shown, &points, statement.expanded_uncertainty_percent)
        }
    };
    let by_indication = compared(reckoned, limit);
    match (&by_indication, voltage_failed(statement)) {
        (Class::StillClears { lowest_ohm, .. }, true) => match held_from(&statement.voltages) {
            None => Class::CannotBeJudged { because: Unknown::LoadNotKnown },
            Some(held_from_ohm) if *lowest_ohm < held_from_ohm => {
                Class::TestAgain { because: Again::VoltageFell { held_from_ohm } }
            }
            Some(_) => by_indication,
        },
        _ => by_indication,
    }
}

fn compared(reckoned: Result<Lowest, Unknown>, limit: Ohms) -> Class {
    match reckoned {
        Err(because) => Class::CannotBeJudged { because },
        Ok(Lowest { ohms: lowest_ohm, error_percent }) if lowest_ohm < limit => {
            Class::TestAgain { because: Again::MayBeBelow { lowest_ohm, error_percent } }
        }
        Ok(Lowest { ohms: lowest_ohm, error_percent }) => Class::StillClears { lowest_ohm, error_percent },
    }
}
