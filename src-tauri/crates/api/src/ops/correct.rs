//! Correcting circumstances of many readings, replacing and withdrawing one: each with a reason, the old staying visible.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedReading, slot_id};
use crate::ops::run::unit_of;
use crate::ops::undo::token;
use crate::read::Fields;
use crate::state::State;
use crate::tell;
use crate::views::*;
use chrono::{Duration, NaiveDateTime, TimeZone};
use provenohm_assess::ids::{PersonId, ReadingId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Display, Typed as Line, Volts};
use provenohm_assess::reading::{Conditions, Reading};
use provenohm_exchange::entries_of;
use provenohm_logbook::entry::body::{Correction, ReadingTaken, ReplacedWhy};
use provenohm_logbook::entry::{Fact, Role};

pub(crate) fn readings(state: &mut State, asked: ReadingsAsk) -> Result<ReadingsView, Failure> {
    let judged = state.judged(asked.job)?;
    let words = &state.words;
    let asked_for = |board| asked.board.is_none_or(|id| id == board);
    let row = |id, board: &str, circuit, one: &JudgedReading| ReadingRow {
        reading: one.reading.id,
        board: id,
        slot: slot_id(one.reading.stage, &one.reading.pair),
        place: tell::place(words, &judged, board, circuit, &one.reading.pair),
        shown: words.reading(&one.reading.shown),
        tester: super::origin::tester(words, &judged, one.reading.tester),
        volts: words.volts(one.reading.test_voltage_v),
        time: words.date_time(one.reading.at),
        level: one.judgement.level,
    };
    let mut rows = Vec::new();
    for (board, circuit, slot) in judged.slots().filter(|(board, ..)| asked_for(board.id)) {
        let readings = slot.readings.iter().filter_map(|index| judged.readings.get(*index));
        rows.extend(readings.map(|one| row(board.id, &board.name, &circuit.circuit, one)));
    }
    // A correction ends a *Stop* on a circuit that was taken away, as elsewhere.
    let gone = judged.stops_taken_away().filter(|(board, ..)| asked_for(board.id));
    rows.extend(gone.map(|(board, circuit, one)| row(board.id, &board.name, circuit, one)));
    let mut testers = Vec::new();
    for tester in state.record.view().testers()? {
        if let Some(identity) = tester.identity.first() {
            let words = words.tester_named(&identity.name, &identity.serial);
            testers.push(Choice { id: tester.tester.to_string(), words });
        }
    }
    let usual = [100u32, 250, 500, 1000];
    let volts = usual.into_iter().map(|volts| VoltsChoice { volts, words: words.volts(Volts(volts.into())) }).collect();
    Ok(ReadingsView { rows, testers, volts })
}

pub(crate) fn correct_readings(state: &mut State, asked: CorrectReadings) -> Result<Done, Failure> {
    let judged = state.judged(asked.job)?;
    let mut fields = Fields::new(&state.words);
    let reason = fields.needed("reason", &asked.reason, "complaint-reason-needed");
    let date = asked.date.as_deref().and_then(|date| fields.date("date", date));
    if date.is_some_and(|date| date > judged.file.made.at.date_naive()) {
        fields.complain("date", "complaint-in-the-future", &[]);
    }
    let nothing = asked.tester.is_none()
        && asked.volts.is_none()
        && asked.date.is_none()
        && asked.clock_ahead_minutes.is_none()
        && asked.loads.is_none();
    if nothing || asked.readings.is_empty() {
        fields.complain("readings", "complaint-nothing-to-correct", &[]);
    }
    fields.settle(Some(()))?;
    let known = |id: &ReadingId| judged.reading(*id).filter(|one| one.taken.stands());
    let chosen: Vec<&JudgedReading> =
        asked.readings.iter().map(known).collect::<Option<_>>().ok_or_else(|| Failure::of("not_found"))?;
    if let Some(tester) = asked.tester {
        known_tester(state, tester)?;
    }
    // Readings that come to the same values are corrected by one entry; times of day differ, so they may need several.
    let mut groups: Vec<(Option<Moment>, Option<Conditions>, Vec<ReadingId>)> = Vec::new();
    for one in chosen {
        let at = moved(&one.reading, date, asked.clock_ahead_minutes);
        let conditions = asked.loads.map(|loads| Conditions { loads, ..one.reading.conditions });
        match groups.iter_mut().find(|group| group.0 == at && group.1 == conditions) {
            Some(group) => group.2.push(one.reading.id),
            None => groups.push((at, conditions, vec![one.reading.id])),
        }
    }
    let (job, person) = (asked.job, state.person(asked.job)?);
    let count = asked.readings.len();
    let volts = asked.volts.map(|volts| Volts(volts.into()));
    let receipt = state.write(person, |writer| {
        for (at, conditions, readings) in groups {
            let correction = Correction { job, readings, tester: asked.tester, test_voltage_v: volts, at, conditions };
            writer.correct(correction, &reason)?;
        }
        Ok(())
    })?;
    let words = state.words.text_with("answer-readings-corrected", &[("count", count.into())]);
    Ok(Done { words, undo: token(&receipt) })
}

/// The instant a reading was really taken at.
fn moved(reading: &Reading, date: Option<chrono::NaiveDate>, ahead: Option<i32>) -> Option<Moment> {
    let on_date = date.and_then(|date| {
        let local = NaiveDateTime::new(date, reading.at.time());
        reading.at.offset().from_local_datetime(&local).single()
    });
    match (on_date, ahead) {
        (None, None) => None,
        (at, ahead) => Some(at.unwrap_or(reading.at) - Duration::minutes(ahead.unwrap_or(0).into())),
    }
}

fn known_tester(state: &State, tester: TesterId) -> Result<(), Failure> {
    if state.record.view().tester(tester)?.identity.live.is_empty() { Err(Failure::of("not_found")) } else { Ok(()) }
}

/// A reading that stands, and the person here, who may replace or withdraw it.
fn changeable<'a>(
    state: &State,
    judged: &'a Judged,
    reading: ReadingId,
) -> Result<(&'a JudgedReading, PersonId), Failure> {
    let one = judged.reading(reading).filter(|one| one.taken.stands()).ok_or_else(|| Failure::of("not_found"))?;
    let person = state.person(judged.file.job.id)?;
    if judged.may_change(&one.reading, &state.ids_of(person)?) {
        Ok((one, person))
    } else {
        Err(Failure::of("reading_of_another"))
    }
}

pub(crate) fn replace_reading(state: &mut State, asked: ReplaceReading) -> Result<Done, Failure> {
    let judged = state.judged(asked.job)?;
    let (old, person) = changeable(state, &judged, asked.reading)?;
    let refuse = |why| Failure::of("refused").saying(state.words.refusal(why, &asked.text));
    let shown = Line::kept(Display::Tester, asked.comparator, &asked.text)
        .and_then(|line| line.shown(unit_of(asked.unit)))
        .map_err(refuse)?;
    let now = state.host.now();
    let (why, at) = match asked.why {
        // A mistyped reading was taken when the old one was; the others are tests of their own.
        ReplaceReason::Mistyped => (ReplacedWhy::Mistyped, old.reading.at),
        ReplaceReason::Repaired => (ReplacedWhy::Repaired, now),
        ReplaceReason::Repeated => (ReplacedWhy::Repeated, now),
    };
    let reading = Reading { id: ReadingId(state.host.id()?), shown, person, at, ..old.reading.clone() };
    let said = state.words.reading(&shown);
    let replaced = entries_of(&state.record.view(), asked.reading)?;
    let receipt = state.write(person, |writer| {
        let body = ReadingTaken { job: asked.job, reading, why: Some(why) };
        Ok(writer.append(Fact::naming(body, Role::Replaces, replaced))?)
    })?;
    let words = state.words.text_with("answer-reading-replaced", &[("reading", said.into())]);
    Ok(Done { words, undo: token(&receipt) })
}

pub(crate) fn withdraw_reading(state: &mut State, asked: WithdrawReading) -> Result<Done, Failure> {
    let judged = state.judged(asked.job)?;
    let (one, person) = changeable(state, &judged, asked.reading)?;
    let mut fields = Fields::new(&state.words);
    let reason = fields.needed("reason", &asked.reason, "complaint-reason-needed");
    fields.settle(Some(()))?;
    let entries = entries_of(&state.record.view(), asked.reading)?;
    let said = state.words.reading(&one.reading.shown);
    let receipt = state.write(person, |writer| Ok(writer.withdraw(&entries, &reason)?))?;
    let words = state.words.text_with("answer-reading-withdrawn", &[("reading", said.into())]);
    Ok(Done { words, undo: token(&receipt) })
}
