//! Boards and circuits.

use super::facet::Facet;
use super::query::{ReadError, View};
use crate::entry::body::{
    BoardNames, BoardPeople, BoardPresent, CircuitElectrical, CircuitLabel, CircuitOrder, CircuitPlace, CircuitPresent,
    Content,
};
use crate::entry::{Noun, Object, ObjectId};
use provenohm_assess::ids::{BoardId, CircuitId, JobId};
use std::collections::BTreeMap;
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
    /// Something about it needs a newer version; true if it must not be judged without.
    pub needs_newer: Option<bool>,
}

impl Board {
    /// There, unless every live word says it was removed: changed on one device and removed on another, it stays.
    #[must_use]
    pub fn is_present(&self) -> bool {
        self.present.live.is_empty() || self.present.live.iter().any(|one| one.value.present)
    }
}

impl Circuit {
    /// There, unless every live word says it was removed: changed on one device and removed on another, it stays.
    #[must_use]
    pub fn is_present(&self) -> bool {
        self.present.live.is_empty() || self.present.live.iter().any(|one| one.value.present)
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
        let mut boards: Vec<Board> = standing(&names)
            .into_iter()
            .map(|id| Board {
                board: BoardId(id),
                names: names.remove(&id).unwrap_or_default(),
                present: present.remove(&id).unwrap_or_default(),
                order: order.remove(&id).unwrap_or_default(),
                people: people.remove(&id).unwrap_or_default(),
            })
            .collect();
        let wanted = wanted.first().map_or(&[][..], |order| &order.boards);
        boards.sort_by_key(|board| (rank(wanted, &board.board), board.board));
        Ok(boards)
    }

    /// The circuits of a job, board by board in the order one walks, the removed ones among them.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn circuits(&self, job: JobId) -> Result<Vec<Circuit>, ReadError> {
        let of = Object { noun: Noun::Job, id: ObjectId(job.0) };
        let mut label = self.facets::<CircuitLabel>(of, |it| it.circuit.0)?;
        let mut electrical = self.facets::<CircuitElectrical>(of, |it| it.circuit.0)?;
        let mut place = self.facets::<CircuitPlace>(of, |it| it.circuit.0)?;
        let mut present = self.facets::<CircuitPresent>(of, |it| it.circuit.0)?;
        let boards = self.boards(job)?;
        let mut circuits = Vec::new();
        for id in standing(&label) {
            circuits.push(Circuit {
                circuit: CircuitId(id),
                label: label.remove(&id).unwrap_or_default(),
                electrical: electrical.remove(&id).unwrap_or_default(),
                place: place.remove(&id).unwrap_or_default(),
                present: present.remove(&id).unwrap_or_default(),
                needs_newer: self.needs_newer(Object { noun: Noun::Circuit, id: ObjectId(id) })?,
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
        id: impl Fn(&T) -> Uuid,
    ) -> Result<BTreeMap<Uuid, Facet<T>>, ReadError> {
        let mut by_id: BTreeMap<Uuid, Vec<_>> = BTreeMap::new();
        for one in self.stated::<T>(of)? {
            by_id.entry(id(&one.value)).or_default().push(one);
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
