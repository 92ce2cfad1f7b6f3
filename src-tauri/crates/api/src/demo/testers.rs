//! The demo's testers: one proved, one without verification, one lapsed, one that fails after use, and two that the bench
//! finds wrong.

use super::Clock;
use crate::failure::Failure;
use crate::ops::{testers, verifications};
use crate::state::State;
use crate::views::{
    CardForm, FindingForm, HoldsForm, RangeForm, RecordVerification, SaveTester, TesterIdentity, VerificationForm,
    VoltageForm,
};
use chrono::{Days, NaiveDate};
use provenohm_assess::ids::{TesterId, VerificationId};
use provenohm_assess::limits::Tag;
use provenohm_assess::moment::When;
use provenohm_assess::quantity::{Ohms, Percent, Shown, Volts};
use provenohm_assess::tester::{
    Conforms, Outcome, Point, ProofKind, Ranging, Requirement, RequirementName, RequirementResult, Statement,
    Verification, VoltageAtLoad, VoltageFinding,
};
use provenohm_logbook::entry::body::VerificationMade;
use rust_decimal::Decimal;

/// The testers of the demo.
pub(super) struct Testers {
    pub(super) proved: TesterId,
    pub(super) unverified: TesterId,
    pub(super) lapsed: TesterId,
    pub(super) fails_later: TesterId,
    pub(super) low_end: TesterId,
    pub(super) falls_under_load: TesterId,
}

/// Puts the testers and what was known of them at the start into the record.
pub(super) fn make(state: &mut State, clock: &Clock) -> Result<Testers, Failure> {
    let today = clock.now().date_naive();
    let ago = |days: u64| today.checked_sub_days(Days::new(days)).unwrap_or(today);
    let on = |days: u64| today.checked_add_days(Days::new(days)).unwrap_or(today);
    let testers = Testers {
        proved: tester(state, "demo-tester-a", "1001")?,
        unverified: tester(state, "demo-tester-b", "1002")?,
        lapsed: tester(state, "demo-tester-c", "1003")?,
        fails_later: tester(state, "demo-tester-d", "1004")?,
        low_end: tester(state, "demo-tester-e", "1005")?,
        falls_under_load: tester(state, "demo-tester-f", "1006")?,
    };
    calibrated(state, testers.proved, "INV-1001", ago(200), on(165))?;
    calibrated(state, testers.lapsed, "INV-1003", ago(430), ago(65))?;
    calibrated(state, testers.fails_later, "INV-1004", ago(120), on(245))?;
    Ok(testers)
}

fn tester(state: &mut State, name: &str, serial: &str) -> Result<TesterId, Failure> {
    let range = |from: &str, to: &str, resolution: &str, percent: &str| RangeForm {
        from: from.to_owned(),
        to: to.to_owned(),
        resolution: resolution.to_owned(),
        percent: percent.to_owned(),
        digits: "2".to_owned(),
    };
    let voltage = |volts: u32| VoltageForm {
        volts: volts.to_string(),
        over_range: "999 MΩ".to_owned(),
        operating_percent: String::new(),
        ranges: vec![
            range("0.05 MΩ", "19.99 MΩ", "0.01 MΩ", "3"),
            range("20 MΩ", "199.9 MΩ", "0.1 MΩ", "3"),
            range("200 MΩ", "999 MΩ", "1 MΩ", "5"),
        ],
    };
    let name = state.words.text(name);
    let model = state.words.text("demo-tester-model");
    let identity = TesterIdentity { name, serial: serial.to_owned(), model };
    let card = CardForm {
        voltages: [250, 500, 1000].map(voltage).into(),
        conforms: true,
        shorted_up_to: "0.02 MΩ".to_owned(),
        interval_months: String::new(),
        ranging: Some(Ranging::Automatic),
    };
    Ok(testers::save_tester_as(state, SaveTester { tester: None, identity, card }, Some(true))?.id)
}

fn calibrated(
    state: &mut State,
    tester: TesterId,
    certificate: &str,
    made: NaiveDate,
    valid_until: NaiveDate,
) -> Result<(), Failure> {
    let form = VerificationForm {
        valid_until: state.words.date(valid_until),
        findings: [250, 500, 1000].map(good).into(),
        ..paper(state, made, certificate)
    };
    record(state, tester, form)
}

/// A bench check finds the last tester failed at 500 V: 14 % high at 1 MΩ, and its voltage falls away at the rated load.
pub(super) fn fail(state: &mut State, clock: &Clock, tester: TesterId) -> Result<(), Failure> {
    let now = clock.now();
    let mega = |figure: Decimal| Ohms((figure * Decimal::from(1_000_000)).normalize());
    let point = |known: u32, shown: &str, good: bool| -> Result<Point, Failure> {
        let indicated = Shown::parse(shown).map_err(|refusal| Failure::of("unexpected").because(refusal))?;
        let error_uncertainty_percent = Some(Percent(Decimal::TWO));
        Ok(Point { reference_ohm: mega(known.into()), indicated, good, error_uncertainty_percent })
    };
    let load = |tenths: i64, volts: u32, held: bool| VoltageAtLoad {
        load_ohm: mega(Decimal::new(tenths, 1)),
        measured_v: Volts(volts.into()),
        held,
    };
    let found = Statement {
        outcome: Outcome::Failed,
        requirements: vec![Requirement {
            name: RequirementName::RatedCurrent,
            result: RequirementResult::NotMet,
            tag: Tag::Seen,
        }],
        points: vec![
            point(1, "1.14 MΩ", false)?,
            point(10, "10.2 MΩ", true)?,
            point(100, "101.0 MΩ", true)?,
            point(500, "506 MΩ", true)?,
        ],
        voltages: vec![load(5, 412, false), load(20, 508, true), load(500, 540, true)],
        leads_shorted_good: true,
        ..Statement::default()
    };
    let made = Verification {
        id: VerificationId(state.host.id()?),
        tester,
        kind: ProofKind::Bench,
        made: When::Day { date: now.date_naive(), offset_minutes: now.offset().local_minus_utc() / 60 },
        valid_until: None,
        by: state.words.text("demo-bench"),
        certificate: None,
        adjusted: false,
        overall: Outcome::NotStated,
        findings: vec![VoltageFinding { test_voltage_v: Volts(500.into()), as_found: Some(found), as_left: None }],
        recorded_at: now,
    };
    let person = state.anyone()?;
    state.write(person, |writer| Ok(writer.append(VerificationMade::of(made))?))?;
    Ok(())
}

fn good(volts: u32) -> FindingForm {
    FindingForm {
        volts: volts.to_string(),
        as_found: Outcome::Good,
        as_left: Outcome::Good,
        conforms: Conforms::Yes,
        edition: "IEC 61557-2:2019".to_owned(),
        holds: vec![HoldsForm { from: "0.1 MΩ".to_owned(), to: "999 MΩ".to_owned() }],
        operating_percent: String::new(),
    }
}

fn paper(state: &State, made: NaiveDate, certificate: &str) -> VerificationForm {
    VerificationForm {
        date: state.words.date(made),
        time: String::new(),
        valid_until: String::new(),
        kind: ProofKind::Calibration,
        by: state.words.text("demo-laboratory"),
        certificate: certificate.to_owned(),
        adjusted: false,
        failed_on_the_whole: false,
        findings: Vec::new(),
    }
}

fn record(state: &mut State, tester: TesterId, form: VerificationForm) -> Result<(), Failure> {
    let asked = RecordVerification { tester, form, replaces: None, reason: String::new() };
    verifications::record_verification(state, asked)?;
    Ok(())
}
