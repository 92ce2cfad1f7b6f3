//! The bench: runs of a tester, worked through step by step.

mod close;
mod compare;
mod drift;
pub(crate) mod figures;
mod measure;
mod pad;
mod plan;
pub(crate) mod plot;
mod result;
pub(crate) mod run;
pub(crate) mod say;
mod seat;
mod set;
mod start;
pub(crate) mod step;
#[cfg(test)]
mod tests;
mod view;

pub(crate) use close::close_bench;
pub(crate) use compare::compare;
pub(crate) use drift::{drift, drift_until};
pub(crate) use measure::{bench_draft, measure, set_meter, skip_step, undo_measured, withdraw_measured};
pub(crate) use plan::{plan_bench, usual_decisions};
pub(crate) use result::bench_result;
pub(crate) use set::{set_bench_look, set_plan, set_series, set_temperature};
pub(crate) use start::{benches, start_bench};
pub(crate) use step::{Figure, Key};
pub(crate) use view::bench;
