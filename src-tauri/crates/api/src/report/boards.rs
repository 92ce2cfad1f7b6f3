//! Boards, circuits and lines.

use super::{live, memory};
use crate::judged::{Judged, JudgedBoard, JudgedCircuit, JudgedReading, Slot};
use crate::ops::origin::{corrections, replaced};
use crate::ops::run::reasons;
use crate::tell;
use provenohm_assess::circuit::{Measure, Stage};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::judgement::{Level, Value};
use provenohm_exchange::job_file;
use provenohm_papers::report::{
    Accepted, Board, Circuit, Correction, Fate, Limit, Line, Missing, NotTested, Past, Reading, Sign,
};
use provenohm_words::Words;
use std::collections::{BTreeMap, BTreeSet};

/// Puts boards on paper. What no longer stands is found once for all circuits.
pub(super) struct Boards<'a> {
    words: &'a Words,
    judged: &'a Judged,
    /// The readings of each circuit that no longer stand, by the first circuit of their pair.
    past: BTreeMap<CircuitId, Vec<&'a JudgedReading>>,
    /// Circuits with a reading, whether it stands or not.
    measured: BTreeSet<CircuitId>,
}

impl<'a> Boards<'a> {
    pub(super) fn of(words: &'a Words, judged: &'a Judged) -> Self {
        let mut past: BTreeMap<CircuitId, Vec<&JudgedReading>> = BTreeMap::new();
        let mut measured = BTreeSet::new();
        for one in &judged.readings {
            let circuits = one.reading.pair.circuits();
            if let Some(first) = circuits.first().filter(|_| !one.taken.stands()) {
                past.entry(*first).or_default().push(one);
            }
            measured.extend(circuits);
        }
        Self { words, judged, past, measured }
    }

    /// Every board, those taken away last.
    pub(super) fn all(&self) -> Vec<Board> {
        let gone = self.judged.file.boards.iter().filter(|board| board.taken_away);
        let here = self.judged.boards.iter().map(|one| self.board(one));
        here.chain(gone.map(|one| self.taken_away(one))).collect()
    }

    fn board(&self, board: &JudgedBoard) -> Board {
        let own = self.judged.file.boards.iter().filter(|one| one.id == board.id);
        // A circuit taken away stands on paper for what was measured on it.
        let removed = own.flat_map(|one| &one.removed).filter(|one| self.measured.contains(&one.id));
        let removed = removed.map(|one| self.judged.as_judged(one));
        Board {
            id: board.id,
            name: board.name.clone(),
            place: (!board.place.is_empty()).then(|| board.place.clone()),
            circuits: board
                .circuits
                .iter()
                .map(|one| self.circuit(one, false))
                .chain(removed.map(|one| self.circuit(&one, true)))
                .collect(),
        }
    }

    /// A board that was taken away: its circuits stand on paper for what was measured on them.
    fn taken_away(&self, board: &job_file::Board) -> Board {
        let measured = board.circuits.iter().chain(&board.removed).filter(|one| self.measured.contains(&one.id));
        let measured = measured.map(|one| self.judged.as_judged(one));
        Board {
            id: board.id,
            name: self.words.text_with("answer-board-taken-away", &[("board", board.name.as_str().into())]),
            place: (!board.place.is_empty()).then(|| board.place.clone()),
            circuits: measured.map(|one| self.circuit(&one, true)).collect(),
        }
    }

    fn circuit(&self, one: &JudgedCircuit, removed: bool) -> Circuit {
        let Self { words, judged, .. } = *self;
        let electrical = &one.circuit.electrical;
        let mut conditions = tell::beside_conductors(words, electrical);
        conditions.extend(one.circuit.electrical_also.iter().map(|other| live::circuit(words, other)));
        if removed {
            conditions.push(words.text("answer-circuit-taken-away"));
        }
        let past = self.past.get(&one.circuit.id).into_iter().flatten();
        Circuit {
            ids: vec![one.circuit.id],
            reference: one.circuit.reference.clone(),
            description: one.circuit.description.clone(),
            nominal: words.nominal(&electrical.nominal),
            measure: match &electrical.measure {
                Measure::None => String::new(),
                measure => words.measure_name(measure.name()),
            },
            supply: match &electrical.measure {
                Measure::Felv { supply } => Some(words.nominal(supply)),
                _ => None,
            },
            conductors: words.conductors(electrical.conductors),
            conditions,
            notes: one.circuit.notes.iter().map(|note| note.text.clone()).filter(|text| !text.is_empty()).collect(),
            lines: one.slots.iter().flat_map(|slot| lines(words, judged, one, slot, removed)).collect(),
            past: past.filter_map(|it| past_reading(words, judged, it, one.circuit.id)).collect(),
        }
    }
}

/// One line a reading; else that the pair was not tested, or that it is missing.
fn lines(words: &Words, judged: &Judged, one: &JudgedCircuit, slot: &Slot, removed: bool) -> Vec<Line> {
    let circuit = one.circuit.id;
    let readings = slot.readings.iter().filter_map(|index| judged.readings.get(*index));
    let mut lines: Vec<Line> =
        readings.map(|it| Line::Reading(Box::new(reading(words, judged, it, circuit)))).collect();
    let pair = || tell::pair_name(words, judged, circuit, &slot.pair);
    match slot.not_tested.last() {
        Some(said) if lines.is_empty() => lines.push(Line::NotTested(NotTested {
            pair: pair(),
            reason: reasons(words, slot).unwrap_or_default(),
            said_at: said.at,
            person: judged.person(said.person).to_owned(),
            accepted: slot.accepted(judged).map(|said| accepted(judged, said)),
        })),
        _ if slot.is_open() && slot.required && !removed => lines.push(Line::Missing(Missing { pair: pair() })),
        _ => {}
    }
    lines
}

fn reading(words: &Words, judged: &Judged, one: &JudgedReading, circuit: CircuitId) -> Reading {
    let judgement = &one.judgement;
    let about = tell::about(judged, one.reading.tester, None);
    let mut remarks: Vec<String> = judgement.method.iter().map(|reason| words.method_sentence(reason)).collect();
    remarks.extend(judgement.tester.remarks.iter().map(|remark| words.tester_remark(remark)));
    if judgement.tester.state.level() >= Level::Look {
        remarks.extend(judgement.tester.reasons.iter().enumerate().map(|(at, reason)| match at {
            0 => words.tester_reason(reason, &about, &one.reading),
            _ => words.tester_reason_beside(reason, &about, &one.reading),
        }));
    }
    remarks.extend(live::reading(words, judged, one));
    // That it was not isolated is said of the method.
    if one.reading.conditions.n_isolated == Some(true) && judged.has_neutral(&one.reading.pair) {
        remarks.push(words.text("said-n-isolated"));
    }
    // The arithmetic of the guard where it decides; under every reading that meets it would bury the schedule.
    if let (Some(guard), Some(limit)) = (&judgement.value.guard, &judgement.value.limit)
        && judgement.value.value != Value::Meets
    {
        remarks.extend(words.guard_lines(guard, limit, &one.reading.shown));
    }
    Reading {
        id: one.reading.id,
        sign: Sign::from(judgement.level),
        pair: tell::pair_name(words, judged, circuit, &one.reading.pair),
        stage: (one.reading.stage == Stage::After).then(|| words.stage(one.reading.stage)),
        shown: one.reading.shown,
        test_voltage_v: one.reading.test_voltage_v,
        limit: judgement.value.limit.as_ref().map(|limit| Limit {
            minimum_ohm: limit.minimum_ohm,
            source: memory::source(words, limit),
            tag: limit.source.tag,
        }),
        value: judgement.value.value,
        judgement: words.value_sentence(judgement, &one.reading),
        remarks,
        tester: one.reading.tester,
        state: judgement.tester.state,
        tester_state: words.tester_state(judgement.tester.state),
        tester_sign: Sign::from(judgement.tester.level()),
        taken_at: one.reading.at,
        person: judged.person(one.reading.person).to_owned(),
        accepted: judged.acceptance(one).filter(|_| one.taken.stands()).map(|said| accepted(judged, said)),
        corrections: corrections(words, judged, one)
            .into_iter()
            .map(|it| Correction {
                sentence: words.text_with("answer-was", &[("what", it.what.into()), ("before", it.before.into())]),
                reason: it.correction.reason.clone(),
                person: it.correction.person.map(|id| judged.person(id).to_owned()).unwrap_or_default(),
                at: it.correction.recorded_at,
            })
            .collect(),
    }
}

fn accepted(judged: &Judged, said: &job_file::Accepted) -> Accepted {
    Accepted { reason: said.reason.clone(), person: judged.person(said.person).to_owned(), at: said.at }
}

fn past_reading(words: &Words, judged: &Judged, one: &JudgedReading, circuit: CircuitId) -> Option<Past> {
    let past = one.taken.past.as_ref()?;
    let (fate, reason) = match &past.fate {
        job_file::Fate::Withdrawn => (Fate::Withdrawn, tell::withdrawn_why(words, past)),
        job_file::Fate::NotChosen => (Fate::NotChosen, tell::not_chosen_why(words, past)),
        job_file::Fate::Replaced { by, why } => (Fate::Replaced { by: *by }, replaced(words, *why)),
    };
    Some(Past {
        reading: reading(words, judged, one, circuit),
        fate,
        reason,
        person: past.person.map(|id| judged.person(id).to_owned()).unwrap_or_default(),
        at: past.recorded_at,
    })
}
