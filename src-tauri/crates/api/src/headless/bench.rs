//! A verification file, computed.

use super::{Refused, words};
use crate::ops::bench::figures::detail;
use crate::ops::bench::{say, usual_decisions};
use crate::tell;
use provenohm_assess::bench::{BenchFacts, BenchResult, BenchRun, Measured, Series, VoltageResult, compute};
use provenohm_assess::reference::Reference;
use provenohm_assess::standard::{Edition, shipped_editions};
use provenohm_assess::tester::Card;
use provenohm_exchange::json;
use provenohm_words::{AboutBench, Words};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Version of the form of a verification file.
const VERSION: u32 = 1;

/// What stands in `format`.
const FORMAT: &str = "provenohm-verification";

/// A bench run with everything it is computed from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct VerificationFile {
    /// Always `provenohm-verification`.
    pub format: String,
    /// Version of this form, 1.
    pub version: u32,
    /// True for invented data.
    #[serde(default)]
    pub invented: bool,
    /// What people call the tester; absent: by its mark alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tester: Option<TesterNamed>,
    /// The run.
    pub run: BenchRun,
    /// The tester's card: what is permitted comes from it.
    pub card: Card,
    /// The references.
    pub references: Vec<Reference>,
    /// What was measured, in any order.
    pub measured: Vec<Measured>,
}

/// What people call a tester; empty: not known.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct TesterNamed {
    /// Its name.
    pub name: String,
    /// Its serial number.
    pub serial: String,
    /// Its type as marked.
    pub model: String,
}

/// A verification as computed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BenchTold {
    /// Always `provenohm-bench`.
    pub format: String,
    /// Version of this form.
    pub version: u32,
    /// True for invented data.
    pub invented: bool,
    /// Every step.
    pub result: BenchResult,
    /// The result in sentences.
    pub lines: Vec<String>,
}

/// Computes a verification file.
///
/// # Errors
/// [`Refused`] with place and reason for a file that cannot be read, and for an edition that is not known.
pub fn bench(text: &str) -> Result<BenchTold, Refused> {
    let file = verification(text)?;
    let edition = edition_of(&file)?;
    let result = compute(&BenchFacts {
        run: &file.run,
        measured: &file.measured,
        card: Some(&file.card),
        references: &file.references,
        edition,
    });
    let about = AboutBench { references: &file.references, edition: &edition.title };
    let lines = lines(&words(), &result, &about);
    Ok(BenchTold { format: "provenohm-bench".to_owned(), version: 1, invented: file.invented, result, lines })
}

/// Reads a verification file.
pub(super) fn verification(text: &str) -> Result<VerificationFile, Refused> {
    if text.trim().is_empty() {
        return Err(Refused(words().text("file-empty")));
    }
    let file: VerificationFile = json::read(text).map_err(|what| Refused(tell::not_that_json(&words(), &what)))?;
    if file.format != FORMAT {
        let args = [("found", file.format.as_str().into()), ("choices", FORMAT.into())];
        return Err(Refused(words().text_with("said-json-no-choice", &args)));
    }
    if file.version != VERSION {
        let args = [("found", file.version.to_string().into()), ("choices", VERSION.to_string().into())];
        return Err(Refused(words().text_with("said-json-no-choice", &args)));
    }
    file.check()?;
    Ok(file)
}

/// The edition a file is judged by.
pub(super) fn edition_of(file: &VerificationFile) -> Result<&'static Edition, Refused> {
    let editions = shipped_editions().map_err(|complaint| Refused(complaint.to_string()))?;
    editions.iter().find(|edition| edition.id == file.run.edition).ok_or_else(|| {
        let known: Vec<&str> = editions.iter().map(|edition| edition.id.0.as_str()).collect();
        let args = [("found", file.run.edition.0.as_str().into()), ("choices", known.join(", ").into())];
        Refused(words().text_with("said-json-no-choice", &args))
    })
}

fn lines(words: &Words, result: &BenchResult, about: &AboutBench<'_>) -> Vec<String> {
    let mut lines = Vec::new();
    for voltage in &result.voltages {
        if result.adjusted {
            let series = if voltage.series == Series::AsFound { "as-found" } else { "as-left" };
            lines.push(words.text(series));
        }
        lines.push(words.bench_holds(voltage));
        lines.push(words.bench_conforms(voltage, about));
        lines.extend(details(words, voltage, about).into_iter().map(|line| format!("  {line}")));
    }
    if lines.is_empty() {
        lines.push(words.failure("nothing_measured"));
    }
    lines.extend(say::shortcomings(words, result, about, &usual_decisions()).into_iter().map(|said| said.words));
    lines.extend(say::looked(words, &result.look).into_iter().map(|said| said.words));
    lines
}

/// Requirements, intervals, then point by point with its decision and its remarks.
fn details(words: &Words, voltage: &VoltageResult, about: &AboutBench<'_>) -> Vec<String> {
    let mut lines: Vec<String> = voltage.requirements.iter().map(|r| say::requirement(words, r, about)).collect();
    lines.extend(voltage.intervals.iter().map(|i| words.bench_interval(i)));
    lines.extend(voltage.no_intervals.iter().map(|why| words.bench_no_interval(why)));
    lines.extend(say::leads(words, voltage).into_iter().map(|said| said.words));
    for point in &voltage.points {
        let said = words.bench_point(point, about);
        let conditions = detail(words, &point.conditions);
        lines.push(if conditions.is_empty() { said } else { format!("{said} ({conditions})") });
        lines.extend(point.decision.map(|decision| format!("  {}", words.bench_decision(decision))));
        lines.extend(point.remarks.iter().map(|remark| format!("  {}", words.bench_remark(remark, about))));
    }
    for remark in voltage.currents.iter().flat_map(|current| &current.remarks) {
        lines.push(words.bench_remark(remark, about));
    }
    for load in &voltage.loads {
        lines.extend(load.remarks.iter().map(|remark| words.bench_remark(remark, about)));
    }
    lines
}
