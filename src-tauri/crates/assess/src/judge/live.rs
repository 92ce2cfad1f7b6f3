//! Two live values of something a judgement depends on: every combination is judged, the least favourable shown.

use super::{Asked, Known, Testers, Wanted, judge};
use crate::RULES_VERSION;
use crate::judgement::{
    Judgement, Level, MethodReason, TesterJudgement, TesterReason, TesterState, Value, ValueJudgement, ValueReason,
};
use crate::policy::Policies;
use crate::reading::Reading;

/// More combinations than this are not judged.
pub const MOST_COMBINATIONS: usize = 8;

/// One live value of the reading beside one of what it is judged by.
#[derive(Clone, Copy, Debug)]
pub struct Setting<'a> {
    /// The reading with a live value of its circumstances, or one of two live readings of the slot.
    pub reading: &'a Reading,
    /// What a live value of its circuit and of the limit set ask of the pair.
    pub wanted: &'a Wanted,
    /// The policies that were chosen together with that set.
    pub policies: Policies,
}

/// One reading with every live value of what its judgement depends on; usually one of each.
#[derive(Clone, Copy, Debug)]
pub struct Live<'a> {
    /// Every live value of the reading beside every live value of what it is judged by. Never empty.
    pub settings: &'a [Setting<'a>],
    /// The testers on record.
    pub testers: &'a Testers,
    /// What else is known.
    pub known: Known,
}

impl<'a> Live<'a> {
    fn combinations(&self) -> impl Iterator<Item = Asked<'a>> {
        let Self { settings, testers, known } = *self;
        settings.iter().flat_map(move |&Setting { reading, wanted, policies }| {
            let values = reading.tester.map_or(&[][..], |id| testers.of(id));
            let unknown = values.is_empty().then_some(None);
            let testers = values.iter().map(Some).chain(unknown);
            testers.map(move |tester| Asked { reading, wanted, tester, policies, known })
        })
    }
}

/// Judges a reading with everything its judgement depends on. One value of each: as [`judge`] says. More: the least
/// favourable judgement, as a *Stop*. More than eight combinations cannot be judged. Without any setting there is nothing to judge, and that is said in the same way.
#[must_use]
pub fn judge_live(live: &Live<'_>) -> Judgement {
    let mut combinations: Vec<Asked<'_>> = live.combinations().take(MOST_COMBINATIONS + 1).collect();
    match combinations.as_slice() {
        [only] => return judge(only),
        all if all.len() > MOST_COMBINATIONS => combinations.clear(),
        _ => {}
    }
    let worst = combinations.iter().map(judge).max_by_key(Judgement::severity);
    let mut shown = worst.unwrap_or_else(|| too_many(live));
    let two_cards = live.settings.iter().filter_map(|it| it.reading.tester).any(|id| live.testers.of(id).len() > 1);
    if two_cards && !shown.tester.reasons.contains(&TesterReason::LiveValues) {
        shown.tester.reasons.push(TesterReason::LiveValues);
    }
    shown.method.insert(0, MethodReason::TwoLiveValues);
    shown.level = Level::Stop;
    shown
}

fn too_many(live: &Live<'_>) -> Judgement {
    Judgement {
        value: ValueJudgement {
            value: Value::CannotBeJudged,
            reason: ValueReason::TooManyLiveValues,
            limit: None,
            guard: None,
        },
        tester: TesterJudgement {
            tester: live.settings.first().and_then(|it| it.reading.tester),
            state: TesterState::NotProved,
            reasons: vec![TesterReason::LiveValues],
            remarks: Vec::new(),
        },
        method: Vec::new(),
        level: Level::Stop,
        rules: RULES_VERSION,
    }
}
