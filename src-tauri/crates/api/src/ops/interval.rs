//! When a tester is due, and the interval its own history proposes.

use crate::failure::Failure;
use crate::read::Fields;
use crate::state::State;
use crate::tell::next_verification;
use crate::views::{LastDay, Sentence, SuggestLastDay};
use chrono::NaiveDate;
use provenohm_assess::interval::{
    Change, Due, Next, Staircase, Step, USUAL_MONTHS, WARN_DAYS, as_found, due, last_day,
};
use provenohm_assess::judgement::Level;
use provenohm_assess::moment::{Moment, When};
use provenohm_assess::policy::Policies;
use provenohm_assess::quantity::Percent;
use provenohm_exchange::job_file::Tester;
use provenohm_words::Words;

/// What is said of a tester's interval.
pub(crate) struct Interval {
    /// From one verification to the next.
    pub(crate) interval: String,
    /// When it is due.
    pub(crate) due: Option<Sentence>,
    /// What its own history proposes, with every figure.
    pub(crate) proposal: Vec<String>,
}

pub(crate) fn suggest_last_day(state: &mut State, asked: SuggestLastDay) -> Result<LastDay, Failure> {
    let tester = state.record.view().tester(asked.tester)?;
    let months = tester.card.first().and_then(|it| it.card.interval_months).unwrap_or(USUAL_MONTHS);
    let mut fields = Fields::new(&state.words);
    let date = fields.date("date", &asked.date);
    let date = fields.settle(date)?;
    // The calendar ends long after any tester does.
    let day = last_day(When::Day { date, offset_minutes: 0 }, months).unwrap_or(date);
    let until = state.words.date(day);
    let args = [("months", months.into()), ("until", until.as_str().into())];
    let words = state.words.text_with("answer-result-suggestion", &args);
    Ok(LastDay { date: until, words })
}

pub(crate) fn interval_of(words: &Words, tester: &Tester, now: Moment) -> Interval {
    let chosen = tester.card.as_ref().and_then(|recorded| recorded.card.interval_months);
    let months = chosen.unwrap_or(USUAL_MONTHS);
    Interval {
        interval: words.text_with("answer-interval", &[("months", months.into())]),
        due: next_verification(tester, Policies::default(), now).map(|next| match next {
            Next::Now => Sentence { level: Level::Look, words: words.text("answer-due-now") },
            Next::By(day) => due_by(words, day, now),
        }),
        proposal: proposal(words, tester),
    }
}

fn due_by(words: &Words, day: NaiveDate, now: Moment) -> Sentence {
    let (level, key, days) = match due(day, now.date_naive(), WARN_DAYS) {
        Due::Later { days } => (Level::Done, "answer-due-later", days),
        Due::Soon { days } => (Level::Remark, "answer-due-soon", days),
        Due::Past { days } => (Level::Look, "answer-due-past", days),
    };
    let args = [("until", words.date(day).into()), ("days", days.into())];
    Sentence { level, words: words.text_with(key, &args) }
}

/// From the usual interval on and never from the one chosen now: taking the advice brings no new evidence.
fn proposal(words: &Words, tester: &Tester) -> Vec<String> {
    let found = tester.histories().first().map(as_found).unwrap_or_default();
    let proposal = Staircase::default().propose(&found);
    if proposal.steps.is_empty() {
        return Vec::new();
    }
    let rule = proposal.staircase;
    let rule = [
        ("share", words.percent(rule.share_percent).into()),
        ("step", rule.step_months.into()),
        ("least", rule.least_months.into()),
        ("most", rule.most_months.into()),
    ];
    let first = words.text_with("answer-proposal", &[("months", proposal.months.into())]);
    let steps = proposal.steps.iter().map(|step| step_words(words, step));
    std::iter::once(first).chain(steps).chain([words.text_with("answer-proposal-rule", &rule)]).collect()
}

fn step_words(words: &Words, step: &Step) -> String {
    let change = match step.change {
        Change::Longer => "longer",
        Change::Kept => "kept",
        Change::Shorter => "shorter",
    };
    let mut args =
        vec![("made", words.when(step.made).into()), ("change", change.into()), ("months", step.months.into())];
    match step.share_percent {
        Some(Percent(share)) => {
            args.push(("share", words.percent(Percent(share)).into()));
            words.text_with("answer-proposal-step", &args)
        }
        None => words.text_with("answer-proposal-step-no-share", &args),
    }
}
