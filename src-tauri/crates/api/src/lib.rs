//! Every operation a person can ask for, declared once, and the TypeScript types generated from them.
//!
//! Hosts (the shell, the headless office) call operations by name through one door; they hold no rule of the trade.

mod failure;
mod operations;
mod typescript;
pub mod views;

pub use failure::Failure;
pub use operations::OPERATIONS;
pub use typescript::typescript;
