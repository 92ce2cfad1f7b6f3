//! The UI's types are the ones the operations have.
#![allow(clippy::unwrap_used)]

use std::path::Path;

#[test]
fn generated_types_are_those_of_the_operations() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../ui/src/host/generated/operations.ts");
    let kept = std::fs::read_to_string(file).unwrap();
    assert!(kept == provenohm_api::typescript(), "run `cargo run -p provenohm-api --example types`");
}

#[test]
fn no_type_needs_bigint_or_any() {
    let types = provenohm_api::typescript();
    assert!(!types.contains("bigint"));
    assert!(!types.contains(": any"));
}
