//! Circuits from a pasted or imported table: seen first, taken whole or not at all.

use crate::failure::Failure;
use crate::ops::circuits::{New, append_circuits, circuits_view, follows, put_note};
use crate::ops::undo::token;
use crate::read::read_table;
use crate::state::State;
use crate::views::*;
use provenohm_assess::circuit::Stage;
use provenohm_assess::ids::{CircuitId, NoteId};
use std::collections::BTreeSet;

pub(crate) fn preview_circuits(state: &mut State, asked: CircuitTable) -> Result<CircuitsPreview, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let words = &state.words;
    let (rows, complaints) = read_table(words, &asked.text, asked.format, &references(&judged, &asked)?);
    let mut readings = 0;
    let rows: Vec<PreviewRow> = rows
        .into_iter()
        .map(|row| {
            let id = CircuitId(uuid::Uuid::nil());
            let demand = judged.set().demand(id, &row.electrical, Stage::Before);
            let follows = follows(words, &judged, id, &row.electrical, demand.as_ref());
            readings += follows.readings;
            PreviewRow {
                line: row.line,
                reference: row.form.reference,
                description: row.form.description,
                electrical: words.electrical(&row.electrical),
                follows: follows.words,
            }
        })
        .collect();
    let sum = words
        .text_with("answer-readings-for-circuits", &[("readings", readings.into()), ("circuits", rows.len().into())]);
    Ok(CircuitsPreview { rows, complaints, sum })
}

pub(crate) fn import_circuits(state: &mut State, asked: CircuitTable) -> Result<CircuitsChanged, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let (rows, complaints) = read_table(&state.words, &asked.text, asked.format, &references(&judged, &asked)?);
    if !complaints.is_empty() {
        let complaint = |it: LineComplaint| Complaint { field: format!("line.{}", it.line), words: it.words };
        return Err(Failure::form(complaints.into_iter().map(complaint).collect()));
    }
    let (mut new, mut notes) = (Vec::new(), Vec::new());
    for row in rows {
        let circuit = CircuitId(state.host.id()?);
        if !row.form.notes.is_empty() {
            notes.push((circuit, NoteId(state.host.id()?), row.form.notes));
        }
        let (reference, description) = (row.form.reference, row.form.description);
        new.push(New { circuit, reference, description, electrical: row.electrical });
    }
    let person = state.person(job)?;
    let receipt = state.write(person, |writer| {
        append_circuits(writer, job, asked.board, &new)?;
        notes.iter().try_for_each(|(circuit, note, text)| put_note(writer, job, *circuit, *note, "", text))
    })?;
    let words = state.words.text_with("answer-circuits-added", &[("count", new.len().into())]);
    Ok(CircuitsChanged { view: circuits_view(state, asked.board)?, words, undo: token(&receipt) })
}

fn references(judged: &crate::judged::Judged, asked: &CircuitTable) -> Result<BTreeSet<String>, Failure> {
    Ok(judged.board(asked.board)?.circuits.iter().map(|one| one.circuit.reference.clone()).collect())
}
