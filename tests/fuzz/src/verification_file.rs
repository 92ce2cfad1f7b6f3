//! Verification files: refused with place and reason, or computed and put on paper. Nobody who reads the result could
//! tell in which order the facts arrived, and no interval holds a point that does not conform.
use provenohm_api::headless::{self, VerificationFile};
use provenohm_assess::bench::{Decision, VoltageResult};

pub(crate) fn holds(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let Ok(told) = headless::bench(text) else { return };
    let report = headless::tester_report_of(text);
    assert!(report.is_ok(), "what can be computed can be put on paper: {report:?}");

    let Ok(mut file) = serde_json::from_str::<VerificationFile>(text.trim_start_matches('\u{feff}')) else {
        panic!("what was computed cannot be read again")
    };
    file.measured.reverse();
    file.references.reverse();
    let Ok(turned) = serde_json::to_string(&file) else { panic!("a verification file cannot be written") };
    assert_eq!(headless::bench(&turned).as_ref(), Ok(&told), "in whatever order it arrived");

    told.result.voltages.iter().for_each(no_interval_holds_what_does_not_conform);
}

fn no_interval_holds_what_does_not_conform(voltage: &VoltageResult) {
    let outside = |decision| matches!(decision, Decision::ConditionalFail | Decision::DoesNotConform);
    for point in voltage.points.iter().filter(|point| point.base && point.decision.is_some_and(outside)) {
        let Some(known) = point.known_ohm else { continue };
        let within = voltage.intervals.iter().find(|one| one.from_ohm <= known && known <= one.to_ohm);
        assert!(within.is_none(), "{point:?} in {within:?}");
    }
}
