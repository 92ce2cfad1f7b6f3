//! The verification a bench result stands for in the tester's record.

use super::BenchResult;
use crate::bench::Series;
use crate::ids::VerificationId;
use crate::moment::{Moment, When};
use crate::quantity::Volts;
use crate::tester::{Outcome, ProofKind, Statement, Verification, VoltageFinding};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// What a verification says beside what was measured.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Issued {
    /// Its id.
    pub id: VerificationId,
    /// When it was made.
    pub made: When,
    /// Its last day.
    pub valid_until: Option<NaiveDate>,
    /// Who made it.
    pub by: String,
    /// Number on the report.
    pub number: Option<String>,
    /// When it was entered into the record.
    pub recorded_at: Moment,
}

impl BenchResult {
    /// The verification: the statements of every test voltage, as found and as left.
    #[must_use]
    pub fn verification(&self, issued: Issued) -> Verification {
        let mut findings: BTreeMap<Volts, [Option<Statement>; 2]> = BTreeMap::new();
        for voltage in &self.voltages {
            let [found, left] = findings.entry(voltage.test_voltage_v).or_default();
            let place = if voltage.series == Series::AsFound { found } else { left };
            *place = Some(voltage.statement.clone());
        }
        let findings = findings.into_iter().map(|(test_voltage_v, [as_found, as_left])| VoltageFinding {
            test_voltage_v,
            as_found,
            as_left,
        });
        Verification {
            id: issued.id,
            tester: self.tester,
            kind: ProofKind::Bench,
            made: issued.made,
            valid_until: issued.valid_until,
            by: issued.by,
            certificate: issued.number,
            adjusted: self.adjusted,
            overall: Outcome::NotStated,
            findings: findings.collect(),
            recorded_at: issued.recorded_at,
        }
    }
}
