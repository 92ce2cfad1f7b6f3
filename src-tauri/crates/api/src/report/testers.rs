//! The testers used on the job, with the verifications relied on and those that put readings in doubt.

use super::live;
use crate::judged::Judged;
use crate::ops::verifications::{lines, title};
use crate::tell;
use provenohm_assess::tester::LeadEnd;
use provenohm_exchange::job_file;
use provenohm_papers::report::{Sign, Tester, Verification};
use provenohm_words::Words;
use std::collections::BTreeSet;

pub(super) fn testers(words: &Words, judged: &Judged) -> Vec<Tester> {
    let readings = judged.readings.iter();
    let used: BTreeSet<_> = readings.flat_map(|one| [one.reading.tester, one.taken.reading.tester]).flatten().collect();
    judged.file.testers.iter().filter(|tester| used.contains(&tester.id)).map(|it| tester(words, judged, it)).collect()
}

fn tester(words: &Words, judged: &Judged, tester: &job_file::Tester) -> Tester {
    let own = judged.readings.iter().filter(|one| one.taken.stands() && one.reading.tester == Some(tester.id));
    let worst = own.map(|one| &one.judgement.tester).max_by_key(|judgement| judgement.state);
    let mut made: Vec<_> = tester.verifications.iter().collect();
    made.sort_by_key(|one| one.recorded_at);
    Tester {
        id: tester.id,
        name: tester.name.clone(),
        serial: tester.serial.clone(),
        card: cards(words, tester),
        state: worst.map(|judgement| words.tester_state(judgement.state)).unwrap_or_default(),
        sign: worst.map_or(Sign::Done, |judgement| Sign::from(judgement.level())),
        verifications: made
            .into_iter()
            .map(|one| Verification {
                id: one.verification.id,
                sentence: title(words, &one.verification),
                statements: lines(words, &one.verification),
                recorded_at: one.recorded_at,
                recorded_by: one.recorded_by.map(|id| judged.person(id).to_owned()).unwrap_or_default(),
            })
            .collect(),
        remarks: remarks(words, tester),
    }
}

/// The card in words, then each other live one.
fn cards(words: &Words, tester: &job_file::Tester) -> Vec<String> {
    let card = tester.card.iter().flat_map(|card| tell::card_lines(words, &card.card));
    card.chain(tester.card_also.iter().map(|other| live::card(words, other))).collect()
}

/// Lead checks and damage, in words, oldest first.
fn remarks(words: &Words, tester: &job_file::Tester) -> Vec<String> {
    let mut all: Vec<_> = tester
        .lead_checks
        .iter()
        .map(|one| {
            let check = &one.check;
            let key = match (check.leads, check.good) {
                (LeadEnd::Shorted, true) => "answer-leads-shorted-good",
                (LeadEnd::Shorted, false) => "answer-leads-shorted-not-good",
                (LeadEnd::Open, true) => "answer-leads-open-good",
                (LeadEnd::Open, false) => "answer-leads-open-not-good",
            };
            let said = words.text_with(key, &[("reading", words.reading(&check.shown).into())]);
            (check.at, said)
        })
        .chain(tester.damages.iter().map(|one| (one.damage.found, one.damage.what.clone())))
        .collect();
    all.sort_by_key(|(at, _)| *at);
    all.into_iter()
        .map(|(at, said)| {
            words.text_with("answer-at-time", &[("at", words.date_time(at).into()), ("what", said.into())])
        })
        .collect()
}
