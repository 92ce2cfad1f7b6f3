//! What is said of a tester.

use crate::judged::{Judged, JudgedReading};
use crate::ops::bench::usual_decisions;
use crate::views::{Sentence, TesterLine};
use chrono::NaiveDate;
use provenohm_assess::circuit::{End, Pair, Stage};
use provenohm_assess::ids::{PersonId, ReadingId, TesterId};
use provenohm_assess::interval::{self, Due, Next, WARN_DAYS, due};
use provenohm_assess::judge::{Asked, Known, Wanted, judge};
use provenohm_assess::judgement::{GuardSource, Level, TesterJudgement, TesterReason};
use provenohm_assess::limits::{Limit, Source, Tag};
use provenohm_assess::moment::Moment;
use provenohm_assess::policy::{Policies, ValuePolicy};
use provenohm_assess::quantity::{DecimalSign, NumberStyle, Ohms, Percent, Shown, Volts};
use provenohm_assess::reading::{Conditions, Reading};
use provenohm_assess::tester::{Card, Prepared, Ranging, TesterHistory, VoltageCard};
use provenohm_exchange::job_file::Tester;
use provenohm_words::{AboutTester, Words};

/// What sentences need of a reading's tester.
pub(crate) fn about<'a>(judged: &'a Judged, tester: Option<TesterId>, today: Option<NaiveDate>) -> AboutTester<'a> {
    AboutTester {
        name: tester.and_then(|id| judged.tester(id)).map_or("", |tester| &tester.name),
        history: tester.and_then(|id| judged.history(id)),
        today,
    }
}

/// What would be said of the tester for a reading taken now, and at which resistance, where that is not everywhere: over-range
/// as far as its card names one, and at the limits of the default set for that test voltage. The least favourable counts.
fn state_now(
    tester: TesterId,
    history: &TesterHistory,
    volts: Volts,
    policies: Policies,
    now: Moment,
) -> Option<(TesterJudgement, Option<Ohms>)> {
    let card = history.card.as_ref().and_then(|card| card.voltages.iter().find(|one| one.test_voltage_v == volts));
    let over = card.and_then(|card| card.over_range).or_else(|| Shown::parse("10 MΩ").ok())?;
    let prepared = Prepared::new(history);
    let judged = |shown: Shown| {
        let reading = imagined(tester, shown, volts, now);
        let wanted = Wanted::default();
        let known = Known::default();
        judge(&Asked { reading: &reading, wanted: &wanted, tester: Some(&prepared), policies, known }).tester
    };
    let everywhere = judged(over);
    let at_limits = usual_decisions().into_iter().filter(|one| one.test_voltage_v == volts).filter_map(|one| {
        let limit = one.limit_ohm.print(NumberStyle::plain(DecimalSign::Point));
        Some((judged(Shown::parse(&limit).ok()?), Some(one.limit_ohm)))
    });
    let worse = at_limits.filter(|(one, _)| one.state > everywhere.state).max_by_key(|(one, _)| one.state);
    Some(worse.unwrap_or((everywhere, None)))
}

/// A reading nobody took, to ask what would be said of it.
pub(crate) fn imagined(tester: TesterId, shown: Shown, volts: Volts, now: Moment) -> Reading {
    let nobody = uuid::Uuid::nil();
    Reading {
        id: ReadingId(nobody),
        shown,
        pair: Pair { a: End::others(), b: End::earth() },
        stage: Stage::Before,
        test_voltage_v: volts,
        tester: Some(tester),
        person: PersonId(nobody),
        at: now,
        conditions: Conditions::default(),
    }
}

/// The smallest indication that proves a limit with a tester as it is set, under *guarded*, and what that was made from.
pub(crate) fn smallest(
    tester: &Prepared,
    limit: &Limit,
    volts: Volts,
    policies: Policies,
    now: Moment,
) -> Option<(Ohms, GuardSource)> {
    let wanted = Wanted { limit: Some(limit.clone()), ..Wanted::default() };
    let guard_at = |ohms: Ohms| {
        let shown = Shown::parse(&ohms.print(NumberStyle::plain(DecimalSign::Point))).ok()?;
        let reading = imagined(tester.tester(), shown, volts, now);
        judge(&Asked { reading: &reading, wanted: &wanted, tester: Some(tester), policies, known: Known::default() })
            .value
            .guard
    };
    let smallest = guard_at(limit.minimum_ohm)?.smallest_ohm?;
    // The range of the card that it lies in may be another one than that of the limit.
    Some((smallest, guard_at(smallest)?.source))
}

/// The expanded uncertainty of a reading, % of it, by the first figure there is of its tester, and which that was: U of a
/// verification's budget, B, what its maker states, the accuracy of its card. It is the guard its own indication as a
/// limit would ask for.
pub(crate) fn uncertainty_of(judged: &Judged, one: &JudgedReading) -> Option<(Percent, GuardSource)> {
    let reading = &one.reading;
    let tester = judged.testers().of(reading.tester?).first()?;
    let source = Source { title: String::new(), place: String::new(), tag: Tag::Calculated };
    let minimum_ohm = reading.shown.ohms();
    let limit = Limit { minimum_ohm, test_voltage_v: Some(reading.test_voltage_v), set: String::new(), source };
    let wanted = Wanted { limit: Some(limit), ..Wanted::default() };
    let policies = Policies { value: ValuePolicy::Guarded, ..judged.file.job.policies };
    let asked = Asked { reading, wanted: &wanted, tester: Some(tester), policies, known: Known::default() };
    let guard = judge(&asked).value.guard?;
    Some((guard.percent_of(minimum_ohm)?, guard.source))
}

/// What would be said of a tester for a reading taken now; of several test voltages the least favourable.
struct Now {
    judgement: TesterJudgement,
    history: TesterHistory,
    /// At which resistance, where that is not everywhere.
    at: Option<Ohms>,
}

fn now_of(tester: &Tester, volts: Option<Volts>, policies: Policies, now: Moment) -> Option<Now> {
    all_now(tester, volts, policies, now).into_iter().max_by_key(|one| one.judgement.state)
}

/// At the test voltage asked for, else at each of the card.
fn all_now(tester: &Tester, volts: Option<Volts>, policies: Policies, now: Moment) -> Vec<Now> {
    let histories = tester.histories();
    let card = histories.first().and_then(|history| history.card.as_ref());
    let all: Vec<Volts> = match (volts, card) {
        (Some(volts), _) => vec![volts],
        (None, Some(card)) => card.voltages.iter().map(|one| one.test_voltage_v).collect(),
        (None, None) => Vec::new(),
    };
    let all = if all.is_empty() { vec![Volts(500.into())] } else { all };
    let judged = histories.iter().flat_map(|history| {
        all.iter().filter_map(move |volts| {
            let (judgement, at) = state_now(tester.id, history, *volts, policies, now)?;
            Some(Now { judgement, history: history.clone(), at })
        })
    });
    judged.collect()
}

/// When a tester is to be verified again; nothing if it never was.
pub(crate) fn next_verification(tester: &Tester, policies: Policies, now: Moment) -> Option<Next> {
    tester.verifications.first()?;
    let all = all_now(tester, None, policies, now);
    Some(interval::next_verification(all.iter().map(|one| &one.judgement)))
}

/// The line of the header: `Tester A · proved to 3 Mar 2027`.
pub(crate) fn header(
    words: &Words,
    tester: &Tester,
    volts: Option<Volts>,
    policies: Policies,
    now: Moment,
) -> Sentence {
    said_now(words, tester, now_of(tester, volts, policies, now).as_ref(), now)
}

fn said_now(words: &Words, tester: &Tester, state: Option<&Now>, now: Moment) -> Sentence {
    let Some(Now { judgement, history, at }) = state else {
        return Sentence { level: Level::Look, words: tester.name.clone() };
    };
    let about = AboutTester { name: &tester.name, history: Some(history), today: Some(now.date_naive()) };
    let header = words.tester_header(judgement, &about);
    let words = match at.map(|ohms| words.ohms(ohms)) {
        None => header,
        Some(at) => words.text_with("answer-header-at", &[("header", header.into()), ("at", at.into())]),
    };
    Sentence { level: judgement.state.level(), words }
}

/// A tester in a list, with its state today, and a warning ahead of the last day of its verification.
pub(crate) fn tester_line(words: &Words, tester: &Tester, policies: Policies, now: Moment) -> TesterLine {
    let found = now_of(tester, None, policies, now);
    let state = said_now(words, tester, found.as_ref(), now);
    let until = found.as_ref().and_then(|one| match one.judgement.reasons.first() {
        Some(TesterReason::ProvedBy { valid_until, .. }) => Some(*valid_until),
        _ => None,
    });
    let soon = until.filter(|_| state.level < Level::Look).map(|day| due(day, now.date_naive(), WARN_DAYS));
    let state = match soon {
        Some(Due::Soon { days }) => Sentence {
            level: Level::Look,
            words: words.text_with("answer-tester-due", &[("header", state.words.into()), ("days", days.into())]),
        },
        _ => state,
    };
    TesterLine { id: tester.id, name: tester.name.clone(), serial: tester.serial.clone(), state, invented: false }
}

/// A card in words: a line for the test voltages with the same ranges.
pub(crate) fn card_lines(words: &Words, card: &Card) -> Vec<String> {
    let said = card.voltages.iter().map(|voltage| (words.volts(voltage.test_voltage_v), ranges(words, voltage)));
    let line = |(volts, ranges): (String, String)| {
        words.text_with("answer-card-line", &[("volts", volts.into()), ("ranges", ranges.into())])
    };
    let ranging = card.ranging.map(|ranging| words.text(ranging_key(ranging)));
    together(said).into_iter().map(line).chain(ranging).collect()
}

/// Who chooses the ranges.
pub(crate) const fn ranging_key(ranging: Ranging) -> &'static str {
    match ranging {
        Ranging::Automatic => "answer-card-ranging-automatic",
        Ranging::Manual => "answer-card-ranging-manual",
    }
}

/// What is said alike of several test voltages is said once of all of them, in the order of the first.
pub(crate) fn together<T: PartialEq>(said: impl IntoIterator<Item = (String, T)>) -> Vec<(String, T)> {
    let mut lines: Vec<(String, T)> = Vec::new();
    for (volts, what) in said {
        match lines.iter_mut().find(|(_, said)| *said == what) {
            Some((all, _)) => *all = format!("{all}, {volts}"),
            None => lines.push((volts, what)),
        }
    }
    lines
}

fn ranges(words: &Words, voltage: &VoltageCard) -> String {
    let mut ranges: Vec<String> = voltage
        .ranges
        .iter()
        .map(|range| {
            let mut args = vec![
                ("from", words.ohms(range.from_ohm).into()),
                ("to", words.ohms(range.to_ohm).into()),
                ("resolution", words.step_alone(range.resolution_ohm).into()),
            ];
            match (range.accuracy_percent, range.accuracy_digits) {
                (Some(percent), digits) => {
                    args.push(("percent", words.percent(percent).into()));
                    args.push(("digits", digits.unwrap_or(0).into()));
                    words.text_with("answer-card-range-accuracy", &args)
                }
                (None, _) => words.text_with("answer-card-range", &args),
            }
        })
        .collect();
    if let Some(over_range) = voltage.over_range {
        ranges.push(words.text_with("answer-card-over-range", &[("reading", words.reading(&over_range).into())]));
    }
    ranges.join("; ")
}
