//! The pad for one step: what to connect, what is read, the keys that save it.

use super::plan::too_heavy;
use super::run::Run;
use super::say;
use super::seat::Seat;
use super::step::{Figure, Key, Step};
use crate::failure::Failure;
use crate::ops::references;
use crate::ops::run::typed::{draft_view, notches};
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::{PlannedWhat, Resistor};
use provenohm_assess::ids::{BenchId, PersonId, ReferenceId};
use provenohm_assess::quantity::{Comparator, Ohms, Shown, Typed, Volts};
use provenohm_assess::reference::Reference;
use provenohm_words::Words;
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

/// Half-typed digits of a step.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
struct Kept {
    text: String,
    comparator: Comparator,
}

fn place(bench: BenchId, seat: &Seat, step: &StepId) -> Result<String, Failure> {
    let series = serde_json::to_string(&seat.series).map_err(|error| Failure::of("unexpected").because(error))?;
    Ok(format!("bench:{bench}:{series}:{}", step.0))
}

/// Keeps half-typed digits of a step, or drops them.
pub(crate) fn keep_draft(
    state: &mut State,
    person: PersonId,
    (bench, seat, step): (BenchId, &Seat, &StepId),
    (text, comparator): (&str, Comparator),
) -> Result<(), Failure> {
    let kept = Kept { text: text.to_owned(), comparator };
    let text = if kept == Kept::default() {
        String::new()
    } else {
        serde_json::to_string(&kept).map_err(|error| Failure::of("unexpected").because(error))?
    };
    Ok(state.record.keep_draft(person, &place(bench, seat, step)?, &text)?)
}

/// The place under which the digits of a step are kept.
pub(crate) fn draft_place(bench: BenchId, seat: &Seat, step: &StepId) -> Result<String, Failure> {
    place(bench, seat, step)
}

/// The half-typed digits of a step.
pub(crate) fn draft(
    state: &State,
    person: PersonId,
    bench: BenchId,
    seat: &Seat,
    step: &Key,
) -> Result<Typed, Failure> {
    let text = state.record.draft(person, &place(bench, seat, &step.id())?)?;
    let kept: Kept = text.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default();
    Ok(Typed::kept(step.figure.display(), kept.comparator, &kept.text).unwrap_or_default())
}

/// What the tester shows above its limit at a test voltage.
pub(crate) fn over_range(run: &Run, volts: Volts) -> Option<Shown> {
    run.card.as_ref()?.voltages.iter().find(|one| one.test_voltage_v == volts)?.over_range
}

/// The meter a step is read on: the chosen one, or the only one at hand. For an indication, the one across the resistor.
pub(crate) fn meter(run: &Run, seat: &Seat, figure: Figure) -> Option<ReferenceId> {
    let of = |chosen: Option<ReferenceId>, hand: Vec<&Reference>| match hand.as_slice() {
        [only] => Some(only.id),
        all => chosen.filter(|id| all.iter().any(|one| one.id == *id)),
    };
    match figure {
        Figure::Voltage => of(seat.voltmeter, run.voltmeters().collect()),
        Figure::Current => of(seat.ammeter, run.ammeters().collect()),
        Figure::Indication => seat.across.filter(|id| run.voltmeters().any(|one| one.id == *id)),
        Figure::Polarity => None,
    }
}

pub(crate) fn pad(state: &State, run: &Run, seat: &Seat, step: &Step<'_>) -> Result<BenchPad, Failure> {
    let words = &state.words;
    let (key, figure) = (&step.key, step.key.figure);
    let person = state.anyone()?;
    let typed = draft(state, person, run.run().id, seat, key)?;
    let across = figure == Figure::Indication && matches!(key.item, PlannedWhat::Indication { .. });
    let hand: Vec<&Reference> = match figure {
        Figure::Voltage => run.voltmeters().collect(),
        Figure::Current => run.ammeters().collect(),
        Figure::Indication if across => run.voltmeters().collect(),
        Figure::Indication | Figure::Polarity => Vec::new(),
    };
    let meter = meter(run, seat, figure);
    let over_range = (figure == Figure::Indication).then(|| over_range(run, key.volts));
    Ok(BenchPad {
        heading: heading(words, run, step),
        asks: asks(words, run, step, meter),
        keys: keys(words, figure),
        most_digits: u32::try_from(figure.display().most_digits()).ok().filter(|_| figure != Figure::Polarity),
        over_range: over_range.map(|shown| OverRangeKey {
            label: shown.map_or_else(|| words.text("answer-over-range-not-set"), |shown| words.reading(&shown)),
            ready: shown.is_some(),
        }),
        ruler_notches: notches(),
        draft: draft_view(words, &typed),
        meters: hand
            .iter()
            .map(|one| Choice { id: one.id.to_string(), words: references::title(words, one) })
            .collect(),
        meter,
        meter_words: match figure {
            _ if hand.is_empty() => String::new(),
            Figure::Voltage | Figure::Current => words.text("answer-bench-meter-read"),
            Figure::Indication | Figure::Polarity => words.text("answer-bench-meter-across"),
        },
        hint: hint(words, run, step, meter),
    })
}

fn heading(words: &Words, run: &Run, step: &Step<'_>) -> String {
    let (key, references) = (&step.key, &run.opened.references);
    let volts = ("volts", words.volts(key.volts).into());
    let with = |name: &str, load: &Resistor| {
        let resistor = ("resistor", say::resistor(words, load, references).into());
        words.text_with(name, &[volts.clone(), resistor])
    };
    let bare = |name: &str| words.text_with(name, std::slice::from_ref(&volts));
    let said = match &key.item {
        PlannedWhat::Indication { resistor } => with("answer-bench-connect", resistor),
        PlannedWhat::RatedLoad { load: Some(load) }
        | PlannedWhat::FurtherLoad { load }
        | PlannedWhat::OpenCircuit { load: Some(load) } => with("answer-bench-connect-load", load),
        PlannedWhat::RatedLoad { load: None } => bare("answer-bench-connect-no-load"),
        PlannedWhat::OpenCircuit { load: None } => bare("answer-bench-connect-meter"),
        PlannedWhat::ShortCircuit | PlannedWhat::Ripple => bare("answer-bench-connect-current"),
        PlannedWhat::LeadsOpen => bare("answer-bench-connect-open"),
        PlannedWhat::LeadsShorted => bare("answer-bench-connect-shorted"),
        PlannedWhat::Polarity => bare("answer-bench-connect-polarity"),
    };
    let conditions = say::conditions(words, key.supply, key.position, key.warmth);
    let parts = [said, range_to_set(words, run, key).unwrap_or_default(), conditions];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
}

/// The range to set a tester of manual ranging to.
fn range_to_set(words: &Words, run: &Run, key: &Key) -> Option<String> {
    let known = match &key.item {
        PlannedWhat::Indication { resistor } => {
            run.reference(resistor.reference)?.resistance(resistor.nominal_ohm)?.stated_ohm
        }
        // Open leads are above every range, shorted ones at the bottom of the lowest.
        PlannedWhat::LeadsOpen => Ohms(Decimal::MAX),
        PlannedWhat::LeadsShorted => Ohms::default(),
        _ => return None,
    };
    let range = run.card.as_ref()?.range_to_set(key.volts, known)?;
    let args = [("from", words.ohms(range.from_ohm).into()), ("to", words.ohms(range.to_ohm).into())];
    Some(words.text_with("answer-bench-set-range", &args))
}

fn asks(words: &Words, run: &Run, step: &Step<'_>, meter: Option<ReferenceId>) -> String {
    let name = meter.and_then(|id| run.reference(id)).map_or("none", |one| &one.name);
    let meter = [("meter", name.into())];
    let asked = match (step.key.figure, &step.key.item) {
        (Figure::Indication, _) => words.text("answer-bench-asks-indication"),
        (Figure::Voltage, _) => words.text_with("answer-bench-asks-volts", &meter),
        (Figure::Current, PlannedWhat::Ripple) => words.text_with("answer-bench-asks-ripple", &meter),
        (Figure::Current, _) => words.text_with("answer-bench-asks-current", &meter),
        (Figure::Polarity, _) => words.text("answer-bench-asks-polarity"),
    };
    if step.of < 2 {
        return asked;
    }
    let (done, of) = (step.done().saturating_add(1).into(), step.of.into());
    let repeat = words.text_with("answer-bench-repeat", &[("now", done), ("of", of)]);
    format!("{asked} · {repeat}")
}

fn keys(words: &Words, figure: Figure) -> Vec<BenchKeyView> {
    let unit = |key, label: &str| BenchKeyView { key, label: label.to_owned() };
    match figure {
        Figure::Indication => vec![unit(BenchKey::K, "kΩ"), unit(BenchKey::M, "MΩ"), unit(BenchKey::G, "GΩ")],
        Figure::Voltage => vec![unit(BenchKey::V, "V")],
        Figure::Current => vec![unit(BenchKey::MicroA, "µA"), unit(BenchKey::MilliA, "mA")],
        Figure::Polarity => vec![
            unit(BenchKey::LinePositive, &words.text("answer-bench-line-positive")),
            unit(BenchKey::EarthPositive, &words.text("answer-bench-earth-positive")),
        ],
    }
}

/// Why nothing can be measured here, or what the known resistance becomes with a meter across it.
fn hint(words: &Words, run: &Run, step: &Step<'_>, meter: Option<ReferenceId>) -> Option<String> {
    if step.blocked {
        return Some(match (step.key.item, step.key.figure) {
            (PlannedWhat::RatedLoad { load: None }, _) => {
                words.text_with("answer-bench-no-rated-load", &[("volts", words.volts(step.key.volts).into())])
            }
            (_, Figure::Voltage) => words.text("answer-bench-no-voltmeter"),
            _ => words.text("answer-bench-no-ammeter"),
        });
    }
    if let (PlannedWhat::OpenCircuit { .. }, Some(meter)) = (&step.key.item, meter.and_then(|id| run.reference(id)))
        && let Some(said) = too_heavy(words, std::slice::from_ref(meter), step.key.volts, run.edition)
    {
        return Some(said);
    }
    let resistor = match &step.key.item {
        PlannedWhat::Indication { resistor } => Some(resistor),
        PlannedWhat::RatedLoad { load } | PlannedWhat::OpenCircuit { load } => load.as_ref(),
        PlannedWhat::FurtherLoad { load } => Some(load),
        _ => None,
    }?;
    let value = run.reference(resistor.reference)?.resistance(resistor.nominal_ohm)?;
    let meter = run.reference(meter?)?;
    let known = meter.across(value.stated_ohm)?;
    Some(words.loaded(resistor.nominal_ohm, meter, known))
}
