//! Where things are in the repository.
use std::path::PathBuf;

/// The top folder of the repository: of the one cargo runs this in, since two checkouts may share a target folder and
/// with it this program.
pub(crate) fn root() -> PathBuf {
    let xtask = std::env::var_os("CARGO_MANIFEST_DIR").map_or_else(|| env!("CARGO_MANIFEST_DIR").into(), PathBuf::from);
    xtask.ancestors().nth(3).unwrap_or(&xtask).to_owned()
}

/// The web UI's folder.
pub(crate) fn ui() -> PathBuf {
    root().join("ui")
}

/// Cargo's target folder.
pub(crate) fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), PathBuf::from)
}

/// A program of the workspace, as built by `run` and `test`.
pub(crate) fn program(name: &str) -> PathBuf {
    built(name, "debug")
}

/// A program of the workspace in the folder of a profile.
pub(crate) fn built(name: &str, profile: &str) -> PathBuf {
    target().join(profile).join(format!("{name}{}", std::env::consts::EXE_SUFFIX))
}
