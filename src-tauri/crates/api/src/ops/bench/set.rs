//! What a run is made of, changed while it is worked on: series, temperature, the look at the tester, the plan.

use super::measure::read_temperature;
use super::run::Run;
use super::seat::Seat;
use super::start::MOST_POINTS;
use super::view::bench_view;
use crate::failure::Failure;
use crate::read::{Fields, NAME_MOST};
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::{BenchRun, Series};
use provenohm_assess::ids::BenchId;
use provenohm_logbook::entry::body::BenchOpened;
use provenohm_logbook::entry::{Fact, Role};

/// As left means that the tester was adjusted. Back to as found while nothing as left is on record: it was not.
pub(crate) fn set_series(state: &mut State, asked: SetSeries) -> Result<BenchView, Failure> {
    let run = Run::of(state, asked.bench)?;
    let as_left = run.live().any(|one| one.value.measured.series == Series::AsLeft);
    let adjusted = asked.series == Series::AsLeft || (run.run().adjusted && as_left);
    change(state, asked.bench, |run| run.adjusted = adjusted)?;
    let seat = Seat { series: asked.series, step: None, done: false, ..Seat::of(state, asked.bench)? };
    seat.keep(state, asked.bench)?;
    bench_view(state, asked.bench)
}

pub(crate) fn set_temperature(state: &mut State, asked: SetTemperature) -> Result<BenchView, Failure> {
    read_temperature(&state.words, &asked.temperature)?;
    let seat = Seat { temperature: asked.temperature.trim().to_owned(), ..Seat::of(state, asked.bench)? };
    seat.keep(state, asked.bench)?;
    bench_view(state, asked.bench)
}

pub(crate) fn set_bench_look(state: &mut State, asked: SetLook) -> Result<BenchView, Failure> {
    let mut fields = Fields::new(&state.words);
    let mark = fields.optional("mark", &asked.mark, NAME_MOST);
    fields.settle(Some(()))?;
    change(state, asked.bench, |run| {
        run.look = asked.look;
        run.mark = (!mark.is_empty()).then_some(mark);
    })?;
    bench_view(state, asked.bench)
}

pub(crate) fn set_plan(state: &mut State, asked: SetPlan) -> Result<BenchView, Failure> {
    let mut fields = Fields::new(&state.words);
    if asked.plan.len() > MOST_POINTS {
        fields.complain("plan", "complaint-count", &[("most", MOST_POINTS.into())]);
    }
    fields.settle(Some(()))?;
    change(state, asked.bench, |run| run.plan = asked.plan)?;
    bench_view(state, asked.bench)
}

/// Another value of the run's facet, in place of the present one. Nothing is written where nothing changes.
fn change(state: &mut State, id: BenchId, act: impl FnOnce(&mut BenchRun)) -> Result<(), Failure> {
    let Run { bench, opened, .. } = Run::of(state, id)?;
    let mut run = opened.run.clone();
    act(&mut run);
    if run == opened.run {
        return Ok(());
    }
    let fact = BenchOpened { run, references: opened.references };
    let person = state.anyone()?;
    state.write(person, |writer| Ok(writer.append(Fact::naming(fact, Role::Replaces, bench.opened.current()))?))?;
    Ok(())
}
