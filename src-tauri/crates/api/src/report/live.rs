//! The other values of what two people recorded apart, as long as nobody has chosen.

use crate::judged::{Judged, JudgedReading};
use crate::ops::origin::tester;
use provenohm_assess::circuit::Electrical;
use provenohm_exchange::job_file::RecordedCard;
use provenohm_papers::report::Fact;
use provenohm_words::Words;

/// What the paper says in full at its own place.
const SAID_IN_PLACE: [&str; 3] = ["rules", "electrical", "card"];

/// Another live value of a circuit, in one phrase.
pub(super) fn circuit(words: &Words, other: &Electrical) -> String {
    also(words, &crate::tell::electrical(words, other))
}

/// Each other live value of a reading's circumstances, in one phrase: what differs from the line it stands under. Last,
/// that it could not be taken, where somebody who did not know of it says so.
pub(super) fn reading(words: &Words, judged: &Judged, one: &JudgedReading) -> Vec<String> {
    let shown = &one.reading;
    let others = one.taken.every().into_iter().filter(|other| other != shown);
    let phrase = |label: &str, value: String| {
        words.text_with("answer-circumstance", &[("what", words.text(label).into()), ("value", value.into())])
    };
    others
        .map(|other| {
            let mut differs = Vec::new();
            if other.tester != shown.tester {
                differs.push(phrase("answer-origin-tester", tester(words, judged, other.tester)));
            }
            if other.test_voltage_v != shown.test_voltage_v {
                differs.push(phrase("answer-origin-voltage", words.volts(other.test_voltage_v)));
            }
            if other.at != shown.at {
                differs.push(phrase("answer-origin-when", words.date_time(other.at)));
            }
            if other.conditions != shown.conditions {
                differs.push(phrase("answer-origin-conditions", words.conditions(&other.conditions).join(", ")));
            }
            also(words, &differs.join(", "))
        })
        .chain(judged.denied(shown, &one.taken).map(|said| {
            let own = (!said.words.is_empty()).then_some(said.words.as_str());
            also(words, &words.not_tested(said.reason, own))
        }))
        .collect()
}

/// Another live card of a tester, in one phrase.
pub(super) fn card(words: &Words, other: &RecordedCard) -> String {
    also(words, &crate::tell::card_lines(words, &other.card).join("; "))
}

/// What else waits to be settled: names, places, people.
pub(super) fn others_to_settle(words: &Words, judged: &Judged) -> Vec<Fact> {
    let here = |facet: &str| SAID_IN_PLACE.iter().any(|one| facet.split(':').next() == Some(one));
    let open = judged.file.to_settle.iter().filter(|one| !here(&one.facet));
    let said = open.map(|one| {
        let values: Vec<&str> = one.values.iter().map(|value| value.value.as_str()).collect();
        Fact { label: words.text("answer-two-values"), text: values.join(" / ") }
    });
    said.collect()
}

fn also(words: &Words, value: &str) -> String {
    words.text_with("answer-other-value", &[("value", value.into())])
}
