//! Taking an act back: a withdrawal of its entries. A token names them.

use crate::failure::Failure;
use crate::state::State;
use crate::views::{Done, UndoAsk, UndoToken};
use provenohm_assess::ids::{JobId, PersonId};
use provenohm_logbook::entry::EntryRef;
use provenohm_logbook::record::Receipt;

/// The token of an act: its entries.
pub(crate) fn token<T>(receipt: &Receipt<T>) -> Option<UndoToken> {
    let entries: Vec<EntryRef> =
        receipt.appended.iter().filter(|one| one.kind.undoable()).map(|one| one.entry).collect();
    (!entries.is_empty()).then(|| token_of(&entries))
}

/// The token of some entries.
pub(crate) fn token_of(entries: &[EntryRef]) -> UndoToken {
    UndoToken(entries.iter().map(ToString::to_string).collect::<Vec<_>>().join(","))
}

pub(crate) fn undo(state: &mut State, asked: UndoAsk) -> Result<Done, Failure> {
    let entries = asked.token.0.split(',').map(str::parse).collect::<Result<Vec<EntryRef>, _>>();
    let entries = entries.map_err(|_| Failure::of("nothing_to_undo"))?;
    let person = state.anyone()?;
    for entry in &entries {
        let by = state.record.view().said(*entry)?.and_then(|said| said.by);
        by.map_or(Ok(()), |by| state.is_seated(by))?;
    }
    state.write(person, |writer| Ok(writer.take_back(&entries)?))?;
    Ok(Done { words: state.words.text("answer-taken-back"), undo: None })
}

/// Withdraws entries of readings.
pub(crate) fn take_back_readings(
    state: &mut State,
    job: JobId,
    person: PersonId,
    entries: &[EntryRef],
) -> Result<(), Failure> {
    state.write_readings(job, person, |writer| Ok(writer.take_back(entries)?))?;
    Ok(())
}
