//! Judging every reading of a file, those that no longer stand as they would be.

use super::Judged;
use super::median::Medians;
use provenohm_assess::circuit::{Electrical, Pair};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::judge::{self, Known, Live, MOST_COMBINATIONS, Wanted, judge_live};
use provenohm_assess::judgement::Judgement;
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

/// Judges every reading. Readings that stand in one slot together are judged together.
pub(super) fn judge_all(judged: &Judged) -> Vec<JudgedReading> {
    let electrical: BTreeMap<CircuitId, Vec<&Electrical>> = judged
        .file
        .boards
        .iter()
        .flat_map(|board| board.circuits.iter().chain(&board.removed))
        .map(|circuit| (circuit.id, std::iter::once(&circuit.electrical).chain(&circuit.electrical_also).collect()))
        .collect();
    let current: Vec<Reading> = judged.file.readings.iter().map(Taken::current).collect();
    let medians = Medians::of(judged, &current);
    let every: Vec<Vec<Setting>> =
        judged.file.readings.iter().map(|taken| settings(judged, &electrical, taken)).collect();
    let mut slots: BTreeMap<(_, &Pair), Vec<usize>> = BTreeMap::new();
    for (index, (taken, reading)) in judged.file.readings.iter().zip(&current).enumerate() {
        if taken.stands() {
            slots.entry((reading.stage, &reading.pair)).or_default().push(index);
        }
    }
    current
        .iter()
        .enumerate()
        .zip(&judged.file.readings)
        .map(|((index, reading), taken)| {
            let alone = [index];
            let together = if taken.stands() { slots.get(&(reading.stage, &reading.pair)) } else { None };
            let indexes = together.map_or(&alone[..], Vec::as_slice);
            let settings: Vec<judge::Setting<'_>> =
                indexes.iter().filter_map(|at| every.get(*at)).flatten().map(Setting::borrowed).collect();
            let newer = reading
                .pair
                .circuits()
                .iter()
                .any(|id| judged.circuit(*id).is_some_and(|circuit| circuit.needs_newer_version))
                || reading.tester.and_then(|id| judged.tester(id)).is_some_and(|tester| tester.needs_newer_version);
            let known = Known {
                doubtful_clock: taken.doubtful_clock,
                needs_newer_version: newer || taken.needs_newer_version || judged.file.job.needs_newer_version,
                median: medians.without(judged, reading),
            };
            let judgement = judge_live(&Live { settings: &settings, testers: judged.testers(), known });
            JudgedReading { reading: reading.clone(), taken: taken.clone(), judgement }
        })
        .collect()
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
fn settings(judged: &Judged, electrical: &BTreeMap<CircuitId, Vec<&Electrical>>, taken: &Taken) -> Vec<Setting> {
    let choices = choices(electrical, &taken.reading.pair);
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
fn choices<'a>(
    electrical: &BTreeMap<CircuitId, Vec<&'a Electrical>>,
    pair: &Pair,
) -> Vec<BTreeMap<CircuitId, &'a Electrical>> {
    let mut choices: Vec<BTreeMap<CircuitId, &Electrical>> = vec![BTreeMap::new()];
    for circuit in pair.circuits() {
        let values = electrical.get(&circuit).map_or(&[][..], Vec::as_slice);
        choices = choices
            .iter()
            .flat_map(|choice| {
                values.iter().map(move |value| {
                    let mut choice = choice.clone();
                    choice.insert(circuit, *value);
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
    match set.limit_for(pair, under, electrical) {
        Ok(limit) => Wanted {
            limit: Some(limit.to_limit()),
            reduced: limit.to_reduced_limit().zip(limit.reduced.map(|(rule, _)| rule.reasons.clone())),
            forbidden,
            members_differ: false,
        },
        Err(why) => Wanted { limit: None, reduced: None, forbidden, members_differ: why == NoLimit::MembersDiffer },
    }
}
