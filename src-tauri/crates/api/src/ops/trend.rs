//! A pair against earlier visits. An earlier visit is another job at the same place whose board and circuit go by the same
//! names, each once: what has to be guessed at is left out.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedCircuit, JudgedReading};
use crate::state::State;
use crate::tell;
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::group::{Trend, Visit, trend};
use provenohm_assess::ids::JobId;
use provenohm_assess::reading::Reading;
use provenohm_words::Words;

/// The pair that is looked at, by the names people give.
pub(crate) struct Looked<'a> {
    pub(crate) job: JobId,
    pub(crate) board: &'a str,
    pub(crate) circuit: &'a JudgedCircuit,
    pub(crate) pair: &'a Pair,
    pub(crate) stage: Stage,
    /// The reading that stands.
    pub(crate) now: &'a JudgedReading,
}

/// This visit beside each earlier one, in words, the latest first; empty for a pair over several circuits.
pub(crate) fn of(state: &mut State, judged: &Judged, looked: &Looked<'_>) -> Result<Vec<String>, Failure> {
    let place = judged.file.job.place.trim().to_lowercase();
    if place.is_empty() || looked.pair.circuits().len() != 1 {
        return Ok(Vec::new());
    }
    let own = tell::pair_name(&state.words, judged, looked.circuit.circuit.id, looked.pair);
    let jobs: Vec<JobId> =
        state.record.view().jobs()?.iter().map(|job| job.job).filter(|id| *id != looked.job).collect();
    let mut visits = Vec::new();
    for id in jobs {
        if !at_place(state, id, &place)? {
            continue;
        }
        let other = state.judged(id)?;
        visits.extend(visit(&state.words, &other, looked, &own));
    }
    let now = visited(&looked.now.reading);
    Ok(trend(now, &visits).iter().map(|one| said(&state.words, one, now)).collect())
}

/// Whether a job is at a place, by its names alone: it is not judged for that.
fn at_place(state: &State, job: JobId, place: &str) -> Result<bool, Failure> {
    let names = state.record.view().job(job)?.names;
    Ok(names.first().is_some_and(|names| names.place.trim().to_lowercase() == place))
}

/// What the same pair read in another job, where board, circuit and pair are there once.
fn visit(words: &Words, other: &Judged, looked: &Looked<'_>, own: &str) -> Option<Visit> {
    let same = |one: &str, two: &str| one.trim().to_lowercase() == two.trim().to_lowercase();
    let board = only(other.boards.iter().filter(|board| same(&board.name, looked.board)))?;
    let reference = &looked.circuit.circuit.reference;
    let circuit = only(board.circuits.iter().filter(|one| same(&one.circuit.reference, reference)))?;
    let slot = only(circuit.slots.iter().filter(|slot| {
        slot.stage == looked.stage
            && slot.pair.circuits().len() == 1
            && tell::pair_name(words, other, circuit.circuit.id, &slot.pair) == own
    }))?;
    let reading = other.readings.get(*only(slot.readings.iter())?)?;
    Some(visited(&reading.reading))
}

const fn visited(reading: &Reading) -> Visit {
    Visit { at: reading.at, shown: reading.shown, test_voltage_v: reading.test_voltage_v }
}

fn only<T>(mut all: impl Iterator<Item = T>) -> Option<T> {
    let first = all.next()?;
    all.next().is_none().then_some(first)
}

/// `25 Nov 2025: 480 MΩ; now 620 MΩ, 1.3 times that`.
fn said(words: &Words, one: &Trend, now: Visit) -> String {
    let mut args = vec![
        ("when", words.date(one.earlier.at.date_naive()).into()),
        ("earlier", words.reading(&one.earlier.shown).into()),
        ("now", words.reading(&now.shown).into()),
    ];
    if one.other_voltage {
        args.push(("then_volts", words.volts(one.earlier.test_voltage_v).into()));
        args.push(("now_volts", words.volts(now.test_voltage_v).into()));
        return words.text_with("answer-trend-other-voltage", &args);
    }
    match one.ratio {
        None => words.text_with("answer-trend-open", &args),
        Some(ratio) => {
            let number = words.numbers().number(&ratio.value.normalize().to_string());
            let key = match ratio.comparator {
                provenohm_assess::quantity::Comparator::Exact => "answer-trend",
                provenohm_assess::quantity::Comparator::MoreThan => "answer-trend-more",
                provenohm_assess::quantity::Comparator::LessThan => "answer-trend-less",
            };
            args.push(("ratio", number.into()));
            words.text_with(key, &args)
        }
    }
}
