//! What a job is judged by: limit sets and policies.

use crate::failure::Failure;
use crate::ops::jobs::job_view;
use crate::state::State;
use crate::views::*;
use provenohm_assess::limits::{LimitSet, Loaded, SHIPPED_FILES, SetName, shipped};
use provenohm_assess::policy::Policies;
use provenohm_logbook::entry::body::JobRules;
use provenohm_logbook::entry::{Bytes, Fact, Role};
use provenohm_words::Words;

/// Setting under which sets of one's own are kept: the texts of their files.
const OWN_SETS: &str = "own-sets";

pub(crate) fn limit_sets(state: &mut State, _: NoInput) -> Result<SetsView, Failure> {
    let sets = all_sets(state)?;
    let shipped = shipped().map(<[Loaded]>::len).unwrap_or(0);
    let line = |(index, (loaded, _)): (usize, &(Loaded, Vec<u8>))| SetLine {
        own: index >= shipped,
        ..set_line(&state.words, &loaded.set, &loaded.name)
    };
    Ok(SetsView { sets: sets.iter().enumerate().map(line).collect() })
}

pub(crate) fn load_set(state: &mut State, asked: LoadSet) -> Result<SetsView, Failure> {
    let loaded = LimitSet::load(asked.text.as_bytes())
        .map_err(|complaint| Failure::of("form").saying(state.words.set_complaint(&complaint)))?;
    let mut own = state.setting::<Vec<String>>(OWN_SETS)?.unwrap_or_default();
    own.retain(|text| LimitSet::load(text.as_bytes()).is_ok_and(|other| other.name != loaded.name));
    own.push(asked.text);
    state.keep_setting(OWN_SETS, &own)?;
    limit_sets(state, NoInput {})
}

/// Every set on this device with the bytes of its file, the shipped ones first.
pub(crate) fn all_sets(state: &State) -> Result<Vec<(Loaded, Vec<u8>)>, Failure> {
    let shipped = shipped().map_err(|complaint| Failure::of("unexpected").because(complaint))?;
    let mut sets: Vec<(Loaded, Vec<u8>)> =
        shipped.iter().zip(SHIPPED_FILES).map(|(loaded, bytes)| (loaded.clone(), bytes.to_vec())).collect();
    for text in state.setting::<Vec<String>>(OWN_SETS)?.unwrap_or_default() {
        if let Ok(loaded) = LimitSet::load(text.as_bytes()) {
            sets.push((loaded, text.into_bytes()));
        }
    }
    Ok(sets)
}

/// One set in a list.
pub(crate) fn set_line(words: &Words, set: &LimitSet, name: &SetName) -> SetLine {
    SetLine {
        name: name.clone(),
        title: set.title.clone(),
        scope: set.scope.clone(),
        source: words.text_with(
            "answer-source-and-tag",
            &[("source", words.source(&set.source).into()), ("tag", words.tag(set.source.tag).into())],
        ),
        hash_short: name.sha256.chars().take(8).collect(),
        own: false,
    }
}

pub(crate) fn set_job_rules(state: &mut State, asked: SetJobRules) -> Result<JobView, Failure> {
    let (job, person) = (asked.job, state.person(asked.job)?);
    let judged = state.judged(job)?;
    let own = [(&judged.file.job.limit_set, judged.file.job.limit_set_text.as_bytes())];
    let here = all_sets(state)?;
    let bytes = here
        .iter()
        .map(|(loaded, bytes)| (&loaded.name, bytes.as_slice()))
        .chain(own)
        .find(|(name, _)| **name == asked.limit_set)
        .map(|(_, bytes)| bytes.to_vec())
        .ok_or_else(|| Failure::of("set_not_here"))?;
    let reason = asked.reason.trim().to_owned();
    if reason.is_empty() && !judged.readings.is_empty() {
        let words = state.words.text("complaint-reason-needed");
        return Err(Failure::form(vec![Complaint { field: "reason".to_owned(), words }]));
    }
    let before = judged.file.job.policies.quick_check_days;
    let quick_check_days = asked.quick_check_days.map_or(before, |days| (days > 0).then_some(days));
    let policies = Policies { value: asked.value_policy, tester: asked.tester_policy, quick_check_days };
    let current = state.record.view().job(job)?.rules.current();
    state.write(person, |writer| {
        let rules = JobRules { job, set: asked.limit_set, bytes: Bytes(bytes), policies };
        let mut fact = Fact::naming(rules, Role::Replaces, current);
        fact.reason = (!reason.is_empty()).then_some(reason);
        Ok(writer.append(fact)?)
    })?;
    job_view(state, job)
}
