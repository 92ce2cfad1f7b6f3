//! Where a line of a table belongs: circuits by their references, pairs by their names as they are shown.

use crate::judged::{Judged, JudgedBoard, JudgedCircuit, Slot};
use crate::ops::run::{Seat, Walk, slot_of_group};
use crate::read::{ReadingLine, shortened};
use crate::tell;
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::limits::Under;
use provenohm_words::Words;
use std::collections::HashMap;

/// A place that a line can mean.
#[derive(Clone)]
pub(super) struct Found<'a> {
    pub(super) circuit: &'a JudgedCircuit,
    pub(super) pair: Pair,
    pub(super) slot: Slot,
}

/// The places of a board by circuit, stage and name.
pub(super) struct Places<'a> {
    judged: &'a Judged,
    pub(super) board: &'a JudgedBoard,
    by_name: HashMap<(String, Stage, String), Vec<Found<'a>>>,
    /// How the name of a group begins, and what stands between its circuits and the earth.
    group: (String, String),
}

impl<'a> Places<'a> {
    pub(super) fn of(words: &Words, judged: &'a Judged, board: &'a JudgedBoard) -> Self {
        let mut by_name: HashMap<(String, Stage, String), Vec<Found<'a>>> = HashMap::new();
        for stage in [Stage::Before, Stage::After] {
            for (circuit, slots) in Walk::of(judged, board, stage).circuits {
                let mut slots: Vec<Slot> = slots.into_iter().map(std::borrow::Cow::into_owned).collect();
                slots.extend(left_open(judged, circuit, stage, &slots));
                for slot in slots {
                    let name = normal(&tell::pair_name(words, judged, circuit.circuit.id, &slot.pair));
                    let key = (circuit.circuit.reference.trim().to_owned(), stage, name);
                    by_name.entry(key).or_default().push(Found { circuit, pair: slot.pair.clone(), slot });
                }
            }
        }
        Self { judged, board, by_name, group: group(words) }
    }

    /// Every place a line can mean; never none.
    pub(super) fn find(&self, words: &Words, line: &ReadingLine) -> Result<Vec<Found<'a>>, String> {
        if !line.board.is_empty() && line.board != self.board.name.trim() {
            return Err(words.text_with("complaint-other-board", &[("board", shortened(&line.board).into())]));
        }
        let key = (line.circuit.clone(), line.stage, normal(&line.pair));
        if let Some(found) = self.by_name.get(&key) {
            return Ok(found.clone());
        }
        if let Some(found) = self.of_group(words, line) {
            return Ok(vec![found]);
        }
        if !self.board.circuits.iter().any(|one| one.circuit.reference.trim() == line.circuit) {
            return Err(words.text_with("complaint-no-circuit", &[("circuit", shortened(&line.circuit).into())]));
        }
        let args = [("pair", shortened(&line.pair).into()), ("circuit", shortened(&line.circuit).into())];
        Err(words.text_with("complaint-no-pair", &args))
    }

    /// That a line can mean several places.
    pub(super) fn alike(&self, words: &Words, line: &ReadingLine) -> String {
        words.text_with("complaint-circuits-alike", &[("circuit", shortened(&line.circuit).into())])
    }

    /// Circuits tested together, by their references: any that Run would test together.
    fn of_group(&self, words: &Words, line: &ReadingLine) -> Option<Found<'a>> {
        let name = normal(&line.pair);
        let rest = name.strip_prefix(&self.group.0)?;
        let (list, _) = rest.rsplit_once(&self.group.1)?;
        let group = list.split(',').map(|reference| self.named(reference)).collect::<Option<Vec<CircuitId>>>()?;
        let seat = Seat { stage: line.stage, group, ..Seat::default() };
        let (first, slot) = slot_of_group(self.judged, self.board, &seat)?;
        let circuit = self.board.circuits.iter().find(|one| one.circuit.id == first)?;
        let said = normal(&tell::pair_name(words, self.judged, first, &slot.pair));
        let here = said == name && circuit.circuit.reference.trim() == line.circuit;
        here.then(|| Found { circuit, pair: slot.pair.clone(), slot })
    }

    fn named(&self, reference: &str) -> Option<CircuitId> {
        let mut called = self.board.circuits.iter().filter(|one| normal(&one.circuit.reference) == reference);
        let one = called.next()?;
        called.next().is_none().then_some(one.circuit.id)
    }
}

/// The single pairs of joined ones: a table may say of both what Run asks for one after the other.
fn left_open(judged: &Judged, circuit: &JudgedCircuit, stage: Stage, slots: &[Slot]) -> Vec<Slot> {
    let under = Under { stage, loads: circuit.circuit.electrical.loads };
    let electrical = |id| judged.electrical(id);
    let single = |pair: Pair| {
        let limit = judged.set().limit_for(&pair, under, electrical).ok().map(|limit| limit.to_limit());
        let (readings, not_tested, requests) = (Vec::new(), Vec::new(), Vec::new());
        Slot { stage, pair, required: false, limit, readings, not_tested, covered_by: None, requests }
    };
    let joined = slots.iter().filter(|slot| slot.required && slot.pair.circuits().len() == 1);
    let parts = joined.flat_map(|slot| judged.set().left_open(&slot.pair, under, electrical));
    parts.filter(|pair| slots.iter().all(|slot| slot.pair != *pair)).map(single).collect()
}

/// A name as it is compared: dashes of any length, spaces or none.
fn normal(name: &str) -> String {
    let dash = |c: char| if matches!(c, '‐' | '‑' | '–' | '—' | '−') { '-' } else { c };
    name.chars().filter(|c| !c.is_whitespace()).map(dash).flat_map(char::to_lowercase).collect()
}

fn group(words: &Words) -> (String, String) {
    const LIST: &str = "\u{1}";
    const EARTH: &str = "\u{2}";
    let lives = words.text_with("said-end-all-lives", &[("circuits", LIST.into())]);
    let name = normal(&words.text_with("said-pair-joined", &[("a", lives.into()), ("b", EARTH.into())]));
    let (before, after) = name.split_once(LIST).unwrap_or_default();
    (before.to_owned(), after.trim_end_matches(EARTH).to_owned())
}
