//! Verifications on record: entered from their papers, replaced and withdrawn with reasons.

use crate::failure::Failure;
use crate::ops::testers::tester_view;
use crate::read::{Fields, finding_form, read_verification, verification_form};
use crate::state::State;
use crate::tell::together;
use crate::views::*;
use provenohm_assess::ids::{JobId, TesterId, VerificationId};
use provenohm_assess::judgement::Level;
use provenohm_assess::tester::{
    Card, Conforms, Holds, Outcome, ProofKind, RequirementResult, Statement, Verification, VoltageFinding,
};
use provenohm_logbook::entry::body::VerificationMade;
use provenohm_logbook::entry::{Fact, Role};
use provenohm_logbook::view::Stated;
use provenohm_words::Words;
use std::collections::BTreeMap;

pub(crate) fn record_verification(state: &mut State, asked: RecordVerification) -> Result<TesterView, Failure> {
    let on_record = state.record.view().tester(asked.tester)?;
    if on_record.identity.live.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let now = state.host.now();
    let id = VerificationId(state.host.id()?);
    let mut fields = Fields::new(&state.words);
    let made = read_verification(&mut fields, &asked.form, id, asked.tester, now);
    let reason = asked.reason.trim().to_owned();
    if asked.replaces.is_some() && reason.is_empty() {
        fields.complain("reason", "complaint-reason-needed", &[]);
    }
    let made = fields.settle(made)?;
    let live = |one: &&Stated<VerificationMade>| one.is_live() && Some(one.value.id) == asked.replaces;
    let replaced: Vec<_> = on_record.verifications.iter().filter(live).map(|one| one.entry).collect();
    if asked.replaces.is_some() && replaced.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let said = state.words.text_with("answer-verification-recorded", &[("made", state.words.when(made.made).into())]);
    changing(state, asked.tester, said, |state| {
        let person = state.anyone()?;
        state.write(person, |writer| {
            let mut fact = Fact::naming(VerificationMade::of(made), Role::Replaces, replaced);
            fact.reason = (!reason.is_empty()).then_some(reason);
            Ok(writer.append(fact)?)
        })?;
        Ok(())
    })
}

pub(crate) fn withdraw_verification(state: &mut State, asked: WithdrawVerification) -> Result<TesterView, Failure> {
    let on_record = state.record.view().tester(asked.tester)?;
    let live = |one: &&Stated<VerificationMade>| one.is_live() && one.value.id == asked.verification;
    let entries: Vec<_> = on_record.verifications.iter().filter(live).map(|one| one.entry).collect();
    if entries.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let reason = asked.reason.trim().to_owned();
    let said = state.words.text_with("answer-verification-withdrawn", &[("reason", reason.as_str().into())]);
    changing(state, asked.tester, said, |state| {
        let person = state.anyone()?;
        state.write(person, |writer| Ok(writer.withdraw(&entries, &reason)?))?;
        Ok(())
    })
}

/// Does something to a tester and says how many readings it changed.
pub(crate) fn changing(
    state: &mut State,
    tester: TesterId,
    said: String,
    act: impl FnOnce(&mut State) -> Result<(), Failure>,
) -> Result<TesterView, Failure> {
    let before = flagged(state, tester)?;
    act(state)?;
    let after = flagged(state, tester)?;
    let cleared = before.iter().filter(|(id, level)| **level && after.get(*id) == Some(&false)).count();
    let raised = after.iter().filter(|(id, level)| **level && before.get(*id) != Some(&true)).count();
    let mut sentences = vec![said];
    for (key, count) in [("answer-no-longer-flagged", cleared), ("answer-newly-flagged", raised)] {
        if count > 0 {
            sentences.push(state.words.text_with(key, &[("count", count.into())]));
        }
    }
    tester_view(state, tester, Some(sentences.join(" · ")))
}

/// The readings of a tester on every job, and whether their tester is flagged.
fn flagged(state: &mut State, tester: TesterId) -> Result<BTreeMap<provenohm_assess::ids::ReadingId, bool>, Failure> {
    let jobs: Vec<JobId> = state.record.view().jobs_of(tester)?;
    let mut flags = BTreeMap::new();
    for job in jobs {
        let Ok(judged) = state.judged(job) else { continue };
        let own = judged.readings.iter().filter(|one| one.taken.stands() && one.reading.tester == Some(tester));
        flags.extend(own.map(|one| (one.reading.id, one.judgement.tester.level() >= Level::Look)));
    }
    Ok(flags)
}

/// One verification in words.
pub(crate) fn verification_view(
    words: &Words,
    one: &Stated<VerificationMade>,
    withdrawn: Option<String>,
) -> Result<VerificationView, Failure> {
    let made = one.value.clone().recorded(one.recorded);
    Ok(VerificationView {
        id: made.id,
        title: title(words, &made),
        lines: lines(words, &made),
        level: if failed(&made) { Level::Stop } else { Level::Done },
        recorded: words.text_with("answer-verification-recorded-on", &[("at", words.date_time(one.recorded).into())]),
        withdrawn: withdrawn
            .map(|reason| words.text_with("answer-verification-withdrawn", &[("reason", reason.into())])),
        form: verification_form(words, &made),
    })
}

fn failed(made: &Verification) -> bool {
    let statements = made.findings.iter().flat_map(|finding| [&finding.as_found, &finding.as_left]).flatten();
    made.overall == Outcome::Failed || statements.into_iter().any(|it| it.outcome == Outcome::Failed)
}

/// `Calibration of 3 Mar 2026 by …`.
pub(crate) fn title(words: &Words, made: &Verification) -> String {
    let key = match made.kind {
        ProofKind::Calibration => "answer-verification-calibration",
        ProofKind::Bench => "answer-verification-bench",
    };
    words.text_with(key, &[("made", words.when(made.made).into()), ("by", made.by.as_str().into())])
}

/// Certificate, last day, adjusted, and what it says of the test voltages; what it says alike of several in one line.
pub(crate) fn lines(words: &Words, made: &Verification) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(certificate) = &made.certificate {
        lines.push(words.text_with("answer-verification-certificate", &[("certificate", certificate.as_str().into())]));
    }
    lines.push(match made.valid_until {
        Some(until) => words.text_with("answer-verification-valid-until", &[("until", words.date(until).into())]),
        None => words.text("answer-verification-no-last-day"),
    });
    if made.adjusted {
        lines.push(words.text("answer-verification-adjusted"));
    }
    if made.overall == Outcome::Failed {
        lines.push(words.text("answer-verification-failed-whole"));
    }
    let said = made.findings.iter().flat_map(|finding| {
        let volts = words.volts(finding.test_voltage_v);
        let what = |statement: &Option<Statement>| statement.as_ref().map(|it| statement_words(words, it));
        let said = match (what(&finding.as_found), what(&finding.as_left)) {
            (Some(found), Some(left)) if found == left => vec![("answer-statement-both", found)],
            (found, left) => {
                let found = found.map(|found| ("answer-statement-as-found", found));
                found.into_iter().chain(left.map(|left| ("answer-statement-as-left", left))).collect()
            }
        };
        said.into_iter().map(move |it| (volts.clone(), it))
    });
    let line = |(volts, (key, what)): (String, (&str, String))| {
        words.text_with(key, &[("volts", volts.into()), ("what", what.into())])
    };
    lines.extend(together(said).into_iter().map(line));
    lines
}

fn statement_words(words: &Words, statement: &Statement) -> String {
    let outcome = match statement.outcome {
        Outcome::Good => "answer-outcome-good",
        Outcome::Failed => "answer-outcome-failed",
        Outcome::ConditionalFail => "answer-outcome-conditional",
        Outcome::NotStated => "answer-outcome-not-stated",
    };
    let mut parts = vec![words.text(outcome)];
    parts.extend(what_failed(words, statement));
    if let Holds::In(intervals) = &statement.holds {
        parts.push(words.text_with("answer-holds", &[("intervals", words.intervals(intervals).into())]));
    }
    let conforms = match statement.conforms {
        Conforms::Yes => "answer-conforms-yes",
        Conforms::No => "answer-conforms-no",
        Conforms::NotAllTested => "answer-conforms-not-all-tested",
        Conforms::NotStated => "answer-conforms-not-stated",
    };
    let edition = statement.edition.as_deref().unwrap_or("none");
    parts.push(words.text_with(conforms, &[("edition", edition.into())]));
    if let Some(percent) = statement.operating_uncertainty_percent {
        parts.push(words.text_with("answer-operating-uncertainty", &[("percent", words.percent(percent).into())]));
    }
    parts.join(", ")
}

/// In what a statement failed: requirements, output voltages, indications.
fn what_failed(words: &Words, statement: &Statement) -> Vec<String> {
    let unmet = statement.requirements.iter().filter(|it| it.result == RequirementResult::NotMet);
    let fell = statement.voltages.iter().filter(|it| !it.held);
    let wrong = statement.points.iter().filter(|it| !it.good);
    let unmet = unmet.map(|it| words.requirement_not_met(it.name));
    let fell = fell.map(|it| {
        let args = [("volts", words.volts(it.measured_v).into()), ("load", words.ohms(it.load_ohm).into())];
        words.text_with("answer-verification-voltage-failed", &args)
    });
    let wrong = wrong.map(|it| {
        let args = [("known", words.ohms(it.reference_ohm).into()), ("shown", words.reading(&it.indicated).into())];
        words.text_with("answer-verification-point-failed", &args)
    });
    let said: Vec<String> = unmet.chain(fell).chain(wrong).collect();
    let unsaid = said.is_empty() && statement.outcome == Outcome::Failed && statement.conforms != Conforms::No;
    if unsaid { vec![words.text("answer-verification-failed-unsaid")] } else { said }
}

/// The form a new verification starts with: the card's test voltages, nothing stated.
pub(crate) fn fresh(words: &Words, card: Option<&Card>) -> VerificationForm {
    let volts = card.iter().flat_map(|card| &card.voltages).map(|one| one.test_voltage_v);
    let finding = |volts: provenohm_assess::quantity::Volts| VoltageFinding {
        test_voltage_v: volts,
        as_found: None,
        as_left: None,
    };
    VerificationForm {
        date: String::new(),
        time: String::new(),
        valid_until: String::new(),
        kind: ProofKind::Calibration,
        by: String::new(),
        certificate: String::new(),
        adjusted: false,
        failed_on_the_whole: false,
        findings: volts.map(|volts| finding_form(words, &finding(volts))).collect(),
    }
}

/// What a verification form offers.
pub(crate) fn choices(words: &Words) -> VerificationChoices {
    let list = |all: &[(&str, &str)]| {
        all.iter().map(|(id, key)| Choice { id: (*id).to_owned(), words: words.text(key) }).collect()
    };
    let edition = ("edition", "none".into());
    let conforms =
        |id: &str, key: &str| Choice { id: id.to_owned(), words: words.text_with(key, std::slice::from_ref(&edition)) };
    VerificationChoices {
        kinds: list(&[("calibration", "answer-kind-calibration"), ("bench", "answer-kind-bench")]),
        outcomes: list(&[
            ("good", "answer-outcome-good"),
            ("failed", "answer-outcome-failed"),
            ("conditional_fail", "answer-outcome-conditional"),
            ("not_stated", "answer-outcome-not-stated"),
        ]),
        conforms: vec![
            conforms("yes", "answer-conforms-yes"),
            conforms("no", "answer-conforms-no"),
            conforms("not_all_tested", "answer-conforms-not-all-tested"),
            conforms("not_stated", "answer-conforms-not-stated"),
        ],
    }
}
