//! A schedule put together again from its parts.

use super::{Board, Circuit, Part, Parts, Schedule};

/// The schedule that some documents are all the parts of, in order; nothing where cutting it again gives other parts.
#[must_use]
pub fn whole_of(parts: &[Part]) -> Option<Schedule> {
    let mut whole = parts.first()?.schedule.clone();
    whole.boards = Vec::new();
    parts.iter().flat_map(|part| &part.schedule.boards).for_each(|board| join_board(&mut whole.boards, board));
    let again = Parts::of(&whole).ok()?;
    (again.parts == parts).then_some(whole)
}

fn join_board(boards: &mut Vec<Board>, next: &Board) {
    match boards.last_mut() {
        Some(last) if last.id == next.id => {
            next.circuits.iter().for_each(|circuit| join_circuit(&mut last.circuits, circuit));
        }
        _ => boards.push(next.clone()),
    }
}

/// A circuit too long for one part goes on in the next, where it comes first.
fn join_circuit(circuits: &mut Vec<Circuit>, next: &Circuit) {
    match circuits.last_mut() {
        Some(last) if last.ids == next.ids => {
            last.lines.extend(next.lines.iter().cloned());
            last.past.extend(next.past.iter().cloned());
        }
        _ => circuits.push(next.clone()),
    }
}
