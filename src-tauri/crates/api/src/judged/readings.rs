//! Judging every reading of a file, those that no longer stand as they would be.

use super::Judged;
use super::median::Medians;
use provenohm_assess::circuit::{Electrical, Pair};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::judge::{Known, Live, Wanted, judge_live};
use provenohm_assess::judgement::Judgement;
use provenohm_assess::limits::{NoLimit, Under};
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
    let wanted: Vec<Vec<Wanted>> = current.iter().map(|reading| wanted(judged, &electrical, reading)).collect();
    let mut slots: BTreeMap<(_, &Pair), Vec<usize>> = BTreeMap::new();
    for (index, (taken, reading)) in judged.file.readings.iter().zip(&current).enumerate() {
        if taken.stands() {
            slots.entry((reading.stage, &reading.pair)).or_default().push(index);
        }
    }
    let policies = [judged.file.job.policies];
    current
        .iter()
        .enumerate()
        .zip(&judged.file.readings)
        .map(|((index, reading), taken)| {
            let alone = [index];
            let together = if taken.stands() { slots.get(&(reading.stage, &reading.pair)) } else { None };
            let indexes = together.map_or(&alone[..], Vec::as_slice);
            let settings: Vec<(&Reading, &Wanted)> = indexes
                .iter()
                .filter_map(|at| current.get(*at).zip(wanted.get(*at)))
                .flat_map(|(reading, wanted)| wanted.iter().map(move |wanted| (reading, wanted)))
                .collect();
            let newer = reading
                .pair
                .circuits()
                .iter()
                .any(|id| judged.circuit(*id).is_some_and(|circuit| circuit.needs_newer_version))
                || reading.tester.and_then(|id| judged.tester(id)).is_some_and(|tester| tester.needs_newer_version);
            let known = Known {
                doubtful_clock: taken.doubtful_clock,
                needs_newer_version: newer,
                median: medians.without(judged, reading),
            };
            let judgement =
                judge_live(&Live { settings: &settings, policies: &policies, testers: judged.testers(), known });
            JudgedReading { reading: reading.clone(), taken: taken.clone(), judgement }
        })
        .collect()
}

/// What the set asks of a reading's pair, one answer for each live value of its circuits' electrical facets.
fn wanted(judged: &Judged, electrical: &BTreeMap<CircuitId, Vec<&Electrical>>, reading: &Reading) -> Vec<Wanted> {
    let mut choices: Vec<BTreeMap<CircuitId, &Electrical>> = vec![BTreeMap::new()];
    for circuit in reading.pair.circuits() {
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
            .collect();
    }
    let under = Under { stage: reading.stage, loads: reading.conditions.loads };
    choices.iter().map(|choice| wanted_of(judged, &reading.pair, under, choice)).collect()
}

fn wanted_of(judged: &Judged, pair: &Pair, under: Under, choice: &BTreeMap<CircuitId, &Electrical>) -> Wanted {
    let electrical = |id: CircuitId| choice.get(&id).copied();
    let forbidden = judged.set().forbids(pair, under, electrical);
    match judged.set().limit_for(pair, under, electrical) {
        Ok(limit) => Wanted {
            limit: Some(limit.to_limit()),
            reduced: limit.to_reduced_limit().zip(limit.reduced.map(|(rule, _)| rule.reasons.clone())),
            forbidden,
            members_differ: false,
        },
        Err(why) => Wanted { limit: None, reduced: None, forbidden, members_differ: why == NoLimit::MembersDiffer },
    }
}
