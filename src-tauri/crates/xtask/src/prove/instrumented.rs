//! Our own crates compiled with something added, and none of what they are built of: those are shared with `run` and
//! `test` as they are, so this costs the compilation of our crates only.
use std::{fs, path::PathBuf, process::Command};

use crate::{places, trouble::Trouble};

/// Counters at each branch and watched comparisons, as libFuzzer wants them. Stable options all; no sanitizer beside
/// them, because unsafe code is forbidden in what is tried.
pub(crate) const FOR_FUZZING: &str = "-Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
    -Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table \
    -Cllvm-args=-sanitizer-coverage-trace-compares -Ccodegen-units=1 -Cdebug-assertions=on";

/// Lines that were run, counted.
pub(crate) const FOR_COVERAGE: &str = "-Cinstrument-coverage";

/// Lets cargo compile the workspace's crates with these words added.
pub(crate) fn with<'c>(cargo: &'c mut Command, name: &str, words: &str) -> Result<&'c mut Command, Trouble> {
    let wrapper = wrapper(name, words).map_err(|error| {
        Trouble::new(format!("The compiler's wrapper could not be written: {error}."), "check the target folder")
    })?;
    Ok(cargo.env("RUSTC_WORKSPACE_WRAPPER", wrapper))
}

/// Build scripts run on their own and have no libFuzzer to count for.
fn wrapper(name: &str, words: &str) -> std::io::Result<PathBuf> {
    let folder = places::target().join("prove");
    fs::create_dir_all(&folder)?;
    let file = folder.join(format!("rustc-{name}"));
    fs::write(
        &file,
        format!(
            "#!/bin/sh\ncase \" $* \" in *' --crate-name build_script_'*) exec \"$@\" ;; esac\nexec \"$@\" {words}\n"
        ),
    )?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        fs::set_permissions(&file, fs::Permissions::from_mode(0o755))?;
    }
    Ok(file)
}
