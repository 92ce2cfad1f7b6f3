//! The tester report, from a bench run and what it was worked out from: the same for the screens and without a window.

mod budget;
mod drift;
mod figure;
mod measured;
mod plot;
mod source;
mod voltage;

pub(crate) use drift::drift_tables;

use crate::ops::bench::{say, usual_decisions};
use provenohm_assess::bench::{BenchFacts, BenchResult, BenchRun, LookedAt, Measured, compute};
use provenohm_assess::reference::Reference;
use provenohm_assess::standard::Edition;
use provenohm_assess::tester::Card;
use provenohm_papers::report::{Digest, Fact, Sign};
use provenohm_papers::tester_report::{DriftTable, Evidence, FORMAT, ReferenceTold, Said, TesterReport, VERSION};
use provenohm_words::{AboutBench, Words};

/// What people call a tester; any of it may be empty.
#[derive(Clone, Debug, Default)]
pub(crate) struct Named {
    pub(crate) name: String,
    pub(crate) serial: String,
    pub(crate) model: String,
}

/// A verification with everything it rests on.
pub(crate) struct Made<'a> {
    pub(crate) run: &'a BenchRun,
    pub(crate) measured: &'a [Measured],
    pub(crate) references: &'a [Reference],
    pub(crate) card: Option<&'a Card>,
    pub(crate) edition: &'a Edition,
    pub(crate) tester: Named,
    pub(crate) invented: bool,
    /// Its drift over the verifications on record.
    pub(crate) drift: Vec<DriftTable>,
    /// The digest of what the record says of it, where it was no file.
    pub(crate) record: Option<Digest>,
}

/// What every part of the report needs.
struct Telling<'a> {
    words: &'a Words,
    made: &'a Made<'a>,
    about: AboutBench<'a>,
}

/// The report of a verification.
pub(crate) fn tester_report(words: &Words, made: Made<'_>) -> TesterReport {
    let run = made.run;
    let mut measured: Vec<Measured> = made.measured.iter().filter(|one| one.bench == run.id).copied().collect();
    measured.sort_by_key(|one| (one.at, one.id));
    measured.dedup_by_key(|one| one.id);
    let references: Vec<Reference> =
        made.references.iter().filter(|one| run.references.contains(&one.id)).cloned().collect();
    let result = compute(&BenchFacts {
        run,
        measured: &measured,
        card: made.card,
        references: &references,
        edition: made.edition,
    });
    let about = AboutBench { references: &references, edition: &made.edition.title };
    let as_of = measured.last().map_or(run.started, |last| last.at.max(run.started));
    // Every time stands in the offset of the last measurement, or says its own.
    let words = &words.with_usual_offset(*as_of.offset());
    let telling = Telling { words, made: &made, about };
    let voltages = telling.voltages(&result);
    TesterReport {
        format: FORMAT.to_owned(),
        version: VERSION,
        language: words.locale().id().to_owned(),
        invented: made.invented,
        as_of,
        rules_version: result.rules_version,
        bench: run.id,
        tester: run.tester,
        name: telling.name(),
        facts: telling.facts(),
        answers: voltages.iter().flat_map(|voltage| [voltage.holds.clone(), voltage.conforms.clone()]).collect(),
        card: telling.card(),
        look: telling.look(),
        references: references.iter().map(|one| telling.reference(one)).collect(),
        remarks: telling.remarks(&result),
        voltages,
        drift: made.drift.clone(),
        methods: source::methods(words),
        sources: source::sources(words, made.edition),
        measured: measured.iter().flat_map(|one| telling.measured(one)).collect(),
        evidence: Evidence {
            run: run.clone(),
            card: made.card.cloned(),
            references: references.clone(),
            edition: made.edition.clone(),
            measured: measured.clone(),
            result,
        },
        record: made.record.clone(),
    }
}

impl Telling<'_> {
    /// Name and serial number, or the mark of its own.
    fn name(&self) -> String {
        let (words, tester) = (self.words, &self.made.tester);
        let own = match (&self.made.run.mark, tester.serial.is_empty()) {
            (Some(mark), true) => words.text_with("answer-tester-report-mark", &[("mark", mark.as_str().into())]),
            (None, true) => words.text("answer-tester-report-unnamed"),
            (_, false) => return words.tester_named(&tester.name, &tester.serial),
        };
        if tester.name.is_empty() { own } else { format!("{} · {own}", tester.name) }
    }

    fn facts(&self) -> Vec<Fact> {
        let (words, run) = (self.words, self.made.run);
        let fact = |key: &str, text: String| Fact { label: words.text(key), text };
        let mut facts = vec![fact("answer-tester-report-tester", self.name())];
        if !self.made.tester.model.is_empty() {
            facts.push(fact("answer-tester-report-model", self.made.tester.model.clone()));
        }
        facts.extend([
            fact("answer-tester-report-by", run.by.clone()),
            fact("answer-tester-report-begun", words.date_time(run.started)),
            fact("answer-tester-report-edition", self.made.edition.title.clone()),
            fact("answer-tester-report-rule", words.text(say::rule_key(run.rule))),
        ]);
        let adjusted = if run.adjusted { "answer-tester-report-adjusted" } else { "answer-bench-not-adjusted" };
        facts.push(fact("answer-tester-report-series", words.text(adjusted)));
        facts
    }

    fn card(&self) -> Vec<String> {
        match self.made.card {
            Some(card) => crate::tell::card_lines(self.words, card),
            None => vec![self.words.text("answer-tester-report-no-card")],
        }
    }

    fn look(&self) -> Vec<Fact> {
        let answer = |answer| match answer {
            LookedAt::Yes => "answer-bench-looked-yes",
            LookedAt::No => "answer-bench-looked-no",
            LookedAt::NotLooked => "answer-bench-looked-not",
        };
        let lines = say::look(self.words, &self.made.run.look).into_iter();
        lines.map(|line| Fact { label: line.words, text: self.words.text(answer(line.answer)) }).collect()
    }

    /// A reference as its certificate states it, and whether that was in date when it was used.
    fn reference(&self, reference: &Reference) -> ReferenceTold {
        let words = self.words;
        let used = self.made.measured.iter().filter(|one| one.bench == self.made.run.id).map(|one| one.at.date_naive());
        let last_used = used.max().unwrap_or_else(|| self.made.run.started.date_naive());
        let (sign, text) = match reference.valid_until {
            None => (Sign::Look, words.text("answer-reference-no-last-day")),
            Some(until) => {
                let lapsed = until < last_used;
                let key = if lapsed { "answer-reference-lapsed" } else { "answer-reference-in-date" };
                let said = words.text_with(key, &[("until", words.date(until).into())]);
                (if lapsed { Sign::Look } else { Sign::Done }, said)
            }
        };
        ReferenceTold {
            title: crate::ops::references::title(words, reference),
            lines: words.reference_lines(reference),
            valid: Said { sign, text },
        }
    }

    /// Lapsed references with what that costs, what no budget could take in, and figures that were left out.
    fn remarks(&self, result: &BenchResult) -> Vec<Said> {
        let words = self.words;
        // Each names something to know before the answers are relied on: a disc beside it would say that nothing is odd.
        let look = |text| Said { sign: Sign::Look, text };
        let short = say::shortcomings(words, result, &self.about, &usual_decisions());
        let mut remarks: Vec<Said> = short.into_iter().map(|said| look(said.words)).collect();
        if !result.unusable.is_empty() {
            let args = [("count", result.unusable.len().into())];
            remarks.push(look(words.text_with("answer-result-unusable", &args)));
        }
        remarks
    }
}
