//! What the product works out, worked out again by programs that share no line with it.
use crate::command::{cargo, command, shown};
use crate::{debian, places, trouble::Trouble};

use super::parts::{Part, Told, number_from, seed};

/// Random readings judged in exact fractions; how many is asked by `PROVENOHM_REFERENCES`.
pub(crate) fn compare(part: &Part) -> Result<Told, Trouble> {
    debian::ensure(&["python3"])?;
    let cases = number_from("PROVENOHM_REFERENCES")?.unwrap_or(10_000);
    let seed = seed()?;
    shown(&mut cargo(&["build", "--workspace", "--locked", "--example", "explained"]))?;
    let script = places::root().join("tests/references/guards.py");
    let program = places::target().join("debug/examples/explained");
    shown(command("python3").arg(script).arg(program).args([seed.to_string(), cases.to_string()]))?;
    Ok(part.told_with_seed(format!("{cases} readings"), seed))
}
