//! What is said of a reading, case by case, each with a sentence why.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, unreachable_pub)]

mod cases;
mod checks;
mod codes;
mod guards;
mod history;
mod live;
mod order;
mod policies;
mod properties;
mod ranges;
mod recall;
mod scene;
mod values;
