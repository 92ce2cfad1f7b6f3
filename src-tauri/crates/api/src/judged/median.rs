//! The readings of each pair kind on each board, for the decade hint.

use super::Judged;
use provenohm_assess::circuit::PairKind;
use provenohm_assess::ids::{BoardId, CircuitId};
use provenohm_assess::judge::{Median, OfOneKind};
use provenohm_assess::reading::Reading;
use std::collections::BTreeMap;

/// Readings that stand, sorted by board and kind of pair.
pub(super) struct Medians {
    boards: BTreeMap<CircuitId, BoardId>,
    kinds: BTreeMap<(BoardId, PairKind), OfOneKind>,
}

impl Medians {
    /// Sorts the readings that stand.
    pub(super) fn of(judged: &Judged, current: &[Reading]) -> Self {
        let boards = judged.file.boards.iter();
        let boards = boards.flat_map(|board| board.circuits.iter().map(|circuit| (circuit.id, board.id))).collect();
        let mut medians = Self { boards, kinds: BTreeMap::new() };
        let mut shown: BTreeMap<_, Vec<_>> = BTreeMap::new();
        for (taken, reading) in judged.file.readings.iter().zip(current) {
            if let Some(key) = medians.key(judged, reading).filter(|_| taken.stands()) {
                shown.entry(key).or_default().push(reading.shown);
            }
        }
        medians.kinds = shown.into_iter().map(|(key, all)| (key, OfOneKind::new(all))).collect();
        medians
    }

    /// The median of the others of its kind on its board.
    pub(super) fn without(&self, judged: &Judged, reading: &Reading) -> Option<Median> {
        self.kinds.get(&self.key(judged, reading)?)?.median_without(reading.shown)
    }

    fn key(&self, judged: &Judged, reading: &Reading) -> Option<(BoardId, PairKind)> {
        let board = self.boards.get(reading.pair.circuits().first()?)?;
        let kind = reading.pair.kind(|id| judged.electrical(id).map(|electrical| electrical.conductors))?;
        Some((*board, kind))
    }
}
