//! What stands beside the readings: the first page as a table of two columns.

use super::Table;
use crate::fixed::Fixed;
use crate::report::{Digest, Schedule};
use crate::view::signed;

/// The job, the rules, what is to be looked at, the testers, the cautions.
pub(super) fn about(schedule: &Schedule, whole: &Digest, fixed: &Fixed<'_>) -> Table {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut say = |label: String, text: String| rows.push(vec![label, text]);
    let none = String::new;
    if schedule.demo {
        say(fixed.text("demo"), none());
    }
    let signed = signed::signed(schedule, whole, fixed).into_iter().chain(signed::doubts(schedule, fixed));
    signed.for_each(|sentence| say(sentence, String::new()));
    say(fixed.text("scope"), none());
    say(fixed.text("job"), schedule.job.name.clone());
    schedule.job.place.iter().for_each(|place| say(fixed.text("place"), place.clone()));
    schedule.job.facts.iter().for_each(|fact| say(fact.label.clone(), fact.text.clone()));
    say(fixed.text("as-of"), fixed.date_time(schedule.as_of));
    say(fixed.with("times", &[("offset", &fixed.words().offset(schedule.offset()))]), none());
    let set = &schedule.limit_set;
    let version = fixed.with("version", &[("version", &set.version)]);
    say(fixed.text("limit-set"), format!("{} · {} · {version}", set.title, set.id));
    say(fixed.text("digest-set"), set.sha256.clone());
    schedule.policies.iter().for_each(|policy| say(policy.label.clone(), policy.text.clone()));
    say(fixed.text("rules"), fixed.with("rules-version", &[("version", &schedule.rules_version.to_string())]));
    say(fixed.text("digest-whole"), whole.as_str().to_owned());
    schedule.record.iter().for_each(|digest| say(fixed.text("digest-record"), digest.as_str().to_owned()));
    for finding in &schedule.findings {
        let places: Vec<String> = finding.places.iter().map(|place| fixed.finding_place(place)).collect();
        say(finding.sentence.clone(), places.join("; "));
    }
    for tester in &schedule.testers {
        let name = format!("{} · {}", tester.name, fixed.serial(&tester.serial));
        say(name, tester.state.clone());
        tester.card.iter().chain(&tester.remarks).for_each(|line| say(none(), line.clone()));
        for verification in &tester.verifications {
            let time = fixed.date_time(verification.recorded_at);
            let recorded = fixed.with("recorded", &[("time", &time), ("person", &verification.recorded_by)]);
            say(verification.sentence.clone(), recorded);
            verification.statements.iter().for_each(|line| say(none(), line.clone()));
        }
    }
    say(fixed.words().cautions_title(), none());
    fixed.words().cautions().into_iter().chain(schedule.cautions_read.clone()).for_each(|line| say(none(), line));
    Table { name: fixed.text("sheet-about"), heads: Vec::new(), rows }
}
