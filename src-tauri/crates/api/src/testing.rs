//! What tests inside this crate work on.
#![allow(clippy::unwrap_used)]

use crate::host::Host;
use crate::state::State;
use chrono::{DateTime, Duration, FixedOffset};
use provenohm_logbook::record::Record;

/// A program over a record in memory, with a clock that ticks by a second and counted randomness.
pub(crate) fn state() -> State {
    let mut now: DateTime<FixedOffset> = "2026-11-25T10:00:00+00:00".parse().unwrap();
    let mut count = 0u64;
    let clock = move || {
        now += Duration::seconds(1);
        now
    };
    let random = move |bytes: &mut [u8]| {
        for byte in bytes {
            count = count.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            *byte = u8::try_from(count >> 56).unwrap();
        }
        Ok(())
    };
    let mut host = Host::new(clock, random);
    let record = Record::in_memory(&mut host).unwrap();
    State::new(record, host, std::path::PathBuf::new())
}
