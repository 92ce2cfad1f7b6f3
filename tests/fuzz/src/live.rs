//! libFuzzer on the target that `PROVENOHM_TARGET` names; `cargo xtask prove fuzz` builds and starts it.
#![no_main]
#![allow(clippy::panic, missing_docs, reason = "a panic is how a target says that a promise is broken")]

use std::sync::OnceLock;

use provenohm_fuzz::{Target, seeds, target};

static TARGET: OnceLock<Target> = OnceLock::new();

libfuzzer_sys::fuzz_target!(
    init: {
        let name = std::env::var("PROVENOHM_TARGET").unwrap_or_default();
        let chosen = target(&name).unwrap_or_else(|| panic!("PROVENOHM_TARGET names no target: {name:?}"));
        TARGET.get_or_init(|| chosen);
        if let Some(folder) = std::env::var_os("PROVENOHM_SEEDS") {
            for (number, seed) in seeds(&name).iter().enumerate() {
                let file = std::path::Path::new(&folder).join(format!("published-{number}"));
                std::fs::write(&file, seed).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
            }
        }
    },
    |bytes: &[u8]| {
        if let Some(target) = TARGET.get() {
            (target.holds)(bytes);
        }
    }
);
