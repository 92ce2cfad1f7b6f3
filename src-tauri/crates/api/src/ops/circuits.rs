//! Circuits of a board and what follows from them.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedCircuit};
use crate::ops::undo::token;
use crate::read::{Fields, circuit_form, read_circuit};
use crate::state::State;
use crate::tell;
use crate::views::*;
use provenohm_assess::circuit::{Conductors, Current, Electrical, Item, Loads, Location, Stage};
use provenohm_assess::ids::{BoardId, CircuitId, JobId, NoteId};
use provenohm_assess::limits::{Demand, MeasureName, NoLimit};
use provenohm_exchange::job_file::Circuit;
use provenohm_logbook::entry::body::{
    CircuitElectrical, CircuitLabel, CircuitOrder, CircuitPlace, CircuitPresent, Note,
};
use provenohm_logbook::entry::{Body, EntryRef, Fact, Noun, Object, ObjectId, Role};
use provenohm_logbook::record::Writer;
use provenohm_logbook::view;
use provenohm_words::Words;
use std::collections::BTreeSet;

/// Most circuits made at once.
const MOST: u32 = 500;

pub(crate) fn circuits(state: &mut State, asked: OfBoard) -> Result<CircuitsView, Failure> {
    circuits_view(state, asked.board)
}

pub(crate) fn check_circuit(state: &mut State, asked: CheckCircuit) -> Result<CircuitChecked, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let mut fields = Fields::new(&state.words);
    let electrical = read_circuit(&mut fields, &asked.form);
    let follows = electrical.map(|electrical| {
        let id = CircuitId(uuid::Uuid::nil());
        follows(&state.words, &judged, id, &electrical, judged.set().demand(id, &electrical, Stage::Before).as_ref())
    });
    let complaints = fields.complaints();
    Ok(CircuitChecked { follows: follows.filter(|_| complaints.is_empty()), complaints })
}

pub(crate) fn save_circuit(state: &mut State, asked: SaveCircuit) -> Result<CircuitsChanged, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let board = judged.board(asked.board)?;
    let form = asked.form;
    let mut fields = Fields::new(&state.words);
    let reference = fields.needed("reference", &form.reference, "complaint-reference-needed");
    let taken =
        board.circuits.iter().any(|one| one.circuit.reference == reference && Some(one.circuit.id) != asked.circuit);
    if taken {
        fields.complain("reference", "complaint-reference-taken", &[("reference", reference.as_str().into())]);
    }
    let description = fields.optional("description", &form.description, crate::read::NAME_MOST);
    let notes = fields.optional("notes", &form.notes, crate::read::NOTE_MOST);
    let electrical = read_circuit(&mut fields, &form);
    let electrical = fields.settle(electrical)?;
    let person = state.person(job)?;
    let circuit = match asked.circuit {
        Some(circuit) => circuit,
        None => CircuitId(state.host.id()?),
    };
    let note = NoteId(state.host.id()?);
    let new = New { circuit, reference: reference.clone(), description, electrical };
    let receipt = match judged.circuit(circuit) {
        None => state.write(person, |writer| {
            append_circuits(writer, job, asked.board, std::slice::from_ref(&new))?;
            put_note(writer, job, circuit, note, "", &notes)
        })?,
        Some(old) => {
            let view = state.record.view().circuits(job)?;
            let facets = view.into_iter().find(|one| one.circuit == circuit).ok_or_else(|| Failure::of("not_found"))?;
            let old_notes = circuit_form(old).notes;
            state.write(person, |writer| {
                let New { circuit, reference, description, electrical } = new;
                // A facet is amended alone, and only when it changed.
                if old.reference != reference || old.description != description {
                    let label = Body::from(CircuitLabel { job, circuit, reference, description });
                    amend(writer, &facets, &label, &facets.label.current())?;
                }
                if old.electrical != electrical || !old.electrical_also.is_empty() {
                    let body = Body::from(CircuitElectrical { job, circuit, electrical });
                    amend(writer, &facets, &body, &facets.electrical.current())?;
                }
                put_note(writer, job, circuit, note, &old_notes, &notes)
            })?
        }
    };
    let words = state.words.text_with("answer-circuit-saved", &[("circuit", reference.into())]);
    Ok(CircuitsChanged { view: circuits_view(state, asked.board)?, words, undo: token(&receipt) })
}

/// Gives a circuit a new value of a facet, under every id that means it.
pub(crate) fn amend(
    writer: &mut Writer<'_>,
    circuit: &view::Circuit,
    body: &Body,
    current: &[EntryRef],
) -> Result<(), Failure> {
    for id in std::iter::once(circuit.circuit).chain(circuit.same.iter().copied()) {
        let body = body.clone().moved_to(ObjectId(id.0));
        writer.append(Fact::naming(body, Role::Replaces, current.iter().copied()))?;
    }
    Ok(())
}

/// A circuit to be put on a board.
pub(crate) struct New {
    pub(crate) circuit: CircuitId,
    pub(crate) reference: String,
    pub(crate) description: String,
    pub(crate) electrical: Electrical,
}

/// Puts circuits at the end of a board.
pub(crate) fn append_circuits(
    writer: &mut Writer<'_>,
    job: JobId,
    board: BoardId,
    circuits: &[New],
) -> Result<(), Failure> {
    for new in circuits {
        let (circuit, electrical) = (new.circuit, new.electrical.clone());
        writer.append(CircuitLabel {
            job,
            circuit,
            reference: new.reference.clone(),
            description: new.description.clone(),
        })?;
        writer.append(CircuitElectrical { job, circuit, electrical })?;
        writer.append(CircuitPlace { job, circuit, board })?;
    }
    Ok(())
}

/// Changes the note of a circuit, if it changed.
pub(crate) fn put_note(
    writer: &mut Writer<'_>,
    job: JobId,
    circuit: CircuitId,
    note: NoteId,
    old: &str,
    text: &str,
) -> Result<(), Failure> {
    if old == text {
        return Ok(());
    }
    let of = Object { noun: Noun::Circuit, id: ObjectId(circuit.0) };
    let (own, others): (Vec<_>, Vec<_>) = writer
        .view()
        .circuit_notes(job, circuit)?
        .into_iter()
        .filter(|one| one.is_live())
        .partition(|one| one.value.of == of);
    let live: Vec<_> = own.into_iter().map(|one| one.entry).collect();
    // A note under another id that means this circuit is in the new text too.
    let others: Vec<_> = others.into_iter().map(|one| one.entry).collect();
    writer.take_back(&others)?;
    let body = Note { note, of, text: text.to_owned(), person: None, at: None };
    writer.append_in(job.into(), Fact::naming(body, Role::Replaces, live))?;
    Ok(())
}

pub(crate) fn add_many_circuits(state: &mut State, asked: AddManyCircuits) -> Result<CircuitsChanged, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let board = judged.board(asked.board)?;
    let mut fields = Fields::new(&state.words);
    let count = asked.count.trim().parse::<u32>().ok().filter(|count| (1..=MOST).contains(count));
    if count.is_none() {
        fields.complain("count", "complaint-count", &[("most", MOST.into())]);
    }
    let electrical = read_circuit(&mut fields, &asked.form);
    let (count, electrical) = fields.settle(count.zip(electrical))?;
    let numbered = |circuit: &JudgedCircuit| circuit.circuit.reference.parse::<u32>().ok();
    let last = board.circuits.iter().filter_map(numbered).max().unwrap_or(0);
    let mut new = Vec::new();
    for number in (last.saturating_add(1)..).take(usize::try_from(count).unwrap_or(0)) {
        new.push(New {
            circuit: CircuitId(state.host.id()?),
            reference: number.to_string(),
            description: String::new(),
            electrical: electrical.clone(),
        });
    }
    let person = state.person(job)?;
    let receipt = state.write(person, |writer| append_circuits(writer, job, asked.board, &new))?;
    let words = state.words.text_with("answer-circuits-added", &[("count", count.into())]);
    Ok(CircuitsChanged { view: circuits_view(state, asked.board)?, words, undo: token(&receipt) })
}

pub(crate) fn move_circuit(state: &mut State, asked: MoveCircuit) -> Result<CircuitsView, Failure> {
    let job = state.job_of_circuit(asked.circuit)?;
    let judged = state.judged(job)?;
    let board = judged
        .boards
        .iter()
        .find(|board| board.circuits.iter().any(|one| one.circuit.id == asked.circuit))
        .ok_or_else(|| Failure::of("not_found"))?;
    let mut order: Vec<CircuitId> = board.circuits.iter().map(|one| one.circuit.id).collect();
    let from = order.iter().position(|id| *id == asked.circuit).unwrap_or(0);
    let by = isize::try_from(asked.by).unwrap_or_default();
    let to = from.saturating_add_signed(by).min(order.len().saturating_sub(1));
    if to != from {
        let moved = order.remove(from);
        order.insert(to, moved);
        let board = board.id;
        let boards = state.record.view().boards(job)?;
        let current = boards.iter().find(|one| one.board == board).map(|one| one.order.current()).unwrap_or_default();
        let person = state.person(job)?;
        state.write(person, |writer| {
            let body = CircuitOrder { job, board, circuits: order };
            Ok(writer.append(Fact::naming(body, Role::Replaces, current))?)
        })?;
    }
    circuits_view(state, board.id)
}

pub(crate) fn remove_circuit(state: &mut State, asked: OfCircuit) -> Result<CircuitsChanged, Failure> {
    present(state, asked.circuit, false)
}

pub(crate) fn restore_circuit(state: &mut State, asked: OfCircuit) -> Result<CircuitsChanged, Failure> {
    present(state, asked.circuit, true)
}

fn present(state: &mut State, circuit: CircuitId, present: bool) -> Result<CircuitsChanged, Failure> {
    let job = state.job_of_circuit(circuit)?;
    let judged = state.judged(job)?;
    let on_record = state.record.view().circuits(job)?;
    let facets = on_record.into_iter().find(|one| one.circuit == circuit).ok_or_else(|| Failure::of("not_found"))?;
    let board = facets.place.first().map(|place| place.board).ok_or_else(|| Failure::of("not_found"))?;
    let person = state.person(job)?;
    let receipt = state.write(person, |writer| {
        let known = if present { Vec::new() } else { writer.known(job)? };
        amend(writer, &facets, &CircuitPresent { job, circuit, present, known }.into(), &facets.present.current())
    })?;
    let reference = judged.circuit(circuit).map(|one| one.reference.clone()).unwrap_or_default();
    let standing = judged.readings.iter().filter(|one| one.taken.stands());
    let readings = standing.filter(|one| one.reading.pair.circuits().contains(&circuit)).count();
    let key = if present { "answer-circuit-restored" } else { "answer-circuit-removed" };
    let words = state.words.text_with(key, &[("circuit", reference.into()), ("readings", readings.into())]);
    Ok(CircuitsChanged { view: circuits_view(state, board)?, words, undo: token(&receipt) })
}

/// Everything the Circuits screen shows.
pub(crate) fn circuits_view(state: &mut State, id: BoardId) -> Result<CircuitsView, Failure> {
    let job = state.job_of_board(id)?;
    let judged = state.judged(job)?;
    let board = judged.board(id)?;
    let words = &state.words;
    let circuits: Vec<CircuitView> = board.circuits.iter().map(|one| circuit_view(words, &judged, one)).collect();
    let readings: u32 = circuits.iter().map(|one| one.of).sum();
    let removed = judged.file.boards.iter().filter(|one| one.id == id).flat_map(|one| &one.removed);
    let on_record: BTreeSet<CircuitId> = match removed.clone().next() {
        Some(_) => state.record.view().circuits(job)?.iter().map(|one| one.circuit).collect(),
        None => BTreeSet::new(),
    };
    // An id that was said to mean another circuit is none that comes back alone.
    let removed = removed.filter(|one| on_record.contains(&one.id));
    let next = board.circuits.last().map(|one| CircuitForm {
        reference: String::new(),
        description: String::new(),
        notes: String::new(),
        ..circuit_form(&one.circuit)
    });
    Ok(CircuitsView {
        job,
        board: id,
        name: board.name.clone(),
        sum: words.text_with(
            "answer-readings-for-circuits",
            &[("readings", readings.into()), ("circuits", circuits.len().into())],
        ),
        circuits,
        removed: removed
            .map(|circuit| RemovedCircuit { id: circuit.id, words: tell::circuit_name(words, circuit) })
            .collect(),
        choices: choices(words),
        next: next.unwrap_or_else(usual_form),
    })
}

fn usual_form() -> CircuitForm {
    CircuitForm {
        reference: String::new(),
        description: String::new(),
        nominal: "230".to_owned(),
        current: Current::Ac,
        to_earth: String::new(),
        measure: MeasureName::None,
        felv_supply: String::new(),
        conductors: Conductors::SinglePhase,
        loads: Loads::Out,
        joined_to_earth: false,
        spd_stays: false,
        item: None,
        location: None,
        notes: String::new(),
    }
}

fn circuit_view(words: &Words, judged: &Judged, one: &JudgedCircuit) -> CircuitView {
    let Circuit { id, reference, description, electrical, electrical_also, .. } = &one.circuit;
    let done = one.slots.iter().filter(|slot| !slot.is_open()).count();
    CircuitView {
        id: *id,
        reference: reference.clone(),
        description: description.clone(),
        form: circuit_form(&one.circuit),
        electrical: words.electrical(electrical),
        follows: follows(words, judged, *id, electrical, one.demand.as_ref()),
        done: u32::try_from(done).unwrap_or(u32::MAX),
        of: u32::try_from(one.slots.len()).unwrap_or(u32::MAX),
        sign: sign_of(judged, one),
        conflict: (!electrical_also.is_empty()).then(|| words.text("answer-two-values")),
    }
}

/// The gravest sign among a circuit's slots; done only when none is open.
pub(crate) fn sign_of(judged: &Judged, one: &JudgedCircuit) -> Sign {
    let signs: Vec<Sign> = one.slots.iter().map(|slot| slot.sign(judged)).collect();
    let any = |sign| signs.contains(&sign);
    if any(Sign::Stop) {
        Sign::Stop
    } else if any(Sign::Look) {
        Sign::Look
    } else if any(Sign::Todo) || signs.is_empty() {
        Sign::Todo
    } else {
        Sign::Done
    }
}

/// What the set asks of a circuit, in words.
pub(crate) fn follows(
    words: &Words,
    judged: &Judged,
    circuit: CircuitId,
    electrical: &Electrical,
    demand: Result<&Demand, &NoLimit>,
) -> Follows {
    let first = demand.map(|demand| demand.pairs.first().map(|first| (demand, &first.limit)));
    let Ok(Some((demand, limit))) = first else {
        let nothing = first.err().map_or_else(|| words.text("complaint-no-limit"), |why| words.no_limit(why));
        return Follows {
            test_voltage: String::new(),
            minimum: String::new(),
            source: String::new(),
            pairs: Vec::new(),
            readings: 0,
            words: nothing,
        };
    };
    let earthing = electrical.conductors.earthing();
    let reference = |id| judged.circuit(id).map(|circuit| circuit.reference.clone()).unwrap_or_default();
    let names = provenohm_words::PairNames { circuit, earthing, reference: &reference };
    let readings = u32::try_from(demand.pairs.len()).unwrap_or(u32::MAX);
    Follows {
        test_voltage: words.asked_voltage(limit),
        minimum: words.ohms(limit.minimum_ohm),
        source: source_line(words, limit),
        pairs: demand.pairs.iter().map(|required| words.pair(&required.pair, &names)).collect(),
        readings,
        words: words.text_with(
            "answer-circuit-follows",
            &[("readings", readings.into()), ("demand", words.demand(limit).into())],
        ),
    }
}

/// Where a limit stands and how sure that is.
pub(crate) fn source_line(words: &Words, limit: &provenohm_assess::limits::Limit) -> String {
    words.text_with(
        "answer-source-and-tag",
        &[("source", words.limit_source(limit).into()), ("tag", words.tag(limit.source.tag).into())],
    )
}

fn choices(words: &Words) -> CircuitChoices {
    fn list<T: serde::Serialize>(all: impl IntoIterator<Item = T>, say: impl Fn(&T) -> String) -> Vec<Choice> {
        let code = |one: &T| serde_json::to_value(one).ok().and_then(|value| value.as_str().map(str::to_owned));
        all.into_iter().map(|one| Choice { id: code(&one).unwrap_or_default(), words: say(&one) }).collect()
    }
    use Conductors::*;
    CircuitChoices {
        measures: list(
            [MeasureName::None, MeasureName::Selv, MeasureName::Pelv, MeasureName::Felv, MeasureName::Separation],
            |one| words.measure_name(*one),
        ),
        conductors: list(
            [SinglePhase, SinglePhasePen, TwoPhase, TwoPhaseN, ThreePhase, ThreePhaseN, ThreePhasePen, Dc, DcMidpoint],
            |one| words.conductors(*one),
        ),
        currents: list([Current::Ac, Current::Dc], |one| words.current(*one)),
        loads: list([Loads::Out, Loads::Connected, Loads::Electronics], |one| words.loads(*one)),
        items: list([Item::HeatingElement, Item::FunctionalEarth], |one| words.item(*one)),
        locations: list([Location::Wet, Location::FireRisk], |one| words.location(*one)),
    }
}
