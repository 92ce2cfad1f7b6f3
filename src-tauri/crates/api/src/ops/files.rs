//! Writing files beside the record, or in the folder a person chose.

use crate::failure::Failure;
use crate::judged::Judged;
use crate::state::State;
use crate::views::*;
use provenohm_logbook::view::View;
use std::io::Write as _;
use std::path::{Path, PathBuf};

/// The setting that keeps the folder a person chose.
const FOLDER: &str = "files_folder";

/// Where files go.
pub(crate) fn files_folder(state: &mut State, _: NoInput) -> Result<FilesFolder, Failure> {
    let chosen = state.setting::<Option<PathBuf>>(FOLDER)?.flatten();
    let usual = chosen.is_none();
    Ok(FilesFolder { folder: chosen.unwrap_or_else(|| state.papers.clone()).display().to_string(), usual })
}

/// Lets files go to another folder, which has to be there and to take a file; without one, to the usual again.
pub(crate) fn set_files_folder(state: &mut State, asked: SetFilesFolder) -> Result<FilesFolder, Failure> {
    let chosen = asked.folder.map(|folder| PathBuf::from(folder.trim()));
    if let Some(folder) = &chosen {
        if !folder.is_absolute() {
            return Err(Failure::of("folder_not_whole"));
        }
        let trial = folder.join(format!(".{}", state.host.id()?));
        std::fs::write(&trial, []).and_then(|()| std::fs::remove_file(&trial)).map_err(folder_not_there)?;
    }
    state.keep_setting(FOLDER, &chosen)?;
    files_folder(state, NoInput {})
}

/// Where a file of this name goes. The usual folder is made; one that a person chose has to be there, as a stick may be out.
pub(crate) fn place_of(state: &State, name: &str) -> Result<PathBuf, Failure> {
    match state.setting::<Option<PathBuf>>(FOLDER)?.flatten() {
        Some(folder) if folder.is_dir() => Ok(folder.join(name)),
        Some(_) => Err(Failure::of("folder_not_there")),
        None => {
            std::fs::create_dir_all(&state.papers).map_err(not_written)?;
            Ok(state.papers.join(name))
        }
    }
}

fn folder_not_there(error: std::io::Error) -> Failure {
    Failure::of("folder_not_there").because(error)
}

/// That files were written, and where.
pub(crate) fn written(state: &State, words: &str, files: &[PathBuf]) -> Written {
    let files = files.iter().map(|path| path.display().to_string()).collect();
    Written { files, words: state.words.text(words) }
}

/// Writes a file whole or not at all. Once this returns it stays, whatever happens to the device.
pub(crate) fn write_file(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let aside = path.with_added_extension("part");
    let written = || {
        let mut file = std::fs::File::create(&aside)?;
        file.write_all(bytes)?;
        file.sync_all()?;
        std::fs::rename(&aside, path)?;
        flush_folder(path)
    };
    written().map_err(not_written)
}

/// A folder keeps a file's new name once it is flushed itself.
#[cfg(unix)]
fn flush_folder(of: &Path) -> std::io::Result<()> {
    let folder = of.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match std::fs::File::open(folder)?.sync_all() {
        // Some mounted folders, as of another computer, know no flushing.
        Err(error) if matches!(error.kind(), std::io::ErrorKind::InvalidInput | std::io::ErrorKind::Unsupported) => {
            Ok(())
        }
        flushed => flushed,
    }
}

/// Here a folder cannot be opened to be flushed.
#[cfg(not(unix))]
fn flush_folder(_: &Path) -> std::io::Result<()> {
    Ok(())
}

/// The job's name as a file may be named.
pub(crate) fn file_stem(judged: &Judged) -> String {
    let name = file_named(&judged.file.job.name);
    if name.is_empty() { judged.file.job.id.to_string() } else { name }
}

/// The same, with what tells it from other jobs of that name: two that were told of one tester last are as of one instant,
/// and the second file must not take the place of the first.
pub(crate) fn file_stem_alone(view: &View<'_>, judged: &Judged) -> Result<String, Failure> {
    let (id, stem) = (judged.file.job.id, file_stem(judged));
    let alike = view.job_names()?.iter().any(|(other, name)| *other != id && file_named(name) == stem);
    let id = id.to_string();
    // The beginning of an id is the time it was made.
    Ok(if alike { format!("{stem}-{}", id.rsplit('-').next().unwrap_or(&id)) } else { stem })
}

/// A name as part of a file's.
pub(crate) fn file_named(name: &str) -> String {
    let kept = |c: char| if c.is_alphanumeric() { c } else { '-' };
    let name: String = name.chars().take(60).map(kept).collect();
    name.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-")
}

pub(crate) fn not_written(error: std::io::Error) -> Failure {
    Failure::of("file_not_written").because(error)
}
