//! Writing what was chosen.

use super::waiting::{Choosable, Waiting, What, is_presence};
use crate::failure::Failure;
use crate::ops::circuits::amend;
use provenohm_assess::ids::{BoardId, CircuitId, JobId, PersonId, TesterId};
use provenohm_logbook::entry::body::{BoardPresent, CircuitPresent, Different, SameCircuit, SamePerson, SameTester};
use provenohm_logbook::entry::{Body, EntryRef, Fact, Noun, Object, Role};
use provenohm_logbook::record::Writer;
use provenohm_logbook::view::Question;
use std::collections::BTreeSet;

/// Lets what was chosen stand, or all of it.
pub(super) fn settle(
    writer: &mut Writer<'_>,
    job: JobId,
    found: &Waiting,
    chosen: Option<&Choosable>,
) -> Result<(), Failure> {
    match (&found.question, chosen) {
        (Question::Removed { of }, Some(one)) => there(writer, job, *of, found, one.what == What::Keep),
        (Question::Alike { one, other }, Some(choice)) => alike(writer, job, *one, *other, choice.what),
        (Question::Facet { of, .. }, Some(choice)) => facet(writer, job, *of, found, choice),
        (Question::Circumstances { .. }, Some(choice)) => {
            // A correction may be of other readings too: these keep what it says of them.
            for said in choice.said.iter().take(1) {
                if let Body::Correction(correction) = &said.value {
                    writer.correct(correction.clone(), said.reason.as_deref().unwrap_or_default())?;
                }
            }
            Ok(())
        }
        _ => between(writer, found, chosen),
    }
}

/// Chooses between entries as they are.
fn between(writer: &mut Writer<'_>, found: &Waiting, chosen: Option<&Choosable>) -> Result<(), Failure> {
    let (mut keeps, mut aside): (Vec<EntryRef>, Vec<EntryRef>) = (Vec::new(), Vec::new());
    for one in &found.choices {
        let stands = chosen.is_none_or(|chosen| chosen.id == one.id);
        let entries = if stands { &mut keeps } else { &mut aside };
        entries.extend(one.entries());
    }
    writer.settle(&keeps, &aside, None)?;
    Ok(())
}

/// Chooses between values of a facet. Where one thing is known by several ids, each is given the value, so that
/// taking back that they are one leaves none without.
fn facet(writer: &mut Writer<'_>, job: JobId, of: Object, found: &Waiting, chosen: &Choosable) -> Result<(), Failure> {
    let Some(said) = chosen.said.first() else { return Err(Failure::of("not_found")) };
    match &said.value {
        Body::BoardPresent(it) => return there(writer, job, of, found, it.present),
        Body::CircuitPresent(it) => return there(writer, job, of, found, it.present),
        _ => {}
    }
    let entries: Vec<EntryRef> = found.choices.iter().flat_map(Choosable::entries).collect();
    let mut subjects = BTreeSet::new();
    for entry in &entries {
        subjects.extend(writer.view().said(*entry)?.and_then(|one| one.value.subject()));
    }
    if subjects.len() < 2 {
        return between(writer, found, Some(chosen));
    }
    for subject in subjects {
        let body = said.value.clone().moved_to(subject.id);
        writer.append(Fact::naming(body, Role::Replaces, entries.iter().copied()))?;
    }
    Ok(())
}

/// Says anew whether a board or circuit is there, now that all is known; of a circuit under every id that means it.
fn there(writer: &mut Writer<'_>, job: JobId, of: Object, found: &Waiting, present: bool) -> Result<(), Failure> {
    let said = found.choices.iter().flat_map(|one| &one.said);
    let replaced: Vec<EntryRef> = said.filter(|one| is_presence(&one.value)).map(|one| one.entry).collect();
    let known = if present { Vec::new() } else { writer.known(job)? };
    if of.noun == Noun::Board {
        let body = BoardPresent { job, board: BoardId(of.id.0), present, known };
        writer.append(Fact::naming(body, Role::Replaces, replaced))?;
        return Ok(());
    }
    let circuit = CircuitId(of.id.0);
    let on_record = writer.view().circuits(job)?.into_iter().find(|one| one.circuit == circuit);
    let on_record = on_record.ok_or_else(|| Failure::of("not_found"))?;
    amend(writer, &on_record, &CircuitPresent { job, circuit, present, known }.into(), &replaced)
}

fn alike(writer: &mut Writer<'_>, job: JobId, one: Object, other: Object, what: What) -> Result<(), Failure> {
    let tester = |of: Object| TesterId(of.id.0);
    match (what, one.noun) {
        (What::Same, Noun::Tester) => {
            let same = SameTester { one: tester(one), other: tester(other) };
            writer.append_in(tester(one).into(), same)?;
        }
        (What::Same, Noun::Person) => {
            let person = |of: Object| PersonId(of.id.0);
            writer.append_in(job.into(), SamePerson { one: person(one), other: person(other) })?;
        }
        (What::Same, _) => {
            writer.append(SameCircuit { job, one: CircuitId(one.id.0), other: CircuitId(other.id.0) })?;
        }
        // In both books, so that it goes with either tester.
        (_, Noun::Tester) => {
            for book in [one, other] {
                writer.append_in(tester(book).into(), Different { one, other })?;
            }
        }
        (..) => {
            writer.append_in(job.into(), Different { one, other })?;
        }
    }
    Ok(())
}
