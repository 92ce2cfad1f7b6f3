//! The tester report as a workbook: every cell a text, so that digits keep their zeros and nothing is a formula.

use super::{BudgetTable, TesterReport, view};
use crate::PaperError;
use crate::fixed::Fixed;
use crate::report::Digest;
use crate::sheet::{Table, created, put};
use provenohm_words::Words;
use rust_xlsxwriter::{DocProperties, Workbook};

impl TesterReport {
    /// Five sheets: what the report says, points, voltages and currents, budgets line by line, everything measured. The
    /// same report gives the same bytes.
    ///
    /// # Errors
    /// [`PaperError`] if the workbook cannot be written.
    pub fn xlsx(&self, words: &Words) -> Result<Vec<u8>, PaperError> {
        let words = words.with_usual_offset(*self.as_of.offset());
        let fixed = Fixed::new(&words);
        let mut workbook = Workbook::new();
        let created = created(self.as_of)?;
        workbook.set_properties(
            &DocProperties::new().set_title(fixed.text("tester-title")).set_creation_datetime(&created),
        );
        let own = Digest::of(&self.json()?);
        for table in [
            about(self, &own, &fixed),
            points(self, &fixed),
            loads(self, &fixed),
            budgets(self, &fixed),
            measured(self, &fixed),
        ] {
            put(&mut workbook, &table)?;
        }
        Ok(workbook.save_to_buffer()?)
    }
}

fn heads(fixed: &Fixed<'_>, keys: &[&str]) -> Vec<String> {
    keys.iter().map(|key| fixed.text(key)).collect()
}

/// Head, answers, requirements, references, methods and sources: a label and what it says.
fn about(report: &TesterReport, own: &Digest, fixed: &Fixed<'_>) -> Table {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut say = |label: &str, text: &str| rows.push(vec![label.to_owned(), text.to_owned()]);
    if report.invented {
        say(&fixed.text("tester-invented"), "");
    }
    say(&fixed.text("not-signed"), "");
    say(&fixed.text("tester-scope"), "");
    say(&fixed.text("tester-title"), &report.name);
    say(&view::times(report, fixed), "");
    view::facts(report, own, fixed).iter().for_each(|fact| say(&fact.label, &fact.text));
    report.card.iter().for_each(|line| say(&fixed.text("tester-card"), line));
    report.look.iter().for_each(|fact| say(&fact.label, &fact.text));
    report.remarks.iter().for_each(|said| say(&fixed.text("tester-remarks"), &said.text));
    for voltage in &report.voltages {
        let answers = [&voltage.holds, &voltage.conforms].map(|said| &said.text);
        let details = voltage.requirements.iter().chain(&voltage.leads).map(|said| &said.text);
        let all = answers.into_iter().chain(&voltage.intervals).chain(details).chain(&voltage.operating);
        all.for_each(|text| say(&voltage.title, text));
    }
    for reference in &report.references {
        let lines = reference.lines.iter().chain([&reference.valid.text]);
        lines.for_each(|line| say(&reference.title, line));
    }
    for drift in &report.drift {
        say(&drift.title, &drift.said);
        for line in &drift.lines {
            let figures = [&line.error, &line.expanded, &line.adjusted].map(String::as_str);
            say(&line.when, &figures.into_iter().filter(|it| !it.is_empty()).collect::<Vec<_>>().join(" · "));
        }
    }
    report.methods.iter().chain(&report.sources).for_each(|fact| say(&fact.label, &fact.text));
    fixed.words().cautions().iter().for_each(|line| say(&fixed.words().cautions_title(), line));
    Table { name: fixed.text("tester-sheet-about"), heads: Vec::new(), rows }
}

fn points(report: &TesterReport, fixed: &Fixed<'_>) -> Table {
    let keys = [
        "tester-column-no",
        "tester-column-volts",
        "tester-column-resistor",
        "tester-column-conditions",
        "tester-column-known",
        "tester-column-shown",
        "tester-column-mean",
        "tester-column-error",
        "tester-column-error-percent",
        "tester-column-expanded",
        "tester-column-permitted",
        "tester-column-permitted-from",
        "tester-column-ratio",
        "tester-column-decision",
        "tester-remarks",
    ];
    let rows = report.voltages.iter().flat_map(|voltage| {
        voltage.points.iter().map(|point| {
            vec![
                point.number.to_string(),
                voltage.title.clone(),
                point.resistor.clone(),
                point.conditions.clone(),
                point.known.clone(),
                point.shown.join("; "),
                point.mean.clone(),
                point.error.clone(),
                point.error_percent.clone(),
                point.expanded.clone(),
                point.permitted.clone(),
                point.permitted_from.clone(),
                point.ratio.clone(),
                point.decision.text.clone(),
                point.remarks.join("; "),
            ]
        })
    });
    Table { name: fixed.text("tester-sheet-points"), heads: heads(fixed, &keys), rows: rows.collect() }
}

fn loads(report: &TesterReport, fixed: &Fixed<'_>) -> Table {
    let keys = [
        "tester-column-no",
        "tester-column-volts",
        "tester-column-what",
        "tester-column-conditions",
        "tester-column-load",
        "tester-column-output",
        "tester-column-current",
        "tester-column-decision",
        "tester-remarks",
    ];
    let rows = report.voltages.iter().flat_map(|voltage| {
        voltage.loads.iter().map(|load| {
            vec![
                load.number.to_string(),
                voltage.title.clone(),
                load.title.clone(),
                load.conditions.clone(),
                load.load.clone(),
                load.voltage.clone(),
                load.current.clone(),
                load.decision.as_ref().map(|said| said.text.clone()).unwrap_or_default(),
                load.remarks.join("; "),
            ]
        })
    });
    Table { name: fixed.text("tester-sheet-loads"), heads: heads(fixed, &keys), rows: rows.collect() }
}

fn budgets(report: &TesterReport, fixed: &Fixed<'_>) -> Table {
    let keys = [
        "tester-column-what",
        "tester-column-input",
        "tester-column-estimate",
        "tester-column-distribution",
        "tester-column-half-width",
        "tester-column-divisor",
        "tester-column-standard",
        "tester-column-sensitivity",
        "tester-column-contribution",
        "tester-column-dof",
    ];
    let of_voltage = |voltage: &super::VoltagePart| {
        let points = voltage.points.iter().filter_map(|point| point.budget.clone());
        let loads = voltage.loads.iter().filter_map(|load| load.budget.clone());
        points.chain(loads).map(|budget| (voltage.title.clone(), budget)).collect::<Vec<_>>()
    };
    let rows = report.voltages.iter().flat_map(of_voltage).flat_map(|(title, budget)| budget_rows(&title, &budget));
    Table { name: fixed.text("tester-sheet-budgets"), heads: heads(fixed, &keys), rows: rows.collect() }
}

fn budget_rows(title: &str, budget: &BudgetTable) -> Vec<Vec<String>> {
    let whose = format!("{title} · {}", budget.title);
    let lines = budget.lines.iter().map(|line| {
        let cells = [
            &line.input,
            &line.estimate,
            &line.distribution,
            &line.half_width,
            &line.divisor,
            &line.standard,
            &line.sensitivity,
            &line.contribution,
            &line.dof,
        ];
        std::iter::once(&whose).chain(cells).cloned().collect()
    });
    let sums = budget.sums.iter().map(|fact| vec![whose.clone(), fact.label.clone(), fact.text.clone()]);
    lines.chain(sums).collect()
}

fn measured(report: &TesterReport, fixed: &Fixed<'_>) -> Table {
    let keys = [
        "tester-column-at",
        "tester-column-volts",
        "tester-column-what",
        "tester-column-meter",
        "tester-column-conditions",
        "tester-column-read",
    ];
    let rows = report.measured.iter().map(|line| {
        let cells = [&line.at, &line.volts, &line.what, &line.meter, &line.conditions, &line.shown];
        cells.into_iter().cloned().collect()
    });
    Table { name: fixed.text("tester-sheet-measured"), heads: heads(fixed, &keys), rows: rows.collect() }
}
