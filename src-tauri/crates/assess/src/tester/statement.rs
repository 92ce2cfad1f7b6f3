//! One statement of a verification, asked about one indication: failed, good or silent.

use super::coverage::{Claim, Coverage, Outside};
use super::{Card, Conforms, Outcome, ProofKind, RequirementName, Statement};
use crate::judgement::TesterRemark;
use crate::policy::TesterPolicy;
use crate::quantity::{Comparator, Ohms, Shown, Volts};

/// What is asked of a tester's record.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Question {
    /// Test voltage of the reading.
    pub(crate) volts: Volts,
    /// How its indication relates to the digits.
    pub(crate) comparator: Comparator,
    /// The resistance indicated.
    pub(crate) ohms: Ohms,
    /// The limit it is judged by, if there is one.
    pub(crate) limit: Option<Ohms>,
    /// What a verification has to show.
    pub(crate) policy: TesterPolicy,
}

impl Question {
    pub(crate) fn new(volts: Volts, shown: Shown, limit: Option<Ohms>, policy: TesterPolicy) -> Self {
        Self { volts, comparator: shown.comparator, ohms: shown.ohms(), limit, policy }
    }
}

/// What a statement says of the indication asked about.
#[derive(Clone, Debug)]
pub(super) enum Says {
    Failed(Failing),
    Good(Claim),
    Silent(Silence),
}

/// In what it failed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Failing {
    /// It says "failed" without saying where.
    Everywhere,
    /// A requirement of the tester standard is not met.
    Requirement(RequirementName),
    /// It does not conform to the tester standard, in what is not said.
    NotConforming,
    /// A known resistance was not shown within what is permitted.
    Point(Ohms),
    /// A known resistance was shown so high that what is asked about may be it.
    ShownHigh(Ohms),
}

/// Why it says neither.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Silence {
    VoltageNotNamed,
    Outside(Outside),
    ConditionalFail,
    NotAllTested,
}

/// A statement with what is needed to ask it quickly.
#[derive(Clone, Debug)]
pub(super) struct Testimony {
    pub(super) statement: Statement,
    coverage: Coverage,
}

impl Testimony {
    pub(super) fn new(statement: &Statement, kind: ProofKind, volts: Volts, card: Option<&Card>) -> Self {
        Self { statement: statement.clone(), coverage: Coverage::new(statement, kind, volts, card) }
    }

    /// It says by itself that something failed.
    pub(super) fn tells_of_failure(&self) -> bool {
        let s = &self.statement;
        s.outcome == Outcome::Failed
            || s.conforms == Conforms::No
            || s.not_met().next().is_some()
            || self.coverage.has_failed_points()
    }

    /// Failed, good or silent. A failed requirement comes first, since it holds at every resistance; a conditional
    /// fail then silences the rest, its points included. "Failed" that names neither requirement nor point may mean a
    /// requirement, and so fails everywhere; where indications alone are asked for, intervals beside it say where by
    /// what they leave out: outside them it failed, and nothing above them may be claimed.
    pub(super) fn says(&self, q: &Question) -> Says {
        let s = &self.statement;
        if q.policy != TesterPolicy::IndicationsOnly {
            if let Some((name, _)) = s.not_met().find(|(_, tag)| !tag.is_memory()) {
                return Says::Failed(Failing::Requirement(name));
            }
            if s.conforms_not_at_all() {
                return Says::Failed(Failing::NotConforming);
            }
        }
        if s.outcome == Outcome::ConditionalFail {
            return Says::Silent(Silence::ConditionalFail);
        }
        let unplaced =
            s.outcome == Outcome::Failed && !self.coverage.has_failed_points() && s.not_met().next().is_none();
        let by_intervals = q.policy == TesterPolicy::IndicationsOnly && self.coverage.says_where();
        if unplaced && !by_intervals {
            return Says::Failed(Failing::Everywhere);
        }
        let cut = if unplaced { (q.ohms, false) } else { self.coverage.cut(q.comparator, q.ohms, q.limit) };
        if let Some(point) = self.coverage.shown_here(q.comparator, q.ohms) {
            return Says::Failed(Failing::ShownHigh(point));
        }
        if let Some(point) = self.coverage.failed_at(q.comparator, cut.0) {
            return Says::Failed(Failing::Point(point));
        }
        match self.coverage.claim(q.comparator, cut, q.limit) {
            Err(_) if unplaced => Says::Failed(Failing::Everywhere),
            Err(outside) => Says::Silent(Silence::Outside(outside)),
            Ok(_) if q.policy == TesterPolicy::Full && !s.meets_all() => Says::Silent(Silence::NotAllTested),
            Ok(claim) => Says::Good(claim),
        }
    }

    /// Whether a resistance was tested and found good.
    pub(super) fn found_good_at(&self, ohms: Ohms) -> bool {
        self.coverage.found_good_at(ohms)
    }

    /// Whether it tests again a requirement that failed and finds it met; asked of silent statements too.
    pub(super) fn meets_again(&self, failing: Failing) -> bool {
        match failing {
            Failing::Requirement(name) => self.statement.finds_met(name),
            Failing::NotConforming => self.statement.meets_all(),
            Failing::Everywhere | Failing::Point(_) | Failing::ShownHigh(_) => false,
        }
    }

    /// What is to be remarked where this statement is relied on for what was asked.
    pub(super) fn remarks(&self, q: &Question, claim: Claim) -> Vec<TesterRemark> {
        let s = &self.statement;
        let mut remarks = Vec::new();
        if self.coverage.is_conditional(claim, q.ohms) {
            remarks.push(TesterRemark::HoldsOnCondition);
        }
        if self.coverage.low_end_hidden(q.limit) {
            remarks.push(TesterRemark::LowEndNotShown);
        }
        if self.coverage.from_card {
            remarks.push(TesterRemark::CardRangeStandsIn);
        }
        remarks.extend(s.not_met().map(|(requirement, _)| TesterRemark::RequirementFailed { requirement }));
        if s.conforms_not_at_all() {
            remarks.push(TesterRemark::DoesNotConform);
        }
        let before = remarks.len();
        remarks.extend(s.not_tested().map(|requirement| TesterRemark::RequirementNotTested { requirement }));
        if s.conforms == Conforms::NotAllTested && remarks.len() == before {
            remarks.push(TesterRemark::NotAllTested);
        }
        remarks
    }
}
