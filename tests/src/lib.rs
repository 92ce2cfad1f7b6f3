//! Drives the real app in a real window: what the checks in `tests/` and the first run are written with.

mod accessibility;
mod display;
mod driver;
mod kill;
mod opening;
mod trouble;
mod unwatched;
mod window;

pub use opening::Opening;
pub use trouble::Trouble;
pub use unwatched::Unwatched;
pub use window::Window;
