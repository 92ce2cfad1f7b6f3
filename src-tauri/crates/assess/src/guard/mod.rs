//! The guard w of policy *guarded*: what is known of a tester's uncertainty, and the smallest indication that still
//! proves a limit.
//!
//! Every percentage is taken of the *reading*, so that R proves L where R ≥ L + p·R + n·resolution. That is the strict
//! form, (L + n·resolution) / (1 − p); the tables makers print take the percentage of the limit and are never stricter
//! ([`makers_smallest`]).

mod budget;
mod figures;
mod smallest;

pub use budget::Budget;
pub use figures::Figures;
pub use smallest::makers_smallest;
