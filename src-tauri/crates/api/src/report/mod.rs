//! The report model of a schedule, made from a job as judged. On paper nothing is "ago": no sentence knows today.

mod boards;
mod findings;
mod recall;
mod tester;
mod testers;

pub(crate) use recall::recall_list;
pub(crate) use tester::{Made, Named, drift_tables, tester_report};

use crate::failure::Failure;
use crate::judged::Judged;
use provenohm_assess::RULES_VERSION;
use provenohm_exchange::as_of;
use provenohm_papers::report::{Fact, JobHead, LimitSetHead, Schedule};
use provenohm_words::Words;

/// Everything the schedule of a job says.
///
/// # Errors
/// `unexpected` if the record knows no instant to stand as "as of".
pub(crate) fn schedule(words: &Words, judged: &Judged) -> Result<Schedule, Failure> {
    let file = &judged.file;
    let as_of = as_of(file).max(file.job.started_at).ok_or_else(|| Failure::of("unexpected"))?;
    let people = file.people.iter().filter(|person| takes_part(judged, person.id));
    let person = |person: &provenohm_exchange::job_file::Person| Fact {
        label: if person.role.is_empty() { words.text("answer-origin-who") } else { person.role.clone() },
        text: person.name.clone(),
    };
    let mut facts: Vec<Fact> = people.map(person).collect();
    if file.job.from_file {
        facts.push(Fact { label: words.text("answer-origin"), text: words.text("answer-from-file") });
    }
    let policies = file.job.policies;
    let quick_check = policies.quick_check_days.map(|days| Fact {
        label: words.text("answer-policy-quick-check-label"),
        text: words.text_with("answer-policy-quick-check", &[("days", days.into())]),
    });
    let gone = file.boards.iter().filter(|board| board.taken_away);
    Ok(Schedule {
        language: words.locale().id().to_owned(),
        demo: file.job.invented,
        as_of,
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
        policies: [
            Fact { label: words.text("answer-policy-value"), text: words.value_policy(policies.value) },
            Fact { label: words.text("answer-policy-tester"), text: words.tester_policy(policies.tester) },
        ]
        .into_iter()
        .chain(quick_check)
        .collect(),
        rules_version: RULES_VERSION,
        findings: findings::findings(words, judged),
        testers: testers::testers(words, judged),
        cautions_read: file
            .cautions_read
            .iter()
            .map(|read| {
                let args = [("person", judged.person(read.person).into()), ("at", words.date_time(read.at).into())];
                words.text_with("answer-cautions-confirmed", &args)
            })
            .collect(),
        boards: judged
            .boards
            .iter()
            .map(|board| boards::board(words, judged, board))
            .chain(gone.map(|board| boards::taken_away(words, judged, board)))
            .collect(),
    })
}

/// Whether a person recorded anything of the job, or read its cautions.
fn takes_part(judged: &Judged, id: provenohm_assess::ids::PersonId) -> bool {
    judged.readings.iter().any(|one| one.reading.person == id)
        || judged.file.not_tested.iter().any(|said| said.person == id)
        || judged.file.cautions_read.iter().any(|read| read.person == id)
}
