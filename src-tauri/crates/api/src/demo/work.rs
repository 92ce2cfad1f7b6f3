//! What was recorded on the demo's boards.

use super::Clock;
use super::boards::Boards;
use super::recorder::Recorder;
use super::testers::{Testers, fail};
use crate::failure::Failure;
use crate::ops::{correct, run};
use crate::state::State;
use crate::views::{MarkNotTested, ReplaceReading, ReplaceReason, RunAsk, SetNote, UnitKey};
use chrono::Duration;
use provenohm_assess::ids::BoardId;
use provenohm_assess::quantity::Comparator;
use provenohm_assess::reading::NotTestedReason;

/// What a sound circuit shows: often over-range, else some hundreds of megohms. Invented.
const SOUND: [Option<&str>; 9] = [None, Some("487"), None, Some("620"), None, None, Some("356"), None, Some("218")];

/// Shows sound values one after the other.
fn sound() -> impl FnMut(u32, &str) -> Option<&'static str> {
    let mut values = SOUND.into_iter().cycle();
    move |_, _| values.next().flatten()
}

/// Records both boards that have readings; nothing is recorded on the third.
pub(super) fn record(state: &mut State, clock: &Clock, testers: &Testers, boards: &Boards) -> Result<(), Failure> {
    let mut main = Recorder { state, clock, board: boards.main };
    main.take(testers.proved)?;
    main.through(23, sound())?;
    clock.wait(Duration::hours(20));
    workshop(state, clock, testers, boards.workshop)?;
    clock.wait(Duration::days(4));
    fail(state, clock, testers.fails_later)?;
    run::choose_tester(state, crate::views::ChooseTester { board: boards.east, tester: testers.proved })?;
    Ok(())
}

fn workshop(state: &mut State, clock: &Clock, testers: &Testers, board: BoardId) -> Result<(), Failure> {
    let mut at = Recorder { state, clock, board };
    at.take(testers.proved)?;
    at.through(6, sound())?;
    at.take(testers.fails_later)?;
    at.through(8, sound())?;
    at.take(testers.proved)?;
    let mut others = sound();
    // Circuit 9 is repaired later, 12 stays below its limit, 14 is too close to call.
    at.through(14, |circuit, pair| match (circuit, pair) {
        (9, "L–PE") => Some("0.35"),
        (12, "N–PE") => Some("0.62"),
        (14, "L–PE") => Some("1.04"),
        _ => others(circuit, pair),
    })?;
    repair(&mut at)?;
    at.take(testers.unverified)?;
    at.through(16, sound())?;
    at.take(testers.lapsed)?;
    at.through(18, sound())?;
    no_access(&mut at)?;
    at.take(testers.proved)?;
    at.through(22, sound())
}

/// The low circuit is repaired and tested again.
fn repair(at: &mut Recorder<'_>) -> Result<(), Failure> {
    at.clock.wait(Duration::hours(2));
    let job = at.state.job_of_board(at.board)?;
    let low = at.state.words.reading(&low_reading()?);
    let rows = correct::readings(at.state, crate::views::ReadingsAsk { job, board: Some(at.board) })?.rows;
    let reading = rows.iter().find(|row| row.shown == low).ok_or_else(|| Failure::of("not_found"))?.reading;
    let asked = ReplaceReading {
        job,
        reading,
        text: "410".to_owned(),
        comparator: Comparator::Exact,
        unit: UnitKey::M,
        why: ReplaceReason::Repaired,
    };
    correct::replace_reading(at.state, asked)?;
    Ok(())
}

fn low_reading() -> Result<provenohm_assess::quantity::Shown, Failure> {
    provenohm_assess::quantity::Shown::parse("0.35 MΩ").map_err(|error| Failure::of("unexpected").because(error))
}

/// One pair cannot be reached, and a note says why.
fn no_access(at: &mut Recorder<'_>) -> Result<(), Failure> {
    let screen = at.screen()?;
    let Some(slot) = screen.slot else { return Ok(()) };
    let text = at.state.words.text("demo-note");
    run::set_note(at.state, SetNote { board: at.board, slot: slot.clone(), text })?;
    let reason = NotTestedReason::NoAccess;
    run::mark_not_tested(at.state, MarkNotTested { board: at.board, slot, reason, words: String::new() })?;
    run::run(at.state, RunAsk { board: at.board, slot: None, circuit: None })?;
    Ok(())
}
