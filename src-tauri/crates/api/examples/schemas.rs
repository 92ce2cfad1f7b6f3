//! Writes the schemas and their worked examples.

mod worked;

fn main() -> Result<(), worked::Fault> {
    for (name, text) in worked::files()? {
        std::fs::write(worked::folder().join(name), text)?;
    }
    Ok(())
}
