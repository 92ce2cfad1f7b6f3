//! Judging one reading of a file; one that no longer stands as it would be.

use super::{Judged, median};
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

/// Judges one reading, beside those that stand in its slot together with it; `together` holds the reading itself.
pub(super) fn judge(judged: &Judged, reading: &Reading, taken: &Taken, together: &[&Reading]) -> Judgement {
    let wanted: Vec<Vec<Wanted>> = together.iter().map(|reading| wanted(judged, reading)).collect();
    let settings: Vec<(&Reading, &Wanted)> = together
        .iter()
        .zip(&wanted)
        .flat_map(|(reading, wanted)| wanted.iter().map(move |wanted| (*reading, wanted)))
        .collect();
    let circuits = reading.pair.circuits();
    let newer = circuits.iter().any(|id| judged.circuit(*id).is_some_and(|circuit| circuit.needs_newer_version))
        || reading.tester.and_then(|id| judged.tester(id)).is_some_and(|tester| tester.needs_newer_version);
    let known = Known {
        doubtful_clock: taken.doubtful_clock,
        needs_newer_version: newer,
        median: judged.medians.without(median::key(judged, reading), reading.shown),
    };
    let policies = [judged.file.job.policies];
    judge_live(&Live { settings: &settings, policies: &policies, testers: judged.testers(), known })
}

/// What the set asks of a reading's pair, one answer for each live value of its circuits' electrical facets.
fn wanted(judged: &Judged, reading: &Reading) -> Vec<Wanted> {
    let mut choices: Vec<BTreeMap<CircuitId, &Electrical>> = vec![BTreeMap::new()];
    for circuit in reading.pair.circuits() {
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
