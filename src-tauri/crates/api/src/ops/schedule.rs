//! The schedule. Until the documents are there, asking for one fails in words.

use crate::failure::Failure;
use crate::state::State;
use crate::views::{MakeSchedule, OfJob, PageAsk, PageView, ScheduleView, Written};

pub(crate) fn schedule(_: &mut State, _: OfJob) -> Result<ScheduleView, Failure> {
    Err(Failure::of("schedule"))
}

pub(crate) fn preview_page(_: &mut State, _: PageAsk) -> Result<PageView, Failure> {
    Err(Failure::of("schedule"))
}

pub(crate) fn make_schedule(_: &mut State, _: MakeSchedule) -> Result<Written, Failure> {
    Err(Failure::of("schedule"))
}
