//! What is said of a bench run.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_assess::bench::{
    Decision, HeldInterval, Influence, IntervalEnd, NoInterval, OperatingPart, PointRemark, RequirementFound, Resistor,
    WhyNotTested, WhyUndecided,
};
use provenohm_assess::ids::ReferenceId;
use provenohm_assess::limits::{Source, Tag};
use provenohm_assess::quantity::{Celsius, Ohms, Shown, Volts};
use provenohm_assess::reference::{Reference, ReferenceKind};
use provenohm_assess::tester::{RequirementName, RequirementResult};
use provenohm_words::{AboutBench, Locale, Words};
use uuid::Uuid;

const BOX: ReferenceId = ReferenceId(Uuid::from_u128(1));

fn words() -> Words {
    Words::new(Locale::ENGLISH)
}

fn references() -> Vec<Reference> {
    vec![Reference {
        id: BOX,
        name: "Box 1".to_owned(),
        serial: "1".to_owned(),
        certificate: None,
        valid_until: None,
        what: ReferenceKind::DecadeBox { values: Vec::new() },
    }]
}

fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

fn mega(text: &str) -> Ohms {
    Ohms::parse(&format!("{text} MΩ")).unwrap()
}

#[test]
fn a_requirement_names_what_was_found_and_what_is_asked() {
    let references = references();
    let about = AboutBench { references: &references, edition: "IEC 61557-2:2019" };
    let mut found = RequirementFound {
        name: RequirementName::RatedCurrent,
        result: RequirementResult::NotMet,
        decision: Some(Decision::DoesNotConform),
        found: Some(0.000_620_04),
        expanded: None,
        asked: "0.001".parse().unwrap(),
        source: Source { title: "a standard".to_owned(), place: String::new(), tag: Tag::Seen },
        why: Vec::new(),
    };
    let say = |found: &RequirementFound| plain(&words().bench_requirement(found, &about));
    assert_eq!(say(&found), "rated current: 0.62 mA, at least 1 mA asked");
    found.result = RequirementResult::NotTested;
    found.why = vec![WhyNotTested::PartNotTested { part: OperatingPart::Supply }, WhyNotTested::NotMeasured];
    assert_eq!(say(&found), "rated current: not tested, not at the lowest battery voltage, nothing was measured");
}

#[test]
fn an_interval_says_why_it_ends_where_it_does() {
    let mut interval = HeldInterval {
        from_ohm: mega("10"),
        to_ohm: Ohms("909090909.0909".parse().unwrap()),
        below: IntervalEnd::NotConforming { known_ohm: mega("1") },
        above: IntervalEnd::NothingTested,
        points: 4,
        conditional: false,
    };
    let said = plain(&words().bench_interval(&interval));
    assert_eq!(said, "From 10 MΩ: 1.0 MΩ does not conform. To 909.1 MΩ: nothing was tested beyond");
    interval.conditional = true;
    let on_condition = plain(&words().bench_interval(&interval));
    assert_eq!(on_condition, format!("{said}. On condition at a point between"));
    let shown = Shown::parse("55 MΩ").unwrap();
    let why = NoInterval::ShownHigh { from_ohm: mega("50"), to_ohm: mega("100"), known_ohm: mega("0.1"), shown };
    assert_eq!(plain(&words().bench_no_interval(&why)), "Not from 50 MΩ: 0.1 MΩ was shown as 55 MΩ");
}

/// Less than the guard, or a reference that does not bear it: two things, two sentences.
#[test]
fn a_conditional_pass_says_which_condition() {
    let say = |decision| plain(&words().bench_decision(decision));
    assert_eq!(say(Decision::ConditionalPass), "conforms, by less than the guard");
    assert_eq!(say(Decision::OnCondition), "conforms, on the condition remarked");
}

#[test]
fn every_reason_has_its_sentence() {
    let references = references();
    let about = AboutBench { references: &references, edition: "an edition" };
    let resistor = Resistor { reference: BOX, nominal_ohm: mega("1") };
    let (reference, rated_v, ohm) = (BOX, Volts(250.into()), mega("10"));
    let undecided = [
        WhyUndecided::UnknownReference { reference },
        WhyUndecided::UnknownResistance { resistor },
        WhyUndecided::NoUncertainty { reference },
        WhyUndecided::AboveRating { resistor, rated_v },
        WhyUndecided::NotAVoltmeter { reference },
        WhyUndecided::NotACurrentMeter { reference },
        WhyUndecided::AboveMeter { reference },
        WhyUndecided::NothingKnown,
        WhyUndecided::NothingRead,
        WhyUndecided::NoStatedAccuracy,
        WhyUndecided::OutsideCard,
        WhyUndecided::MixedRepeats,
        WhyUndecided::LoadTooHeavy { load_ohm: ohm, least_ohm: ohm },
        WhyUndecided::LoadNotRated { load_ohm: ohm, rated_ohm: ohm },
        WhyUndecided::BeyondArithmetic,
    ];
    let remarks = [
        PointRemark::LapsedReference { reference, valid_until: None },
        PointRemark::LapsedReference { reference, valid_until: "2026-05-31".parse().ok() },
        PointRemark::LowRatio { ratio: 2.34, probability: 0.987 },
        PointRemark::VoltageCoefficientNotStated { resistor },
        PointRemark::RepeatabilityNotTested,
        PointRemark::FewerThanPlanned { taken: 1, planned: 3 },
        PointRemark::RepeatOutside,
        PointRemark::OutsideReferenceTemperature { temperature_c: Celsius(15.into()) },
    ];
    let influences = [
        Influence::Reference { resistor },
        Influence::Drift { reference },
        Influence::VoltageCoefficient { resistor },
        Influence::TemperatureCoefficient { resistor },
        Influence::MeterLoading { reference },
        Influence::Meter { reference },
        Influence::MeterResolution { reference },
        Influence::Resolution,
        Influence::Repeatability { pooled: false },
        Influence::Repeatability { pooled: true },
    ];
    let words = words();
    let said = undecided.iter().map(|why| words.bench_undecided(why, &about));
    let said = said.chain(remarks.iter().map(|remark| words.bench_remark(remark, &about)));
    let mut said: Vec<String> = said.chain(influences.iter().map(|i| words.bench_influence(*i, &about))).collect();
    assert!(said.iter().all(|text| !text.contains("said-bench") && !text.contains('$')), "{said:?}");
    let all = said.len();
    said.sort();
    said.dedup();
    assert_eq!(said.len(), all, "each its own");
    let low = plain(&words.bench_remark(&remarks[2], &about));
    assert_eq!(low, "Permitted deviation only 2.3 times U: certain to 98.7 %");
}
