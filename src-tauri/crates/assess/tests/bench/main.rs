//! The bench: plans, and what is computed from what was measured.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, unreachable_pub)]

mod hostile;
mod judged;
mod loads;
mod operating;
mod plan;
mod plots;
mod points;
mod properties;
mod scene;
mod untold;
