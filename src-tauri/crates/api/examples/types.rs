//! Writes the TypeScript types of all operations into the UI.

use std::path::Path;

fn main() -> std::io::Result<()> {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../ui/src/host/generated/operations.ts");
    if let Some(folder) = file.parent() {
        std::fs::create_dir_all(folder)?;
    }
    std::fs::write(file, provenohm_api::typescript())
}
