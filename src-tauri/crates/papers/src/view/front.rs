//! The first page.

use std::collections::BTreeMap;

use provenohm_assess::ids::ReadingId;
use serde::Serialize;

use crate::fixed::Fixed;
use crate::report::{Digest, Part, Sign, Tester, Totals, Verification};

use super::findings::{self, FindingView};

/// Boards named on page 1.
const BOARDS_NAMED: usize = 12;

/// What the first page says.
#[derive(Serialize)]
pub(super) struct Front {
    part: Option<String>,
    facts: Vec<[String; 2]>,
    counts: Vec<String>,
    findings: Vec<FindingView>,
    /// Said instead of findings where there are none here.
    no_findings: String,
    testers: Vec<TesterView>,
    /// Said where there is no tester, or where more about them stands.
    about_testers: Option<String>,
    cautions_title: String,
    cautions: Vec<String>,
    cautions_read: Vec<String>,
}

#[derive(Serialize)]
struct TesterView {
    sign: Sign,
    name: String,
    serial: String,
    state: String,
    /// One sentence a verification, or that there is none.
    verifications: Vec<String>,
}

impl Front {
    pub(super) fn of(part: &Part, own: &Digest, numbers: &BTreeMap<ReadingId, u32>, fixed: &Fixed<'_>) -> Self {
        let schedule = &part.schedule;
        Self {
            part: (part.of > 1).then(|| part_of(part, fixed)),
            facts: facts(part, own, fixed),
            counts: counts(part.totals, fixed),
            findings: schedule.findings.iter().map(|finding| findings::view(finding, numbers, fixed)).collect(),
            no_findings: fixed.text(if part.number > 1 { "findings-in-part-one" } else { "findings-none" }),
            testers: schedule.testers.iter().map(|tester| tester_view(tester, fixed)).collect(),
            about_testers: match (schedule.testers.is_empty(), part.number) {
                (true, _) => Some(fixed.text("testers-none")),
                (false, 1) => Some(fixed.text("testers-more")),
                (false, _) => None,
            },
            cautions_title: fixed.words().cautions_title(),
            cautions: fixed.words().cautions(),
            cautions_read: schedule.cautions_read.clone(),
        }
    }
}

/// "Part 2 of 7".
pub(super) fn part_of(part: &Part, fixed: &Fixed<'_>) -> String {
    fixed.with("part", &[("number", &part.number.to_string()), ("of", &part.of.to_string())])
}

/// The names of the boards, cut short where there are many.
pub(super) fn board_names<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let names: Vec<&str> = names.collect();
    let mut line = names.iter().take(BOARDS_NAMED).copied().collect::<Vec<_>>().join(", ");
    if names.len() > BOARDS_NAMED {
        line.push_str(" …");
    }
    line
}

fn facts(part: &Part, own: &Digest, fixed: &Fixed<'_>) -> Vec<[String; 2]> {
    let schedule = &part.schedule;
    let set = &schedule.limit_set;
    let mut facts = vec![[fixed.text("job"), schedule.job.name.clone()]];
    facts.extend(schedule.job.place.iter().map(|place| [fixed.text("place"), place.clone()]));
    facts.extend(schedule.job.facts.iter().map(|fact| [fact.label.clone(), fact.text.clone()]));
    if part.number == 1 && part.of > 1 {
        let parts = (1..)
            .zip(&part.contents)
            .map(|(number, boards)| format!("{number}/{} {}", part.of, board_names(boards.iter().map(String::as_str))));
        facts.push([fixed.text("parts"), parts.collect::<Vec<_>>().join(" · ")]);
    } else {
        facts.push([fixed.text("boards"), board_names(schedule.boards.iter().map(|board| board.name.as_str()))]);
    }
    facts.push([fixed.text("as-of"), fixed.date_time(schedule.as_of)]);
    let signed = super::signed::signed(schedule, &part.whole, fixed).into_iter();
    facts.extend(
        signed.chain(super::signed::doubts(schedule, fixed)).map(|sentence| [fixed.text("sign-off"), sentence]),
    );
    let version = fixed.with("version", &[("version", &set.version)]);
    facts.push([fixed.text("limit-set"), format!("{} · {} · {version}", set.title, set.id)]);
    facts.extend(schedule.policies.iter().map(|policy| [policy.label.clone(), policy.text.clone()]));
    facts.push([fixed.text("rules"), fixed.with("rules-version", &[("version", &schedule.rules_version.to_string())])]);
    facts.push([fixed.text("digest-set"), grouped(&set.sha256)]);
    facts.push([fixed.text("digest-whole"), grouped(part.whole.as_str())]);
    facts.extend(schedule.record.iter().map(|digest| [fixed.text("digest-record"), grouped(digest.as_str())]));
    if part.of > 1 {
        facts.push([fixed.text("digest-part"), grouped(own.as_str())]);
    }
    facts
}

/// A digest in groups of 16 digits: never broken elsewhere, and easier to compare.
fn grouped(digest: &str) -> String {
    let digits: Vec<char> = digest.chars().collect();
    digits.chunks(16).map(|group| group.iter().collect::<String>()).collect::<Vec<_>>().join(" ")
}

fn counts(totals: Totals, fixed: &Fixed<'_>) -> Vec<String> {
    let shown = [
        ("count-look", totals.look),
        ("count-accepted", totals.accepted),
        ("count-stop", totals.stop),
        ("count-not-tested", totals.not_tested),
        ("count-missing", totals.missing),
        ("count-past", totals.past),
    ];
    let counted = |key: &str, count: u32| fixed.counted(key, usize::try_from(count).unwrap_or(usize::MAX), &[]);
    std::iter::once(counted("count-readings", totals.readings))
        .chain(shown.into_iter().filter(|(_, count)| *count > 0).map(|(key, count)| counted(key, count)))
        .collect()
}

fn tester_view(tester: &Tester, fixed: &Fixed<'_>) -> TesterView {
    let mut verifications: Vec<String> = tester.verifications.iter().map(|made| verification(made, fixed)).collect();
    if verifications.is_empty() {
        verifications.push(fixed.text("verifications-none"));
    }
    TesterView {
        sign: tester.sign,
        name: tester.name.clone(),
        serial: fixed.serial(&tester.serial),
        state: tester.state.clone(),
        verifications,
    }
}

/// Kind, date, maker, what it says, and since when it is on record.
fn verification(made: &Verification, fixed: &Fixed<'_>) -> String {
    let time = fixed.date_time(made.recorded_at);
    let recorded = fixed.with("recorded", &[("time", &time), ("person", &made.recorded_by)]);
    let said = std::iter::once(made.sentence.clone()).chain(made.statements.iter().cloned()).chain([recorded]);
    said.collect::<Vec<_>>().join("; ")
}
