//! What is known of the tester's uncertainty for one reading.

use super::Asked;
use crate::guard::{Budget, Figures};
use crate::tester::{Conforms, Relied};

/// The figures a guard may rest on: those of the good statement relied on (never of a failed, silent or later one),
/// and those of the card at the test voltage of the reading.
pub(super) fn figures<'a>(asked: &Asked<'a>, relied: Option<Relied<'a>>) -> Figures<'a> {
    let of_statement = |percent| relied.zip(percent).map(|(r, percent)| (r.verification, percent));
    let statement = relied.map(|r| r.statement);
    let by_papers = asked.tester.and_then(|t| t.card()).is_some_and(|card| card.conforms_iec_61557_2);
    Figures {
        budget: relied.and_then(|r| {
            let whole = r.statement.expanded_uncertainty_percent?;
            Some(Budget { verification: r.verification, whole, points: &r.statement.points })
        }),
        operating: of_statement(statement.and_then(|s| s.operating_uncertainty_percent)),
        lapsed: relied.is_some_and(|r| r.lapsed),
        card: asked.tester.and_then(|t| t.voltage_card(asked.reading.test_voltage_v)),
        conforms: by_papers || statement.is_some_and(|s| s.conforms == Conforms::Yes),
    }
}
