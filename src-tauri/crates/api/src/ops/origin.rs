//! Where a slot's readings come from.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedBoard, JudgedCircuit, JudgedReading, Slot};
use crate::ops::circuits::source_line;
use crate::ops::devices::{known_devices, short};
use crate::ops::review::{self, Acceptable};
use crate::ops::run::reason;
use crate::ops::trend::{self, Looked};
use crate::state::State;
use crate::tell;
use crate::views::*;
use chrono::{NaiveDate, TimeDelta};
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::job_file::{Corrected, Fate, NotTested, ReplacedWhy};
use provenohm_words::Words;
use std::collections::BTreeSet;

/// What was put on record within it was put there as it was taken.
const AT_ONCE: TimeDelta = TimeDelta::minutes(2);

pub(crate) fn origin(state: &mut State, asked: OfSlot) -> Result<OriginView, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let (board, circuit, slot) = find(&judged, &asked)?;
    let Slot { stage, pair, .. } = slot.clone();
    let review = review::told(state, &judged, &slot)?;
    let today = state.host.now().date_naive();
    let known = known_devices(&state.record.view(), job)?;
    let me = state.me(job)?.map(|person| state.ids_of(person)).transpose()?.unwrap_or_default();
    let words = &state.words;
    let here = |one: &&JudgedReading| one.reading.stage == stage && one.reading.pair == pair;
    let tell_one = |one: &JudgedReading| OriginReading {
        changeable: one.taken.stands() && judged.may_change(&one.reading, &me),
        ..origin_reading((words, &judged), one, &known, today)
    };
    let covering = slot.covered_by.and_then(|index| judged.readings.get(index));
    let earlier: Vec<OriginReading> =
        judged.readings.iter().filter(here).filter(|one| !one.taken.stands()).map(tell_one).rev().collect();
    let now = slot.readings.last().and_then(|index| judged.readings.get(*index)).or(covering);
    let looked = now.map(|now| Looked { job, board: &board.name, circuit, pair: &pair, stage, now });
    let said_here = |said: &&NotTested| said.stage == stage && said.pair == pair;
    let notes: Vec<&str> = circuit.circuit.notes.iter().map(|note| note.text.as_str()).collect();
    Ok(OriginView {
        place: tell::place(words, &judged, &board.name, &circuit.circuit, &pair),
        current: slot
            .readings
            .iter()
            .filter_map(|index| judged.readings.get(*index))
            .chain(covering)
            .map(tell_one)
            .collect(),
        earlier,
        // Said after a reading was there, it says that no other could be taken.
        not_tested: judged.file.not_tested.iter().rfind(said_here).map(|said| reason(words, said)),
        acceptable: Acceptable::of(&judged, &slot).is_ok(),
        review,
        limit: slot.limit.as_ref().map(|limit| words.demand(limit)).unwrap_or_default(),
        source: slot.limit.as_ref().map(|limit| source_line(words, limit)).unwrap_or_default(),
        visits: match looked {
            None => Vec::new(),
            Some(looked) => trend::of(state, &judged, &looked)?,
        },
        note: (!notes.is_empty()).then(|| notes.join("\n")),
    })
}

/// A slot with its circuit and board.
pub(crate) fn find<'a>(
    judged: &'a Judged,
    asked: &OfSlot,
) -> Result<(&'a JudgedBoard, &'a JudgedCircuit, Slot), Failure> {
    let not_found = || Failure::of("not_found");
    let board = judged.board(asked.board)?;
    let (stage, pair) = crate::judged::slot_of(&asked.slot).ok_or_else(not_found)?;
    let of_circuit = |one: &'a JudgedCircuit| judged.slots_at(&one.circuit, stage).into_iter().map(move |it| (one, it));
    let mut slots = board.circuits.iter().flat_map(of_circuit);
    let (circuit, slot) = slots.find(|(_, slot)| slot.stage == stage && slot.pair == pair).ok_or_else(not_found)?;
    Ok((board, circuit, slot))
}

fn origin_reading(
    (words, judged): (&Words, &Judged),
    one: &JudgedReading,
    known: &BTreeSet<DeviceId>,
    today: NaiveDate,
) -> OriginReading {
    let mut lines = vec![
        line(words, "answer-origin-who", judged.person(one.reading.person).to_owned()),
        line(words, "answer-origin-tester", tester(words, judged, one.reading.tester)),
        line(words, "answer-origin-when", words.date_time(one.reading.at)),
        line(words, "answer-origin-voltage", words.volts(one.reading.test_voltage_v)),
        line(words, "answer-origin-conditions", words.conditions(&one.reading.conditions).join(", ")),
    ];
    // What was put on record long after it was taken came from a table or was corrected: that is no secret.
    if one.taken.recorded_at - one.reading.at >= AT_ONCE {
        lines.insert(3, line(words, "answer-origin-recorded", words.date_time(one.taken.recorded_at)));
    }
    if let Some(device) = one.taken.device {
        let known = if known.contains(&device) { "known" } else { "unknown" };
        let args = [("device", short(device).into()), ("known", known.into())];
        lines.insert(1, line(words, "answer-origin-device", words.text_with("answer-origin-device-known", &args)));
    }
    lines.extend(corrections(words, judged, one).into_iter().map(|it| {
        let args = [("reason", it.correction.reason.as_str().into()), ("before", it.before.into())];
        Line { label: it.what, value: words.text_with("answer-corrected", &args) }
    }));
    OriginReading {
        id: one.reading.id,
        shown: words.reading(&one.reading.shown),
        what: past(words, judged, one),
        judgement: tell::sentences(words, judged, one, Some(today)),
        lines,
        changeable: false,
    }
}

fn line(words: &Words, label: &str, value: String) -> Line {
    Line { label: words.text(label), value }
}

/// `Tester A, serial number 1001`, or that none was chosen.
pub(crate) fn tester(words: &Words, judged: &Judged, id: Option<provenohm_assess::ids::TesterId>) -> String {
    match id.and_then(|id| judged.tester(id)) {
        Some(tester) => words.tester_named(&tester.name, &tester.serial),
        None => words.text("said-header-none"),
    }
}

/// What became of a reading that no longer stands.
pub(crate) fn past(words: &Words, judged: &Judged, one: &JudgedReading) -> Option<String> {
    let past = one.taken.past.as_ref()?;
    Some(match &past.fate {
        Fate::Withdrawn => words.text_with("answer-withdrawn", &[("reason", tell::withdrawn_why(words, past).into())]),
        Fate::NotChosen => {
            let who = past.person.map(|id| judged.person(id).to_owned()).unwrap_or_default();
            let args = [
                ("person", who.into()),
                ("time", words.date_time(past.recorded_at).into()),
                ("reason", tell::not_chosen_why(words, past).into()),
            ];
            words.text_with("answer-not-chosen", &args)
        }
        Fate::Replaced { why, .. } => words.text_with("answer-replaced", &[("reason", replaced(words, *why).into())]),
    })
}

/// Why a reading was replaced.
pub(crate) fn replaced(words: &Words, why: ReplacedWhy) -> String {
    words.text(match why {
        ReplacedWhy::Mistyped => "answer-why-mistyped",
        ReplacedWhy::Repaired => "answer-why-repaired",
        ReplacedWhy::Repeated => "answer-why-repeated",
    })
}

/// A circumstance that was corrected.
pub(crate) struct WasCorrected<'a> {
    /// Which circumstance, in words.
    pub(crate) what: String,
    /// Its value before, in words.
    pub(crate) before: String,
    /// The correction.
    pub(crate) correction: &'a Corrected,
}

/// Each circumstance that was corrected, oldest first.
pub(crate) fn corrections<'a>(words: &Words, judged: &Judged, one: &'a JudgedReading) -> Vec<WasCorrected<'a>> {
    let mut reading = one.taken.reading.clone();
    let mut all = Vec::new();
    for correction in &one.taken.corrections {
        let mut say = |label: &str, before: String| {
            all.push(WasCorrected { what: words.text(label), before, correction });
        };
        if correction.tester.is_some() {
            say("answer-origin-tester", tester(words, judged, reading.tester));
        }
        if correction.test_voltage_v.is_some() {
            say("answer-origin-voltage", words.volts(reading.test_voltage_v));
        }
        if correction.at.is_some() {
            say("answer-origin-when", words.date_time(reading.at));
        }
        if correction.conditions.is_some() {
            say("answer-origin-conditions", words.conditions(&reading.conditions).join(", "));
        }
        correction.apply(&mut reading);
    }
    all
}
