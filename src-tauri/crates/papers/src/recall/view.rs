//! What the template of the recall list places: every word ready.

use super::{RecallJob, RecallLine, RecallList, RecallSort};
use crate::fixed::Fixed;
use crate::report::Digest;
use serde::Serialize;
use std::collections::BTreeMap;

/// Column heads and headings, by the last part of their key.
const LABELS: [&str; 9] = [
    "recall-causes",
    "recall-call",
    "recall-column-circuit",
    "recall-column-shown",
    "recall-column-taken",
    "recall-column-left",
    "recall-column-because",
    "recall-column-resolved",
    "attached",
];

/// The view of one recall list.
#[derive(Serialize)]
pub(crate) struct View<'a> {
    language: String,
    title: String,
    /// The offset of the times that state none.
    times: String,
    demo: Option<String>,
    labels: BTreeMap<String, String>,
    /// Tester and serial number.
    tester: String,
    sum: &'a str,
    /// "Page x of y" with `@page@` and `@pages@` where the numbers go.
    page: String,
    fingerprint: String,
    facts: Vec<[String; 2]>,
    causes: Vec<(&'a str, &'a [String])>,
    jobs: Vec<JobView<'a>>,
}

#[derive(Serialize)]
struct JobView<'a> {
    name: String,
    demo: bool,
    people: String,
    /// Its sign-offs, a sentence each.
    signed: &'a [String],
    boards: Vec<(&'a str, Vec<RowView>)>,
}

#[derive(Serialize)]
struct RowView {
    sign: &'static str,
    circuit: String,
    pair: String,
    shown: String,
    volts: String,
    taken: String,
    left: Vec<String>,
    because: String,
    resolved: String,
}

impl<'a> View<'a> {
    pub(crate) fn of(list: &'a RecallList, own: &Digest, fixed: &Fixed<'_>) -> Self {
        Self {
            language: list.language.clone(),
            title: fixed.text("recall-title"),
            times: fixed.with("times", &[("offset", &fixed.words().offset(list.offset()))]),
            demo: (list.demo || list.jobs.iter().any(|job| job.demo)).then(|| fixed.text("demo")),
            labels: LABELS.iter().map(|key| ((*key).to_owned(), fixed.text(key))).collect(),
            tester: fixed.words().tester_named(&list.name, &list.serial),
            sum: &list.sum,
            page: fixed.with("page", &[("page", "@page@"), ("pages", "@pages@")]),
            fingerprint: fixed.fingerprint(list.fingerprint(), own),
            facts: vec![
                [fixed.text("as-of"), fixed.date_time(list.as_of)],
                [fixed.text("rules"), fixed.with("rules-version", &[("version", &list.rules_version.to_string())])],
                [fixed.text("own-digest"), Fixed::grouped(own)],
            ],
            causes: list.causes.iter().map(|cause| (cause.title.as_str(), cause.lines.as_slice())).collect(),
            jobs: list.jobs.iter().map(|job| job_view(job, fixed)).collect(),
        }
    }
}

fn job_view<'a>(job: &'a RecallJob, fixed: &Fixed<'_>) -> JobView<'a> {
    let name = [job.name.as_str(), job.place.as_str()];
    let boards = job.boards.iter().map(|board| {
        let rows = board.lines.iter().map(|line| row(line, fixed)).collect();
        (board.name.as_str(), rows)
    });
    JobView {
        name: name.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · "),
        demo: job.demo,
        people: job.people.join("; "),
        signed: &job.signed,
        boards: boards.collect(),
    }
}

fn row(line: &RecallLine, fixed: &Fixed<'_>) -> RowView {
    let sign = match (line.resolved.is_some(), line.sort) {
        (true, _) => "done",
        (false, RecallSort::TestAgain) => "stop",
        (false, RecallSort::CannotBeJudged | RecallSort::StillClears) => "look",
    };
    RowView {
        sign,
        circuit: line.circuit.clone(),
        pair: line.pair.clone(),
        shown: fixed.words().reading(&line.shown),
        volts: fixed.words().volts(line.test_voltage_v),
        taken: fixed.date_time(line.taken_at),
        left: std::iter::once(line.sentence.clone()).chain(line.remark.clone()).collect(),
        because: line.because.clone(),
        resolved: line.resolved.clone().unwrap_or_default(),
    }
}
