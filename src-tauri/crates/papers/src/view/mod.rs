//! What the template is given: every text ready to print, so that the template only places it.

mod columns;
mod findings;
mod front;
mod notes;
mod past;
mod rows;
pub(crate) mod signed;
mod sources;
mod testers;

use std::collections::BTreeMap;

use provenohm_assess::quantity::{Ohms, Shown};
use serde::Serialize;

use crate::fixed::Fixed;
use crate::report::{Digest, Part};

use self::front::Front;
use self::past::{CorrectionRow, PastRow};
use self::rows::BoardView;
use self::testers::TesterDetail;

/// One document, ready to be placed on pages.
#[derive(Serialize)]
pub(crate) struct View {
    language: String,
    title: String,
    /// The offset of the times that state none.
    times: String,
    demo: Option<String>,
    labels: BTreeMap<String, String>,
    foot: Foot,
    front: Front,
    boards: Vec<BoardView>,
    /// The boards without circuits, in a sentence.
    empty_boards: Option<String>,
    past: Vec<PastRow>,
    corrections: Vec<CorrectionRow>,
    testers: Vec<TesterDetail>,
    /// What signing this paper by hand covers.
    signing_covers: String,
    /// Digits before and after the decimal sign of the longest reading: what the others are aligned by.
    readings: Widths,
    /// The same for the limits.
    limits: Widths,
    /// Widths of the columns of a line, mm.
    columns: [f64; 10],
}

/// What stands on every page.
#[derive(Serialize)]
struct Foot {
    job: String,
    /// "Page x of y" with `@page@` and `@pages@` where the numbers go.
    page: String,
    fingerprint: String,
    signed: String,
    part: Option<String>,
    /// Shown where a page belongs to no single board.
    boards: String,
}

/// Longest number before and after the decimal sign, in digits.
#[derive(Clone, Copy, Default, Serialize)]
struct Widths {
    whole: usize,
    fraction: usize,
}

impl Widths {
    fn widen(&mut self, number: &Number) {
        self.whole = self.whole.max(number.whole);
        self.fraction = self.fraction.max(number.fraction);
    }
}

/// A resistance to be aligned at its decimal sign.
#[derive(Serialize)]
struct Number {
    comparator: &'static str,
    /// As shown, grouped from five digits on.
    digits: String,
    unit: String,
    whole: usize,
    fraction: usize,
}

impl Number {
    fn shown(shown: &Shown, fixed: &Fixed<'_>) -> Self {
        Self::new(shown.comparator.sign(), fixed.words().digits(shown.digits), shown.unit.symbol(), fixed)
    }

    /// A limit, in the unit the trade says it in.
    fn limit(minimum: Ohms, fixed: &Fixed<'_>) -> Self {
        let said = fixed.words().ohms(minimum);
        let (digits, unit) = said.split_once('\u{a0}').unwrap_or((&said, ""));
        Self::new("", digits.to_owned(), unit, fixed)
    }

    fn new(comparator: &'static str, digits: String, unit: &str, fixed: &Fixed<'_>) -> Self {
        let sign = fixed.words().numbers().sign.char();
        let (whole, fraction) = digits.split_once(sign).unwrap_or((&digits, ""));
        let count = |part: &str| part.chars().filter(char::is_ascii_digit).count();
        let (whole, fraction) = (count(whole), count(fraction));
        Self { comparator, digits, unit: unit.to_owned(), whole, fraction }
    }
}

/// Column heads and headings the template places, by the last part of their key.
const LABELS: [&str; 34] = [
    "scope",
    "sign-to-do",
    "sign-done",
    "sign-look",
    "sign-stop",
    "done-means",
    "findings",
    "testers",
    "testers-detail",
    "past",
    "corrections",
    "board",
    "column-number",
    "column-pair",
    "column-reading",
    "column-voltage",
    "column-limit",
    "column-judgement",
    "column-tester",
    "column-time",
    "column-person",
    "column-where",
    "column-what",
    "column-correction",
    "column-by",
    "column-taken",
    "attached",
    "continued",
    "signing",
    "signing-recorder",
    "signing-reviewer",
    "signing-name",
    "signing-date",
    "signing-signature",
];

impl View {
    /// The view of `part`, whose canonical bytes have the digest `own`.
    pub(crate) fn of(part: &Part, own: &Digest, fixed: &Fixed<'_>) -> Self {
        let numbers = part.numbers();
        let schedule = &part.schedule;
        let boards = rows::boards(part, fixed);
        let (mut readings, mut limits) = (Widths::default(), Widths::default());
        for row in boards.iter().flat_map(BoardView::rows) {
            row.reading().into_iter().for_each(|number| readings.widen(number));
            row.limit().into_iter().for_each(|number| limits.widen(number));
        }
        let past = past::past(part, &numbers, fixed);
        past.iter().for_each(|row| readings.widen(row.reading()));
        Self {
            language: fixed.words().locale().id().to_owned(),
            title: fixed.text("title"),
            times: fixed.with("times", &[("offset", &fixed.words().offset(schedule.offset()))]),
            demo: schedule.demo.then(|| fixed.text("demo")),
            labels: LABELS.iter().map(|key| ((*key).to_owned(), fixed.text(key))).collect(),
            foot: Foot {
                job: schedule.job.name.clone(),
                page: fixed.with("page", &[("page", "@page@"), ("pages", "@pages@")]),
                fingerprint: fixed.with("fingerprint", &[("fingerprint", &part.fingerprint().to_string())]),
                signed: signed::signed(schedule, &part.whole, fixed).join(" · "),
                part: (part.of > 1).then(|| front::part_of(part, fixed)),
                boards: front::board_names(schedule.boards.iter().map(|board| board.name.as_str())),
            },
            front: Front::of(part, own, &numbers, fixed),
            corrections: past::corrections(part, &numbers, fixed),
            testers: testers::details(part, fixed),
            empty_boards: rows::empty_boards(part, fixed),
            signing_covers: fixed.with(
                if schedule.signatures.is_empty() { "signing-covers" } else { "signing-covers-signed" },
                &[("fingerprint", &part.fingerprint().to_string())],
            ),
            boards,
            past,
            readings,
            limits,
            columns: columns::LINES_MM,
        }
    }
}
