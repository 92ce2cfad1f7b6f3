//! Tests that `cargo xtask test` runs a short share of, run here at length.
use std::process::Command;

use crate::command::{cargo, told};
use crate::trouble::Trouble;

use super::parts::{Part, Told, number_from, seed};

/// The writer killed over and over; how often is asked by `PROVENOHM_KILLS`.
pub(crate) fn kills(part: &Part) -> Result<Told, Trouble> {
    killed(part, &["--test", "durable", "--test", "program"])
}

/// Hubs killed while phones send; how often is asked by `PROVENOHM_KILLS`.
pub(crate) fn kills_of_hubs(part: &Part) -> Result<Told, Trouble> {
    killed(part, &["--test", "killed"])
}

fn killed(part: &Part, tried: &[&str]) -> Result<Told, Trouble> {
    let kills = number_from("PROVENOHM_KILLS")?.unwrap_or(1_000);
    let words = [&["test", "--workspace", "--locked"], tried, &["--", "kills"]].concat();
    tests(cargo(&words).env("PROVENOHM_KILLS", kills.to_string()))?;
    Ok(Told { cases: format!("{kills} kills"), replay: format!("PROVENOHM_KILLS={kills} {}", part.told("").replay) })
}

/// The record on a disk that fails; how many cuts of the power by chance at each change is asked by `PROVENOHM_FAULTS`.
pub(crate) fn faults(part: &Part) -> Result<Told, Trouble> {
    let cuts = number_from("PROVENOHM_FAULTS")?.unwrap_or(8);
    let seed = seed()?;
    println!("   seed {seed}");
    let words = ["test", "--workspace", "--locked", "--test", "faults"];
    let mut disk = cargo(&words);
    disk.env("PROVENOHM_FAULTS", cuts.to_string()).env("PROVENOHM_SEED", seed.to_string());
    let passed = tests(&mut disk)?;
    let told = part.told_with_seed(
        format!("{passed} kinds of fault at every place, {cuts} power cuts by chance at each change"),
        seed,
    );
    Ok(Told { replay: format!("PROVENOHM_FAULTS={cuts} {}", told.replay), ..told })
}

/// Simulated histories; how many is asked by `PROVENOHM_SCHEDULES`.
pub(crate) fn schedules(part: &Part) -> Result<Told, Trouble> {
    let schedules = number_from("PROVENOHM_SCHEDULES")?.unwrap_or(part.extent.of(2_000, 100_000));
    let seed = seed()?;
    println!("   seed {seed}");
    let words = ["test", "--workspace", "--locked", "--test", "order", "--", "any_order"];
    let mut order = cargo(&words);
    order.env("PROVENOHM_SCHEDULES", schedules.to_string()).env("PROPTEST_RNG_SEED", seed.to_string());
    tests(&mut order)?;
    Ok(part.told_with_seed(format!("{schedules} schedules"), seed))
}

/// Simulated devices that exchange bundles; how many schedules is asked by `PROVENOHM_SCHEDULES`.
pub(crate) fn devices(part: &Part) -> Result<Told, Trouble> {
    let schedules = number_from("PROVENOHM_SCHEDULES")?.unwrap_or(part.extent.of(2_000, 100_000));
    let seed = seed()?;
    println!("   seed {seed}");
    let words = ["test", "--workspace", "--locked", "--test", "simulator", "--", "whatever"];
    let mut devices = cargo(&words);
    devices.env("PROVENOHM_SCHEDULES", schedules.to_string()).env("PROVENOHM_SEED", seed.to_string());
    tests(&mut devices)?;
    Ok(part.told_with_seed(format!("{schedules} schedules"), seed))
}

/// The doors for scripts of a running hub, asked anything; how many requests is asked by `PROVENOHM_REQUESTS`.
pub(crate) fn api(part: &Part) -> Result<Told, Trouble> {
    let requests = number_from("PROVENOHM_REQUESTS")?.unwrap_or(5_000);
    let seed = seed()?;
    println!("   seed {seed}");
    let words = ["test", "--workspace", "--locked", "--test", "described"];
    let mut asked = cargo(&words);
    asked.env("PROPTEST_CASES", requests.to_string()).env("PROPTEST_RNG_SEED", seed.to_string());
    tests(&mut asked)?;
    Ok(part.told_with_seed(format!("{requests} requests"), seed))
}

/// Runs tests, shows what they print, and says how many there were. None at all is a failure: a name was changed.
pub(crate) fn tests(command: &mut Command) -> Result<u64, Trouble> {
    let text = told(command)?;
    let count = |line: &str| line.strip_prefix("test result: ok. ")?.split_once(" passed")?.0.parse::<u64>().ok();
    let passed = text.lines().filter_map(count).sum();
    if passed == 0 {
        return Err(Trouble::new("No test of that name was run.", "name it in xtask as it is called now"));
    }
    Ok(passed)
}
