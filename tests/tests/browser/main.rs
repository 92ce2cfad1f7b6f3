//! The office's work in a real browser, on a real hub process.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod grid;
mod killed;
mod login;
mod looks;
mod overview;
mod people;
mod phones;
#[path = "../../../src-tauri/crates/hub/tests/postgres/mod.rs"]
mod postgres;
mod whole;
