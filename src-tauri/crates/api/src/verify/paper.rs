//! A schedule's PDF: the data attached to it, the sign-offs in that data, and its pages.

use super::Found;
use crate::failure::Failure;
use crate::long_work::LongWork;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use provenohm_assess::judgement::Level;
use provenohm_exchange::join::Progress;
use provenohm_logbook::entry::Entry;
use provenohm_logbook::seal::borne_out;
use provenohm_papers::report::{Board, Digest, LINES_IN_A_PART, Part, Schedule, Signature, whole_of};
use provenohm_papers::{Attached, NotAttached, Pages, attached, maker};
use provenohm_words::{Locale, Words};

pub(super) fn look(found: &mut Found<'_>, files: &[Vec<u8>], work: &LongWork) -> Result<(), Failure> {
    let mut parts = Vec::new();
    let of = files.len() as u64;
    for (file, done) in files.iter().zip(0..) {
        if work.reached(Progress { done, of }).is_break() {
            return Err(Failure::of("stopped"));
        }
        if let Some((part, attached)) = part(found, file) {
            pages(found, &part, &attached, file);
            parts.push(part);
        }
    }
    let _ = work.reached(Progress { done: of, of });
    parts.sort_by_key(|part| part.number);
    parts.dedup_by_key(|part| part.number);
    let Some(first) = parts.first().cloned() else { return Ok(()) };
    if parts.iter().any(|part| series(part) != series(&first)) {
        found.wrong("answer-verify-parts-mixed", &[]);
        return Ok(());
    }
    let missing: Vec<String> = (1..=first.of)
        .filter(|number| parts.iter().all(|part| part.number != *number))
        .map(|number| number.to_string())
        .collect();
    if missing.is_empty() {
        match whole_of(&parts).and_then(|whole| whole.digest().ok()) {
            Some(digest) if digest == first.whole => {}
            _ => found.wrong("answer-verify-digest", &[]),
        }
    } else {
        let args = [("parts", missing.join(", ").into())];
        found.open = Some(found.words.text_with("answer-verify-parts-missing", &args));
    }
    for one in &first.schedule.signatures {
        signature(found, &first.schedule, &first.whole, one, missing.is_empty());
    }
    Ok(())
}

/// What the parts of one schedule have in common.
fn series(part: &Part) -> (u32, &Digest, &Vec<Signature>) {
    (part.of, &part.whole, &part.schedule.signatures)
}

/// The data of one PDF; what is wrong with it is said.
fn part(found: &mut Found<'_>, file: &[u8]) -> Option<(Part, Attached)> {
    let attached = match attached(file) {
        Ok(attached) => attached,
        Err(NotAttached::Other | NotAttached::Nothing | NotAttached::TooLarge) => {
            found.wrong("answer-verify-no-data", &[]);
            return None;
        }
    };
    let part: Option<Part> = serde_json::from_slice(&attached.model).ok();
    // More than one document holds is not ours, and takes long to place on pages.
    let fits = |part: &Part| part.schedule.boards.iter().map(Board::lines).sum::<usize>() <= LINES_IN_A_PART;
    match part.filter(fits).filter(|part| part.canonical().is_ok_and(|bytes| bytes == attached.model)) {
        Some(part) => Some((part, attached)),
        None => {
            found.wrong("answer-verify-data", &[]);
            None
        }
    }
}

/// Whether the pages are those that the data gives.
fn pages(found: &mut Found<'_>, part: &Part, attached: &Attached, file: &[u8]) {
    let made = Locale::named(&part.schedule.language).map(Words::new);
    let made = made.and_then(|words| Pages::typeset(part, &words).and_then(|pages| pages.pdf()).ok());
    if made.is_some_and(|made| made == file) {
        found.say(Level::Remark, found.words.text("answer-verify-pages-equal"));
    } else if attached.maker == maker() {
        found.wrong("answer-verify-pages-not-equal", &[]);
    } else {
        found.say(Level::Look, found.words.text("answer-verify-pages-other-version"));
    }
}

/// Whether a sign-off in the data is borne out by its seal, and is of this data.
fn signature(found: &mut Found<'_>, schedule: &Schedule, whole: &Digest, one: &Signature, complete: bool) {
    let words = found.words;
    let number = || ("number", one.number.to_string().into());
    let entries: Option<Vec<Entry>> =
        one.entries.iter().map(|text| Entry::from_wire(&STANDARD.decode(text).ok()?).ok()).collect();
    let borne = entries.and_then(|entries| borne_out(&entries)).filter(|borne| {
        let said = &borne.said;
        said.job == schedule.job.id
            && said.number == one.number
            && said.name == one.name
            && borne.at == one.at
            && said.model.to_string() == one.model.as_str()
    });
    let Some(borne) = borne else {
        found.wrong("answer-verify-borne-out", &[number()]);
        return;
    };
    let args = [number(), ("name", one.name.as_str().into()), ("time", words.date_time(one.at).into())];
    found.say(Level::Remark, words.text_with("papers-signed", &args));
    found.say_key(borne.key);
    if one.model == *whole {
        found.signed += usize::from(complete && found.wrong.is_empty());
    } else {
        found.open.get_or_insert_with(|| words.text_with("answer-verify-later", &[number()]));
    }
}
