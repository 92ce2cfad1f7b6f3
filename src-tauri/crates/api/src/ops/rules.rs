//! What a job is judged by: limit sets and policies; and choosing between two live values.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedReading};
use crate::ops::jobs::job_view;
use crate::state::State;
use crate::tell;
use crate::views::*;
use provenohm_assess::limits::{LimitSet, Loaded, SHIPPED_FILES, SetName, shipped};
use provenohm_assess::policy::Policies;
use provenohm_exchange::entries_of;
use provenohm_logbook::entry::body::JobRules;
use provenohm_logbook::entry::{Bytes, EntryRef, Fact, Role};
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

/// What names the readings of one slot among the things to settle, before the id of the slot.
const READINGS: &str = "readings:";

/// What is sent back to keep every reading of a slot.
const ALL: &str = "all";

/// Slots with several readings that nobody has chosen between.
pub(crate) fn readings_to_settle(words: &Words, judged: &Judged) -> Vec<ToSettle> {
    let unsettled = judged.slots().filter(|(_, _, slot)| slot.is_unsettled(judged));
    unsettled
        .map(|(board, circuit, slot)| {
            let one = |one: &JudgedReading| Choice {
                id: one.reading.id.to_string(),
                words: words.text_with(
                    "answer-reading-at",
                    &[
                        ("reading", words.reading(&one.reading.shown).into()),
                        ("at", words.date_time(one.reading.at).into()),
                    ],
                ),
            };
            let readings = slot.readings.iter().filter_map(|at| judged.readings.get(*at));
            let all = Choice { id: ALL.to_owned(), words: words.text("answer-keep-all") };
            ToSettle {
                facet: format!("{READINGS}{}", slot.id().0),
                words: tell::place(words, judged, &board.name, &circuit.circuit, &slot.pair),
                values: readings.map(one).chain([all]).collect(),
            }
        })
        .collect()
}

fn settle_readings(state: &mut State, judged: &Judged, slot: &str, asked: &Settle) -> Result<(), Failure> {
    let found = judged.slots().find(|(_, _, it)| it.id().0 == slot && it.is_unsettled(judged));
    let (_, _, slot) = found.ok_or_else(|| Failure::of("not_found"))?;
    let (mut keeps, mut aside) = (Vec::new(), Vec::new());
    for one in slot.readings.iter().filter_map(|at| judged.readings.get(*at)) {
        let chosen = asked.value == ALL || asked.value == one.reading.id.to_string();
        let entries = entries_of(&state.record.view(), one.reading.id)?;
        if chosen { keeps.extend(entries) } else { aside.extend(entries) }
    }
    if keeps.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let person = state.person(asked.job)?;
    state.write(person, |writer| Ok(writer.settle(&keeps, &aside, None)?))?;
    Ok(())
}

pub(crate) fn settle(state: &mut State, asked: Settle) -> Result<JobView, Failure> {
    let judged = state.judged(asked.job)?;
    if let Some(slot) = asked.facet.strip_prefix(READINGS) {
        settle_readings(state, &judged, slot, &asked)?;
        return job_view(state, asked.job);
    }
    let facet = judged.file.to_settle.iter().find(|one| one.facet == asked.facet);
    let facet = facet.ok_or_else(|| Failure::of("not_found"))?;
    let entry = |text: &str| text.parse::<EntryRef>().map_err(|_| Failure::of("not_found"));
    let keeps = entry(&asked.value)?;
    let aside: Vec<EntryRef> = facet
        .values
        .iter()
        .filter(|value| value.entry != asked.value)
        .map(|value| entry(&value.entry))
        .collect::<Result<_, _>>()?;
    if aside.len() == facet.values.len() {
        return Err(Failure::of("not_found"));
    }
    let person = state.person(asked.job)?;
    state.write(person, |writer| Ok(writer.settle(&[keeps], &aside, None)?))?;
    job_view(state, asked.job)
}
