//! The readings of each pair kind on each board, for the decade hint.

use super::Judged;
use provenohm_assess::circuit::PairKind;
use provenohm_assess::judge::{Median, OfOneKind};
use provenohm_assess::quantity::{Ohms, Shown};
use provenohm_assess::reading::Reading;
use std::collections::{BTreeMap, BTreeSet};

/// A board by its place among the boards, and a kind of pair.
pub(super) type Key = (usize, PairKind);

/// Readings sorted by board and kind of pair.
#[derive(Clone, Debug, Default)]
pub(super) struct Medians(BTreeMap<Key, Kind>);

#[derive(Clone, Debug, Default)]
struct Kind {
    /// Those that stand.
    standing: OfOneKind,
    /// All of them, with their places.
    rising: BTreeSet<(Ohms, usize)>,
}

impl Medians {
    /// Notes a reading at a place, new or noted before.
    pub(super) fn note(&mut self, key: Key, place: usize, shown: Shown, stood: bool, stands: bool) {
        let kind = self.0.entry(key).or_default();
        kind.rising.insert((shown.ohms(), place));
        if stood {
            kind.standing.remove(shown);
        }
        if stands {
            kind.standing.add(shown);
        }
    }

    /// The median of the others of its kind on its board.
    pub(super) fn without(&self, key: Option<Key>, shown: Shown) -> Option<Median> {
        self.0.get(&key?)?.standing.median_without(shown)
    }

    /// The places of the readings that lie far enough below others of their kind to be marked, and perhaps some more.
    pub(super) fn low(&self, key: Key) -> impl Iterator<Item = usize> {
        let kind = self.0.get(&key);
        let low = kind.and_then(|kind| Some(kind.rising.range(..=(kind.standing.mark_up_to()?, usize::MAX))));
        low.into_iter().flatten().map(|(_, place)| *place)
    }
}

/// Where a reading is sorted in; nowhere where its circuit is on no board.
pub(super) fn key(judged: &Judged, reading: &Reading) -> Option<Key> {
    let board = judged.place_of(*reading.pair.circuits().first()?)?.0;
    let kind = reading.pair.kind(|id| judged.electrical(id).map(|electrical| electrical.conductors))?;
    Some((board, kind))
}
