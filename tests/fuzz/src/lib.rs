//! Everything that reads what others wrote, given any bytes at all. A target panics if what it holds is broken; that
//! nothing else panics, hangs or swells is held by whoever runs it: the kept inputs of `corpora/` as plain tests,
//! new ones by libFuzzer in `cargo xtask prove fuzz`.
#![allow(clippy::panic, reason = "a panic is how a target says that a promise is broken")]

mod bundle;
mod circuits_table;
mod entry;
mod hub_request;
mod job_file;
mod keypad;
mod limit_set;
mod paper;
mod quantity;
mod readings_table;
mod seeds;
mod typed_dates;
mod verification_file;

pub use seeds::seeds;

/// One reader of foreign input.
#[derive(Clone, Copy, Debug)]
pub struct Target {
    /// Its name, and that of its folder in `corpora/`.
    pub name: &'static str,
    /// Reads the bytes, and panics if what it holds is broken.
    pub holds: fn(&[u8]),
}

/// All of them.
pub const TARGETS: [Target; 12] = [
    Target { name: "entry", holds: entry::holds },
    Target { name: "bundle", holds: bundle::holds },
    Target { name: "paper", holds: paper::holds },
    Target { name: "job-file", holds: job_file::holds },
    Target { name: "verification-file", holds: verification_file::holds },
    Target { name: "limit-set", holds: limit_set::holds },
    Target { name: "circuits-table", holds: circuits_table::holds },
    Target { name: "readings-table", holds: readings_table::holds },
    Target { name: "quantity", holds: quantity::holds },
    Target { name: "keypad", holds: keypad::holds },
    Target { name: "hub-request", holds: hub_request::holds },
    Target { name: "typed-dates", holds: typed_dates::holds },
];

/// The target of this name.
#[must_use]
pub fn target(name: &str) -> Option<Target> {
    TARGETS.into_iter().find(|target| target.name == name)
}
