//! A job with every reading judged on what is known, board by board and slot by slot.
//!
//! It is kept while nobody else writes, and renewed by what the next readings touch. Nothing of it is in the record: made
//! anew it comes out the same, and a test holds the two equal.

mod index;
mod median;
mod readings;
mod renew;
mod review;
mod slot;
mod slots;
#[cfg(test)]
mod tests;

pub(crate) use readings::JudgedReading;
pub(crate) use review::NOT_TESTED;
pub(crate) use slot::{Slot, slot_id, slot_of};

use crate::failure::Failure;
use provenohm_assess::circuit::{Conductor, Electrical, Pair, Stage};
use provenohm_assess::ids::{BoardId, CircuitId, PersonId, ReadingId, TesterId};
use provenohm_assess::judge::Testers;
use provenohm_assess::judgement::Level;
use provenohm_assess::limits::{Demand, LimitSet, NoLimit, SetName};
use provenohm_assess::policy::Policies;
use provenohm_assess::quantity::Shown;
use provenohm_assess::reading::Reading;
use provenohm_assess::tester::{Prepared, TesterHistory};
use provenohm_exchange::job_file::{Board, Circuit, JobFile, Tester};
use std::collections::{BTreeMap, BTreeSet};

/// A job with every reading judged.
#[derive(Clone, Debug)]
pub(crate) struct Judged {
    /// What is known.
    pub(crate) file: JobFile,
    grounds: Grounds,
    /// Every reading of the file, in its order.
    pub(crate) readings: Vec<JudgedReading>,
    /// Boards with their circuits and slots, before equipment is connected.
    pub(crate) boards: Vec<JudgedBoard>,
    index: index::Index,
    medians: median::Medians,
}

/// What readings are judged by.
#[derive(Clone, Debug)]
struct Grounds {
    set: LimitSet,
    /// Further live values of the limit set, with the policies chosen together with them.
    also: Vec<(LimitSet, Policies)>,
    testers: Testers,
    histories: BTreeMap<TesterId, TesterHistory>,
    circuits: BTreeMap<CircuitId, Circuit>,
    /// The place of each board and, on it, of each circuit.
    places: BTreeMap<CircuitId, (usize, usize)>,
    /// What was accepted of each reading, by its place in the file.
    accepted: BTreeMap<ReadingId, Vec<usize>>,
}

/// A board as judged.
#[derive(Clone, Debug)]
pub(crate) struct JudgedBoard {
    pub(crate) id: BoardId,
    pub(crate) name: String,
    pub(crate) place: String,
    /// Who does it.
    pub(crate) people: Vec<PersonId>,
    pub(crate) circuits: Vec<JudgedCircuit>,
}

impl JudgedBoard {
    /// How many required pairs have no reading, on a board that was begun; none on one that was not.
    pub(crate) fn lacking(&self) -> usize {
        let slots = || self.circuits.iter().flat_map(|circuit| &circuit.slots);
        let begun = slots().any(|slot| !slot.is_open());
        if begun { slots().filter(|slot| slot.required && slot.is_open()).count() } else { 0 }
    }
}

/// A circuit as judged.
#[derive(Clone, Debug)]
pub(crate) struct JudgedCircuit {
    pub(crate) circuit: Circuit,
    /// What the set asks before equipment is connected.
    pub(crate) demand: Result<Demand, NoLimit>,
    /// Its slots before equipment is connected, and slots after it that hold something.
    pub(crate) slots: Vec<Slot>,
}

impl Judged {
    /// Judges everything in the file.
    ///
    /// # Errors
    /// `set_not_here` if the limit set in it cannot be read.
    pub(crate) fn of(mut file: JobFile) -> Result<Self, Failure> {
        let load = |text: &str| match LimitSet::load(text.as_bytes()) {
            Ok(loaded) => Ok(loaded.set),
            Err(complaint) => Err(Failure::of("set_not_here").because(complaint)),
        };
        let set = load(&file.job.limit_set_text)?;
        let also = file.job.rules_also.iter().map(|it| Ok((load(&it.limit_set_text)?, it.policies)));
        let also = also.collect::<Result<_, Failure>>()?;
        let all: Vec<TesterHistory> = file.testers.iter().flat_map(Tester::histories).collect();
        let testers = Testers::new(all.iter().map(Prepared::new));
        let histories = all.into_iter().rev().map(|history| (history.tester, history)).collect();
        let circuits = file.boards.iter().flat_map(|board| board.circuits.iter().chain(&board.removed));
        let circuits = circuits.map(|circuit| (circuit.id, circuit.clone())).collect();
        // Boards that were taken away stand last: a place among those that are there is a place among all.
        file.boards.sort_by_key(|board| board.taken_away);
        let placed = |(at, board): (usize, &Board)| {
            board.circuits.iter().enumerate().map(move |(on, circuit)| (circuit.id, (at, on))).collect::<Vec<_>>()
        };
        let places = file.boards.iter().enumerate().flat_map(placed).collect();
        let accepted = review::by_reading(&file.accepted);
        let readings = std::mem::take(&mut file.readings).into_iter().map(|taken| (None, taken)).collect();
        let mut judged = Self {
            file,
            grounds: Grounds { set, also, testers, histories, circuits, places, accepted },
            readings: Vec::new(),
            boards: Vec::new(),
            index: index::Index::default(),
            medians: median::Medians::default(),
        };
        judged.take_in(readings, BTreeSet::new());
        judged.boards =
            judged.file.boards.iter().filter(|board| !board.taken_away).map(|board| judged.board_of(board)).collect();
        Ok(judged)
    }

    /// A circuit with its slots.
    pub(crate) fn as_judged(&self, circuit: &Circuit) -> JudgedCircuit {
        JudgedCircuit {
            demand: self.set().demand(circuit.id, &circuit.electrical, Stage::Before),
            slots: slots::of_circuit(self, circuit, Stage::Before),
            circuit: circuit.clone(),
        }
    }

    fn board_of(&self, board: &Board) -> JudgedBoard {
        JudgedBoard {
            id: board.id,
            name: board.name.clone(),
            place: board.place.clone(),
            people: board.people.clone(),
            circuits: board.circuits.iter().map(|circuit| self.as_judged(circuit)).collect(),
        }
    }

    /// The limit set.
    pub(crate) fn set(&self) -> &LimitSet {
        &self.grounds.set
    }

    /// The title of a limit set that was also chosen.
    pub(crate) fn title_of(&self, name: &SetName) -> Option<&str> {
        let also = self.file.job.rules_also.iter().zip(&self.grounds.also);
        also.into_iter().find(|(rules, _)| rules.limit_set == *name).map(|(_, (set, _))| set.title.as_str())
    }

    /// Every live value of the limit set and the policies, those it is shown with first.
    fn rules(&self) -> impl Iterator<Item = (&LimitSet, Policies)> {
        let first = (&self.grounds.set, self.file.job.policies);
        std::iter::once(first).chain(self.grounds.also.iter().map(|(set, policies)| (set, *policies)))
    }

    /// The testers, prepared.
    pub(crate) fn testers(&self) -> &Testers {
        &self.grounds.testers
    }

    /// The slots of a circuit at a stage.
    pub(crate) fn slots_at(&self, circuit: &Circuit, stage: Stage) -> Vec<Slot> {
        slots::of_circuit(self, circuit, stage)
    }

    /// A board.
    pub(crate) fn board(&self, id: BoardId) -> Result<&JudgedBoard, Failure> {
        self.boards.iter().find(|board| board.id == id).ok_or_else(|| Failure::of("not_found"))
    }

    /// Readings that stop a sign-off and stand on no circuit that is still there, each with its board and the first of its
    /// circuits. Taking a circuit away ends no *Stop*.
    pub(crate) fn stops_taken_away(&self) -> impl Iterator<Item = (&Board, &Circuit, &JudgedReading)> {
        let here = |id| self.boards.iter().any(|board| board.circuits.iter().any(|one| one.circuit.id == id));
        let stops = self.readings.iter().filter(|one| one.taken.stands() && one.judgement.level == Level::Stop);
        let gone = stops.filter(move |one| !one.reading.pair.circuits().into_iter().any(here));
        gone.filter_map(|one| {
            let first = one.reading.pair.circuits().first().copied()?;
            let on = |board: &&Board| board.circuits.iter().chain(&board.removed).any(|it| it.id == first);
            Some((self.file.boards.iter().find(on)?, self.circuit(first)?, one))
        })
    }

    /// A circuit on any board, the removed ones too.
    pub(crate) fn circuit(&self, id: CircuitId) -> Option<&Circuit> {
        self.grounds.circuits.get(&id)
    }

    /// The place of a circuit's board, and its own on that board.
    fn place_of(&self, id: CircuitId) -> Option<(usize, usize)> {
        self.grounds.places.get(&id).copied()
    }

    /// What decides a circuit's limit.
    pub(crate) fn electrical(&self, id: CircuitId) -> Option<&Electrical> {
        self.circuit(id).map(|circuit| &circuit.electrical)
    }

    /// Whether a circuit of this pair has an N.
    pub(crate) fn has_neutral(&self, pair: &Pair) -> bool {
        let has = |it: &Electrical| it.conductors.live().contains(&Conductor::N);
        pair.circuits().into_iter().any(|id| self.electrical(id).is_some_and(has))
    }

    /// A tester in the file.
    pub(crate) fn tester(&self, id: TesterId) -> Option<&Tester> {
        self.file.testers.iter().find(|tester| tester.id == id)
    }

    /// A tester's history.
    pub(crate) fn history(&self, id: TesterId) -> Option<&TesterHistory> {
        self.grounds.histories.get(&id)
    }

    /// A reading by its id.
    pub(crate) fn reading(&self, id: ReadingId) -> Option<&JudgedReading> {
        self.readings.get(self.index.place(id)?)
    }

    /// What the tester of a reading shows above its limit, at the voltage it was set to.
    pub(crate) fn over_range_of(&self, reading: &Reading) -> Option<Shown> {
        let card = self.history(reading.tester?)?.card.as_ref()?;
        card.voltages.iter().find(|one| one.test_voltage_v == reading.test_voltage_v)?.over_range
    }

    /// The readings that stand between these ends at a stage.
    pub(crate) fn standing(&self, stage: Stage, pair: &Pair) -> impl Iterator<Item = &Reading> {
        self.index.at(stage, pair).iter().filter_map(|at| self.readings.get(*at)).map(|one| &one.reading)
    }

    /// Every slot with its board and circuit, in their order.
    pub(crate) fn slots(&self) -> impl Iterator<Item = (&JudgedBoard, &JudgedCircuit, &Slot)> {
        self.boards.iter().flat_map(|board| {
            board.circuits.iter().flat_map(move |circuit| circuit.slots.iter().map(move |slot| (board, circuit, slot)))
        })
    }

    /// The name of a person.
    pub(crate) fn person(&self, id: PersonId) -> &str {
        self.file.people.iter().find(|person| person.id == id).map_or("", |person| &person.name)
    }
}
