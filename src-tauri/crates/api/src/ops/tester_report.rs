//! The tester report of a bench run as a file.

use crate::failure::Failure;
use crate::ops::bench::drift_until;
use crate::ops::bench::run::{Run, closed};
use crate::ops::files::{place_of, write_file, written};
use crate::ops::testers::is_invented;
use crate::recalled::{Whose, whose};
use crate::report::{Made, Named, drift_tables, tester_report};
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::Measured;
use provenohm_assess::ids::BenchId;
use provenohm_papers::Pages;
use provenohm_papers::report::Digest;
use provenohm_papers::tester_report::TesterReport;
use provenohm_words::Words;
use std::collections::BTreeSet;
use std::path::Path;

pub(crate) fn make_tester_report(state: &mut State, asked: MakeTesterReport) -> Result<Written, Failure> {
    let report = report_of(state, asked.bench)?;
    let name = format!("tester-{}-{}.{}", asked.bench, report.as_of.format("%Y%m%d-%H%M%S"), ending(asked.format));
    let path = place_of(state, &name)?;
    write_file(&path, &bytes(&state.words, &report, asked.format)?)?;
    Ok(written(state, "answer-tester-report-written", &[path]))
}

/// Writes the report of a run of a tester, named by its id or serial number: of the run named, else of the latest that
/// became a verification.
pub(crate) fn write_tester_report(
    state: &State,
    tester: &str,
    bench: Option<&str>,
    format: TesterReportFormat,
    path: &Path,
) -> Result<(), Failure> {
    let tester = match whose(state, tester)? {
        Whose::One(tester) => tester,
        Whose::Several(_) => return Err(Failure::of("several_testers").because(tester)),
    };
    let runs = state.record.view().benches_of(tester)?;
    let found = match bench {
        Some(bench) => runs.iter().find(|one| one.bench.to_string() == bench),
        None => runs.iter().max_by_key(|one| closed(one).map(|made| made.recorded)),
    };
    let found = found.ok_or_else(|| Failure::of("not_found").because(bench.unwrap_or_default()))?;
    write_file(path, &bytes(&state.words, &report_of(state, found.bench)?, format)?)
}

fn report_of(state: &State, bench: BenchId) -> Result<TesterReport, Failure> {
    let run = Run::as_closed(state, bench)?;
    let measured: Vec<Measured> = run.live().map(|one| one.value.measured).collect();
    // A report made again later says what the first one said.
    let closed = closed(&run.bench).map(|one| one.recorded);
    let drift = drift_tables(drift_until(state, run.tester(), closed)?);
    let made = Made {
        run: run.run(),
        measured: &measured,
        references: &run.opened.references,
        card: run.card.as_ref(),
        edition: run.edition,
        tester: Named {
            name: run.identity.name.clone(),
            serial: run.identity.serial.clone(),
            model: run.identity.model.clone(),
        },
        invented: is_invented(&state.record.view(), run.tester())?,
        drift,
        record: Some(record_of(&run)),
    };
    Ok(tester_report(&state.words, made))
}

/// The format that the ending of a file says; `None`: it is none of ours.
pub(crate) fn format_of(path: &Path) -> Option<TesterReportFormat> {
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase())?;
    match ending.as_str() {
        "pdf" => Some(TesterReportFormat::Pdf),
        "xlsx" => Some(TesterReportFormat::Xlsx),
        "json" => Some(TesterReportFormat::Json),
        _ => None,
    }
}

/// The digest of what the record says of a run: its entries that stand, those of the verification it became among them. What
/// is recorded later of the tester leaves it as it was.
fn record_of(run: &Run) -> Digest {
    let opened = run.bench.opened.live.iter().map(|one| one.entry);
    let entries = opened.chain(run.live().map(|one| one.entry)).chain(closed(&run.bench).map(|one| one.entry));
    let entries: BTreeSet<String> = entries.map(|entry| entry.to_string()).collect();
    Digest::of(entries.into_iter().collect::<Vec<_>>().join("\n").as_bytes())
}

/// The report in a format.
pub(crate) fn bytes(words: &Words, report: &TesterReport, format: TesterReportFormat) -> Result<Vec<u8>, Failure> {
    let made = match format {
        TesterReportFormat::Pdf => Pages::typeset_tester(report, words).and_then(|pages| pages.pdf()),
        TesterReportFormat::Xlsx => report.xlsx(words),
        TesterReportFormat::Json => report.json(),
    };
    made.map_err(|error| Failure::of("schedule").because(error))
}

const fn ending(format: TesterReportFormat) -> &'static str {
    match format {
        TesterReportFormat::Pdf => "pdf",
        TesterReportFormat::Xlsx => "xlsx",
        TesterReportFormat::Json => "json",
    }
}
