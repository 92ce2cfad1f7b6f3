//! What reviewers said of slots: which acceptance holds for what asks for a look now, and what was accepted before.

use super::{Judged, JudgedReading, Slot};
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{PersonId, ReadingId};
use provenohm_assess::judgement::Level;
use provenohm_assess::reading::Reading;
use provenohm_exchange::job_file::{Accepted, AcceptedOf, NotTested, Requested};
use std::collections::{BTreeMap, BTreeSet};

/// The code of a slot that was not tested, beside those of judgements.
pub(crate) const NOT_TESTED: &str = "not_tested";

/// The places of what was accepted of each reading, in the order it was recorded.
pub(super) fn by_reading(accepted: &[Accepted]) -> BTreeMap<ReadingId, Vec<usize>> {
    let mut places: BTreeMap<ReadingId, Vec<usize>> = BTreeMap::new();
    for (place, said) in accepted.iter().enumerate() {
        if let AcceptedOf::Reading { reading } = &said.of {
            places.entry(*reading).or_default().push(place);
        }
    }
    places
}

impl Judged {
    /// Whether nothing stands in the slot of a request but what was asked about.
    pub(super) fn is_waiting(&self, asked: &Requested) -> bool {
        let places = self.index.at(asked.stage, &asked.pair).iter();
        let readings = places.filter_map(|at| self.readings.get(*at)).map(|one| one.reading.id);
        let here = |said: &&NotTested| said.stage == asked.stage && said.pair == asked.pair;
        asked.is_open(readings, self.file.not_tested.iter().filter(here).map(|said| said.at))
    }

    /// The requests for a slot that wait for an answer.
    pub(crate) fn waiting(&self, stage: Stage, pair: &Pair) -> Vec<Requested> {
        let here = |asked: &&Requested| asked.stage == stage && asked.pair == *pair && self.is_waiting(asked);
        self.file.requested.iter().filter(here).cloned().collect()
    }

    /// Whether a person, under all ids that mean them, may put another reading in the place of this one, or withdraw it:
    /// their own, and any that somebody else asked to be taken anew. What another read stays on record beside theirs.
    pub(crate) fn may_change(&self, one: &Reading, me: &BTreeSet<PersonId>) -> bool {
        let asked = || self.waiting(one.stage, &one.pair).iter().any(|asked| !me.contains(&asked.person));
        me.contains(&one.person) || asked()
    }

    /// What was accepted of a reading, in the order it was recorded.
    fn accepted_of(&self, reading: ReadingId) -> impl DoubleEndedIterator<Item = &Accepted> {
        let places = self.grounds.accepted.get(&reading).into_iter().flatten();
        places.filter_map(|place| self.file.accepted.get(*place))
    }

    /// The acceptance that covers every reason to look at a reading; nothing where there is none, or it stops a sign-off.
    pub(crate) fn acceptance(&self, one: &JudgedReading) -> Option<&Accepted> {
        if one.judgement.level != Level::Look {
            return None;
        }
        let codes = one.judgement.look_codes();
        let covers = |said: &&Accepted| codes.iter().all(|code| said.codes.iter().any(|one| one == code));
        self.accepted_of(one.reading.id).rev().find(covers)
    }

    /// The acceptance that names a slot as not tested, by what was said then: of two reasons, both must be accepted.
    fn accepted_not_tested(&self, slot: &Slot) -> Option<&Accepted> {
        let accepted = |said: &NotTested| {
            self.file.accepted.iter().rfind(|one| {
                one.codes.iter().any(|code| code == NOT_TESTED)
                    && matches!(&one.of, AcceptedOf::NotTested { pair, stage, at }
                        if *pair == slot.pair && *stage == slot.stage && *at == said.at)
            })
        };
        slot.not_tested.iter().map(accepted).collect::<Option<Vec<_>>>()?.pop()
    }
}

impl Slot {
    /// The acceptance that holds for it: every reading in it that asks for a look is accepted, or that it was not tested.
    pub(crate) fn accepted<'a>(&self, judged: &'a Judged) -> Option<&'a Accepted> {
        if self.readings.is_empty() {
            return judged.accepted_not_tested(self);
        }
        let marked = || self.readings.iter().filter_map(|at| judged.readings.get(*at)).filter(|one| is_marked(one));
        if marked().any(|one| judged.acceptance(one).is_none()) {
            return None;
        }
        judged.acceptance(marked().max_by_key(|one| one.judgement.severity())?)
    }

    /// What was accepted of its reading before something graver was found.
    pub(crate) fn accepted_before<'a>(&self, judged: &'a Judged) -> Option<&'a Accepted> {
        let one = self.reading(judged).filter(|one| is_marked(one))?;
        let earlier = judged.accepted_of(one.reading.id).next_back();
        earlier.filter(|_| self.accepted(judged).is_none())
    }
}

fn is_marked(one: &JudgedReading) -> bool {
    one.judgement.level >= Level::Look
}
