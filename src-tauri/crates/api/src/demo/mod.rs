//! The demo: invented, and it says so everywhere. A job of three boards and sixty circuits, an earlier one, and a fleet of
//! six testers, made by the same
//! operations a person uses, on a clock of its own that ends shortly before now.

mod boards;
mod earlier;
mod fleet;
mod recorder;
mod testers;
mod work;

use crate::failure::Failure;
use crate::ops::{cautions, jobs, rules};
use crate::state::State;
use crate::views::{OfJob, SetJobRules, StartJob};
use chrono::Duration;
use provenohm_assess::ids::JobId;
use provenohm_assess::moment::Moment;
use provenohm_assess::policy::{TesterPolicy, ValuePolicy};
use provenohm_logbook::entry::body::Origin;
use std::sync::{Arc, Mutex, PoisonError};

/// The demo's clock: it stands still between acts, so that the same job comes out at every speed.
#[derive(Clone)]
pub(crate) struct Clock(Arc<Mutex<Moment>>);

impl Clock {
    fn at(moment: Moment) -> Self {
        Self(Arc::new(Mutex::new(moment)))
    }

    /// The time on it.
    pub(crate) fn now(&self) -> Moment {
        *self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Lets time pass.
    pub(crate) fn wait(&self, time: Duration) {
        *self.0.lock().unwrap_or_else(PoisonError::into_inner) += time;
    }
}

/// How long before now the demo's work begins.
const DAYS_AGO: i64 = 20;

/// Puts the demo job into the record.
pub(crate) fn make(state: &mut State) -> Result<JobId, Failure> {
    let now = state.host.now();
    let clock = Clock::at(now - Duration::days(DAYS_AGO));
    let told = clock.clone();
    let own = state.host.set_clock(Box::new(move || told.now()));
    let made = build(state, &clock);
    drop(state.host.set_clock(own));
    made
}

fn build(state: &mut State, clock: &Clock) -> Result<JobId, Failure> {
    let words = |state: &State, key: &str| state.words.text(key);
    let annex = earlier::open(state)?;
    let testers = testers::make(state, clock)?;
    earlier::record(state, clock, annex, testers.fails_later)?;
    clock.wait(Duration::days(1));
    let start = StartJob {
        name: words(state, "demo-job"),
        place: words(state, "demo-place"),
        person: words(state, "demo-recorder"),
        role: words(state, "demo-recorder-role"),
    };
    let job = jobs::open_job(state, &start, Origin::Invented)?;
    let set = state.judged(job)?.file.job.limit_set.clone();
    // Guarded, so that a reading can be too close to call.
    let rules = SetJobRules {
        job,
        limit_set: set,
        value_policy: ValuePolicy::Guarded,
        tester_policy: TesterPolicy::Usual,
        quick_check_days: None,
        reason: String::new(),
    };
    rules::set_job_rules(state, rules)?;
    cautions::confirm_cautions(state, OfJob { job })?;
    let boards = boards::make(state, job)?;
    work::record(state, clock, &testers, &boards)?;
    fleet::verify(state, clock, testers.low_end, testers.falls_under_load)?;
    Ok(job)
}
