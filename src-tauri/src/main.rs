//! The Tauri shell.
fn main() {}
