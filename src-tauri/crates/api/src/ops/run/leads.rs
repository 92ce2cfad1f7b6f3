//! The lead check: leads shorted, leads open.

use super::hand::Hand;
use super::typed;
use super::view::{over_range, run_view};
use crate::failure::Failure;
use crate::judged::Judged;
use crate::state::State;
use crate::views::*;
use provenohm_assess::ids::CheckId;
use provenohm_assess::judgement::Level;
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Comparator, Digits, Shown, Unit};
use provenohm_assess::tester::{LeadCheck, LeadEnd};
use provenohm_words::Words;

pub(crate) fn record_lead_check(state: &mut State, asked: LeadCheckAsk) -> Result<LeadChecked, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let hand = Hand::of(state)?;
    let tester = hand.tester.ok_or_else(|| Failure::of("no_tester"))?;
    let limit = over_range(&judged, &hand);
    let card = judged.history(tester).and_then(|history| history.card.as_ref());
    let stated = card.and_then(|card| card.shorted_up_to);
    let shown = match &asked.indication {
        // One tap says *as its card says*: what the card says, or `0.00 MΩ`.
        LeadIndication::NearZero => stated.map_or_else(zero, Ok)?,
        LeadIndication::OverRange => limit.ok_or_else(|| Failure::of("no_over_range"))?,
        LeadIndication::Typed(line) => typed::read(&state.words, line)?,
    };
    // Judged when taken, against the card.
    let good = asked.leads.is_as_expected(shown, stated, limit);
    let person = state.person(job)?;
    let check = LeadCheck {
        id: CheckId(state.host.id()?),
        tester,
        leads: asked.leads,
        shown,
        good,
        person,
        at: state.host.now(),
        job_started: judged.file.job.started_at,
    };
    state.write(person, |writer| Ok(writer.append(check)?))?;
    let key = match (asked.leads, good) {
        (LeadEnd::Shorted, true) => "answer-leads-shorted-good",
        (LeadEnd::Shorted, false) => "answer-leads-shorted-not-good",
        (LeadEnd::Open, true) => "answer-leads-open-good",
        (LeadEnd::Open, false) => "answer-leads-open-not-good",
    };
    let words = state.words.text_with(key, &[("reading", state.words.reading(&shown).into())]);
    let level = if good { Level::Done } else { Level::Look };
    Ok(LeadChecked { said: Sentence { level, words }, run: run_view(state, asked.board, None)? })
}

/// `0.00 MΩ`.
fn zero() -> Result<Shown, Failure> {
    let digits = Digits::new(0, 2).ok_or_else(|| Failure::of("unexpected"))?;
    Ok(Shown { comparator: Comparator::Exact, digits, unit: Unit::MegaOhm })
}

/// Where the lead check of the tester in hand stands today.
pub(crate) fn standing(words: &Words, judged: &Judged, hand: &Hand, now: Moment) -> Sentence {
    let today = now.date_naive();
    let checks = hand.tester.and_then(|id| judged.history(id)).map_or(&[][..], |history| &history.lead_checks);
    let last = checks.iter().filter(|check| check.at.date_naive() == today).max_by_key(|check| check.at);
    match last {
        None => Sentence { level: Level::Remark, words: words.text("answer-lead-check-due") },
        Some(check) => {
            let key = if check.good { "answer-lead-check-good" } else { "answer-lead-check-not-good" };
            Sentence {
                level: if check.good { Level::Done } else { Level::Look },
                words: words.text_with(key, &[("at", words.time(check.at).into())]),
            }
        }
    }
}
