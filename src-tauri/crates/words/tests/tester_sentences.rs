//! What is said of a tester for one reading, and of how the reading was taken.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod made;

use made::{day, history, megohms, moment, ohms, on, reading, tester_judgement, verification_id, volts};
use provenohm_assess::circuit::Loads;
use provenohm_assess::ids::{CheckId, DamageId};
use provenohm_assess::judgement::{MethodReason, TesterReason, TesterRemark, TesterState};
use provenohm_assess::limits::ReducedReason;
use provenohm_assess::quantity::Comparator;
use provenohm_assess::reading::{Conditions, NotTestedReason};
use provenohm_assess::tester::{Interval, RequirementName};
use provenohm_words::{AboutTester, Locale, Words};
use uuid::Uuid;

fn said(reason: &TesterReason, today: Option<&str>) -> String {
    let history = history();
    let about = AboutTester { name: "Tester A", history: Some(&history), today: today.map(day) };
    Words::new(Locale::ENGLISH).tester_reason(reason, &about, &reading(megohms("487"), 500)).replace('\u{a0}', " ")
}

fn proved_by(number: u128, recorded_later: Option<&str>) -> TesterReason {
    TesterReason::ProvedBy {
        verification: verification_id(number),
        made: on("2026-03-04"),
        valid_until: day("2027-03-03"),
        recorded_later: recorded_later.map(moment),
    }
}

#[test]
fn a_proof_names_its_paper() {
    assert_eq!(said(&proved_by(1, None), None), "Tester A: proved to 3 Mar 2027 by certificate C-17");
    assert_eq!(said(&proved_by(2, None), None), "Tester A: proved to 3 Mar 2027 by the calibration of 4 Mar 2026");
    assert_eq!(said(&proved_by(3, None), None), "Tester A: proved to 3 Mar 2027 by bench verification of 4 Mar 2026");
    assert_eq!(
        said(&proved_by(1, Some("2026-11-26T08:00:00+01:00")), None),
        "Tester A: proved to 3 Mar 2027 by certificate C-17, recorded on 26 Nov 2026"
    );
}

/// A later failure decides; what the paper said on the day of the reading is said of that day alone.
#[test]
fn a_proof_beside_a_graver_reason_speaks_of_the_day_of_the_reading() {
    let history = history();
    let about = AboutTester { name: "Tester A", history: Some(&history), today: None };
    let words = Words::new(Locale::ENGLISH);
    let said = |reason: &TesterReason| {
        words.tester_reason_beside(reason, &about, &reading(megohms("487"), 500)).replace('\u{a0}', " ")
    };
    let then = "Tester A: on 25 Nov 2026,";
    assert_eq!(said(&proved_by(1, None)), format!("{then} certificate C-17 was valid to 3 Mar 2027"));
    assert_eq!(said(&proved_by(2, None)), format!("{then} its calibration of 4 Mar 2026 was valid to 3 Mar 2027"));
    assert_eq!(
        said(&proved_by(3, None)),
        format!("{then} its bench verification of 4 Mar 2026 was valid to 3 Mar 2027")
    );
    let nothing = TesterReason::NothingOnRecord;
    assert_eq!(said(&nothing), self::said(&nothing, None));
}

#[test]
fn ago_is_said_on_the_day_of_the_reading_and_the_date_later() {
    let lapsed =
        |until: &str| TesterReason::LapsedOn { verification: verification_id(1), valid_until: Some(day(until)) };
    assert_eq!(said(&lapsed("2026-09-20"), Some("2026-11-25")), "Tester A: verification lapsed 2 months ago");
    assert_eq!(said(&lapsed("2026-10-20"), Some("2026-11-25")), "Tester A: verification lapsed 1 month ago");
    assert_eq!(said(&lapsed("2026-11-24"), Some("2026-11-25")), "Tester A: verification lapsed 1 day ago");
    assert_eq!(said(&lapsed("2023-11-24"), Some("2026-11-25")), "Tester A: verification lapsed 3 years ago");
    for today in [None, Some("2026-12-24")] {
        assert_eq!(
            said(&lapsed("2026-09-20"), today),
            "Tester A: verification lapsed on 20 Sep 2026, before this reading"
        );
    }
}

#[test]
fn every_reason_has_its_sentence() {
    let verification = verification_id(1);
    let made = on("2026-03-04");
    let at = moment("2026-03-04T11:00:00+01:00");
    let (check, damage) = (CheckId(Uuid::nil()), DamageId(Uuid::nil()));
    let rated = Some(RequirementName::RatedCurrent);
    let point = Some(ohms("1003000"));
    let holds = vec![
        Interval { from_ohm: ohms("500000"), to_ohm: ohms("1000000"), conditional: false },
        Interval { from_ohm: ohms("10000000"), to_ohm: ohms("1000000000"), conditional: true },
    ];
    let cases = [
        (TesterReason::LapsedOn { verification, valid_until: None }, "Tester A: its verification names no last day"),
        (TesterReason::NothingOnRecord, "Tester A: no verification on record at 500 V"),
        (TesterReason::VoltageNotCovered { test_voltage_v: volts(500) }, "Tester A: verified, but not at 500 V"),
        (
            TesterReason::OutsideProvedRange { holds },
            "Tester A: at 500 V proved only in 0.5 MΩ to 1.0 MΩ, 10 MΩ to 1.0 GΩ (on condition)",
        ),
        (TesterReason::OutsideProvedRange { holds: vec![] }, "Tester A: at 500 V its indications are proved nowhere"),
        (TesterReason::AdjustedSince { made }, "Tester A: adjusted on 4 Mar 2026, not proved since"),
        (TesterReason::NotAllTested { verification }, "Tester A: verified, but not for everything the policy asks"),
        (TesterReason::ConditionallyFailed { verification }, "Tester A: its verification says neither good nor failed"),
        (
            TesterReason::NoRangeStated { verification },
            "Tester A: neither its verification nor its card states a range at 500 V",
        ),
        (TesterReason::LowEndNotTested { verification }, "Tester A: its bench tested nothing near the limit at 500 V"),
        (
            TesterReason::FailedBefore { verification, made, requirement: None, point_ohm: None },
            "Tester A: barred, found failed on 4 Mar 2026",
        ),
        (
            TesterReason::FailedBefore { verification, made, requirement: None, point_ohm: point },
            "Tester A: barred, found failed at 1.003 MΩ on 4 Mar 2026",
        ),
        (
            TesterReason::FailedBefore { verification, made, requirement: rated, point_ohm: None },
            "Tester A: barred, on 4 Mar 2026 its rated current was not met",
        ),
        (
            TesterReason::QuickCheckFailedBefore { check, at },
            "Tester A: barred, the quick check of 4 Mar 2026 11:00 did not hold",
        ),
        (TesterReason::DamagedBefore { damage, at }, "Tester A: barred, damaged at 4 Mar 2026 11:00"),
        (
            TesterReason::FailedAfter { verification, made, requirement: None, point_ohm: None },
            "Tester A: in doubt, found failed on 4 Mar 2026, after this reading",
        ),
        (
            TesterReason::FailedAfter { verification, made, requirement: None, point_ohm: point },
            "Tester A: in doubt, found failed at 1.003 MΩ on 4 Mar 2026, after this reading",
        ),
        (
            TesterReason::FailedAfter { verification, made, requirement: rated, point_ohm: None },
            "Tester A: in doubt, rated current not met on 4 Mar 2026, after this reading",
        ),
        (
            TesterReason::QuickCheckFailedAfter { check, at },
            "Tester A: in doubt, a later quick check (4 Mar 2026 11:00) did not hold",
        ),
        (
            TesterReason::DamagedAfter { damage, at },
            "Tester A: in doubt, found damaged at 4 Mar 2026 11:00, after this reading",
        ),
        (
            TesterReason::GoodAfter { verification, made },
            "Tester A: not proved for this reading, found good afterwards on 4 Mar 2026",
        ),
        (
            TesterReason::NotConfirmable { verification },
            "Tester A: not confirmable, adjusted later with nothing stated as found",
        ),
        (TesterReason::NoTester, "Tester not chosen"),
        (TesterReason::LiveValues, "Tester A: has two values to settle"),
    ];
    for (reason, expected) in cases {
        assert_eq!(said(&reason, None), expected);
    }
}

#[test]
fn every_requirement_has_its_words() {
    let names = [
        (RequirementName::OperatingUncertainty, "operating uncertainty"),
        (RequirementName::OpenCircuitVoltage, "open-circuit voltage"),
        (RequirementName::RatedCurrent, "rated current"),
        (RequirementName::ShortCircuitCurrent, "measuring current"),
    ];
    let words = Words::new(Locale::ENGLISH);
    for (requirement, name) in names {
        let not_tested = TesterRemark::RequirementNotTested { requirement };
        assert_eq!(words.tester_remark(&not_tested), format!("{name} not tested"));
        let not_met = TesterRemark::RequirementFailed { requirement };
        assert_eq!(words.tester_remark(&not_met), format!("{name} known not to be met"));
    }
}

#[test]
fn the_header_names_the_tester_and_its_state_now() {
    let words = Words::new(Locale::ENGLISH);
    let about = AboutTester { name: "Tester A", history: None, today: Some(day("2026-11-25")) };
    let header = |state, reason| words.tester_header(&tester_judgement(state, reason), &about);
    let lapsed = TesterReason::LapsedOn { verification: verification_id(1), valid_until: Some(day("2026-09-20")) };
    assert_eq!(header(TesterState::Proved, proved_by(1, None)), "Tester A · proved to 3 Mar 2027");
    assert_eq!(header(TesterState::Lapsed, lapsed), "Tester A · lapsed 2 months ago");
    assert_eq!(header(TesterState::NotProved, TesterReason::NothingOnRecord), "Tester A · not proved");
    assert_eq!(header(TesterState::NotChosen, TesterReason::NoTester), "Choose a tester");
}

#[test]
fn every_method_reason_has_its_sentence() {
    let (taken_v, asked_v) = (volts(250), volts(500));
    let at = moment("2026-11-25T12:00:00+01:00");
    let check = CheckId(Uuid::nil());
    let reduced = |reason| MethodReason::ReducedVoltage { taken_v, asked_v, reason };
    let cases = [
        (MethodReason::LowerVoltage { taken_v, asked_v }, "taken at 250 V, this set asks for 500 V"),
        (
            MethodReason::HigherVoltage { taken_v: volts(1000), asked_v },
            "taken at 1000 V, more than the 500 V this set asks for",
        ),
        (
            reduced(ReducedReason::SurgeProtector),
            "taken at 250 V instead of 500 V: surge protectors cannot practicably be disconnected",
        ),
        (
            reduced(ReducedReason::Equipment),
            "taken at 250 V instead of 500 V: equipment cannot practicably be disconnected",
        ),
        (
            reduced(ReducedReason::EquipmentConnected),
            "taken at 250 V instead of 500 V: tested after equipment was connected",
        ),
        (MethodReason::ForbiddenPair, "this pair is not to be tested with electronics connected"),
        (MethodReason::LeadsNotChecked, "over-range, and no good leads-shorted check that day"),
        (MethodReason::LeadsInDoubt { check, at }, "leads in doubt: leads-shorted check at 12:00 did not hold"),
        (MethodReason::LeadsMayReadLow { check, at }, "the leads may have read low (leads-open check at 12:00)"),
        (MethodReason::NeutralNotIsolated, "N was not isolated from PE"),
        (MethodReason::LoadsConnected, "loads were connected"),
        (
            MethodReason::FewerDigits { resolution_ohm: ohms("10000") },
            "fewer digits than this tester shows: one step is 0.01 MΩ",
        ),
        (
            MethodReason::FewerDigits { resolution_ohm: ohms("1000000") },
            "fewer digits than this tester shows: one step is 1 MΩ",
        ),
        (
            MethodReason::MoreDigits { resolution_ohm: ohms("10000") },
            "more digits than this tester shows: one step is 0.01 MΩ",
        ),
        (MethodReason::NoSuchConductor, "on a conductor that its circuit does not have"),
        (
            MethodReason::AboveTesterLimit {
                limit: made::shown(
                    provenohm_assess::quantity::Comparator::Exact,
                    "200",
                    provenohm_assess::quantity::Unit::GigaOhm,
                ),
            },
            "above this tester's limit of 200 GΩ: check the unit",
        ),
        (
            MethodReason::FarBelowOthers { median_ohm: ohms("400000000"), comparator: Comparator::Exact, readings: 12 },
            "far below the median of 12 like pairs on this board: 400 MΩ",
        ),
        (
            MethodReason::FarBelowOthers {
                median_ohm: ohms("999000000"),
                comparator: Comparator::MoreThan,
                readings: 12,
            },
            "far below the median of 12 like pairs on this board: > 999 MΩ",
        ),
        (MethodReason::DoubtfulClock, "the clock of this device was in doubt"),
        (MethodReason::TwoLiveValues, "rests on something that has two values to settle"),
        (MethodReason::AtReferenceConditions, "judged at reference conditions"),
        (MethodReason::NeedsNewerVersion, "rests on an entry that needs a newer version"),
    ];
    let words = Words::new(Locale::ENGLISH);
    for (reason, expected) in cases {
        assert_eq!(words.method_sentence(&reason).replace('\u{a0}', " "), expected);
    }
}

#[test]
fn a_pair_that_was_not_tested_says_why() {
    let words = Words::new(Locale::ENGLISH);
    assert_eq!(words.not_tested(NotTestedReason::NoAccess, None), "not tested: no access");
    assert_eq!(words.not_tested(NotTestedReason::Other, Some("roof closed")), "not tested: roof closed");
}

#[test]
fn conditions_say_what_was_stated() {
    let words = Words::new(Locale::ENGLISH);
    let stated =
        Conditions { loads: Loads::Connected, n_isolated: Some(true), reduced: Some(ReducedReason::SurgeProtector) };
    assert_eq!(
        words.conditions(&stated),
        ["loads connected", "N isolated from PE", "surge protectors cannot practicably be disconnected"]
    );
    assert_eq!(words.conditions(&Conditions::default()), ["loads disconnected"]);
}
