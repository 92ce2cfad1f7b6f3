//! A record, or a bundle taken into one: its chains, its seals, and what was signed over it.

use super::{Found, place};
use crate::failure::Failure;
use crate::host::Host;
use crate::ops::sign_off::said;
use crate::signed::{Since, model_of, put_together};
use crate::state::maker;
use provenohm_assess::RULES_VERSION;
use provenohm_assess::ids::JobId;
use provenohm_assess::judgement::Level;
use provenohm_exchange::job_file::Made;
use provenohm_logbook::chain::{Fault, LogReport};
use provenohm_logbook::entry::body::{Book, SignOff};
use provenohm_logbook::entry::{Hash, LogId};
use provenohm_logbook::record::Record;
use provenohm_logbook::seal::borne_out;
use provenohm_logbook::view::{Stated, View};
use provenohm_words::{Locale, Words};

pub(super) fn look(found: &mut Found<'_>, host: &mut Host, record: &Record) -> Result<(), Failure> {
    let view = record.view();
    let books = view.books()?;
    let (mut entries, mut unsealed) = (0, 0);
    for book in &books {
        for (log, report) in view.check(*book)? {
            entries += report.entries;
            unsealed += report.entries.saturating_sub(report.authentic);
            faults(found, log, &report);
        }
        let missing: u64 = view.gaps(*book)?.iter().map(|gap| gap.missing()).sum();
        if missing > 0 {
            found.say(Level::Look, found.words.text_with("answer-verify-gap", &[("count", missing.into())]));
        }
    }
    let counted = [("entries", entries.into()), ("books", books.len().into())];
    found.say(Level::Remark, found.words.text_with("answer-verify-counted", &counted));
    if unsealed > 0 {
        found.say(Level::Remark, found.words.text_with("answer-verify-unsealed", &[("count", unsealed.into())]));
    }
    for book in &books {
        let Book::Job { job } = book else { continue };
        for one in view.sign_offs(*job)? {
            sign_off(found, host, &view, *job, &one)?;
        }
    }
    Ok(())
}

fn faults(found: &mut Found<'_>, log: LogId, report: &LogReport) {
    for fault in &report.faults {
        match fault {
            Fault::Altered { seq, .. } => found.wrong("answer-verify-altered", &place(log.0, seq.0)),
            Fault::BrokenLink(entry) => found.wrong("answer-verify-link", &place(log.0, entry.seq.0)),
            Fault::BadSeal(entry) => found.wrong("answer-verify-seal", &place(log.0, entry.seq.0)),
            // Shown beside what is there; none of them says that anything was altered.
            Fault::Gap { .. } | Fault::Fork { .. } | Fault::ClockBack(_) => {}
        }
    }
}

/// One sign-off: its seal, what it covers, and what that gives.
fn sign_off(
    found: &mut Found<'_>,
    host: &mut Host,
    view: &View<'_>,
    job: JobId,
    one: &Stated<SignOff>,
) -> Result<(), Failure> {
    let words = found.words;
    let number = || ("number", one.value.number.to_string().into());
    found.say(Level::Remark, said(words, one));
    let before = found.wrong.len();
    match borne_out(&view.evidence(one.entry)?) {
        Some(borne) => {
            found.say_key(borne.key);
            let known =
                view.devices(job)?.iter().any(|it| it.known && it.device == borne.device && it.key == borne.key);
            let (level, key) = match known {
                true => (Level::Remark, "answer-verify-device-known"),
                false => (Level::Look, "answer-verify-device-unknown"),
            };
            found.say(level, words.text(key));
        }
        None => found.wrong("answer-verify-sign-off-seal", &[number()]),
    }
    let covered = view.covered(&one.value.cut)?;
    for (log, seq) in &covered.missing {
        if view.entries_of(*log)?.is_empty() {
            found.wrong("answer-verify-log-missing", &[("log", log.0.to_string().into()), number()]);
        } else {
            let [log, seq] = place(log.0, seq.0);
            found.wrong("answer-verify-missing", &[log, seq, number()]);
        }
    }
    if covered.missing.is_empty() {
        what_it_gives(found, host, view, job, one, covered.erased)?;
    }
    if !one.is_live() {
        return Ok(());
    }
    found.signed += usize::from(found.wrong.len() == before);
    let after = Since::of(view, job, one)?.after.len();
    if after > 0 {
        let args = [("count", after.into()), number()];
        found.say(Level::Look, words.text_with("answer-verify-after", &args));
    }
    Ok(())
}

/// Whether the entries give the limit set and the report model that were signed.
fn what_it_gives(
    found: &mut Found<'_>,
    host: &mut Host,
    view: &View<'_>,
    job: JobId,
    one: &Stated<SignOff>,
    erased: u64,
) -> Result<(), Failure> {
    let said = &one.value;
    let number = || ("number", said.number.to_string().into());
    let language = Locale::named(&said.language);
    if said.rules != u64::from(RULES_VERSION) || language.is_none() {
        let args = [("signed", said.rules.to_string().into()), ("here", RULES_VERSION.to_string().into())];
        found.say(Level::Look, found.words.text_with("answer-verify-judged-otherwise", &args));
        return Ok(());
    }
    let made = Made { at: host.now(), by: maker() };
    let mut past = Record::in_memory(host)?;
    // What cannot be put together is not what was signed.
    let judged = put_together(view, job, &said.cut, &mut past, made).ok().flatten();
    let words = language.map_or_else(|| found.words.clone(), Words::new);
    let digest = judged.and_then(|judged| model_of(&words, &past.view(), job, &judged).ok()?.digest().ok());
    let set = past.view().job(job)?.rules.first().map(|rules| Hash::of(&[&rules.bytes.0]));
    if set.is_some_and(|set| set != said.limit_set) {
        found.wrong("answer-verify-limit-set", &[number()]);
    }
    if digest.is_some_and(|digest| digest.as_str() == said.model.to_string()) {
        return Ok(());
    }
    if erased > 0 {
        found.say(Level::Look, found.words.text_with("answer-verify-erased", &[("count", erased.into())]));
    } else {
        found.wrong("answer-verify-model", &[number()]);
    }
    Ok(())
}
