//! Every operation a person can ask for, declared once, and the TypeScript types generated from them.
//!
//! Hosts (the shell, the headless office) call operations by name through one door, [`Api::call`], or where several people
//! log in [`Api::call_as`]; they hold no rule of the trade. Time and randomness come from the [`Host`].

mod api;
mod attend;
mod demo;
mod desk;
mod failure;
pub mod headless;
mod host;
mod judged;
mod lacking;
mod long_work;
pub mod network;
mod operations;
mod ops;
mod read;
mod recalled;
mod report;
mod seat;
mod signed;
mod state;
mod tally;
mod tell;
#[cfg(test)]
mod testing;
mod typescript;
mod verify;
pub mod views;

pub use api::Api;
pub use desk::Desk;
pub use failure::Failure;
pub use host::Host;
pub use operations::OPERATIONS;
pub use provenohm_assess::ids::PersonId;
pub use provenohm_assess::moment::Moment;
pub use seat::Seat;
pub use typescript::typescript;
