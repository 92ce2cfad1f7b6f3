//! The schedule of 500 circuits as PDF beside the same model as CSV, which needs no typesetting.
use serde_json::json;

use crate::figure::{Pairs, Row};
use crate::{Broken, job::Job};

const PAIRS: usize = 3;

pub(crate) fn row() -> Result<Row, Broken> {
    let folder = tempfile::tempdir()?;
    let mut job = Job::make(&folder.path().join("record"), 25, 20)?;
    job.record(1500)?;
    let made = |format: &str| -> Result<(), Broken> {
        job.ask("make_schedule", json!({ "job": job.id(), "format": format }))?;
        Ok(())
    };
    // What is read and judged once is there for both.
    made("csv")?;
    let mut pairs = Pairs::default();
    for _ in 0..PAIRS {
        pairs.measure(|| made("pdf"), || made("csv"))?;
    }
    Ok(pairs.row("schedule of 500 circuits, 1500 readings, as PDF", "the same as CSV"))
}
