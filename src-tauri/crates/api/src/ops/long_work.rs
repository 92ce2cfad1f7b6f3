//! How far long work is, and stopping it. Answered while it goes on, so neither may touch the record.

use crate::failure::Failure;
use crate::long_work::LongWork;
use crate::state::State;
use crate::views::{LongWorkView, NoInput};

pub(crate) fn long_work(state: &mut State, _: NoInput) -> Result<LongWorkView, Failure> {
    Ok(view(&state.long_work))
}

pub(crate) fn stop_long_work(state: &mut State, _: NoInput) -> Result<LongWorkView, Failure> {
    state.long_work.stop();
    Ok(view(&state.long_work))
}

/// The answer to an operation of this file, without waiting for the record; none for any other.
pub(crate) fn meanwhile(work: &LongWork, operation: &str) -> Option<LongWorkView> {
    match operation {
        "long_work" => {}
        "stop_long_work" => work.stop(),
        _ => return None,
    }
    Some(view(work))
}

fn view(work: &LongWork) -> LongWorkView {
    let small = |count: u64| u32::try_from(count).unwrap_or(u32::MAX);
    let progress = work.progress();
    LongWorkView { done: small(progress.done), of: small(progress.of) }
}
