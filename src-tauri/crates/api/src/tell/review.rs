//! What a reviewer said, in words.

use crate::judged::Judged;
use crate::tally::Tally;
use provenohm_assess::ids::PersonId;
use provenohm_assess::moment::Moment;
use provenohm_exchange::job_file::{Accepted, Requested};
use provenohm_words::{Arg, Words};

/// Who said something, when and why: the places of a sentence.
pub(crate) fn said_by<'a>(
    words: &Words,
    judged: &'a Judged,
    person: PersonId,
    at: Moment,
    reason: Option<&'a str>,
) -> [(&'static str, Arg<'a>); 3] {
    [
        ("person", judged.person(person).into()),
        ("at", words.date_time(at).into()),
        ("reason", reason.unwrap_or_default().into()),
    ]
}

/// That something was accepted, by whom, when and why.
pub(crate) fn accepted(words: &Words, judged: &Judged, said: &Accepted) -> String {
    words.text_with("answer-accepted", &said_by(words, judged, said.person, said.at, Some(&said.reason)))
}

/// That something was accepted before something graver was found.
pub(crate) fn accepted_before(words: &Words, judged: &Judged, said: &Accepted) -> String {
    words.text_with("answer-accepted-before", &said_by(words, judged, said.person, said.at, Some(&said.reason)))
}

/// That new readings are asked for, by whom and why: one line. Nothing where none is.
pub(crate) fn asked(words: &Words, judged: &Judged, requests: &[Requested]) -> Option<String> {
    let said = |asked: &Requested| {
        words.text_with("answer-asked", &said_by(words, judged, asked.person, asked.at, Some(&asked.reason)))
    };
    (!requests.is_empty()).then(|| requests.iter().map(said).collect::<Vec<_>>().join(" · "))
}

/// What is to look at, what was accepted, what is asked for and what stops, counted in words.
pub(crate) fn review_sum(words: &Words, tally: &Tally) -> String {
    let sum = words.text_with("answer-look-and-stop", &[("look", tally.look.into()), ("stop", tally.stop.into())]);
    let accepted =
        (tally.accepted > 0).then(|| words.text_with("answer-look-accepted", &[("count", tally.accepted.into())]));
    [Some(sum), accepted, asked_for(words, tally)].into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

/// How many new readings are asked for; nothing where none is.
pub(crate) fn asked_for(words: &Words, tally: &Tally) -> Option<String> {
    (tally.asked > 0).then(|| words.text_with("answer-look-asked", &[("count", tally.asked.into())]))
}
