//! `cargo xtask mobile-check`: type-checks the Rust code of the whole app for Android and iOS.
//!
//! Without the phone makers' kits no C, Kotlin or Swift is compiled and nothing is linked: a C compiler that writes
//! empty objects stands in. What this shows is that the Rust side fits both systems, no more.
use std::{
    fs, io,
    path::{Path, PathBuf},
};

use crate::command::{command, shown};
use crate::{debian, places, trouble::Trouble};

/// A Rust whose standard library can be checked from source for systems it has no build of.
const RUST_WITH_SOURCES: [&str; 3] = ["rustc-web", "cargo-web", "rust-web-src"];

/// The system, as a person calls it, and as Rust does.
const PHONES: [(&str, &str); 2] = [("Android", "aarch64-linux-android"), ("iOS", "aarch64-apple-ios")];

/// Preprocesses as asked, since build scripts read what comes out; compiles to nothing.
const C_COMPILER: &str = r#"#!/bin/sh
out=; preprocess=; words=; last=
for word in "$@"; do
    case "$last" in -o) out=$word ;; esac
    case "$word" in
        # What only another maker's compiler understands; who understands it is taken for that one.
        -\?) exit 1 ;;
        -E) preprocess=yes; words="$words $word" ;;
        --target=*|-arch|-isysroot|-m*-version-min=*|-fembed-bitcode*) ;;
        *) words="$words $word" ;;
    esac
    last=$word
done
if [ -n "$preprocess" ]; then exec gcc $words; fi
if [ -n "$out" ]; then : > "$out"; fi
"#;

pub(crate) fn check() -> Result<(), Trouble> {
    debian::ensure(&RUST_WITH_SOURCES)?;
    let folder = places::target().join("mobile-check");
    let compiler = stand_ins(&folder).map_err(|error| {
        Trouble::new(format!("{} could not be written: {error}.", folder.display()), "check the folder and its rights")
    })?;
    for (system, target) in PHONES {
        println!("   {system} ({target})");
        let name = target.replace('-', "_");
        // By their places, because the names lead to rustup where that is installed.
        let mut check = command("/usr/bin/cargo");
        check
            .args(["check", "-Zbuild-std=std,panic_abort", "--locked", "--package", "provenohm", "--target", target])
            .env("RUSTC", "/usr/bin/rustc")
            .env("RUSTC_BOOTSTRAP", "1")
            .env("CARGO_TARGET_DIR", &folder)
            .env("SDKROOT", folder.join("no-sdk"))
            .env(format!("CC_{name}"), &compiler)
            .env(format!("AR_{name}"), "/usr/bin/ar")
            .env_remove("RUSTUP_TOOLCHAIN")
            .env_remove("RUSTC_WRAPPER");
        shown(&mut check)?;
    }
    println!("   The Rust code type-checks for both; no C, Kotlin, Swift or link step was checked.");
    Ok(())
}

/// Writes the compiler that stands in, and an empty folder for a kit.
fn stand_ins(folder: &Path) -> io::Result<PathBuf> {
    fs::create_dir_all(folder.join("no-sdk"))?;
    let compiler = folder.join("cc");
    fs::write(&compiler, C_COMPILER)?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        fs::set_permissions(&compiler, fs::Permissions::from_mode(0o755))?;
    }
    Ok(compiler)
}
