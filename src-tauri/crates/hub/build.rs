//! The screens are put inside as they were built last.

fn main() {
    println!("cargo:rerun-if-changed=../../../ui/dist");
}
