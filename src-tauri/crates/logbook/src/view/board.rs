//! Boards and circuits.

use super::facet::Facet;
use super::query::{ReadError, View};
use super::removed::Presence;
use crate::entry::body::{
    BoardNames, BoardPeople, BoardPresent, CircuitElectrical, CircuitLabel, CircuitOrder, CircuitPlace, CircuitPresent,
    Content, CutEnd,
};
use crate::entry::{EntryRef, Noun, Object, ObjectId};
use provenohm_assess::ids::{BoardId, CircuitId, JobId};
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// A board, facet by facet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Board {
    /// Which.
    pub board: BoardId,
    /// Name and place.
    pub names: Facet<BoardNames>,
    /// Whether it is there.
    pub present: Facet<BoardPresent>,
    /// Order of its circuits.
    pub order: Facet<CircuitOrder>,
    /// Who does it.
    pub people: Facet<BoardPeople>,
    /// Changes that whoever removed it did not know of: it stays until a person is asked.
    pub unseen: Vec<EntryRef>,
}

/// A circuit, facet by facet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Circuit {
    /// Which.
    pub circuit: CircuitId,
    /// Reference and description.
    pub label: Facet<CircuitLabel>,
    /// What decides limit and pairs.
    pub electrical: Facet<CircuitElectrical>,
    /// Its board.
    pub place: Facet<CircuitPlace>,
    /// Whether it is there.
    pub present: Facet<CircuitPresent>,
    /// Changes that whoever removed it did not know of: it stays until a person is asked.
    pub unseen: Vec<EntryRef>,
    /// Other ids that mean the same circuit: what was read on them is read on this one, and what is said of them is said
    /// of this one.
    pub same: Vec<CircuitId>,
    /// Something about it needs a newer version; true if it must not be judged without.
    pub needs_newer: Option<bool>,
}

impl Board {
    /// There, unless every live word says it was removed: changed on one device and removed on another, it stays.
    #[must_use]
    pub fn is_present(&self) -> bool {
        let present = &self.present.live;
        present.is_empty() || present.iter().any(|one| one.value.present) || !self.unseen.is_empty()
    }
}

impl Circuit {
    /// There, unless every live word says it was removed: changed on one device and removed on another, it stays.
    #[must_use]
    pub fn is_present(&self) -> bool {
        let present = &self.present.live;
        present.is_empty() || present.iter().any(|one| one.value.present) || !self.unseen.is_empty()
    }
}

impl Presence for BoardPresent {
    fn is_there(&self) -> bool {
        self.present
    }

    fn known(&self) -> &[CutEnd] {
        &self.known
    }
}

impl Presence for CircuitPresent {
    fn is_there(&self) -> bool {
        self.present
    }

    fn known(&self) -> &[CutEnd] {
        &self.known
    }
}

impl View<'_> {
    /// The boards of a job in its order, the removed ones among them.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn boards(&self, job: JobId) -> Result<Vec<Board>, ReadError> {
        let of = Object { noun: Noun::Job, id: ObjectId(job.0) };
        let mut names = self.facets::<BoardNames>(of, |it| it.board.0)?;
        let mut present = self.facets::<BoardPresent>(of, |it| it.board.0)?;
        let mut order = self.facets::<CircuitOrder>(of, |it| it.board.0)?;
        let mut people = self.facets::<BoardPeople>(of, |it| it.board.0)?;
        let wanted = Facet::of(self.stated::<crate::entry::body::BoardOrder>(of)?);
        let mut boards = Vec::new();
        for id in standing(&names) {
            let present = present.remove(&id).unwrap_or_default();
            boards.push(Board {
                board: BoardId(id),
                names: names.remove(&id).unwrap_or_default(),
                unseen: if present.live.is_empty() {
                    Vec::new()
                } else {
                    self.unseen(&present, &self.on_board(of, id)?)?
                },
                present,
                order: order.remove(&id).unwrap_or_default(),
                people: people.remove(&id).unwrap_or_default(),
            });
        }
        let wanted = wanted.first().map_or(&[][..], |order| &order.boards);
        boards.sort_by_key(|board| (rank(wanted, &board.board), board.board));
        Ok(boards)
    }

    /// A board and what is or was on it.
    fn on_board(&self, job: Object, board: Uuid) -> Result<BTreeSet<Object>, ReadError> {
        let placed = self.stated::<CircuitPlace>(job)?.into_iter();
        let on = placed.filter(|one| one.is_live() && one.value.board.0 == board).map(|one| one.value.circuit.0);
        let circuits = on.map(|id| Object { noun: Noun::Circuit, id: ObjectId(id) });
        Ok(circuits.chain([Object { noun: Noun::Board, id: ObjectId(board) }]).collect())
    }

    /// The circuits of a job, board by board in the order one walks, the removed ones among them.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn circuits(&self, job: JobId) -> Result<Vec<Circuit>, ReadError> {
        let of = Object { noun: Noun::Job, id: ObjectId(job.0) };
        let same = self.same_circuits(job)?;
        let standing_id = |circuit: &mut CircuitId| {
            *circuit = CircuitId(same.one(circuit.0));
            circuit.0
        };
        let mut label = self.facets::<CircuitLabel>(of, |it| standing_id(&mut it.circuit))?;
        let mut electrical = self.facets::<CircuitElectrical>(of, |it| standing_id(&mut it.circuit))?;
        let mut place = self.facets::<CircuitPlace>(of, |it| standing_id(&mut it.circuit))?;
        let mut present = self.facets::<CircuitPresent>(of, |it| standing_id(&mut it.circuit))?;
        let boards = self.boards(job)?;
        let mut circuits = Vec::new();
        for id in standing(&label) {
            let ids: BTreeSet<Object> = std::iter::once(id)
                .chain(same.others(id))
                .map(|id| Object { noun: Noun::Circuit, id: ObjectId(id) })
                .collect();
            let mut needs_newer = None;
            for object in &ids {
                needs_newer = needs_newer.max(self.needs_newer(*object)?);
            }
            let present = present.remove(&id).unwrap_or_default();
            circuits.push(Circuit {
                circuit: CircuitId(id),
                label: label.remove(&id).unwrap_or_default(),
                electrical: electrical.remove(&id).unwrap_or_default(),
                place: place.remove(&id).unwrap_or_default(),
                unseen: if present.live.is_empty() { Vec::new() } else { self.unseen(&present, &ids)? },
                present,
                same: same.others(id).map(CircuitId).collect(),
                needs_newer,
            });
        }
        circuits.sort_by_cached_key(|circuit| {
            let board = circuit.place.first().map(|place| place.board);
            let at = boards.iter().position(|one| Some(one.board) == board).unwrap_or(usize::MAX);
            let order = boards.get(at).and_then(|board| board.order.first());
            let order = order.map_or(&[][..], |order| &order.circuits);
            (at, rank(order, &circuit.circuit), circuit.circuit)
        });
        Ok(circuits)
    }

    /// A facet of every part of a job.
    fn facets<T: Content + PartialEq>(
        &self,
        of: Object,
        id: impl Fn(&mut T) -> Uuid,
    ) -> Result<BTreeMap<Uuid, Facet<T>>, ReadError> {
        let mut by_id: BTreeMap<Uuid, Vec<_>> = BTreeMap::new();
        for mut one in self.stated::<T>(of)? {
            by_id.entry(id(&mut one.value)).or_default().push(one);
        }
        Ok(by_id.into_iter().map(|(id, stated)| (id, Facet::of(stated))).collect())
    }
}

/// Ids that have a live name: what was made and undone has none.
fn standing<T>(named: &BTreeMap<Uuid, Facet<T>>) -> Vec<Uuid> {
    named.iter().filter(|(_, facet)| !facet.live.is_empty()).map(|(id, _)| *id).collect()
}

fn rank<T: PartialEq>(order: &[T], one: &T) -> usize {
    order.iter().position(|other| other == one).unwrap_or(usize::MAX)
}
