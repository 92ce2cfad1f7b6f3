//! More about the testers than page 1 has room for: their cards, lead checks and damage.

use serde::Serialize;

use crate::fixed::Fixed;
use crate::report::Part;

#[derive(Serialize)]
pub(super) struct TesterDetail {
    name: String,
    lines: Vec<String>,
}

/// Of a schedule in parts, the first one holds them.
pub(super) fn details(part: &Part, fixed: &Fixed<'_>) -> Vec<TesterDetail> {
    let testers = part.schedule.testers.iter().filter(|_| part.number == 1);
    let detail = testers.map(|tester| {
        let checks = (!tester.remarks.is_empty()).then(|| tester.remarks.join("; "));
        TesterDetail {
            name: format!("{} · {}", tester.name, fixed.serial(&tester.serial)),
            lines: tester.card.iter().cloned().chain(checks).collect(),
        }
    });
    detail.collect()
}
