//! Bodies about testers. Checks and damage are the trade's own types as they stand.

use crate::entry::coded::coded_map;
use chrono::NaiveDate;
use provenohm_assess::ids::{BenchId, TesterId, VerificationId};
use provenohm_assess::moment::{Moment, When};
use provenohm_assess::tester::{Card, Outcome, ProofKind, Verification, VoltageFinding};

/// Facet: what a tester is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TesterIdentity {
    /// The tester.
    pub tester: TesterId,
    /// What people call it.
    pub name: String,
    /// Its type as marked; may be empty.
    pub model: String,
    /// Its serial number.
    pub serial: String,
    /// Invented, to try the program with: its papers say so. Absent where that was not said.
    pub invented: Option<bool>,
}

coded_map!(TesterIdentity { 0: tester, 1: name, 2: model, 3: serial, 4 ? invented });

/// Facet: a tester's card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TesterCard {
    /// The tester.
    pub tester: TesterId,
    /// Its card.
    pub card: Card,
}

coded_map!(TesterCard { 0: tester, 1: card });

/// A verification was made. It may be recorded long after; when it was recorded is the envelope's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VerificationMade {
    /// Its id.
    pub id: VerificationId,
    /// The tester.
    pub tester: TesterId,
    /// Laboratory or bench.
    pub kind: ProofKind,
    /// When it was made.
    pub made: When,
    /// Its last day.
    pub valid_until: Option<NaiveDate>,
    /// Who made it, as written on the paper.
    pub by: String,
    /// Certificate number.
    pub certificate: Option<String>,
    /// Whether the tester was adjusted.
    pub adjusted: bool,
    /// What the paper says on the whole.
    pub overall: Outcome,
    /// Per test voltage.
    pub findings: Vec<VoltageFinding>,
    /// The bench run it was computed from.
    pub bench: Option<BenchId>,
}

coded_map!(VerificationMade {
    0: id,
    1: tester,
    2: kind,
    3: made,
    4 ? valid_until,
    5: by,
    6 ? certificate,
    7: adjusted,
    8: overall,
    9: findings,
    10 ? bench,
});

impl VerificationMade {
    /// What is written of a verification.
    #[must_use]
    pub fn of(verification: Verification) -> Self {
        let Verification {
            id,
            tester,
            kind,
            made,
            valid_until,
            by,
            certificate,
            adjusted,
            overall,
            findings,
            recorded_at: _,
        } = verification;
        Self { id, tester, kind, made, valid_until, by, certificate, adjusted, overall, findings, bench: None }
    }

    /// The same, computed from a bench run.
    #[must_use]
    pub fn from_bench(self, bench: BenchId) -> Self {
        Self { bench: Some(bench), ..self }
    }

    /// The verification as the trade speaks of it, with when it was recorded.
    #[must_use]
    pub fn recorded(self, recorded_at: Moment) -> Verification {
        let Self { id, tester, kind, made, valid_until, by, certificate, adjusted, overall, findings, bench: _ } = self;
        Verification { id, tester, kind, made, valid_until, by, certificate, adjusted, overall, findings, recorded_at }
    }
}
