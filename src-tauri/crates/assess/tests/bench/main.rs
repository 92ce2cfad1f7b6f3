//! The bench: plans, and what is computed from what was measured.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, unreachable_pub)]

mod plan;
mod scene;
