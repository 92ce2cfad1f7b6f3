//! Live fuzzing: libFuzzer grows inputs from the kept ones, for a minute a target or as long as asked.
use std::{fs, io, path::PathBuf};

use crate::command::{cargo, command, shown, told};
use crate::{places, trouble::Trouble};

use super::instrumented;
use super::parts::{Part, Told, number_from, seed};

/// Seconds for each target, as a rule and for a night; another figure is asked by `PROVENOHM_FUZZ_SECONDS`.
const SECONDS: (u64, u64) = (60, 1_200);
/// No input may take longer, in seconds.
const TIMEOUT: u64 = 10;
/// The memory ceiling of the whole process, MB.
const MEMORY: u64 = 512;
/// Longer than what is kept, short enough that many are tried, bytes.
const LONGEST: u64 = 16_384;

/// A target is a folder of kept inputs; the tests hold that each has its code.
pub(crate) fn targets() -> Result<Vec<String>, Trouble> {
    let folder = kept();
    let unread = |error: io::Error| {
        Trouble::new(format!("{} could not be read: {error}.", folder.display()), "check out the whole repository")
    };
    let mut names = Vec::new();
    for entry in fs::read_dir(&folder).map_err(unread)? {
        names.push(entry.map_err(unread)?.file_name().to_string_lossy().into_owned());
    }
    names.sort();
    Ok(names)
}

/// Fuzzes the target of this part.
pub(crate) fn live(part: &Part) -> Result<Told, Trouble> {
    let target = part.name.trim_start_matches("fuzz-");
    let seconds = number_from("PROVENOHM_FUZZ_SECONDS")?.unwrap_or(part.extent.of(SECONDS.0, SECONDS.1));
    // libFuzzer takes the seed as 32 bits and 0 as none.
    let seed = seed()? % u64::from(u32::MAX) + 1;
    let folder = places::target().join("prove/fuzz").join(target);
    let grown = folder.join("grown");
    let seeds = folder.join("seeds");
    for one in [&grown, &seeds] {
        fs::create_dir_all(one).map_err(|error| {
            Trouble::new(format!("{} could not be made: {error}.", one.display()), "check the target folder")
        })?;
    }
    let program = build()?;
    // libFuzzer talks on the error channel only.
    let mut fuzz = command("sh");
    fuzz.args(["-c", r#"exec "$0" "$@" 2>&1"#]).arg(program);
    fuzz.env("PROVENOHM_TARGET", target).env("PROVENOHM_SEEDS", &seeds);
    fuzz.arg(format!("-max_total_time={seconds}")).arg(format!("-seed={seed}")).arg(format!("-timeout={TIMEOUT}"));
    fuzz.arg(format!("-rss_limit_mb={MEMORY}")).arg(format!("-max_len={LONGEST}"));
    fuzz.args(["-print_final_stats=1", "-verbosity=0"]).arg(format!("-artifact_prefix={}/", folder.display()));
    fuzz.arg(&grown).arg(&seeds).arg(kept().join(target));
    let text = told(&mut fuzz).map_err(|_| {
        Trouble::new(
            format!("{target} did not hold; the input is in {}.", folder.display()),
            format!("mend it, and keep the input in tests/fuzz/corpora/{target} under a name that says what it is"),
        )
    })?;
    let tried = text.lines().find_map(|line| line.strip_prefix("stat::number_of_executed_units:"));
    let tried = tried
        .map(str::trim)
        .ok_or_else(|| Trouble::new("libFuzzer did not say how many inputs it tried.", "read what it printed above"))?;
    Ok(part.told_with_seed(format!("{tried} inputs in {seconds} s"), seed))
}

/// Built with what `run` and `test` are built of; only our own crates are compiled anew, with counters.
fn build() -> Result<PathBuf, Trouble> {
    let words = ["build", "--workspace", "--locked", "--bin", "fuzz", "--features", "provenohm-fuzz/live"];
    shown(instrumented::with(&mut cargo(&words), "fuzz", instrumented::FOR_FUZZING)?)?;
    Ok(places::program("fuzz"))
}

fn kept() -> PathBuf {
    places::root().join("tests/fuzz/corpora")
}
