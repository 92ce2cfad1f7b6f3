//! What would be signed, in words, and what was signed before.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedReading};
use crate::ops::devices::known_devices;
use crate::signed::{Signed, Standing, model_of, standing};
use crate::state::State;
use crate::tell;
use crate::views::*;
use provenohm_assess::ids::{DeviceId, JobId, PersonId};
use provenohm_assess::judgement::Level;
use provenohm_assess::moment::Moment;
use provenohm_exchange::bundle::books_of;
use provenohm_logbook::entry::body::SignOff;
use provenohm_logbook::entry::{Body, Role};
use provenohm_logbook::view::{Later, Stated};
use provenohm_papers::report::{Parts, Schedule, Sign as PaperSign, Tester, Totals};
use provenohm_words::Words;
use std::collections::BTreeSet;

/// Later entries listed one by one; of more, the count tells.
const MOST_LISTED: usize = 20;

pub(super) fn view(state: &mut State, job: JobId) -> Result<SignOffView, Failure> {
    let judged = state.judged(job)?;
    let blocked = super::may_sign(state, job).err().map(|failure| failure.worded(&state.words));
    let standing = standing(state, job)?;
    let all = state.record.view().sign_offs(job)?;
    let next = all.iter().map(|one| one.value.number).max().unwrap_or(0) + 1;
    let signed = all.iter().rev().map(|one| line(state, &judged, one, &standing)).collect::<Result<_, _>>()?;
    let view = state.record.view();
    let words = &state.words;
    let known = known_devices(&view, job)?;
    let model = model_of(words, &view, job, &judged)?;
    let totals =
        Parts::of(&model).map_err(|error| Failure::of("schedule").because(error))?.parts.first().map(|it| it.totals);
    let totals = totals.unwrap_or_default();
    let mut entries = 0;
    for book in books_of(&view, job, &[])? {
        entries += view.after(&[], &[book])?.len();
    }
    let fingerprint = model.record.as_ref().map(|digest| digest.fingerprint().to_string()).unwrap_or_default();
    let covers = [
        ("number", next.to_string().into()),
        ("count", entries.into()),
        ("time", words.date_time(model.as_of).into()),
        ("fingerprint", fingerprint.into()),
    ];
    Ok(SignOffView {
        job,
        title: judged.file.job.name.clone(),
        counts: counts(words, totals).into_iter().chain(unknown_devices(words, &judged, &known)).collect(),
        blocked: blocked.map(|failure| Sentence { level: Level::Stop, words: failure.words }),
        testers: model.testers.iter().map(|tester| told(words, tester)).collect(),
        open: open(&model),
        covers: words.text_with("answer-sign-off-covers", &covers),
        button: words.text_with("answer-sign-off-button", &[("count", totals.readings.into())]),
        signed,
    })
}

fn counts(words: &Words, totals: Totals) -> Vec<String> {
    let others = [
        ("papers-count-look", totals.look),
        ("papers-count-accepted", totals.accepted),
        ("papers-count-stop", totals.stop),
        ("papers-count-not-tested", totals.not_tested),
        ("papers-count-missing", totals.missing),
        ("papers-count-past", totals.past),
    ];
    let there = others.into_iter().filter(|(_, count)| *count > 0);
    let all = std::iter::once(("papers-count-readings", totals.readings)).chain(there);
    all.map(|(key, count)| words.text_with(key, &[("count", count.into())])).collect()
}

/// Readings that stand and were recorded on a device that nobody of this job vouches for.
fn unknown_devices(words: &Words, judged: &Judged, known: &BTreeSet<DeviceId>) -> Option<String> {
    let unknown = |one: &&JudgedReading| one.taken.stands() && one.taken.device.is_some_and(|it| !known.contains(&it));
    let count = judged.readings.iter().filter(unknown).count();
    (count > 0).then(|| words.text_with("answer-sign-off-unknown-device", &[("count", count.into())]))
}

fn told(words: &Words, tester: &Tester) -> SignOffTester {
    let mut verifications: Vec<String> = tester.verifications.iter().map(|one| one.sentence.clone()).collect();
    if verifications.is_empty() {
        verifications.push(words.text("papers-verifications-none"));
    }
    SignOffTester {
        words: words.tester_named(&tester.name, &tester.serial),
        state: Sentence { level: level(tester.sign), words: tester.state.clone() },
        verifications,
    }
}

/// What is open: it is looked at, and signed with.
fn open(model: &Schedule) -> Vec<ReadyLine> {
    let listed = model.findings.iter().filter(|finding| level(finding.sign) >= Level::Look);
    let line = |finding: &provenohm_papers::report::Finding| ReadyLine {
        said: Sentence { level: level(finding.sign), words: finding.sentence.clone() },
        to: Some(ReadyPlace::Look),
    };
    listed.map(line).collect()
}

fn level(sign: PaperSign) -> Level {
    match sign {
        PaperSign::Stop => Level::Stop,
        PaperSign::Look => Level::Look,
        PaperSign::Done | PaperSign::ToDo => Level::Remark,
    }
}

/// Who signed, when, under which number.
pub(crate) fn said(words: &Words, one: &Stated<SignOff>) -> String {
    signed(words, one.value.number, &one.value.name, one.recorded)
}

fn signed(words: &Words, number: u64, name: &str, at: Moment) -> String {
    let args = [("number", number.to_string().into()), ("name", name.into()), ("time", words.date_time(at).into())];
    words.text_with("papers-signed", &args)
}

/// Who signed, when, and what has come since.
pub(crate) fn signed_lines(words: &Words, one: &Signed) -> Vec<Sentence> {
    let signed = Sentence { level: Level::Remark, words: signed(words, one.number, &one.name, one.at) };
    std::iter::once(signed).chain(since_counted(words, one)).collect()
}

fn line(state: &State, judged: &Judged, one: &Stated<SignOff>, standing: &[Standing]) -> Result<SignedLine, Failure> {
    let words = &state.words;
    let mut since = Vec::new();
    let mut later = Vec::new();
    let mut more = 0;
    if one.is_live() {
        if let Some(now) = standing.iter().find(|it| it.said.entry == one.entry) {
            since = since_of(words, now);
            let first = now.after.iter().take(MOST_LISTED);
            later = first.map(|it| entry(state, judged, it)).collect::<Result<_, _>>()?;
            more = now.after.len().saturating_sub(MOST_LISTED);
        } else {
            since.push(Sentence { level: Level::Remark, words: words.text("answer-sign-off-followed") });
        }
    } else {
        let acting = state.record.view().acting_on(one.entry)?;
        let reason = acting.into_iter().find(|it| it.role == Role::Withdraws);
        let name = named(state, reason.as_ref().and_then(|it| it.by))?;
        let args = [
            ("name", name.into()),
            ("time", reason.as_ref().map(|it| words.date_time(it.recorded)).unwrap_or_default().into()),
            ("reason", reason.and_then(|it| it.reason).unwrap_or_default().into()),
        ];
        since.push(Sentence { level: Level::Remark, words: words.text_with("answer-sign-off-withdrawn", &args) });
    }
    let (entry, stands, more) = (one.entry.to_string(), one.is_live(), u32::try_from(more).unwrap_or(u32::MAX));
    Ok(SignedLine { entry, words: said(words, one), since, later, more, stands })
}

/// What has come since a sign-off, in sentences.
pub(crate) fn since_of(words: &Words, now: &Standing) -> Vec<Sentence> {
    since_counted(words, &now.counted())
}

fn since_counted(words: &Words, now: &Signed) -> Vec<Sentence> {
    let mut since = Vec::new();
    if now.after == 0 {
        since.push(Sentence { level: Level::Remark, words: words.text("answer-sign-off-nothing-since") });
    } else {
        let args = [("count", now.after.into())];
        since.push(Sentence { level: Level::Look, words: words.text_with("answer-sign-off-after", &args) });
    }
    if now.new_testers > 0 {
        let args = [("count", now.new_testers.into())];
        since.push(Sentence { level: Level::Remark, words: words.text_with("answer-sign-off-new-testers", &args) });
    }
    if now.in_doubt > 0 {
        let args = [("count", now.in_doubt.into())];
        since.push(Sentence { level: Level::Look, words: words.text_with("answer-sign-off-in-doubt", &args) });
    }
    since
}

/// Everything that came after one sign-off, a line an entry.
pub(super) fn after(state: &mut State, job: JobId, entry: &str) -> Result<AfterSignOffView, Failure> {
    let judged = state.judged(job)?;
    let standing = standing(state, job)?;
    let one =
        standing.iter().find(|one| one.said.entry.to_string() == entry).ok_or_else(|| Failure::of("not_found"))?;
    let lines = one.after.iter().map(|it| self::entry(state, &judged, it)).collect::<Result<_, _>>()?;
    Ok(AfterSignOffView { lines })
}

/// The name on somebody's card.
fn named(state: &State, person: Option<PersonId>) -> Result<String, Failure> {
    let card = person.map(|id| state.record.view().card(id)).transpose()?.flatten();
    Ok(card.map(|card| card.name).unwrap_or_default())
}

/// Where what a later entry says, or names, was read.
fn places(state: &State, judged: &Judged, later: &Later) -> Result<Vec<String>, Failure> {
    let view = state.record.view();
    let Some(said) = view.said(later.entry)? else { return Ok(Vec::new()) };
    let mut about = Vec::new();
    for named in said.names.iter().filter(|one| one.role != Role::Replaces) {
        about.extend(view.said(named.entry)?.map(|one| one.value));
    }
    let mut places = Vec::new();
    for body in std::iter::once(said.value).chain(about) {
        let found = match body {
            Body::Reading(it) => {
                // Where two circuits are one, it stands on the one that stands for both.
                let one = judged.reading(it.reading.id).map_or(&it.reading, |one| &one.reading);
                let place = tell::place_of_pair(&state.words, judged, &one.pair);
                place.map(|place| format!("{place}, {}", state.words.reading(&one.shown)))
            }
            Body::NotTested(it) => tell::place_of_pair(&state.words, judged, &it.pair),
            Body::Request(it) => tell::place_of_pair(&state.words, judged, &it.pair),
            _ => None,
        };
        if let Some(place) = found.filter(|place| !places.contains(place)) {
            places.push(place);
        }
    }
    Ok(places)
}

/// One later entry: what it is and where, by whom, when.
fn entry(state: &State, judged: &Judged, later: &Later) -> Result<String, Failure> {
    let words = &state.words;
    let what = later.kind.map_or_else(|| words.text("answer-entry-unknown"), |kind| tell::entry_kind(words, kind));
    let places = places(state, judged, later)?;
    let what = match &places[..] {
        [] => what,
        all => words.text_with("answer-entry-at", &[("what", what.into()), ("place", all.join(", ").into())]),
    };
    let args = [
        ("what", what.into()),
        ("name", named(state, later.by)?.into()),
        ("time", words.date_time(later.recorded).into()),
    ];
    Ok(words.text_with("answer-entry-later", &args))
}
