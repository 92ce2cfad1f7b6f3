//! The record on a disk that fails: what was acknowledged is there, what failed is told, and work goes on.
#![cfg(unix)]

#[path = "../../../../src-tauri/crates/logbook/tests/support/mod.rs"]
mod support;

mod damaged;
mod failing;
mod migrating;
mod power;
mod story;

use provenohm_faults::Left;

/// Everywhere out of so many places if `cargo xtask prove faults` asks; else in a share of them, spread over all.
fn places(count: usize, share: usize) -> impl Iterator<Item = usize> {
    let step = if asked_for().is_some() { 1 } else { count.div_ceil(share).max(1) };
    (0..count).step_by(step)
}

/// What cuts of the power at one place leave.
fn leavings(place: usize) -> impl Iterator<Item = Left> {
    let seed = seed();
    let some = move |cut: u64| Left::Some((seed << 24) + ((place as u64) << 8) + cut);
    [Left::Flushed, Left::All].into_iter().chain((0..asked_for().unwrap_or(2)).map(some))
}

/// The seed asked for, or one that is always the same.
fn seed() -> u64 {
    std::env::var("PROVENOHM_SEED").map_or(1, |seed| seed.parse().unwrap())
}

/// How many cuts of the power by chance are asked for at each place.
fn asked_for() -> Option<u64> {
    std::env::var("PROVENOHM_FAULTS").ok().map(|number| number.parse().unwrap())
}
