//! `cargo xtask run`: from a fresh clone to the app with the demo job in it.
use crate::command::{cargo, command, shown};
use crate::{debian, display, node, places, steps::Steps, trouble::Trouble};

/// What `run` and `test` both build, with the same features, so that neither compiles the other's work again.
pub(crate) const BUILD: [&str; 4] = ["build", "--workspace", "--bins", "--locked"];

/// The profile whose speed is told: what people are given is optimised, what tests run is not.
const MEASURED: &str = "measured";

pub(crate) fn run() -> Result<(), Trouble> {
    let mut steps = Steps::of("run");
    let seen = display::is_there()?;
    steps.step("System packages", || {
        // All in one list, so that a person is asked once.
        let drive: &[&str] = if seen { &[] } else { &debian::DRIVE };
        debian::ensure(&[&debian::BUILD, drive].concat())
    })?;
    steps.step("Node.js and the packages of the screens", || {
        node::ensure()?;
        node::packages()
    })?;
    steps.step("Build the screens", node::build)?;
    steps.step("Build the app (the first time takes some minutes)", || shown(&mut cargo(&BUILD)))?;
    if seen {
        steps.step("Open the app; this step lasts until its window is closed", || {
            shown(command(&places::program("provenohm").to_string_lossy()).env("PROVENOHM_DEMO", "1"))
        })?;
    } else {
        steps.step("No display here: drive the app on a virtual one", || {
            let pictures = places::target().join("first-run");
            shown(command(&places::program("first-run").to_string_lossy()).arg(pictures))
        })?;
    }
    steps.end();
    Ok(())
}

/// Prints the timed figures of the parts named, or of all, and keeps them in `target/bench/`.
pub(crate) fn bench(parts: &[&str]) -> Result<(), Trouble> {
    let mut steps = Steps::of("bench");
    steps.step("Build", || {
        node::ensure()?;
        node::packages()?;
        node::build()?;
        shown(cargo(&BUILD).args(["--profile", MEASURED]))
    })?;
    steps.step("Measure", || {
        let mut bench = command(&places::built("bench", MEASURED).to_string_lossy());
        shown(bench.arg(places::target().join("bench")).args(parts))
    })?;
    steps.end();
    Ok(())
}
