//! What is to be measured: the usual points of a tester with the references at hand, and what own ones are made of.

use super::run::edition;
use super::say;
use crate::failure::Failure;
use crate::ops::references::standing;
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::{
    DecisionPoint, PlannedPoint, PlannedWhat, Resistor, decision_points, least_open_circuit_load, reads_open_circuit,
    usual_points,
};
use provenohm_assess::ids::ReferenceId;
use provenohm_assess::limits::{LimitSet, Loaded, shipped};
use provenohm_assess::quantity::Volts;
use provenohm_assess::reference::{Reference, ReferenceKind};
use provenohm_assess::standard::Edition;
use provenohm_assess::tester::Card;
use provenohm_words::Words;

pub(crate) fn plan_bench(state: &mut State, asked: PlanAsk) -> Result<PlanView, Failure> {
    let tester = state.record.view().tester(asked.tester)?;
    let card = tester.card.first().map(|it| it.card.clone()).ok_or_else(|| Failure::of("no_card"))?;
    let edition = edition(&asked.edition)?;
    let references = chosen(state, &asked.references)?;
    let decisions = decisions(state)?;
    let points = usual_points(&card, &references, &decisions, edition);
    let words = &state.words;
    let on_card = |one: &&DecisionPoint| card.voltages.iter().any(|it| it.test_voltage_v == one.test_voltage_v);
    Ok(PlanView {
        decisions: decisions.iter().filter(on_card).map(|one| decision_words(words, one)).collect(),
        missing: missing(words, &card, &points, &references, edition)
            .into_iter()
            .chain(decisions.iter().filter(on_card).filter_map(|one| nothing_below(words, one, &points)))
            .collect(),
        points: points.iter().map(|point| point_view(words, point, &references)).collect(),
        choices: choices(words, &card, &references, edition),
    })
}

/// The references of those ids, in that order.
pub(crate) fn chosen(state: &State, ids: &[ReferenceId]) -> Result<Vec<Reference>, Failure> {
    let all = standing(state)?;
    ids.iter().map(|id| all.iter().find(|one| one.id == *id).cloned().ok_or_else(|| Failure::of("not_found"))).collect()
}

/// The limits that readings are judged by: of the sets the jobs on this device use, else of the default set.
pub(super) fn decisions(state: &State) -> Result<Vec<DecisionPoint>, Failure> {
    let mut points = Vec::new();
    for job in state.record.view().jobs()? {
        for rules in &job.rules.live {
            if let Ok(loaded) = LimitSet::load(&rules.value.bytes.0) {
                points.extend(decision_points(&loaded.set));
            }
        }
    }
    if points.is_empty() {
        points.extend(usual_decisions());
    }
    points.sort_unstable();
    points.dedup();
    Ok(points)
}

/// The limits of the default set, for what is computed without a job.
pub(crate) fn usual_decisions() -> Vec<DecisionPoint> {
    let default = shipped().ok().and_then(<[Loaded]>::first);
    default.into_iter().flat_map(|loaded| decision_points(&loaded.set)).collect()
}

fn decision_words(words: &Words, one: &DecisionPoint) -> String {
    let args = [("limit", words.ohms(one.limit_ohm).into()), ("volts", words.volts(one.test_voltage_v).into())];
    words.text_with("answer-bench-decision", &args)
}

/// That every voltmeter at hand is too heavy a load for the open-circuit voltage, and which would do.
pub(crate) fn too_heavy(words: &Words, references: &[Reference], volts: Volts, edition: &Edition) -> Option<String> {
    if references.iter().any(|one| reads_open_circuit(one, volts, edition)) {
        return None;
    }
    let least = least_open_circuit_load(volts, edition)?;
    let args = [("volts", words.volts(volts).into()), ("least", words.ohms(least).into())];
    Some(words.text_with("answer-bench-meter-too-heavy", &args))
}

/// That nothing at or below a limit is indicated at its test voltage: there an interval counts only if the leads shorted
/// were tested.
fn nothing_below(words: &Words, decision: &DecisionPoint, points: &[PlannedPoint]) -> Option<String> {
    let at_or_below = |point: &PlannedPoint| {
        let PlannedWhat::Indication { resistor } = point.item else { return false };
        point.test_voltage_v == decision.test_voltage_v && resistor.nominal_ohm <= decision.limit_ohm
    };
    let args =
        [("limit", words.ohms(decision.limit_ohm).into()), ("volts", words.volts(decision.test_voltage_v).into())];
    (!points.iter().any(at_or_below)).then(|| words.text_with("answer-bench-nothing-below", &args))
}

/// What these references leave untested.
fn missing(
    words: &Words,
    card: &Card,
    points: &[PlannedPoint],
    references: &[Reference],
    edition: &Edition,
) -> Vec<String> {
    let mut missing = Vec::new();
    if !references.iter().any(|one| one.input_resistance().is_some()) {
        missing.push(words.text("answer-bench-no-voltmeter"));
    } else {
        let volts = card.voltages.iter().map(|one| one.test_voltage_v);
        missing.extend(volts.filter_map(|volts| too_heavy(words, references, volts, edition)));
    }
    if !references.iter().any(|one| matches!(one.what, ReferenceKind::CurrentMeter { .. })) {
        missing.push(words.text("answer-bench-no-ammeter"));
    }
    let indicated = |point: &&PlannedPoint| matches!(point.item, PlannedWhat::Indication { .. });
    if !points.iter().any(|point| indicated(&point)) {
        missing.push(words.text("answer-bench-no-resistor"));
    }
    let mut unrated: Vec<_> = points
        .iter()
        .filter(|point| matches!(point.item, PlannedWhat::RatedLoad { load: None }))
        .map(|point| point.test_voltage_v)
        .collect();
    unrated.dedup();
    unrated.sort_unstable();
    unrated.dedup();
    missing.extend(
        unrated
            .into_iter()
            .map(|volts| words.text_with("answer-bench-no-rated-load", &[("volts", words.volts(volts).into())])),
    );
    missing
}

fn point_view(words: &Words, point: &PlannedPoint, references: &[Reference]) -> PlanPointView {
    let mut detail = Vec::new();
    if point.repeats > 1 {
        detail.push(words.text_with("answer-bench-times", &[("count", point.repeats.into())]));
    }
    let conditions = say::conditions(words, point.supply, point.position, point.warmth);
    detail.extend((!conditions.is_empty()).then_some(conditions));
    PlanPointView {
        point: *point,
        group: words.volts(point.test_voltage_v),
        title: say::item(words, &point.item, references),
        detail: detail.join(", "),
    }
}

/// What points of one's own are made of.
pub(crate) fn choices(words: &Words, card: &Card, references: &[Reference], edition: &Edition) -> PlanChoices {
    let volts = card.voltages.iter().map(|one| one.test_voltage_v);
    let resistors = references.iter().flat_map(|reference| {
        let of = move |nominal_ohm| Resistor { reference: reference.id, nominal_ohm };
        reference.resistances().iter().map(move |value| of(value.nominal_ohm))
    });
    PlanChoices {
        volts: volts.map(|it| Choice { id: it.0.normalize().to_string(), words: words.volts(it) }).collect(),
        what: say::what(words),
        resistors: resistors
            .map(|resistor| ResistorChoice { resistor, words: say::resistor(words, &resistor, references) })
            .collect(),
        supplies: say::supplies(words),
        positions: say::positions(words),
        warmths: say::warmths(words, edition),
    }
}
