//! What the template of the tester report places beside the report itself: headings, column heads, the foot.

use super::TesterReport;
use super::bounded::bound;
use crate::PaperError;
use crate::fixed::Fixed;
use crate::report::{Digest, Fact};
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;

/// Headings and column heads, by their keys.
const LABELS: &[&str] = &[
    "not-signed",
    "tester-answers",
    "tester-card",
    "tester-look",
    "tester-references",
    "tester-remarks",
    "tester-requirements",
    "tester-intervals",
    "tester-points",
    "tester-points-none",
    "tester-loads",
    "tester-leads",
    "tester-operating",
    "tester-budgets",
    "tester-drift",
    "tester-methods",
    "tester-sources",
    "tester-measured",
    "tester-done-means",
    "tester-attached",
    "tester-column-no",
    "tester-column-resistor",
    "tester-column-known",
    "tester-column-shown",
    "tester-column-mean",
    "tester-column-error",
    "tester-column-expanded",
    "tester-column-permitted",
    "tester-column-ratio",
    "tester-column-decision",
    "tester-column-load",
    "tester-column-output",
    "tester-column-current",
    "tester-column-input",
    "tester-column-estimate",
    "tester-column-distribution",
    "tester-column-half-width",
    "tester-column-divisor",
    "tester-column-standard",
    "tester-column-sensitivity",
    "tester-column-contribution",
    "tester-column-dof",
    "tester-column-meter",
    "tester-column-conditions",
    "tester-column-at",
    "tester-column-volts",
    "tester-column-what",
    "tester-column-adjusted",
    "tester-column-read",
];

/// The view of one report.
#[derive(Serialize)]
pub(crate) struct View {
    language: String,
    title: String,
    /// The offset of the times that state none.
    times: String,
    scope: String,
    invented: Option<String>,
    labels: BTreeMap<String, String>,
    /// "Page x of y" with `@page@` and `@pages@` where the numbers go.
    page: String,
    fingerprint: String,
    facts: Value,
    /// Said where a text was cut.
    shortened: Option<String>,
    cautions_title: String,
    cautions: Vec<String>,
    /// The report without its evidence, which is attached.
    report: Value,
}

impl View {
    pub(crate) fn of(report: &TesterReport, own: &Digest, fixed: &Fixed<'_>) -> Result<Self, PaperError> {
        let mut told = serde_json::to_value(report)?;
        if let Some(told) = told.as_object_mut() {
            told.remove("evidence");
        }
        let mut facts = serde_json::to_value(facts(report, own, fixed))?;
        let shortened = bound(&mut told) | bound(&mut facts);
        Ok(Self {
            language: report.language.clone(),
            title: fixed.text("tester-title"),
            times: times(report, fixed),
            scope: fixed.text("tester-scope"),
            invented: report.invented.then(|| fixed.text("tester-invented")),
            labels: LABELS.iter().map(|key| ((*key).to_owned(), fixed.text(key))).collect(),
            page: fixed.with("page", &[("page", "@page@"), ("pages", "@pages@")]),
            fingerprint: fixed.fingerprint(report.fingerprint(), own),
            facts,
            shortened: shortened.then(|| fixed.text("shortened")),
            cautions_title: fixed.words().cautions_title(),
            cautions: fixed.words().cautions(),
            report: told,
        })
    }
}

/// In which offset the times are that state none: that of the last measurement.
pub(super) fn times(report: &TesterReport, fixed: &Fixed<'_>) -> String {
    fixed.with("times", &[("offset", &fixed.words().offset(*report.as_of.offset()))])
}

/// The facts of the head, and those of the paper itself.
pub(super) fn facts(report: &TesterReport, own: &Digest, fixed: &Fixed<'_>) -> Vec<Fact> {
    let fact = |key: &str, text: String| Fact { label: fixed.text(key), text };
    let mut facts = report.facts.clone();
    facts.push(fact("as-of", fixed.date_time(report.as_of)));
    facts.push(fact("rules", fixed.with("rules-version", &[("version", &report.rules_version.to_string())])));
    facts.push(fact("tester-run", report.bench.to_string()));
    facts.extend(report.fingerprint().map(|it| fact("record-fingerprint", it.to_string())));
    facts.push(fact("own-digest", Fixed::grouped(own)));
    facts
}
