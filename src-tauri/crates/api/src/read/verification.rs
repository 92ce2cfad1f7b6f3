//! A verification as typed from its paper.

use super::Fields;
use crate::views::{FindingForm, HoldsForm, VerificationForm};
use chrono::{FixedOffset, NaiveDateTime, TimeZone};
use provenohm_assess::ids::{TesterId, VerificationId};
use provenohm_assess::moment::{Moment, When};
use provenohm_assess::tester::{Holds, Interval, Outcome, Statement, Verification, VoltageFinding};
use provenohm_words::Words;
use std::collections::BTreeSet;

/// The verification, if the form can be one. `now` gives the offset of the place and the day today.
pub(crate) fn read_verification(
    fields: &mut Fields<'_>,
    form: &VerificationForm,
    id: VerificationId,
    tester: TesterId,
    now: Moment,
) -> Option<Verification> {
    let date = fields.date("date", &form.date);
    if date.is_some_and(|date| date > now.date_naive()) {
        fields.complain("date", "complaint-in-the-future", &[]);
    }
    let time = if form.time.trim().is_empty() { None } else { fields.time("time", &form.time) };
    let last = if form.valid_until.trim().is_empty() { None } else { fields.date("valid_until", &form.valid_until) };
    let made = date.map(|date| when(date, time, *now.offset()));
    if made.zip(last).is_some_and(|(made, last)| !made.can_last_until(last)) {
        fields.complain("valid_until", "complaint-last-day-before", &[]);
    }
    if form.findings.is_empty() && !form.failed_on_the_whole {
        fields.complain("findings", "complaint-nothing-stated", &[]);
    }
    let mut seen = BTreeSet::new();
    let mut findings = Vec::new();
    for (index, finding) in form.findings.iter().enumerate() {
        let Some(read) = read_finding(fields, index, finding, form.adjusted) else { continue };
        if !seen.insert(read.test_voltage_v) {
            let volts = fields.words.volts(read.test_voltage_v);
            fields.complain(&format!("findings.{index}.volts"), "complaint-voltage-twice", &[("volts", volts.into())]);
        }
        findings.push(read);
    }
    let certificate = fields.optional("certificate", &form.certificate, crate::read::NAME_MOST);
    Some(Verification {
        id,
        tester,
        kind: form.kind,
        made: made?,
        valid_until: last,
        by: fields.optional("by", &form.by, crate::read::NAME_MOST),
        certificate: (!certificate.is_empty()).then_some(certificate),
        adjusted: form.adjusted,
        overall: if form.failed_on_the_whole { Outcome::Failed } else { Outcome::NotStated },
        findings,
        recorded_at: now,
    })
}

fn when(date: chrono::NaiveDate, time: Option<chrono::NaiveTime>, offset: FixedOffset) -> When {
    let instant = time.and_then(|time| offset.from_local_datetime(&NaiveDateTime::new(date, time)).single());
    match instant {
        Some(at) => When::At(at),
        None => When::Day { date, offset_minutes: offset.local_minus_utc() / 60 },
    }
}

fn read_finding(fields: &mut Fields<'_>, index: usize, form: &FindingForm, adjusted: bool) -> Option<VoltageFinding> {
    let at = |field: &str| format!("findings.{index}.{field}");
    let volts = fields.volts(&at("volts"), &form.volts);
    let mut intervals = Vec::new();
    for (place, interval) in form.holds.iter().enumerate() {
        let from = fields.ohms(&at(&format!("holds.{place}.from")), &interval.from);
        let to = fields.ohms(&at(&format!("holds.{place}.to")), &interval.to);
        if let Some((from_ohm, to_ohm)) = from.zip(to) {
            let interval = Interval { from_ohm, to_ohm, conditional: false };
            if !interval.is_upright() {
                fields.complain(&at(&format!("holds.{place}.to")), "complaint-ends-turned", &[]);
            }
            intervals.push(interval);
        }
    }
    intervals.sort_by_key(|interval| interval.from_ohm);
    let statement = |outcome: Outcome| Statement {
        outcome,
        conforms: form.conforms,
        edition: (!form.edition.trim().is_empty()).then(|| form.edition.trim().to_owned()),
        holds: if intervals.is_empty() { Holds::NotStated } else { Holds::In(intervals.clone()) },
        ..Statement::default()
    };
    let operating = fields.percent(&at("operating_percent"), &form.operating_percent);
    let with_uncertainty = |outcome| Statement { operating_uncertainty_percent: operating, ..statement(outcome) };
    // What the paper says of intervals and conformity it says of the tester as it left; a result as found that stands
    // beside an adjustment carries its outcome alone.
    let as_left = (form.as_left != Outcome::NotStated).then(|| with_uncertainty(form.as_left));
    let as_found = match (form.as_found, adjusted) {
        (Outcome::NotStated, _) => None,
        (outcome, true) => Some(Statement { outcome, ..Statement::default() }),
        (outcome, false) => Some(with_uncertainty(outcome)),
    };
    let neither = as_left.is_none() && as_found.is_none();
    // Intervals or conformity alone are a statement too.
    let as_left = if neither { Some(with_uncertainty(Outcome::NotStated)) } else { as_left };
    Some(VoltageFinding { test_voltage_v: volts?, as_found, as_left })
}

/// The form a verification was typed as.
pub(crate) fn verification_form(words: &Words, made: &Verification) -> VerificationForm {
    let (date, time) = match made.made {
        When::At(at) => (words.date(at.date_naive()), words.time(at)),
        When::Day { date, .. } => (words.date(date), String::new()),
    };
    VerificationForm {
        date,
        time,
        valid_until: made.valid_until.map(|date| words.date(date)).unwrap_or_default(),
        kind: made.kind,
        by: made.by.clone(),
        certificate: made.certificate.clone().unwrap_or_default(),
        adjusted: made.adjusted,
        failed_on_the_whole: made.overall == Outcome::Failed,
        findings: made.findings.iter().map(|one| finding_form(words, one)).collect(),
    }
}

/// The form one finding was typed as.
pub(crate) fn finding_form(words: &Words, finding: &VoltageFinding) -> FindingForm {
    let main = finding.as_left.as_ref().or(finding.as_found.as_ref());
    let holds = match main.map(|statement| &statement.holds) {
        Some(Holds::In(intervals)) => intervals.as_slice(),
        _ => &[],
    };
    FindingForm {
        volts: finding.test_voltage_v.0.normalize().to_string(),
        as_found: finding.as_found.as_ref().map(|it| it.outcome).unwrap_or_default(),
        as_left: finding.as_left.as_ref().map(|it| it.outcome).unwrap_or_default(),
        conforms: main.map(|it| it.conforms).unwrap_or_default(),
        edition: main.and_then(|it| it.edition.clone()).unwrap_or_default(),
        holds: holds
            .iter()
            .map(|one| HoldsForm { from: words.ohms(one.from_ohm), to: words.ohms(one.to_ohm) })
            .collect(),
        operating_percent: main
            .and_then(|it| it.operating_uncertainty_percent)
            .map(|percent| percent.0.normalize().to_string())
            .unwrap_or_default(),
    }
}
