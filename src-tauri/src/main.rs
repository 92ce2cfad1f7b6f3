//! The desktop app; phones enter through the library.
#![cfg_attr(not(debug_assertions), windows_subsystem = "windows")]

fn main() {
    provenohm_shell::run();
}
