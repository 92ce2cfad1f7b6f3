//! Testers by when their next verification is due.

use crate::failure::Failure;
use crate::ops::interval::interval_of;
use crate::ops::testers::is_invented;
use crate::state::State;
use crate::tell::{self, next_verification};
use crate::views::{Sentence, TesterDue};
use chrono::NaiveDate;
use provenohm_assess::ids::TesterId;
use provenohm_assess::interval::Next;
use provenohm_assess::judgement::Level;
use provenohm_assess::moment::Moment;
use provenohm_assess::policy::Policies;

/// Every tester on this device, those that are due first.
pub(super) fn testers(state: &State, now: Moment) -> Result<Vec<TesterDue>, Failure> {
    let view = state.record.view();
    let words = &state.words;
    let mut testers = Vec::new();
    for one in view.testers()? {
        let id: TesterId = one.tester;
        let tester = provenohm_exchange::tester(&view, id, &mut Vec::new())?;
        let line = tell::tester_line(words, &tester, Policies::default(), now);
        let next = next_verification(&tester, Policies::default(), now);
        let never = || Sentence { level: Level::Look, words: words.text("answer-due-never") };
        let day = match next {
            Some(Next::By(day)) => Some(day),
            Some(Next::Now) | None => None,
        };
        let due = TesterDue {
            id,
            name: line.name,
            serial: line.serial,
            invented: is_invented(&view, id)?,
            state: line.state,
            last_day: day.map(|day| words.date(day)),
            day: day.map(|day| day.to_string()),
            due: interval_of(words, &tester, now).due.unwrap_or_else(never),
        };
        testers.push((urgency(next), due));
    }
    testers.sort_by(|(one, a), (other, b)| {
        one.cmp(other).then_with(|| a.name.cmp(&b.name)).then_with(|| a.serial.cmp(&b.serial))
    });
    Ok(testers.into_iter().map(|(_, due)| due).collect())
}

/// What has to be verified at once stands first, then what never was, then by the last day: those past it before others.
fn urgency(next: Option<Next>) -> (u8, Option<NaiveDate>) {
    match next {
        Some(Next::Now) => (0, None),
        None => (1, None),
        Some(Next::By(day)) => (2, Some(day)),
    }
}
