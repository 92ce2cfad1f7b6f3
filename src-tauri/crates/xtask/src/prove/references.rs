//! What the product works out, worked out again by programs that share no line with it.
use std::path::PathBuf;

use crate::command::{cargo, command, shown};
use crate::{debian, places, trouble::Trouble};

use super::parts::{Part, Told, number_from, seed};

/// The GUM library, and the t distribution that the budgets' k is compared with.
const LIBRARIES: [&str; 2] = ["GTC==1.5.1", "scipy"];

/// Random readings judged in exact fractions; how many is asked by `PROVENOHM_REFERENCES`.
pub(crate) fn guards(part: &Part) -> Result<Told, Trouble> {
    debian::ensure(&["python3"])?;
    compare(part, "python3".into(), "guards.py", "explained", "readings")
}

/// As many random uncertainty budgets, combined by a library of its own.
pub(crate) fn budgets(part: &Part) -> Result<Told, Trouble> {
    debian::ensure(&["python3", "python3-venv"])?;
    let folder = places::target().join("prove/python");
    let python = folder.join("bin/python");
    if !folder.join("lib").exists() {
        shown(command("python3").args(["-m", "venv"]).arg(&folder))?;
    }
    shown(command(&python.to_string_lossy()).args(["-m", "pip", "install", "--quiet"]).args(LIBRARIES))?;
    compare(part, python, "budgets.py", "budgets", "budgets")
}

fn compare(part: &Part, python: PathBuf, script: &str, program: &str, of_what: &str) -> Result<Told, Trouble> {
    let cases = number_from("PROVENOHM_REFERENCES")?.unwrap_or(10_000);
    let seed = seed()?;
    shown(&mut cargo(&["build", "--workspace", "--locked", "--example", program]))?;
    let script = places::root().join("tests/references").join(script);
    let program = places::target().join("debug/examples").join(program);
    let mut compare = command(&python.to_string_lossy());
    shown(compare.arg(script).arg(program).args([seed.to_string(), cases.to_string()]))?;
    Ok(part.told_with_seed(format!("{cases} {of_what}"), seed))
}
