//! The Run screen: one reading's way through the house.

mod group;
mod hand;
mod leads;
mod next;
mod read_back;
mod save;
mod set;
pub(crate) mod typed;
mod undo;
mod view;
mod voltage;

pub(crate) use group::{group_form, slot_of as slot_of_group, start_group, stop_group};
pub(crate) use hand::{Hand, Seat};
pub(crate) use leads::record_lead_check;
pub(crate) use next::Walk;
pub(crate) use read_back::{reason, reasons};
pub(crate) use save::{Ready, Told, mark_not_tested, save_reading};
pub(crate) use set::{choose_tester, set_conditions, set_joined, set_note, set_stage, set_volts};
pub(crate) use typed::{draft, unit_of};
pub(crate) use undo::undo_reading;
pub(crate) use view::{conditions_of, run, shown};
