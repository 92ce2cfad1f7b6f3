//! Devices over the real code: they work, exchange by files or over a hub, are destroyed, copied and set back, with clocks
//! that are years wrong; so is the hub, whose instances die in the middle of a request, and which lies now and then. What a revoked device wrote
//! waits until it is accepted. Whatever happened, once they meet they hold the same record, and nothing is gone but what one device alone had
//! when it was destroyed or set back.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "../support/mod.rs"]
mod support;

mod acts;
mod chance;
mod device;
mod dying;
mod held;
mod liar;
mod office;
mod recovery;
mod world;

use std::collections::BTreeMap;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};
use world::{Met, World};

fn number_from(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).map_or(otherwise, |text| text.parse().unwrap())
}

/// `PROVENOHM_SCHEDULES` says how many, `PROVENOHM_SEED` with which they begin.
#[test]
fn whatever_happens_devices_that_meet_hold_the_same_record() {
    let (first, many) = (number_from("PROVENOHM_SEED", 1), number_from("PROVENOHM_SCHEDULES", 200));
    let next = AtomicU64::new(0);
    let met = Mutex::new(BTreeMap::<Met, u64>::new());
    std::thread::scope(|threads| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from).min(8) {
            threads.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    if at >= many {
                        return;
                    }
                    let mut world = World::new(first.wrapping_add(at));
                    world.run();
                    let mut all = met.lock().unwrap();
                    world.met.iter().for_each(|met| *all.entry(*met).or_default() += 1);
                }
            });
        }
    });
    let met = met.into_inner().unwrap();
    println!("{many} schedules from {first}: {met:?}");
    let enough = many >= 1000 || (many >= 200 && first == 1);
    assert!(!enough || met.len() == 19, "all that they are for was met: {met:?}");
}

#[test]
fn a_seed_gives_the_same_schedule_again() {
    let run = |seed| {
        let mut world = World::new(seed);
        world.run();
        (world.told.clone(), world.entries())
    };
    assert_eq!(run(7), run(7));
    assert_ne!(run(7).0, run(8).0);
}
