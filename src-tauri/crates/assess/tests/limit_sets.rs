//! Loading sets: the shipped ones, a user's own, and what is refused with its line and reason.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_assess::circuit::{Conductors, Loads, PairKind};
use provenohm_assess::limits::{LimitSet, MeasureName, SHIPPED_FILES, SetReason, Tag, shipped};

/// A user's own set, one member a line.
const OWN: &str = r#"{
  "id": "own-2026",
  "version": 1,
  "title": "Rules of our own",
  "scope": "Everything we install.",
  "date": "2026-11-25",
  "source": {"title": "Agreement of 2026", "tag": "user"},
  "rows": [
    {"band": {"up_to_v": "500"}, "test_voltage_v": "500", "minimum": {"ohm": "2000000"}, "source": {"title": "§ 1", "tag": "user"}},
    {"band": {"above_v": "500"}, "test_voltage_v": "1000", "minimum": {"ohm": "2000000"}, "source": {"title": "§ 2", "tag": "user"}}
  ],
  "reduced": [
    {"bands": [{}], "volts": "250", "minimum": {"ohm": "2000000"}, "reasons": ["equipment"], "source": {"title": "§ 3", "tag": "user"}}
  ],
  "pairs": [
    {"band": {}, "kinds": ["live_live", "live_earth"], "source": {"title": "§ 4", "tag": "user"}}
  ]
}"#;

fn complaint(change: (&str, &str)) -> (usize, SetReason) {
    let text = OWN.replacen(change.0, change.1, 1);
    assert_ne!(text, OWN, "{change:?} changes the set");
    let complaint = LimitSet::load(text.as_bytes()).unwrap_err();
    (complaint.line, complaint.reason)
}

#[test]
fn every_shipped_set_loads_and_is_named_by_its_own_bytes() {
    let sets = shipped().unwrap();
    assert_eq!(sets.len(), SHIPPED_FILES.len());
    assert_eq!(sets[0].name.id.0, "iec-60364-6-2016", "the default comes first");
    let mut names: Vec<_> = sets.iter().map(|loaded| &loaded.name.sha256).collect();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), sets.len());
    for loaded in sets {
        assert_eq!(loaded.set.source.tag, Tag::Seen, "{}: only what was seen is shipped", loaded.name.id.0);
        assert_eq!(loaded.name.sha256.len(), 64);
    }
}

#[test]
fn a_set_is_named_by_the_hash_of_its_bytes() {
    let name = LimitSet::load(OWN.as_bytes()).unwrap().name;
    let other = LimitSet::load(OWN.replace("2000000", "3000000").as_bytes()).unwrap().name;
    assert_eq!((name.id.0.as_str(), name.version), ("own-2026", 1));
    assert_ne!(name.sha256, other.sha256);
}

#[test]
fn a_broken_set_is_refused_with_line_and_reason() {
    let refused = [
        (("\"own-2026\"", "\"Own 2026\""), 2, SetReason::Id),
        (("\"version\": 1", "\"version\": 0"), 3, SetReason::Version),
        (("\"Rules of our own\"", "\" \""), 4, SetReason::Title),
        (("\"ohm\": \"2000000\"", "\"ohm\": \"0\""), 9, SetReason::NotAboveZero),
        (("\"test_voltage_v\": \"500\"", "\"test_voltage_v\": \"-500\""), 9, SetReason::NotAboveZero),
        (("{\"above_v\": \"500\"}", "{\"above_v\": \"500\", \"up_to_v\": \"400\"}"), 10, SetReason::EmptyBand),
        (("{\"above_v\": \"500\"}", "{\"up_to_v\": \"400\"}"), 10, SetReason::NeverUsed { earlier: 1 }),
        (("\"volts\": \"250\"", "\"volts\": \"1000\""), 13, SetReason::NotReduced),
        (("[\"equipment\"]", "[]"), 13, SetReason::EmptyList),
        (("[\"live_live\", \"live_earth\"]", "[]"), 16, SetReason::EmptyList),
        (
            ("\"live_earth\"],", "\"live_earth\"], \"forbidden\": [\"live_live\"],"),
            16,
            SetReason::RequiredAndForbidden { kind: PairKind::LiveLive },
        ),
        (
            ("{\"band\": {}, \"kinds\"", "{\"band\": {\"loads\": [\"out\"]}, \"kinds\""),
            15,
            SetReason::NoPairs {
                measure: MeasureName::None,
                conductors: Conductors::SinglePhase,
                loads: Loads::Connected,
            },
        ),
    ];
    for (change, line, reason) in refused {
        assert_eq!(complaint(change), (line, reason), "{change:?}");
    }
}

#[test]
fn what_is_no_set_at_all_is_refused_where_reading_stopped() {
    let unreadable = |change| match complaint(change) {
        (line, SetReason::Unreadable(reason)) => (line, reason),
        other => panic!("{other:?}"),
    };
    assert_eq!(unreadable(("\"ohm\": \"2000000\"", "\"ohm\": \"many\"")).0, 9);
    let (line, reason) = unreadable(("\"scope\"", "\"scpoe\""));
    assert_eq!(line, 5);
    assert!(reason.contains("scpoe") && !reason.contains("line"), "{reason}");
    assert!(LimitSet::load(b"").is_err() && LimitSet::load(&[0xff, 0xfe]).is_err());
    let long = LimitSet::load(&vec![b' '; 2 << 20]).unwrap_err();
    assert!(matches!(long.reason, SetReason::TooLong { .. }));
}
