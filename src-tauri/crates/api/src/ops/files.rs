//! Writing files beside the record.

use crate::failure::Failure;
use crate::judged::Judged;
use std::path::Path;

/// Writes a file whole or not at all.
pub(crate) fn write_file(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let aside = path.with_extension("part");
    std::fs::write(&aside, bytes).and_then(|()| std::fs::rename(&aside, path)).map_err(not_written)
}

/// The job's name as a file may be named.
pub(crate) fn file_stem(judged: &Judged) -> String {
    let kept = |c: char| if c.is_alphanumeric() { c } else { '-' };
    let name: String = judged.file.job.name.chars().take(60).map(kept).collect();
    let name = name.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-");
    if name.is_empty() { judged.file.job.id.to_string() } else { name }
}

pub(crate) fn not_written(error: std::io::Error) -> Failure {
    Failure::of("file_not_written").because(error)
}
