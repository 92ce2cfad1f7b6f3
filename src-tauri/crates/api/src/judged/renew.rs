//! Taking readings in: all of a file at first, later those that were touched, and judging again just what rests on them.

use super::{Judged, JudgedReading, median, readings};
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::reading::Reading;
use provenohm_exchange::Renewed;
use provenohm_exchange::job_file::{NotTested, Taken};
use std::collections::{BTreeMap, BTreeSet};

impl Judged {
    /// Brings it up to date with what was touched.
    pub(crate) fn renew(&mut self, renewed: Renewed) {
        let readings = renewed.readings.into_iter().map(|taken| (self.index.place(taken.reading.id), taken)).collect();
        let mut circuits: BTreeSet<CircuitId> = BTreeSet::new();
        let mut beside = BTreeSet::new();
        if let Some(not_tested) = renewed.not_tested {
            let former = std::mem::replace(&mut self.file.not_tested, not_tested);
            let now = &self.file.not_tested;
            for said in differing(&former, now).chain(differing(now, &former)) {
                circuits.extend(said.pair.circuits());
                beside.extend(self.index.at(said.stage, &said.pair));
            }
        }
        let judged = self.take_in(readings, beside);
        let pairs = judged.iter().filter_map(|place| self.readings.get(*place)).map(|one| &one.reading.pair);
        circuits.extend(pairs.flat_map(Pair::circuits));
        for circuit in circuits {
            self.judge_circuit(circuit);
        }
    }

    /// Takes readings in, each at its place or as the last, and judges what rests on them: themselves, those they stand
    /// in a slot with, those far below the others of their kind, and those at `to_judge`. Returns the places of what was
    /// judged.
    pub(super) fn take_in(
        &mut self,
        all: Vec<(Option<usize>, Taken)>,
        mut to_judge: BTreeSet<usize>,
    ) -> BTreeSet<usize> {
        let mut currents: BTreeMap<usize, Reading> = BTreeMap::new();
        for (place, taken) in all {
            let reading = taken.current();
            let (stood, stands) = (self.stands(place), taken.stands());
            let place = place.unwrap_or(self.file.readings.len());
            match self.file.readings.get_mut(place) {
                Some(known) => *known = taken,
                None => self.file.readings.push(taken),
            }
            self.index.name(reading.id, place);
            // Those that stood with it are judged again, and those that now do.
            to_judge.insert(place);
            to_judge.extend(self.index.at(reading.stage, &reading.pair));
            match stands {
                true => self.index.put(place, &reading),
                false => self.index.take(place, &reading),
            }
            if let Some(key) = median::key(self, &reading) {
                to_judge.extend(self.medians.low(key));
                self.medians.note(key, place, reading.shown, stood, stands);
                to_judge.extend(self.medians.low(key));
            }
            currents.insert(place, reading);
        }
        let judged: Vec<(usize, JudgedReading)> =
            to_judge.iter().filter_map(|place| Some((*place, self.judge_at(*place, &currents)?))).collect();
        for (place, one) in judged {
            if let Some(former) = self.readings.get(place) {
                self.index.uncover(place, &former.reading, &former.judgement);
            }
            match self.readings.get_mut(place) {
                Some(known) => *known = one,
                None => self.readings.push(one),
            }
        }
        for place in &to_judge {
            if let Some(one) = self.readings.get(*place).filter(|one| self.speaks_for_singles(one)) {
                self.index.cover(*place, &one.reading, &one.judgement);
            }
        }
        to_judge
    }

    fn stands(&self, place: Option<usize>) -> bool {
        place.and_then(|place| self.file.readings.get(place)).is_some_and(Taken::stands)
    }

    /// Judges the reading at a place. `currents` are the readings that were just taken in.
    fn judge_at(&self, place: usize, currents: &BTreeMap<usize, Reading>) -> Option<JudgedReading> {
        let current = |place: &usize| currents.get(place).or_else(|| Some(&self.readings.get(*place)?.reading));
        let (reading, taken) = (current(&place)?, self.file.readings.get(place)?);
        let places = self.index.at(reading.stage, &reading.pair).iter();
        let mut beside = places.filter(|other| **other != place).peekable();
        // Where a person chose to keep them all, nothing waits to be settled.
        let kept = |place: &usize| self.file.readings.get(*place).is_some_and(|one| one.kept_at.is_some());
        let two = beside.peek().is_some() && !(kept(&place) && beside.all(kept));
        let unsettled = taken.stands() && (two || self.denied(reading, taken).next().is_some());
        let judgement = readings::judge(self, reading, taken, unsettled);
        Some(JudgedReading { reading: reading.clone(), taken: taken.clone(), judgement })
    }

    /// Whether a reading gives its judgement to the singles of its pair: it stands, and so does each one beside it.
    fn speaks_for_singles(&self, one: &JudgedReading) -> bool {
        let proves = |one: &JudgedReading| !one.judgement.members_proved(&one.reading.pair).is_empty();
        let beside = || self.index.at(one.reading.stage, &one.reading.pair).iter();
        one.taken.stands() && proves(one) && beside().all(|place| self.readings.get(*place).is_some_and(proves))
    }

    /// What was said of a slot that was not tested.
    pub(super) fn said_not_tested<'a>(
        &'a self,
        stage: Stage,
        pair: &Pair,
    ) -> impl Iterator<Item = &'a NotTested> + use<'a> {
        let pair = pair.clone();
        self.file.not_tested.iter().filter(move |said| said.stage == stage && said.pair == pair)
    }

    /// What was said of the slot of a reading that stands, by somebody who did not know of it: that it was not tested.
    pub(crate) fn denied<'a>(
        &'a self,
        reading: &Reading,
        taken: &Taken,
    ) -> impl Iterator<Item = &'a NotTested> + use<'a> {
        let (id, stands) = (reading.id, taken.stands());
        self.said_not_tested(reading.stage, &reading.pair).filter(move |said| stands && !said.beside.contains(&id))
    }

    fn judge_circuit(&mut self, circuit: CircuitId) {
        let Some((board, place)) = self.place_of(circuit) else { return };
        let known = self.file.boards.get(board).and_then(|board| board.circuits.get(place));
        let Some(judged) = known.map(|circuit| self.as_judged(circuit)) else { return };
        if let Some(here) = self.boards.get_mut(board).and_then(|board| board.circuits.get_mut(place)) {
            *here = judged;
        }
    }
}

/// What only the first list has.
fn differing<'a>(some: &'a [NotTested], others: &'a [NotTested]) -> impl Iterator<Item = &'a NotTested> {
    some.iter().filter(|one| !others.contains(one))
}
