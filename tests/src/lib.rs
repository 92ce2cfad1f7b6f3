//! Drives the real app in a real window: what the checks in `tests/` and the first run are written with.

mod accessibility;
mod display;
mod driver;
mod hub;
mod job;
mod kill;
mod opening;
mod recorder;
mod trouble;
mod unwatched;
mod window;

pub use hub::Hub;
pub use job::{Job, single_phase, tester, verification};
pub use opening::{Opening, program};
pub use recorder::Entry;
pub use trouble::Trouble;
pub use unwatched::Unwatched;
pub use window::Window;
