//! Judging one reading of a file; one that no longer stands as it would be.

use super::{Judged, median};
use provenohm_assess::circuit::{Electrical, Pair};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::judge::{self, Known, Live, MOST_COMBINATIONS, Wanted, judge_live};
use provenohm_assess::judgement::{Judgement, Level, MethodReason};
use provenohm_assess::limits::{LimitSet, NoLimit, Under};
use provenohm_assess::policy::Policies;
use provenohm_assess::reading::Reading;
use provenohm_exchange::job_file::Taken;
use std::collections::BTreeMap;

/// A reading with what is said of it.
#[derive(Clone, Debug)]
pub(crate) struct JudgedReading {
    /// As it stands, with its corrections.
    pub(crate) reading: Reading,
    /// What the file knows of it.
    pub(crate) taken: Taken,
    /// What is said of it.
    pub(crate) judgement: Judgement,
}

/// Judges one reading with every live value of what it rests on. Where another one stands in its slot and nobody has
/// chosen between them it is a *Stop* as well: each says what it is itself, and the slot shows the least favourable.
pub(super) fn judge(judged: &Judged, reading: &Reading, taken: &Taken, unsettled: bool) -> Judgement {
    let every: Vec<Setting> = settings(judged, taken);
    let settings: Vec<judge::Setting<'_>> = every.iter().map(Setting::borrowed).collect();
    let circuits = reading.pair.circuits();
    let newer = circuits.iter().any(|id| judged.circuit(*id).is_some_and(|circuit| circuit.needs_newer_version))
        || reading.tester.and_then(|id| judged.tester(id)).is_some_and(|tester| tester.needs_newer_version);
    let known = Known {
        doubtful_clock: taken.doubtful_clock
            || taken.every().iter().any(|one| one.is_ahead_of(taken.last_recorded_at())),
        needs_newer_version: newer || taken.needs_newer_version || judged.file.job.needs_newer_version,
        median: judged.medians.without(median::key(judged, reading), reading.shown),
    };
    let mut judgement = judge_live(&Live { settings: &settings, testers: judged.testers(), known });
    if unsettled {
        judgement.level = Level::Stop;
        if !judgement.method.contains(&MethodReason::TwoLiveValues) {
            judgement.method.insert(0, MethodReason::TwoLiveValues);
        }
    }
    judgement
}

/// A live value of a reading beside one of what it is judged by.
struct Setting {
    reading: Reading,
    wanted: Wanted,
    policies: Policies,
}

impl Setting {
    fn borrowed(&self) -> judge::Setting<'_> {
        judge::Setting { reading: &self.reading, wanted: &self.wanted, policies: self.policies }
    }
}

/// Every live value of a reading's circumstances, of its circuits' electrical facets and of the job's rules, combined.
/// No more than it takes to see that there are too many.
fn settings(judged: &Judged, taken: &Taken) -> Vec<Setting> {
    let choices = choices(judged, &taken.reading.pair);
    let every = taken.every();
    let combined = judged.rules().flat_map(|(set, policies)| {
        let choices = &choices;
        every.iter().flat_map(move |reading| {
            let under = Under { stage: reading.stage, loads: reading.conditions.loads };
            choices.iter().map(move |choice| {
                let wanted = wanted_of(set, &reading.pair, under, choice);
                Setting { reading: reading.clone(), wanted, policies }
            })
        })
    });
    combined.take(MOST_COMBINATIONS + 1).collect()
}

/// The live values of the circuits' electrical facets, combined.
fn choices<'a>(judged: &'a Judged, pair: &Pair) -> Vec<BTreeMap<CircuitId, &'a Electrical>> {
    let mut choices: Vec<BTreeMap<CircuitId, &Electrical>> = vec![BTreeMap::new()];
    for circuit in pair.circuits() {
        let known = judged.circuit(circuit);
        let values = || known.into_iter().flat_map(|one| std::iter::once(&one.electrical).chain(&one.electrical_also));
        choices = choices
            .iter()
            .flat_map(|choice| {
                values().map(move |value| {
                    let mut choice = choice.clone();
                    choice.insert(circuit, value);
                    choice
                })
            })
            .take(MOST_COMBINATIONS + 1)
            .collect();
    }
    choices
}

fn wanted_of(set: &LimitSet, pair: &Pair, under: Under, choice: &BTreeMap<CircuitId, &Electrical>) -> Wanted {
    let electrical = |id: CircuitId| choice.get(&id).copied();
    let forbidden = set.forbids(pair, under, electrical);
    let no_such_conductor = !pair.is_on(|id| electrical(id).map(|it| it.conductors));
    match set.limit_for(pair, under, electrical) {
        Ok(limit) => Wanted {
            limit: Some(limit.to_limit()),
            reduced: limit.to_reduced_limit().zip(limit.reduced.map(|(rule, _)| rule.reasons.clone())),
            forbidden,
            no_such_conductor,
            members_differ: false,
        },
        Err(why) => {
            let members_differ = why == NoLimit::MembersDiffer;
            Wanted { limit: None, reduced: None, forbidden, no_such_conductor, members_differ }
        }
    }
}
