//! The first page.

use std::collections::BTreeMap;

use provenohm_assess::ids::ReadingId;
use serde::Serialize;

use crate::fixed::Fixed;
use crate::report::{Digest, Finding, Part, Sign, Tester, Totals, Verification};

/// Places of one finding that page 1 lists; the rest are counted, and marked in the schedule.
const PLACES_LISTED: usize = 8;
/// Boards named on page 1.
const BOARDS_NAMED: usize = 12;

/// What the first page says.
#[derive(Serialize)]
pub(super) struct Front {
    part: Option<String>,
    facts: Vec<[String; 2]>,
    digests: Vec<DigestFact>,
    counts: Vec<String>,
    findings: Vec<FindingView>,
    /// Said instead of findings where there are none here.
    no_findings: String,
    testers: Vec<TesterView>,
    no_testers: String,
    cautions_title: String,
    cautions: Vec<String>,
    cautions_read: Vec<String>,
}

/// A digest is printed whole and never broken up.
#[derive(Serialize)]
struct DigestFact {
    label: String,
    digest: String,
}

#[derive(Serialize)]
struct FindingView {
    sign: Sign,
    sentence: String,
    places: Vec<String>,
    more: Option<String>,
}

#[derive(Serialize)]
struct TesterView {
    sign: Sign,
    name: String,
    serial: String,
    state: String,
    card: Vec<String>,
    verifications: Vec<VerificationView>,
    no_verifications: String,
    remarks: Vec<String>,
}

#[derive(Serialize)]
struct VerificationView {
    sentence: String,
    statements: Vec<String>,
    recorded: String,
}

impl Front {
    pub(super) fn of(part: &Part, own: &Digest, numbers: &BTreeMap<ReadingId, u32>, fixed: &Fixed<'_>) -> Self {
        let schedule = &part.schedule;
        Self {
            part: (part.of > 1).then(|| part_of(part, fixed)),
            facts: facts(part, fixed),
            digests: digests(part, own, fixed),
            counts: counts(part.totals, fixed),
            findings: schedule.findings.iter().map(|finding| finding_view(finding, numbers, fixed)).collect(),
            no_findings: fixed.text(if part.number > 1 { "findings-in-part-one" } else { "findings-none" }),
            testers: schedule.testers.iter().map(|tester| tester_view(tester, fixed)).collect(),
            no_testers: fixed.text("testers-none"),
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

fn facts(part: &Part, fixed: &Fixed<'_>) -> Vec<[String; 2]> {
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
    let version = fixed.with("version", &[("version", &set.version)]);
    facts.push([fixed.text("limit-set"), format!("{} · {} · {version}", set.title, set.id)]);
    facts.extend(schedule.policies.iter().map(|policy| [policy.label.clone(), policy.text.clone()]));
    facts.push([fixed.text("rules"), fixed.with("rules-version", &[("version", &schedule.rules_version.to_string())])]);
    facts
}

fn digests(part: &Part, own: &Digest, fixed: &Fixed<'_>) -> Vec<DigestFact> {
    let mut digests = vec![
        DigestFact { label: fixed.text("digest-set"), digest: part.schedule.limit_set.sha256.clone() },
        DigestFact { label: fixed.text("digest-whole"), digest: part.whole.as_str().to_owned() },
    ];
    if part.of > 1 {
        digests.push(DigestFact { label: fixed.text("digest-part"), digest: own.as_str().to_owned() });
    }
    digests
}

fn counts(totals: Totals, fixed: &Fixed<'_>) -> Vec<String> {
    let shown = [
        ("count-look", totals.look),
        ("count-stop", totals.stop),
        ("count-not-tested", totals.not_tested),
        ("count-missing", totals.missing),
        ("count-past", totals.past),
    ];
    std::iter::once(fixed.count("count-readings", totals.readings))
        .chain(shown.into_iter().filter(|(_, count)| *count > 0).map(|(key, count)| fixed.count(key, count)))
        .collect()
}

fn finding_view(finding: &Finding, numbers: &BTreeMap<ReadingId, u32>, fixed: &Fixed<'_>) -> FindingView {
    let places =
        finding.places.iter().take(PLACES_LISTED).map(|place| match place.reading.and_then(|id| numbers.get(&id)) {
            Some(number) => format!("{} ({})", place.place, fixed.number(*number)),
            None => place.place.clone(),
        });
    let more = finding.places.len().saturating_sub(PLACES_LISTED);
    FindingView {
        sign: finding.sign,
        sentence: finding.sentence.clone(),
        places: places.collect(),
        more: (more > 0).then(|| fixed.count("finding-more", u32::try_from(more).unwrap_or(u32::MAX))),
    }
}

fn tester_view(tester: &Tester, fixed: &Fixed<'_>) -> TesterView {
    TesterView {
        sign: tester.sign,
        name: tester.name.clone(),
        serial: fixed.with("serial", &[("serial", &tester.serial)]),
        state: tester.state.clone(),
        card: tester.card.clone(),
        verifications: tester.verifications.iter().map(|verification| verification_view(verification, fixed)).collect(),
        no_verifications: fixed.text("verifications-none"),
        remarks: tester.remarks.clone(),
    }
}

fn verification_view(verification: &Verification, fixed: &Fixed<'_>) -> VerificationView {
    let time = fixed.date_time(verification.recorded_at);
    VerificationView {
        sentence: verification.sentence.clone(),
        statements: verification.statements.clone(),
        recorded: fixed.with("recorded", &[("time", &time), ("person", &verification.recorded_by)]),
    }
}
