//! The tester report: one verification made at the bench, to be followed by hand.
//!
//! Every figure and sentence of it arrives as text, already worked out and worded; beside them stands what they were worked
//! out from, for other software. The PDF, the workbook and the JSON file are made from this one model.

mod bounded;
mod evidence;
mod plot;
mod rows;
mod sheets;
mod view;
mod voltage;

pub use evidence::Evidence;
pub use plot::{Axis, Band, Bound, Corner, Mark, Plot, Sample, Tick};
pub use rows::{
    BudgetLine, BudgetTable, DriftLine, DriftTable, LoadLine, MeasuredLine, PointLine, ReferenceTold, Said,
};
pub(crate) use view::View;
pub use voltage::VoltagePart;

use crate::PaperError;
use crate::report::{Digest, Fact, Fingerprint};
use provenohm_assess::ids::{BenchId, TesterId};
use provenohm_assess::moment::Moment;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Version of the form of a tester report as JSON.
pub const VERSION: u32 = 1;

/// What the JSON form calls itself.
pub const FORMAT: &str = "provenohm-tester-report";

/// Everything a tester report says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TesterReport {
    /// Always `provenohm-tester-report`.
    pub format: String,
    /// Version of this form.
    pub version: u32,
    /// Language of the sentences: the id of their locale (`en`).
    pub language: String,
    /// True for invented data; every page then says so.
    pub invented: bool,
    /// The last instant anything was measured.
    pub as_of: Moment,
    /// Version of the rules that judged.
    pub rules_version: u32,
    /// The bench run.
    pub bench: BenchId,
    /// The tester.
    pub tester: TesterId,
    /// What people call it, with its serial number or its own mark.
    pub name: String,
    /// Who, when, by which edition and decision rule: one fact each.
    pub facts: Vec<Fact>,
    /// The two answers of each test voltage and series, in its order.
    pub answers: Vec<Said>,
    /// What the tester is stated to do: ranges, resolution, accuracy.
    pub card: Vec<String>,
    /// The look at the tester, item by item.
    pub look: Vec<Fact>,
    /// What it was proved by.
    pub references: Vec<ReferenceTold>,
    /// What is to be remarked of the whole.
    pub remarks: Vec<Said>,
    /// Per test voltage and series, lowest voltage first, as found before as left.
    pub voltages: Vec<VoltagePart>,
    /// The error over the tester's verifications; empty where there are no others.
    pub drift: Vec<DriftTable>,
    /// How the figures are worked out, with the source of each step.
    pub methods: Vec<Fact>,
    /// What the edition asks, each figure with its source and how sure it is.
    pub sources: Vec<Fact>,
    /// Everything that was measured, in the order it was.
    pub measured: Vec<MeasuredLine>,
    /// What all of it was worked out from, and the result unrounded.
    pub evidence: Evidence,
    /// SHA-256 of what the record says that this was made from: its start is the fingerprint. Absent where it was a file.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub record: Option<Digest>,
}

impl TesterReport {
    /// The fingerprint of the record it was made from; nothing where that was a file.
    #[must_use]
    pub fn fingerprint(&self) -> Option<Fingerprint> {
        self.record.as_ref().map(Digest::fingerprint)
    }

    /// The report as JSON. The same report gives the same bytes.
    ///
    /// # Errors
    /// [`PaperError`] if it cannot be written.
    pub fn json(&self) -> Result<Vec<u8>, PaperError> {
        let mut bytes = serde_json::to_vec_pretty(self)?;
        bytes.push(b'\n');
        Ok(bytes)
    }
}
