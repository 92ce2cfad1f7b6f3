//! Where a person is in a run, and how the bench is set up. None of it is in the record; what is measured carries it.

use super::step::Step;
use crate::failure::Failure;
use crate::state::State;
use crate::views::StepId;
use provenohm_assess::bench::Series;
use provenohm_assess::ids::{BenchId, ReferenceId};
use provenohm_logbook::record::Writer;
use serde::{Deserialize, Serialize};

/// Where a person is in a run.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Seat {
    /// The step gone to, or the last one done.
    pub(crate) step: Option<StepId>,
    /// That step is done or skipped: the next open one is meant.
    pub(crate) done: bool,
    /// As found or as left.
    pub(crate) series: Series,
    /// Temperature as typed; empty: not measured.
    pub(crate) temperature: String,
    /// The voltmeter that volts are read on.
    pub(crate) voltmeter: Option<ReferenceId>,
    /// The meter that current is read on.
    pub(crate) ammeter: Option<ReferenceId>,
    /// The voltmeter that stands across the resistor while the tester is read.
    pub(crate) across: Option<ReferenceId>,
}

impl Seat {
    pub(crate) fn of(state: &State, bench: BenchId) -> Result<Self, Failure> {
        Ok(state.setting(&Self::kept(state, bench))?.unwrap_or_default())
    }

    pub(crate) fn keep(&self, state: &mut State, bench: BenchId) -> Result<(), Failure> {
        state.keep_setting(&Self::kept(state, bench), self)
    }

    /// The name it is kept under.
    pub(crate) fn kept(state: &State, bench: BenchId) -> String {
        state.own(&format!("bench:{bench}"))
    }

    /// Keeps it in the same transaction as what was measured there: moving on is part of saving.
    pub(crate) fn keep_with(&self, writer: &mut Writer<'_>, kept: &str) -> Result<(), Failure> {
        let text = serde_json::to_string(self).map_err(|error| Failure::of("unexpected").because(error))?;
        Ok(writer.choose(kept, Some(&text))?)
    }

    /// The step now: the one gone to, or the next open one after what is done, from the top once the end is reached.
    pub(crate) fn here<'s, 'r>(&self, steps: &'s [Step<'r>]) -> Option<&'s Step<'r>> {
        let at = self.step.as_ref().and_then(|id| steps.iter().position(|step| step.key.id() == *id));
        match at {
            Some(at) if !self.done => steps.get(at),
            Some(at) => {
                let (before, after) = (steps.get(..at)?, steps.get(at + 1..)?);
                after.iter().chain(before).find(|step| step.is_open())
            }
            None => steps.iter().find(|step| step.is_open()),
        }
    }
}
