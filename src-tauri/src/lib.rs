//! The Tauri shell.
