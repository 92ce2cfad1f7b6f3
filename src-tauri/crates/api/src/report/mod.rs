//! The report model of a schedule, made from a job as judged. On paper nothing is "ago": no sentence knows today.

mod boards;
mod findings;
mod live;
mod memory;
mod policies;
mod recall;
mod tester;
mod testers;

pub(crate) use recall::recall_list;
pub(crate) use tester::{Made, Named, drift_tables, tester_report};

use crate::failure::Failure;
use crate::judged::Judged;
use chrono::FixedOffset;
use provenohm_assess::RULES_VERSION;
use provenohm_assess::ids::PersonId;
use provenohm_assess::moment::Moment;
use provenohm_exchange::as_of;
use provenohm_papers::report::{Fact, JobHead, LimitSetHead, Schedule};
use provenohm_words::Words;
use std::collections::BTreeMap;

/// Everything the schedule of a job says.
///
/// # Errors
/// `unexpected` if the record knows no instant to stand as "as of".
pub(crate) fn schedule(words: &Words, judged: &Judged) -> Result<Schedule, Failure> {
    let file = &judged.file;
    let as_of = as_of(file).max(file.job.started_at).ok_or_else(|| Failure::of("unexpected"))?;
    let usual = usual_offset(judged.readings.iter().map(|one| one.reading.at)).unwrap_or(*as_of.offset());
    let words = &words.with_usual_offset(usual);
    let people = file.people.iter().filter(|person| takes_part(judged, person.id) && !person.name.is_empty());
    let person = |person: &provenohm_exchange::job_file::Person| Fact {
        label: if person.role.is_empty() { words.text("answer-origin-who") } else { person.role.clone() },
        text: person.name.clone(),
    };
    let mut facts: Vec<Fact> = people.map(person).collect();
    if file.job.from_file {
        facts.push(Fact { label: words.text("answer-origin"), text: words.text("answer-from-file") });
    }
    facts.extend(live::others_to_settle(words, judged));
    Ok(Schedule {
        language: words.locale().id().to_owned(),
        demo: file.job.invented,
        as_of,
        offset_minutes: usual.local_minus_utc() / 60,
        job: JobHead {
            id: file.job.id,
            name: file.job.name.clone(),
            place: (!file.job.place.is_empty()).then(|| file.job.place.clone()),
            facts,
        },
        limit_set: LimitSetHead {
            id: judged.set().id.0.clone(),
            title: judged.set().title.clone(),
            version: judged.set().version.to_string(),
            sha256: file.job.limit_set.sha256.clone(),
        },
        policies: policies::all(words, judged),
        rules_version: RULES_VERSION,
        findings: findings::findings(words, judged),
        testers: testers::testers(words, judged),
        cautions_read: cautions_read(words, judged),
        boards: boards::Boards::of(words, judged).all(),
        record: None,
        signatures: Vec::new(),
    })
}

/// The offset from UTC of most of those times; of equally many the greatest.
fn usual_offset(times: impl Iterator<Item = Moment>) -> Option<FixedOffset> {
    let mut counts: BTreeMap<i32, usize> = BTreeMap::new();
    for at in times {
        *counts.entry(at.offset().local_minus_utc()).or_default() += 1;
    }
    let (seconds, _) = counts.into_iter().max_by_key(|(_, count)| *count)?;
    FixedOffset::east_opt(seconds)
}

/// Who confirmed the cautions, and who took part without.
fn cautions_read(words: &Words, judged: &Judged) -> Vec<String> {
    let read = &judged.file.cautions_read;
    let confirmed = read.iter().map(|read| {
        let args = [("person", judged.person(read.person).into()), ("at", words.date_time(read.at).into())];
        words.text_with("answer-cautions-confirmed", &args)
    });
    let has_read = |id: PersonId| read.iter().any(|read| read.person == id);
    let others = judged.file.people.iter().filter(|person| takes_part(judged, person.id) && !has_read(person.id));
    let others: Vec<&str> = others.map(|person| person.name.as_str()).collect();
    let unread = match (read.is_empty(), others.is_empty()) {
        (_, false) => Some(words.text_with("answer-cautions-not-confirmed", &[("people", others.join(", ").into())])),
        (true, true) => Some(words.text("answer-cautions-confirmed-by-nobody")),
        (false, true) => None,
    };
    confirmed.chain(unread).collect()
}

/// Whether a person recorded anything of the job, or read its cautions.
fn takes_part(judged: &Judged, id: PersonId) -> bool {
    judged.readings.iter().any(|one| one.reading.person == id)
        || judged.file.not_tested.iter().any(|said| said.person == id)
        || judged.file.cautions_read.iter().any(|read| read.person == id)
}
