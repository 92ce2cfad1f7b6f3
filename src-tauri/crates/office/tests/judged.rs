//! What the headless program says of limits, single readings and whole jobs.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::{Folder, JOB, changed, example, json, office, refused, told};
use serde_json::Value;

fn explain(more: &[&str]) -> Vec<String> {
    ["explain", "--nominal", "230"].iter().chain(more).map(|text| (*text).to_owned()).collect()
}

fn explained(more: &[&str]) -> Value {
    let arguments = explain(more);
    json(&arguments.iter().map(String::as_str).chain(["--json"]).collect::<Vec<_>>())
}

fn in_lines(more: &[&str]) -> String {
    told(&explain(more).iter().map(String::as_str).collect::<Vec<_>>())
}

const IEC: [&str; 2] = ["--set", "iec-60364-6-2016"];

/// The set states no test voltage (DIN VDE 0105-100, periodic inspection; seen): none is made up.
#[test]
fn no_test_voltage_is_made_up() {
    let set = ["--set", "din-vde-0105-100", "--reading", "1.05 MΩ"];
    let arguments = explain(&set);
    assert!(refused(&arguments.iter().map(String::as_str).collect::<Vec<_>>()).contains("--taken"));
    assert_eq!(explained(&[&set[..], &["--taken", "500"]].concat())["value"], "meets");
}

/// IEC 60364-6:2016, clause 6.4.3.3 (seen) for the reduced voltage; the rest is ours: lower without a reason cannot be judged, with one meets at 1 MΩ;
/// higher is looked at.
#[test]
fn another_test_voltage_than_the_set_asks_for() {
    let ask = |more: &[&str]| explained(&[&IEC[..], &["--reading", "1.2 MΩ"], more].concat());
    let low = ask(&["--taken", "250"]);
    assert_eq!((&low["value"], &low["level"]), (&"cannot_be_judged".into(), &"look".into()));
    let lines = in_lines(&[&IEC[..], &["--reading", "1.2 MΩ", "--taken", "250"]].concat());
    assert_eq!(lines.matches("this set asks for").count(), 1, "{lines}");
    assert!(lines.contains("cannot be judged"), "{lines}");
    let reduced = ask(&["--taken", "250", "--reduced", "surge_protector"]);
    assert_eq!((&reduced["value"], &reduced["level"]), (&"meets".into(), &"remark".into()));
    let high = ask(&["--taken", "1000"]);
    assert_eq!((&high["value"], &high["level"]), (&"meets".into(), &"look".into()));
    assert!(in_lines(&[&IEC[..], &["--reading", "1.2 MΩ", "--taken", "1000"]].concat()).contains("more than the 500"));
    let zero = explain(&[&IEC[..], &["--reading", "1.2 MΩ", "--taken", "0"]].concat());
    assert!(refused(&zero.iter().map(String::as_str).collect::<Vec<_>>()).contains("--taken"));
}

/// BS 7671:2018+A2:2022, regulation 643.3 (seen): after equipment is connected, live conductors joined to earth; its
/// minimum at 250 V from memory.
#[test]
fn after_equipment_only_lives_joined_to_earth_are_read_at_the_lower_voltage() {
    let set = ["--set", "bs-7671-2018", "--stage", "after"];
    let limit = json(&[&["limit", "--nominal", "230", "--json"], &set[..]].concat());
    assert_eq!(limit["pairs"][0]["kind"], "joined_earth");
    assert_eq!(limit["reduced"]["reasons"][0], "equipment_connected");
    let ask = ["--reading", "1.2 MΩ", "--taken", "250", "--reduced", "equipment_connected"];
    assert_eq!(explained(&[&set[..], &ask].concat())["value"], "meets");
    let before = explain(&[&["--set", "bs-7671-2018"][..], &ask].concat());
    refused(&before.iter().map(String::as_str).collect::<Vec<_>>());
    assert!(refused(&["limit", "--nominal", "230", "--set", "bs-7671-2018", "--stage", "later"]).contains("before"));
}

/// DIN VDE 0105-100 (seen): 1000 Ω/V with loads out, so 230 kΩ to earth and 400 kΩ between lines of 230/400 V.
#[test]
fn each_pair_is_explained_by_its_own_minimum() {
    let of = |pair: &[&str]| {
        let lines = ["explain", "--set", "din-vde-0105-100", "--nominal", "400", "--to-earth", "230"];
        let more = ["--conductors", "three_phase", "--reading", "300 kΩ", "--taken", "500", "--json"];
        json(&[&lines[..], &more, pair].concat())
    };
    assert_eq!((&of(&[])["pair"], &of(&[])["value"]), (&"L1–L2".into(), &"below".into()));
    let earth = of(&["--pair", "L1-PE"]);
    assert_eq!((&earth["minimum_ohm"], &earth["value"]), (&"230000".into(), &"meets".into()));
    let asked = ["explain", "--set", "iec-60364-6-2016", "--nominal", "230", "--reading", "3 MΩ", "--pair", "L2-PE"];
    assert!(refused(&asked).contains("L–PE"));
}

#[test]
fn what_a_display_or_a_circuit_cannot_have_shown_is_looked_at() {
    let folder = Folder::new();
    let job = changed(|file| {
        let reading = &mut file["readings"][2];
        assert_eq!(reading["reading"]["shown"]["digits"], "487", "{reading}");
        reading["reading"]["shown"]["digits"] = "487.5".into();
        reading["recorded_at"] = "2001-01-01T00:00:00+00:00".into();
    });
    let lines = told(&["judge", &folder.with("job.json", &job)]);
    assert!(lines.contains("more digits than this tester shows"), "{lines}");
    assert!(lines.contains("the clock of this device was in doubt"), "{lines}");
    let job = changed(|file| {
        for circuit in file["boards"][0]["circuits"].as_array_mut().unwrap() {
            circuit["electrical"]["conductors"] = "dc".into();
            circuit["electrical"]["nominal"]["current"] = "dc".into();
        }
    });
    let lines = told(&["judge", &folder.with("other.json", &job)]);
    assert!(lines.contains("on a conductor that its circuit does not have"), "{lines}");
}

#[test]
fn the_reduced_rule_is_told_with_its_minimum() {
    let limit = ["limit", "--set", "iec-60364-6-2016", "--nominal", "230"];
    let asked = json(&[&limit[..], &["--json"]].concat());
    assert_eq!(
        (&asked["reduced"]["test_voltage_v"], &asked["reduced"]["minimum_ohm"]),
        (&"250".into(), &"1000000".into())
    );
    assert!(told(&limit).contains("250\u{a0}V d.c. allowed, at least 1.0\u{a0}MΩ"));
}

/// Separation and FELV rest on memory: said wherever such a limit is told.
#[test]
fn a_figure_from_memory_is_called_one() {
    let felv = ["--nominal", "24", "--measure", "felv", "--supply", "230"];
    assert!(told(&[&["limit", "--set", "iec-60364-6-2016"][..], &felv].concat()).contains("recalled from memory"));
    let felv_reading = [&["explain", "--set", "iec-60364-6-2016", "--reading", "5 MΩ"][..], &felv].concat();
    assert!(told(&felv_reading).contains("recalled from memory"));
    assert!(!told(&["limit", "--set", "iec-60364-6-2016", "--nominal", "230"]).contains("memory"));
    let folder = Folder::new();
    let job = changed(|file| {
        file["boards"][0]["circuits"][0]["electrical"]["measure"] = serde_json::json!({ "kind": "separation" });
    });
    assert!(told(&["judge", &folder.with("job.json", &job)]).contains("recalled from memory"));
    assert!(!told(&["judge", JOB]).contains("memory"));
}

#[test]
fn a_guard_comes_with_every_figure() {
    let ask = |more: &[&str]| explained(&[&IEC[..], &["--policy", "guarded"], more].concat());
    let told = ask(&["--reading", "5 MΩ", "--accuracy", "3 % + 2", "--resolution", "1 MΩ"]);
    assert_eq!(told["guard"]["kind"], "accuracy");
    assert_eq!((&told["guard"]["percent"], &told["guard"]["digits"]), (&"3".into(), &2.into()));
    assert_eq!(told["guard"]["resolution_ohm"], "1000000");
    let lines = told["lines"].to_string();
    assert!(lines.contains("2 × 1\u{a0}MΩ"), "{lines}");
    let over = ask(&["--reading", "> 999 MΩ", "--accuracy", "3 % + 2"])["lines"].to_string();
    assert!(over.contains("3\u{a0}% × 999\u{a0}MΩ"), "{over}");
    // Under *simple* the limit proves itself: nothing to say.
    assert!(!explained(&[&IEC[..], &["--reading", "1.0 MΩ"]].concat())["lines"].to_string().contains("Proves"));
}

#[test]
fn what_no_display_shows_and_no_maker_states_is_refused() {
    for (more, reason) in [
        (["--reading", "1.055 MΩ", "--resolution", "0.01 MΩ"], "0.01"),
        (["--reading", "1.05 MΩ", "--accuracy", "100 % + 2"], "100"),
        (["--reading", "1.05 MΩ", "--accuracy", "3"], "3 % + 2"),
    ] {
        let arguments = explain(&[&IEC[..], &more].concat());
        let said = refused(&arguments.iter().map(String::as_str).collect::<Vec<_>>());
        assert!(said.contains(reason), "{said}");
    }
    let coarse = in_lines(&[&IEC[..], &["--reading", "1.1 MΩ", "--resolution", "0.01 MΩ"]].concat());
    assert!(coarse.contains("fewer digits"), "{coarse}");
}

#[test]
fn an_item_without_a_row_and_a_heating_element() {
    let limit = |set: &str| {
        let asked = ["limit", "--set", set, "--nominal", "230", "--item", "heating_element"];
        (told(&asked), json(&[&asked[..], &["--json"]].concat()))
    };
    assert!(limit("iec-60364-6-2016").0.contains("no figure of its own"));
    // AS/NZS 3000 8.3.6 (seen): 0.01 MΩ. The element itself lies between the lives.
    let (lines, asked) = limit("as-nzs-3000");
    assert!(!lines.contains("no figure of its own"));
    assert_eq!(asked["minimum_ohm"], "10000");
    let pairs: Vec<&str> = asked["pairs"].as_array().unwrap().iter().map(|one| one["pair"].as_str().unwrap()).collect();
    assert_eq!(pairs, ["L–PE", "N–PE"]);
}

#[test]
fn a_set_of_one_s_own_is_asked_by_its_file() {
    let folder = Folder::new();
    let file: Value = serde_json::from_str(&example()).unwrap();
    let text = file["job"]["limit_set_text"].as_str().unwrap();
    let own = text.replace("\"iec-60364-6-2016\"", "\"our-own\"").replace("\"1000000\"", "\"2000000\"");
    let path = folder.with("own.json", &own);
    let asked = json(&["limit", "--set-file", &path, "--nominal", "230", "--json"]);
    assert_eq!((&asked["set"], &asked["minimum_ohm"]), (&"our-own".into(), &"2000000".into()));
    let broken = folder.with("broken.json", &own.replace("\"2000000\"", "\"0\""));
    let said = refused(&["limit", "--set-file", &broken, "--nominal", "230"]);
    assert!(said.contains("broken.json") && said.contains("above zero"), "{said}");
}

/// The example with its last pair read, and more said of the readings.
fn whole(change: impl FnOnce(&mut Value)) -> String {
    changed(|file| {
        let mut reading = file["readings"][0].clone();
        reading["reading"]["id"] = "018f0000-0000-7000-8000-000000000001".into();
        reading["reading"]["pair"] = file["not_tested"][0]["pair"].clone();
        file["readings"].as_array_mut().unwrap().push(reading);
        file["not_tested"] = serde_json::json!([]);
        change(file);
    })
}

#[test]
fn strict_says_why_it_does_not_hold() {
    let folder = Folder::new();
    let output = office(&["judge", JOB, "--strict"]);
    let why = String::from_utf8(output.stderr).unwrap();
    assert!(why.lines().count() == 1 && why.contains("1 without a reading"), "{why}");
    // Nothing required is nothing that holds.
    let none = changed(|file| {
        for list in ["boards", "readings", "not_tested", "recall_resolved"] {
            file[list] = Value::Array(Vec::new());
        }
    });
    let output = office(&["judge", &folder.with("none.json", &none), "--strict"]);
    assert_eq!(output.status.code(), Some(3));
    assert!(String::from_utf8(output.stderr).unwrap().contains("No pair is required"));
    assert_eq!(office(&["judge", &folder.with("whole.json", &whole(|_| {})), "--strict"]).status.code(), Some(0));
}

#[test]
fn two_live_values_are_both_said_and_counted_as_a_stop() {
    let folder = Folder::new();
    let job = whole(|file| {
        let mut other = file["readings"][0].clone();
        other["reading"]["id"] = "018f0000-0000-7000-8000-000000000002".into();
        other["reading"]["shown"] = serde_json::json!({ "comparator": "exact", "digits": "123", "unit": "Mohm" });
        file["readings"].as_array_mut().unwrap().push(other);
    });
    let path = folder.with("two.json", &job);
    let lines = told(&["judge", &path]);
    assert!(lines.contains("123\u{a0}MΩ") && lines.contains("1 pair cannot stand like this"), "{lines}");
    assert_eq!(json(&["judge", &path, "--json"])["sums"]["stop"], 1);
    assert_eq!(office(&["judge", &path, "--strict"]).status.code(), Some(3));
}

#[test]
fn a_joined_reading_below_is_in_the_sum() {
    let folder = Folder::new();
    let job = changed(|file| {
        let mut joined = file["readings"][0].clone();
        joined["reading"]["id"] = "018f0000-0000-7000-8000-000000000003".into();
        joined["reading"]["shown"] = serde_json::json!({ "comparator": "exact", "digits": "0.30", "unit": "Mohm" });
        let circuit = file["boards"][0]["circuits"][0]["id"].clone();
        let live = |conductor: &str| serde_json::json!({ "live": { "circuit": circuit, "conductor": conductor } });
        joined["reading"]["pair"] = serde_json::json!({ "a": [live("L"), live("N")], "b": ["earth"] });
        file["readings"] = serde_json::json!([joined]);
        for list in ["not_tested", "recall_resolved"] {
            file[list] = Value::Array(Vec::new());
        }
    });
    let path = folder.with("joined.json", &job);
    assert_eq!(json(&["judge", &path, "--json"])["sums"]["beside_not_meeting"], 1);
    assert!(told(&["judge", &path]).contains("joined conductors"));
}

/// Testers by their states, one by one: in doubt is not "not proved".
#[test]
fn testers_are_counted_by_state() {
    let folder = Folder::new();
    let record = folder.text("record");
    told(&["demo", "--record", &record]);
    let jobs = refused(&["export", "--record", &record]);
    let id = jobs.split_whitespace().find(|word| word.len() == 36).unwrap().to_owned();
    let out = folder.text("job.json");
    told(&["export", "--record", &record, "--job", &id, "-o", &out]);
    let sums = json(&["judge", &out, "--json"])["sums"].clone();
    let states = sums["testers"].as_object().unwrap();
    let read = sums["required"].as_u64().unwrap() - sums["without_reading"].as_u64().unwrap();
    assert_eq!(states.values().map(|count| count.as_u64().unwrap()).sum::<u64>(), read);
}

/// Common practice: a reading that is below after equipment was connected is no less below than before it.
#[test]
fn a_reading_below_after_equipment_was_connected_is_said_and_holds_strict() {
    let folder = Folder::new();
    let job = whole(|file| {
        let mut after = file["readings"][0].clone();
        after["reading"]["id"] = "018f0000-0000-7000-8000-000000000004".into();
        after["reading"]["stage"] = "after".into();
        after["reading"]["shown"] = serde_json::json!({ "comparator": "exact", "digits": "0.20", "unit": "Mohm" });
        file["readings"].as_array_mut().unwrap().push(after);
    });
    let path = folder.with("after.json", &job);
    assert_eq!(office(&["judge", &path, "--strict"]).status.code(), Some(3));
    let lines = told(&["judge", &path]);
    assert!(lines.contains("(after equipment is connected)"), "{lines}");
    assert!(lines.contains("1 reading after equipment was connected does not meet"), "{lines}");
}

/// AS/NZS 3000 8.3.6 (seen): 250 V with 1 MΩ is for surge protectors, filters and electronics, not for these items.
#[test]
fn no_reduced_rule_stands_above_the_figure_of_a_special_item() {
    for item in ["heating_element", "functional_earth"] {
        let asked = ["limit", "--set", "as-nzs-3000", "--nominal", "230", "--item", item, "--json"];
        assert_eq!(json(&asked)["reduced"], Value::Null, "{item}");
    }
    assert_eq!(
        json(&["limit", "--set", "as-nzs-3000", "--nominal", "230", "--json"])["reduced"]["minimum_ohm"],
        "1000000"
    );
}

/// DIN VDE 0105-100 (seen): 1000 Ω/V of the voltage between the two ends, loads off.
#[test]
fn a_set_by_the_volt_tells_the_minimum_of_each_pair() {
    let asked = [
        "limit",
        "--set",
        "din-vde-0105-100",
        "--nominal",
        "400",
        "--to-earth",
        "230",
        "--conductors",
        "three_phase_n",
    ];
    let lines = told(&asked);
    assert!(lines.contains("L1–L2 0.4\u{a0}MΩ") && lines.contains("L1–PE 0.23\u{a0}MΩ"), "{lines}");
}

#[test]
fn a_verification_with_nothing_measured_says_so() {
    let folder = Folder::new();
    let example = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../schemas/verification.example.json");
    let mut file: Value = serde_json::from_str(&std::fs::read_to_string(example).unwrap()).unwrap();
    file["measured"] = Value::Array(Vec::new());
    assert!(told(&["bench", &folder.with("empty.json", &file.to_string())]).contains("Nothing was measured"));
}
