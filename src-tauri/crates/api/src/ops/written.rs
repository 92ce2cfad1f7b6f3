//! Files that were written, had whole: to be sent on by the system, or kept by a browser.

use crate::failure::Failure;
use crate::ops::files::place_of;
use crate::state::State;
use crate::views::{WrittenFile, WrittenFileAsk, WrittenFilesAsk};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use std::io::{Cursor, Write as _};
use std::path::Path;
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

/// A file the program wrote, whole. Only what lies in the folder where files go can be had.
pub(crate) fn written_file(state: &mut State, asked: WrittenFileAsk) -> Result<WrittenFile, Failure> {
    let (name, bytes) = read(state, &asked.path)?;
    Ok(WrittenFile { media_type: media_type(Path::new(&name)).to_owned(), name, base64: BASE64_STANDARD.encode(bytes) })
}

/// Several of them in one archive: a browser that is given one after the other asks about each, or keeps the first alone.
pub(crate) fn written_files(state: &mut State, asked: WrittenFilesAsk) -> Result<WrittenFile, Failure> {
    let broke = |error: &dyn std::fmt::Display| Failure::of("unexpected").because(error);
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    for path in &asked.paths {
        let (name, bytes) = read(state, path)?;
        archive.start_file(name, SimpleFileOptions::default()).map_err(|error| broke(&error))?;
        archive.write_all(&bytes).map_err(|error| broke(&error))?;
    }
    let bytes = archive.finish().map_err(|error| broke(&error))?.into_inner();
    let at = state.host.now().format("%Y%m%d-%H%M%S");
    Ok(WrittenFile {
        name: format!("files-{at}.zip"),
        media_type: "application/zip".to_owned(),
        base64: BASE64_STANDARD.encode(bytes),
    })
}

fn read(state: &State, path: &str) -> Result<(String, Vec<u8>), Failure> {
    let path = Path::new(path);
    let elsewhere = || Failure::of("file_not_there");
    let name = path.file_name().and_then(|name| name.to_str()).ok_or_else(elsewhere)?;
    if path != place_of(state, name)? {
        return Err(elsewhere());
    }
    let bytes = std::fs::read(path).map_err(|error| Failure::of("file_not_there").because(error))?;
    Ok((name.to_owned(), bytes))
}

/// What kind of file its ending says it is, as the system's apps choose by it.
fn media_type(path: &Path) -> &'static str {
    match path.extension().and_then(|ending| ending.to_str()) {
        Some("pdf") => "application/pdf",
        Some("csv") => "text/csv",
        Some("json") => "application/json",
        Some("xlsx") => "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        _ => "application/octet-stream",
    }
}
