//! Saving what was measured: each an immutable fact, appended and flushed before it is shown as saved.

use super::pad::{draft_place, keep_draft, meter, over_range};
use super::run::Run;
use super::seat::Seat;
use super::step::{Figure, Key, Step, steps};
use super::view::{bench_view, last_of};
use crate::failure::Failure;
use crate::ops::run::typed::{draft_view, refused};
use crate::read::Fields;
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::{
    Conditions, LoadReading, LoadRole, Measured, MeasuredWhat, MeterReading, PlannedWhat, Polarity, Resistor, Warmth,
};
use provenohm_assess::ids::{MeasuredId, ReferenceId};
use provenohm_assess::quantity::{Amps, Celsius, Comparator, Refusal, Shown, Typed, Unit, Volts};
use provenohm_logbook::entry::body::MeasuredAt;
use rust_decimal::Decimal;

pub(crate) fn bench_draft(state: &mut State, asked: BenchDraft) -> Result<DraftView, Failure> {
    let key = Key::of(&asked.step).ok_or_else(|| Failure::of("not_found"))?;
    let typed = Typed::kept(key.figure.display(), asked.comparator, &asked.text)
        .map_err(|why| refused(&state.words, why, &asked.text))?;
    let (person, seat) = (state.anyone()?, Seat::of(state, asked.bench)?);
    keep_draft(state, person, (asked.bench, &seat, &asked.step), (&asked.text, asked.comparator))?;
    Ok(draft_view(&state.words, &typed))
}

pub(crate) fn measure(state: &mut State, asked: Measure) -> Result<BenchView, Failure> {
    let run = Run::of(state, asked.bench)?;
    let mut seat = Seat::of(state, asked.bench)?;
    let all = steps(&run, seat.series);
    let step = all.iter().find(|step| step.key.id() == asked.step).ok_or_else(|| Failure::of("not_found"))?;
    if step.blocked {
        return Err(Failure::of("nothing_at_hand"));
    }
    let key = step.key;
    let temperature = read_temperature(&state.words, &seat.temperature)?;
    if !key.warmth.is_reference() && Warmth::of(temperature, run.edition) != key.warmth {
        return Err(Failure::of("other_temperature"));
    }
    let item = item(state, &run, &seat, &key, &asked)?;
    let (at, id) = (state.host.now(), MeasuredId(state.host.id()?));
    let measured = Measured {
        id,
        bench: asked.bench,
        series: seat.series,
        test_voltage_v: key.volts,
        conditions: Conditions { supply: key.supply, position: key.position, temperature_c: temperature },
        at,
        item,
    };
    let person = state.anyone()?;
    let place = draft_place(asked.bench, &seat, &asked.step)?;
    (seat.done, seat.step) = (step.done().saturating_add(1) >= step.of, Some(asked.step));
    let (tester, kept) = (run.tester(), Seat::kept(state, asked.bench));
    state.write(person, |writer| {
        writer.append(MeasuredAt { tester, measured })?;
        writer.keep_draft(&place, "")?;
        seat.keep_with(writer, &kept)
    })?;
    bench_view(state, asked.bench)
}

/// What was measured, if the key fits the step and the digits can be such a figure.
fn item(state: &State, run: &Run, seat: &Seat, key: &Key, asked: &Measure) -> Result<MeasuredWhat, Failure> {
    let words = &state.words;
    let display = key.figure.display();
    let typed = || Typed::kept(display, asked.comparator, &asked.text).map_err(|why| refused(words, why, &asked.text));
    let meter = meter(run, seat, key.figure);
    let read_on = || meter.ok_or_else(|| Failure::of("no_meter"));
    Ok(match key.figure {
        Figure::Indication => {
            let shown = match asked.key {
                BenchKey::K => unit(words, &typed()?, Unit::KiloOhm)?,
                BenchKey::M => unit(words, &typed()?, Unit::MegaOhm)?,
                BenchKey::G => unit(words, &typed()?, Unit::GigaOhm)?,
                BenchKey::OverRange if typed()? != Typed::default() => {
                    return Err(refused(words, Refusal::ClearFirst, &asked.text));
                }
                BenchKey::OverRange => over_range(run, key.volts).ok_or_else(|| Failure::of("no_over_range"))?,
                _ => return Err(Failure::of("other_key")),
            };
            match key.item {
                PlannedWhat::Indication { resistor } => MeasuredWhat::Indication { resistor, across: meter, shown },
                PlannedWhat::LeadsOpen => MeasuredWhat::LeadsOpen { shown },
                PlannedWhat::LeadsShorted => MeasuredWhat::LeadsShorted { shown },
                _ => return Err(Failure::of("other_key")),
            }
        }
        Figure::Voltage => {
            let shown = Volts(figure(words, &typed()?, asked.key, &[(BenchKey::V, 0)])?);
            let voltage = MeterReading { reference: read_on()?, shown };
            match key.item {
                PlannedWhat::OpenCircuit { load } => MeasuredWhat::OpenCircuit { load, voltage },
                item => at_load(item, Some(voltage), None)?,
            }
        }
        Figure::Current => {
            let shown = figure(words, &typed()?, asked.key, &[(BenchKey::MilliA, 3), (BenchKey::MicroA, 6)])?;
            let current = MeterReading { reference: read_on()?, shown: Amps(shown) };
            match key.item {
                PlannedWhat::ShortCircuit => MeasuredWhat::ShortCircuit { current },
                PlannedWhat::Ripple => MeasuredWhat::Ripple { current },
                item => at_load(item, None, Some(current))?,
            }
        }
        Figure::Polarity => MeasuredWhat::Polarity {
            positive: match asked.key {
                BenchKey::LinePositive => Polarity::LinePositive,
                BenchKey::EarthPositive => Polarity::EarthPositive,
                _ => return Err(Failure::of("other_key")),
            },
        },
    })
}

fn at_load(
    item: PlannedWhat,
    voltage: Option<MeterReading<Volts>>,
    current: Option<MeterReading<Amps>>,
) -> Result<MeasuredWhat, Failure> {
    let (role, load): (LoadRole, Resistor) = match item {
        PlannedWhat::RatedLoad { load: Some(load) } => (LoadRole::Rated, load),
        PlannedWhat::FurtherLoad { load } => (LoadRole::Further, load),
        _ => return Err(Failure::of("nothing_at_hand")),
    };
    Ok(MeasuredWhat::AtLoad(LoadReading { role, load, voltage, current }))
}

fn unit(words: &provenohm_words::Words, typed: &Typed, unit: Unit) -> Result<Shown, Failure> {
    typed.shown(unit).map_err(|why| refused(words, why, typed.text()))
}

/// Digits read on a meter, divided by the power of ten of the key.
fn figure(
    words: &provenohm_words::Words,
    typed: &Typed,
    key: BenchKey,
    keys: &[(BenchKey, u32)],
) -> Result<Decimal, Failure> {
    let (_, power) = keys.iter().find(|(known, _)| *known == key).ok_or_else(|| Failure::of("other_key"))?;
    if typed.comparator() != Comparator::Exact {
        return Err(refused(words, Refusal::NotExact, typed.text()));
    }
    let number = typed.number().map_err(|why| refused(words, why, typed.text()))?;
    Ok(number / Decimal::from(10_u64.pow(*power)))
}

/// °C as typed; nothing where the field is empty.
pub(crate) fn read_temperature(words: &provenohm_words::Words, text: &str) -> Result<Option<Celsius>, Failure> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let plain = text.trim_end_matches('C').trim_end_matches('°').trim_end().replace(',', ".").replace('−', "-");
    let read = plain.parse().ok().map(Celsius).filter(|it| it.is_of_a_bench());
    let mut fields = Fields::new(words);
    if read.is_none() {
        fields.complain("temperature", "complaint-temperature", &[]);
    }
    fields.settle(read.map(Some))
}

pub(crate) fn skip_step(state: &mut State, asked: OfStep) -> Result<BenchView, Failure> {
    let run = Run::of(state, asked.bench)?;
    let mut seat = Seat::of(state, asked.bench)?;
    if !steps(&run, seat.series).iter().any(|step| step.key.id() == asked.step) {
        return Err(Failure::of("not_found"));
    }
    (seat.step, seat.done) = (Some(asked.step), true);
    seat.keep(state, asked.bench)?;
    bench_view(state, asked.bench)
}

/// Takes back this person's last act of a run, without end; its digits come back.
pub(crate) fn undo_measured(state: &mut State, asked: OfBench) -> Result<BenchView, Failure> {
    let run = Run::of(state, asked.bench)?;
    let person = state.anyone()?;
    let last = last_of(&run, person).ok_or_else(|| Failure::of("nothing_to_undo"))?;
    let (entry, measured) = (last.entry, last.value.measured);
    let mut seat = Seat::of(state, asked.bench)?;
    seat.series = measured.series;
    let step = step_of(&steps(&run, measured.series), measured.id);
    state.write(person, |writer| Ok(writer.take_back(&[entry])?))?;
    if let Some(key) = step {
        let (text, comparator) = digits(&run, &key, &measured);
        keep_draft(state, person, (asked.bench, &seat, &key.id()), (&text, comparator))?;
        (seat.step, seat.done) = (Some(key.id()), false);
    }
    seat.keep(state, asked.bench)?;
    bench_view(state, asked.bench)
}

pub(crate) fn withdraw_measured(state: &mut State, asked: WithdrawMeasured) -> Result<BenchView, Failure> {
    let run = Run::of(state, asked.bench)?;
    let entries: Vec<_> =
        run.live().filter(|one| one.value.measured.id == asked.measured).map(|one| one.entry).collect();
    if entries.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let mut fields = Fields::new(&state.words);
    let reason = fields.needed("reason", &asked.reason, "complaint-reason-needed");
    fields.settle(Some(()))?;
    let person = state.anyone()?;
    state.write(person, |writer| Ok(writer.withdraw(&entries, &reason)?))?;
    bench_view(state, asked.bench)
}

fn step_of(steps: &[Step<'_>], measured: MeasuredId) -> Option<Key> {
    let step = steps.iter().find(|step| step.measured.iter().any(|it| it.value.measured.id == measured));
    step.map(|step| step.key)
}

/// The digits something was typed as. What one tap recorded comes back as an empty line: the same tap stays ready.
fn digits(run: &Run, key: &Key, one: &Measured) -> (String, Comparator) {
    let amps = |amps: Amps| (amps.0 * Decimal::ONE_THOUSAND).normalize().to_string();
    let meter = |text: String| (text, Comparator::Exact);
    match one.item {
        MeasuredWhat::Indication { shown, .. }
        | MeasuredWhat::LeadsOpen { shown }
        | MeasuredWhat::LeadsShorted { shown } => {
            if over_range(run, key.volts) == Some(shown) {
                meter(String::new())
            } else {
                (shown.digits.to_string(), shown.comparator)
            }
        }
        MeasuredWhat::OpenCircuit { voltage, .. } => meter(voltage.shown.0.to_string()),
        MeasuredWhat::AtLoad(LoadReading { voltage: Some(voltage), .. }) if key.figure == Figure::Voltage => {
            meter(voltage.shown.0.to_string())
        }
        MeasuredWhat::AtLoad(LoadReading { current, .. }) => {
            meter(current.map(|it| amps(it.shown)).unwrap_or_default())
        }
        MeasuredWhat::ShortCircuit { current } | MeasuredWhat::Ripple { current } => meter(amps(current.shown)),
        MeasuredWhat::Polarity { .. } => meter(String::new()),
    }
}

/// The reference a meter is chosen by, kept for what is read next.
pub(crate) fn set_meter(state: &mut State, asked: SetMeter) -> Result<BenchView, Failure> {
    let run = Run::of(state, asked.bench)?;
    let key = Key::of(&asked.step).ok_or_else(|| Failure::of("not_found"))?;
    let mut seat = Seat::of(state, asked.bench)?;
    let meters: Vec<ReferenceId> = match key.figure {
        Figure::Voltage | Figure::Indication => run.voltmeters().map(|one| one.id).collect(),
        Figure::Current => run.ammeters().map(|one| one.id).collect(),
        Figure::Polarity => Vec::new(),
    };
    let fits = asked.meter.is_none_or(|id| meters.contains(&id));
    if !fits {
        return Err(Failure::of("not_found"));
    }
    match key.figure {
        Figure::Voltage => seat.voltmeter = asked.meter,
        Figure::Current => seat.ammeter = asked.meter,
        Figure::Indication | Figure::Polarity => seat.across = asked.meter,
    }
    seat.keep(state, asked.bench)?;
    bench_view(state, asked.bench)
}
