//! One verification, placed in time and ready to be asked.

use super::statement::{Failing, Question, Says, Silence, Testimony};
use super::{Card, Conforms, Holds, Outcome, Statement, Verification};
use crate::ids::VerificationId;
use crate::moment::{Instant, Moment, When};
use crate::quantity::Volts;
use chrono::NaiveDate;

/// A verification with its instants worked out.
#[derive(Clone, Debug)]
pub(super) struct Proof {
    pub(super) id: VerificationId,
    pub(super) made: When,
    pub(super) valid_until: Option<NaiveDate>,
    pub(super) recorded_at: Moment,
    pub(super) adjusted: bool,
    /// From when a failure counts.
    pub(super) failure_from: Instant,
    /// From when a good result counts; an adjustment is over then.
    pub(super) good_from: Instant,
    /// End of its last day.
    valid_to: Option<Instant>,
    /// It says "failed" and nowhere where.
    failed_as_a_whole: bool,
    voltages: Vec<AtVoltage>,
}

/// What it says at one test voltage.
#[derive(Clone, Debug)]
struct AtVoltage {
    volts: Volts,
    found: Option<Testimony>,
    left: Option<Testimony>,
}

/// Its two statements, asked about one indication. Where nothing was adjusted, either stands for both.
pub(super) struct Answer<'a> {
    pub(super) found: Option<(&'a Testimony, Says)>,
    pub(super) left: Option<(&'a Testimony, Says)>,
    /// It failed at this voltage as a whole.
    pub(super) failed_as_a_whole: bool,
}

impl Proof {
    pub(super) fn new(v: &Verification, card: Option<&Card>) -> Self {
        let voltages: Vec<AtVoltage> = v
            .findings
            .iter()
            .map(|f| {
                let volts = f.test_voltage_v;
                let testimony = |s: &Statement| Testimony::new(&with_overall(s, v.overall), v.kind, volts, card);
                let found = f.as_found.as_ref().filter(|s| !(states_nothing(s) && (v.adjusted || f.as_left.is_some())));
                let left = f.as_left.as_ref().filter(|s| v.adjusted || found.is_none() || !states_nothing(s));
                AtVoltage { volts, found: found.map(testimony), left: left.map(testimony) }
            })
            .collect();
        let told = voltages.iter().flat_map(|v| [&v.found, &v.left]).flatten().any(Testimony::tells_of_failure);
        Self {
            id: v.id,
            made: v.made,
            valid_until: v.valid_until,
            recorded_at: v.recorded_at,
            adjusted: v.adjusted,
            failure_from: v.made.failure_counts_from(),
            good_from: v.made.good_counts_from(),
            valid_to: v.valid_until.map(|day| v.made.end_of(day)),
            failed_as_a_whole: v.overall == Outcome::Failed && !told,
            voltages,
        }
    }

    /// In date at an instant at which it already counts.
    pub(super) fn in_date(&self, at: Instant) -> bool {
        self.valid_to.is_some_and(|end| at < end)
    }

    /// Whether it says anything of a test voltage.
    pub(super) fn names(&self, volts: Volts) -> bool {
        self.voltages.iter().any(|v| v.volts == volts && (v.found.is_some() || v.left.is_some()))
    }

    /// Asks its statements at the voltage in question, one answer for each finding that names it; one answer without
    /// statements where none does.
    pub(super) fn ask<'a>(&'a self, q: &Question) -> Vec<Answer<'a>> {
        let named = self.voltages.iter().filter(|v| v.volts == q.volts);
        let mut answers: Vec<Answer<'a>> = named
            .map(|v| {
                let ask = |t: &'a Testimony| (t, t.says(q));
                let found = v.found.as_ref().map(ask);
                let left = v.left.as_ref().map(ask);
                Answer { found, left, failed_as_a_whole: self.failed_as_a_whole }
            })
            .collect();
        if answers.is_empty() {
            let failed_as_a_whole = self.failed_as_a_whole && self.voltages.is_empty();
            answers.push(Answer { found: None, left: None, failed_as_a_whole });
        }
        answers
    }
}

impl<'a> Answer<'a> {
    /// What it says as found: the failure that counts forward and back, if there is one.
    pub(super) fn found_failing(&self, adjusted: bool) -> Option<Failing> {
        if self.failed_as_a_whole {
            return Some(Failing::Everywhere);
        }
        match (&self.found, &self.left) {
            (Some((_, Says::Failed(failing))), _) => Some(*failing),
            (None | Some((_, Says::Silent(_))), Some((_, Says::Failed(failing)))) if !adjusted => Some(*failing),
            _ => None,
        }
    }

    /// Whether it was found good, for looking back.
    pub(super) fn found_good(&self, adjusted: bool) -> bool {
        if self.failed_as_a_whole {
            return false;
        }
        match (&self.found, &self.left) {
            (Some((_, Says::Good(_))), _) => true,
            (None | Some((_, Says::Silent(_))), Some((_, Says::Good(_)))) => !adjusted,
            _ => false,
        }
    }

    /// What it says as left, for looking forward: a statement, or why there is none.
    pub(super) fn left_says(&self, adjusted: bool) -> Result<(&'a Testimony, Says), Silence> {
        if self.failed_as_a_whole && !adjusted {
            return Err(Silence::VoltageNotNamed);
        }
        let left = self.left.as_ref();
        let found = self.found.as_ref().filter(|_| !adjusted);
        let silent = |(_, says): &&(&Testimony, Says)| matches!(says, Says::Silent(_));
        let chosen = match (left, found) {
            (Some(left), Some(found)) if silent(&left) => Some(found),
            (left, found) => left.or(found),
        };
        chosen.cloned().ok_or(Silence::VoltageNotNamed)
    }
}

/// A statement that is only a name: nothing stated. As found it stands for nothing; alone on a certificate it says
/// that the voltage was calibrated, and the card's range stands in.
fn states_nothing(s: &Statement) -> bool {
    s.outcome == Outcome::NotStated
        && s.conforms == Conforms::NotStated
        && s.holds == Holds::NotStated
        && s.requirements.is_empty()
        && s.points.is_empty()
        && s.operating_uncertainty_percent.is_none()
        && s.expanded_uncertainty_percent.is_none()
}

/// A conditional fail of the whole paper holds for each statement that says nothing else.
fn with_overall(s: &Statement, overall: Outcome) -> Statement {
    let mut s = s.clone();
    if s.outcome == Outcome::NotStated && overall == Outcome::ConditionalFail {
        s.outcome = overall;
    }
    s
}
