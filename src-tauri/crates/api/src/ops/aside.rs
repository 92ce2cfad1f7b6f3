//! The way on from a damaged record: its files are renamed, never deleted, and what of them is as it was written goes on
//! in a new record. Bundles bring the rest, where other devices hold it.

use crate::failure::{DAMAGED, Failure};
use crate::state::State;
use crate::views::{NoInput, SetAside};
use provenohm_logbook::record::{Place, Record, Salvaged, set_aside};
use std::path::PathBuf;

pub(crate) fn set_record_aside(state: &mut State, _: NoInput) -> Result<SetAside, Failure> {
    let sound = || Failure::of("record_sound");
    let place = state.place.clone().ok_or_else(sound)?;
    match &state.not_opened {
        Some(damaged) if damaged.code == DAMAGED => {}
        // A newer version's record, or a folder that is closed to the program: nothing is damaged.
        Some(other) => return Err(other.clone()),
        None => {
            let inspected = Record::inspect(&place.record, &mut state.host);
            if inspected.is_ok_and(|inspected| inspected.reads_as_written()) {
                return Err(sound());
            }
        }
    }
    // From here on nothing is written to what is not a file, whatever stops this.
    state.closed(Failure::of(DAMAGED))?;
    let stamp = state.host.now().format("%Y-%m-%d-%H%M%S").to_string();
    let mut files = Vec::new();
    if place.record.exists() {
        files.push(set_aside(&place.record, &stamp).map_err(not_renamed)?);
    }
    let mut record = match Record::open(&place, &mut state.host) {
        // The device's own file is damaged too: this device goes on as a new one.
        Err(error) if error.is_damage() => {
            files.push(set_aside(&place.device, &stamp).map_err(not_renamed)?);
            Record::open(&place, &mut state.host)?
        }
        opened => opened?,
    };
    // Of what cannot be read at all nothing comes back.
    let salvaged = files.first().and_then(|from| record.salvage(from, &mut state.host).ok()).unwrap_or_default();
    state.opened(record);
    Ok(told(state, &place, files, salvaged))
}

fn told(state: &State, place: &Place, files: Vec<PathBuf>, salvaged: Salvaged) -> SetAside {
    let words = &state.words;
    let names: Vec<String> =
        files.iter().filter_map(|path| path.file_name()).map(|name| name.to_string_lossy().into_owned()).collect();
    let folder = place.record.parent().map(|folder| folder.display().to_string()).unwrap_or_default();
    let args = [("files", names.join(", ").into()), ("folder", folder.into())];
    let mut lines = vec![words.text_with("answer-aside-salvaged", &[("count", salvaged.entries.into())])];
    if salvaged.altered > 0 {
        lines.push(words.text_with("answer-aside-altered", &[("count", salvaged.altered.into())]));
    }
    if salvaged.damaged || salvaged.entries == 0 {
        lines.push(words.text("answer-aside-damaged"));
    }
    lines.push(words.text("answer-aside-next"));
    let files = files.iter().map(|path| path.display().to_string()).collect();
    SetAside { words: words.text_with("answer-aside", &args), lines, files }
}

fn not_renamed(error: std::io::Error) -> Failure {
    Failure::of("not_set_aside").because(error)
}
