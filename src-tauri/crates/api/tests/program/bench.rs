//! A run at the bench, by the operations of its pad.

use crate::support::Program;
use provenohm_api::{Api, Host};
use serde_json::{Value, json};

fn resistances(values: &[&str]) -> Value {
    let value = |nominal: &&str| json!({ "nominal": nominal, "within_percent": "0.1", "stated_as": "expanded", "k": "2", "voltage_coefficient": "1", "rated_voltage": "1000" });
    json!({
        "kind": "decade_box", "name": "Box 1", "serial": "B 1", "valid_until": "1 May 2027",
        "values": values.iter().map(value).collect::<Vec<_>>(),
    })
}

fn voltmeter(name: &str, input: &str) -> Value {
    json!({
        "kind": "voltmeter", "name": name, "serial": name, "input_resistance": input, "valid_until": "1 May 2027",
        "values": [{ "nominal": "1500 V", "within_percent": "0.1", "stated_as": "expanded" }],
    })
}

fn ammeter() -> Value {
    json!({
        "kind": "current_meter", "name": "Ammeter", "serial": "A 1", "valid_until": "1 May 2027",
        "values": [{ "nominal": "20 mA", "within_percent": "0.2", "stated_as": "tolerance" }],
    })
}

/// A bench with a tester of three test voltages.
struct Bench {
    program: Program,
    references: Vec<Value>,
    id: Value,
}

const BOX: [&str; 6] = ["0.25 MΩ", "0.5 MΩ", "1 MΩ", "10 MΩ", "100 MΩ", "900 MΩ"];

impl Bench {
    fn with(references: &[Value]) -> Self {
        Self::on(Program::start(), references)
    }

    fn on(program: Program, references: &[Value]) -> Self {
        program.job();
        let tester = program.tester("Tester A");
        let saved = |form: &Value| -> Value {
            let name = form["name"].as_str().unwrap();
            let view = program.ask("save_reference", json!({ "form": form }));
            let all = view["references"].as_array().unwrap();
            all.iter().find(|one| one["form"]["name"] == name).unwrap()["id"].clone()
        };
        let references: Vec<Value> = references.iter().map(saved).collect();
        Self::started(program, &json!(tester), references)
    }

    fn started(program: Program, tester: &Value, references: Vec<Value>) -> Self {
        let plan = json!({ "tester": tester, "references": references, "edition": "iec-61557-2-2019" });
        let plan = program.ask("plan_bench", plan);
        let points: Vec<Value> = plan["points"].as_array().unwrap().iter().map(|one| one["point"].clone()).collect();
        let start = json!({
            "tester": tester, "references": references, "edition": "iec-61557-2-2019", "rule": "simple", "plan": points,
        });
        let id = program.ask("start_bench", start)["id"].clone();
        Self { program, references, id }
    }

    /// Another run of the same tester, in the program as it is opened next.
    fn another(self, next: Program) -> Self {
        let tester = self.view()["tester"].clone();
        let Self { program, references, .. } = self;
        drop(program);
        Self::started(next, &tester, references)
    }

    fn full() -> Self {
        Self::with(&[resistances(&BOX), voltmeter("Probe", "1 GΩ"), ammeter()])
    }

    fn view(&self) -> Value {
        self.program.ask("bench", json!({ "bench": self.id }))
    }

    /// Goes to the step of that group and title.
    fn go(&self, group: &str, title: &str, detail: &str) -> Value {
        let view = self.view();
        let steps = view["steps"].as_array().unwrap();
        let plain = |text: &Value| text.as_str().unwrap().replace('\u{a0}', " ");
        let fits = |one: &&Value| {
            plain(&one["group"]) == group && plain(&one["title"]) == title && plain(&one["detail"]) == detail
        };
        let step = steps.iter().find(fits).unwrap_or_else(|| panic!("{group} {title} {detail} in {steps:#?}"));
        self.program.ask("bench", json!({ "bench": self.id, "step": step["id"] }))
    }

    /// Saves at the step where the run stands.
    fn measure(&self, text: &str, key: &str) -> Value {
        let step = self.view()["current"].clone();
        self.program.ask("measure", json!({ "bench": self.id, "step": step, "key": key, "text": text }))
    }
}

#[test]
fn the_usual_points_say_what_they_are_chosen_around_and_what_stays_untested() {
    let program = Program::start();
    program.job();
    let tester = program.tester("Tester A");
    let view = program.ask("save_reference", json!({ "form": resistances(&["1 MΩ", "10 MΩ"]) }));
    let references = json!([view["references"][0]["id"]]);
    let plan =
        program.ask("plan_bench", json!({ "tester": tester, "references": references, "edition": "iec-61557-2-2019" }));
    let words = |list: &Value| -> Vec<String> {
        list.as_array().unwrap().iter().map(|one| one.as_str().unwrap().replace('\u{a0}', " ")).collect()
    };
    // IEC 60364-6:2016, Table 6.1 (seen): 0.5 MΩ at 250 V, 1.0 MΩ at 500 V and at 1000 V.
    assert_eq!(words(&plan["decisions"]), ["0.5 MΩ at 250 V", "1.0 MΩ at 500 V", "1.0 MΩ at 1000 V"]);
    let missing = words(&plan["missing"]);
    assert_eq!(missing[0], "No voltmeter at hand: output voltages are not tested");
    assert_eq!(missing[1], "No current meter at hand: currents are not tested");
    // The rated load is U_N × 1000 Ω/V (IEC 61557-2:2019, 6.4, seen): 250 kΩ and 500 kΩ are not in this box, 1 MΩ is.
    assert_eq!(missing.len(), 5, "{missing:?}");
    assert!(missing[4].starts_with("At 250 V nothing at or below 0.5 MΩ is at hand"), "{missing:?}");
    assert!(missing[2].contains("250 V") && missing[3].contains("500 V"), "{missing:?}");
}

#[test]
fn a_run_is_worked_through_step_by_step_and_goes_on_where_it_was_left() {
    let bench = Bench::full();
    let view = bench.view();
    assert_eq!(view["title"], "Tester A, serial number serial Tester A");
    assert_eq!(view["steps"][0]["title"], "Leads together");
    assert_eq!(view["current"], view["steps"][0]["id"]);
    assert_eq!(view["pad"]["heading"], "Tester at 250\u{a0}V: hold the leads together");
    let after = bench.measure("0.00", "m");
    assert_eq!(after["last"]["shown"], "0.00\u{a0}MΩ");
    assert_eq!(after["current"], view["steps"][1]["id"]);
    let step = after["current"].clone();
    bench.program.ask("measure", json!({ "bench": bench.id, "step": step, "key": "over_range" }));

    bench.go("500 V", "1.0 MΩ of Box 1", "");
    let repeats = bench.view();
    assert_eq!(repeats["pad"]["asks"], "What does the tester show? · 1 of 3");
    let after = bench.measure("1.01", "m");
    assert_eq!(after["current"], repeats["current"], "two more repeats");
    bench.measure("1.02", "m");
    let after = bench.measure("1.01", "m");
    assert_ne!(after["current"], repeats["current"]);

    let step = bench.view()["current"].clone();
    bench.program.ask("bench_draft", json!({ "bench": bench.id, "step": step, "text": "9.9", "comparator": "exact" }));
    let again = bench.view();
    assert_eq!(again["current"], step);
    assert_eq!(again["pad"]["draft"]["text"], "9.9");
    let one = again["steps"].as_array().unwrap().iter().find(|one| one["id"] == repeats["current"]).unwrap();
    assert_eq!((one["done"].clone(), one["of"].clone()), (json!(3), json!(3)));
    assert_eq!(one["sign"], "done");
}

#[test]
fn undo_reaches_back_without_end_and_a_withdrawn_figure_stays_to_be_seen() {
    let bench = Bench::full();
    bench.measure("0.00", "m");
    bench.measure("47.0", "m");
    let first = bench.program.ask("undo_measured", json!({ "bench": bench.id }));
    assert_eq!(first["pad"]["draft"]["text"], "47.0");
    assert_eq!(first["current"], first["steps"][1]["id"]);
    let second = bench.program.ask("undo_measured", json!({ "bench": bench.id }));
    assert_eq!(second["pad"]["draft"]["text"], "0.00");
    assert_eq!(second["can_undo"], false);
    assert_eq!(bench.program.refused("undo_measured", json!({ "bench": bench.id })).code, "nothing_to_undo");

    let view = bench.measure("0.03", "m");
    let id = view["steps"][0]["shown"].as_array().unwrap().last().unwrap()["id"].clone();
    let refused =
        bench.program.refused("withdraw_measured", json!({ "bench": bench.id, "measured": id, "reason": " " }));
    assert_eq!(refused.complaints[0].field, "reason");
    let view =
        bench.program.ask("withdraw_measured", json!({ "bench": bench.id, "measured": id, "reason": "leads apart" }));
    let shown = view["steps"][0]["shown"].as_array().unwrap();
    assert_eq!(shown.last().unwrap()["withdrawn"], "withdrawn: leads apart");
    assert_eq!(view["steps"][0]["done"], 0);
}

#[test]
fn what_no_meter_at_hand_can_read_is_refused_and_two_meters_have_to_be_told_apart() {
    let bench = Bench::with(&[resistances(&BOX)]);
    let view = bench.go("500 V", "Open-circuit voltage", "");
    assert_eq!(view["pad"]["hint"], "No voltmeter at hand: output voltages are not tested");
    let step = view["current"].clone();
    let refused = |text: &str, key: &str| {
        let asked = json!({ "bench": bench.id, "step": step, "key": key, "text": text });
        bench.program.refused("measure", asked).code
    };
    assert_eq!(refused("510", "v"), "nothing_at_hand");

    let bench = Bench::with(&[resistances(&BOX), voltmeter("Meter 1", "10 MΩ"), voltmeter("Probe", "1 GΩ"), ammeter()]);
    let view = bench.go("500 V", "Open-circuit voltage", "");
    assert_eq!(view["pad"]["asks"], "Choose the meter first");
    let step = view["current"].clone();
    let measure = json!({ "bench": bench.id, "step": step, "key": "v", "text": "510.2" });
    assert_eq!(bench.program.refused("measure", measure.clone()).code, "no_meter");
    let chosen =
        bench.program.ask("set_meter", json!({ "bench": bench.id, "step": step, "meter": bench.references[2] }));
    assert_eq!(chosen["pad"]["asks"], "Volts on Probe");
    assert_eq!(bench.program.ask("measure", measure)["last"]["shown"], "510.2\u{a0}V");
    let wrong = json!({ "bench": bench.id, "step": step, "key": "milli_a", "text": "1.02" });
    assert_eq!(bench.program.refused("measure", wrong).code, "other_key");
    let ammeter = json!({ "bench": bench.id, "step": step, "meter": bench.references[3] });
    assert_eq!(bench.program.refused("set_meter", ammeter).code, "not_found");
}

/// R·R_m / (R + R_m) = 1 MΩ · 10 MΩ / 11 MΩ = 0.9091 MΩ (calc).
#[test]
fn a_meter_across_the_resistor_says_what_it_makes_of_it() {
    let bench = Bench::with(&[resistances(&BOX), voltmeter("Meter 1", "10 MΩ")]);
    let view = bench.go("500 V", "1.0 MΩ of Box 1", "");
    assert_eq!(view["pad"]["meter"], Value::Null, "no meter stands there until somebody says so");
    let step = view["current"].clone();
    let view = bench.program.ask("set_meter", json!({ "bench": bench.id, "step": step, "meter": bench.references[1] }));
    assert_eq!(view["pad"]["hint"], "1.0\u{a0}MΩ with the 10\u{a0}MΩ of Meter 1 across it is 0.9091\u{a0}MΩ");
    let view = bench.measure("0.91", "m");
    let said = view["last"]["said"]["words"].as_str().unwrap();
    assert!(said.starts_with("0.9091\u{a0}MΩ: 0.91\u{a0}MΩ shown, +0.1"), "{said}");
}

#[test]
fn currents_are_saved_in_the_unit_of_their_key() {
    let bench = Bench::full();
    bench.go("500 V", "Rated load, 0.5 MΩ of Box 1, current", "");
    assert_eq!(bench.measure("1.020", "milli_a")["last"]["shown"], "1.02\u{a0}mA");
    bench.go("500 V", "Rated load, 0.5 MΩ of Box 1, current", "Lowest battery voltage");
    assert_eq!(bench.measure("980", "micro_a")["last"]["shown"], "0.98\u{a0}mA");
    bench.go("500 V", "Polarity at the terminals", "");
    assert_eq!(bench.measure("", "earth_positive")["last"]["shown"], "Earth positive");
}

#[test]
fn a_meter_shows_more_digits_than_the_tester() {
    let bench = Bench::full();
    let view = bench.go("500 V", "Rated load, 0.5 MΩ of Box 1, current", "");
    assert_eq!(view["pad"]["most_digits"], 9);
    let line = json!({ "bench": bench.id, "step": view["current"], "text": "1.0002345", "comparator": "exact" });
    let kept = bench.program.ask("bench_draft", line);
    assert_eq!((kept["shown"].clone(), kept["refused"].clone()), (json!("1.0002345"), Value::Null));
    assert_eq!(bench.measure("1.0002345", "milli_a")["last"]["shown"], "1.0002345\u{a0}mA");
    let back = bench.program.ask("undo_measured", json!({ "bench": bench.id }));
    assert_eq!(back["pad"]["draft"]["text"], "1.0002345");
    let view = bench.go("500 V", "1.0 MΩ of Box 1", "");
    assert_eq!(view["pad"]["most_digits"], 5);
    let line = json!({ "bench": bench.id, "step": view["current"], "text": "1.00023", "comparator": "exact" });
    assert!(bench.program.refused("bench_draft", line).words.contains("Five digits at most"));
}

#[test]
fn an_adjusted_tester_has_an_as_left_series_of_its_own() {
    let bench = Bench::full();
    bench.measure("0.00", "m");
    let left = bench.program.ask("set_series", json!({ "bench": bench.id, "series": "as_left" }));
    assert_eq!((left["adjusted"].clone(), left["steps"][0]["done"].clone()), (json!(true), json!(0)));
    let back = bench.program.ask("set_series", json!({ "bench": bench.id, "series": "as_found" }));
    assert_eq!((back["adjusted"].clone(), back["steps"][0]["done"].clone()), (json!(false), json!(1)));
    bench.program.ask("set_series", json!({ "bench": bench.id, "series": "as_left" }));
    bench.measure("0.01", "m");
    let back = bench.program.ask("set_series", json!({ "bench": bench.id, "series": "as_found" }));
    assert_eq!(back["adjusted"], true, "something as left is on record");
}

#[test]
fn each_look_is_answered_or_not_looked_and_a_tester_without_number_gets_a_mark() {
    let bench = Bench::full();
    let answers = |view: &Value| -> Vec<Value> {
        view["look"].as_array().unwrap().iter().map(|one| one["answer"].clone()).collect()
    };
    assert!(answers(&bench.view()).iter().all(|one| one == "not_looked"));
    let look = json!({ "case": "yes", "battery": "no" });
    let view = bench.program.ask("set_bench_look", json!({ "bench": bench.id, "look": look, "mark": "W-7" }));
    assert_eq!(answers(&view), ["yes", "not_looked", "not_looked", "not_looked", "no"]);
    assert_eq!(view["mark"], "W-7");
    for (typed, kept) in [("23", true), ("−5,5 °C", true), ("warm", false), ("400", false)] {
        let asked = json!({ "bench": bench.id, "temperature": typed });
        assert_eq!(bench.program.api.call("set_temperature", asked).is_ok(), kept, "{typed}");
    }
}

#[test]
fn a_plan_of_ones_own_keeps_what_was_measured_beside_it() {
    let bench = Bench::full();
    bench.measure("0.00", "m");
    let choices = bench.view()["choices"].clone();
    let resistor = choices["resistors"][2]["resistor"].clone();
    let point = json!({
        "test_voltage_v": "500", "repeats": 2, "supply": "nominal", "position": "turned_left",
        "item": { "what": "indication", "resistor": resistor },
    });
    let view = bench.program.ask("set_plan", json!({ "bench": bench.id, "plan": [point] }));
    let titles: Vec<String> = view["steps"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| format!("{} {} {}", one["title"].as_str().unwrap(), one["done"], one["of"]).replace('\u{a0}', " "))
        .collect();
    assert_eq!(titles, ["1.0 MΩ of Box 1 0 2", "Leads together 1 0"]);
    assert_eq!(view["steps"][0]["detail"], "Turned left by 90°");
}

#[test]
fn a_killed_program_finds_the_run_where_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let open = || Api::open(folder.path(), Host::system()).unwrap();
    let call = |api: &Api, operation: &str, input: Value| api.call(operation, input).unwrap();
    let api = open();
    call(&api, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "A. Recorder" }));
    let range = json!({ "from": "0.05 MΩ", "to": "999 MΩ", "resolution": "0.01 MΩ", "percent": "3", "digits": "2" });
    let card = json!({ "voltages": [{ "volts": "500", "over_range": "999 MΩ", "ranges": [range] }] });
    let tester =
        call(&api, "save_tester", json!({ "identity": { "name": "T", "serial": "1" }, "card": card }))["id"].clone();
    let view = call(&api, "save_reference", json!({ "form": resistances(&BOX) }));
    let references = json!([view["references"][0]["id"]]);
    let edition = "iec-61557-2-2019";
    let plan = call(&api, "plan_bench", json!({ "tester": tester, "references": references, "edition": edition }));
    let points: Vec<Value> = plan["points"].as_array().unwrap().iter().map(|one| one["point"].clone()).collect();
    let start =
        json!({ "tester": tester, "references": references, "edition": edition, "rule": "guard_u", "plan": points });
    let bench = call(&api, "start_bench", start)["id"].clone();
    let step = call(&api, "bench", json!({ "bench": bench }))["current"].clone();
    let after = call(&api, "measure", json!({ "bench": bench, "step": step, "key": "m", "text": "0.00" }));
    let draft = json!({ "bench": bench, "step": after["current"], "text": "12.", "comparator": "exact" });
    call(&api, "bench_draft", draft);
    drop(api);

    let again = call(&open(), "bench", json!({ "bench": bench }));
    assert_eq!(again["current"], after["current"]);
    assert_eq!(again["pad"]["draft"]["text"], "12.");
    assert_eq!(again["steps"][0]["done"], 1);
    assert_eq!(again["lines"][1], "Guard band w = U: up to U below what is permitted conforms");
}

/// A run at 500 V: right at 10 MΩ and above, 12 % low at 1 MΩ, its voltage falling at the rated load.
fn wrong_at_the_low_end(bench: &Bench) {
    for (title, shown) in [
        ("Leads together", ["0.00"].as_slice()),
        ("0.5 MΩ of Box 1", &["0.42", "0.43", "0.42"]),
        ("1.0 MΩ of Box 1", &["0.88", "0.88", "0.88"]),
        ("10 MΩ of Box 1", &["10.00"]),
        ("100 MΩ of Box 1", &["101"]),
        ("900 MΩ of Box 1", &["900"]),
    ] {
        bench.plan_has(title);
        for text in shown {
            bench.go("500 V", title, "");
            bench.measure(text, "m");
        }
    }
    bench.go("500 V", "Open-circuit voltage", "");
    bench.measure("560", "v");
    bench.go("500 V", "Rated load, 0.5 MΩ of Box 1, voltage", "");
    bench.measure("310", "v");
}

impl Bench {
    /// Adds 500 V and that resistor to the plan where it is not in it.
    fn plan_has(&self, title: &str) {
        let view = self.view();
        let plain = |text: &Value| text.as_str().unwrap().replace('\u{a0}', " ");
        let planned = view["steps"]
            .as_array()
            .unwrap()
            .iter()
            .any(|one| plain(&one["group"]) == "500 V" && plain(&one["title"]) == title && one["detail"] == "");
        if planned {
            return;
        }
        let resistors = view["choices"]["resistors"].as_array().unwrap().clone();
        let resistor = resistors.iter().find(|one| plain(&one["words"]) == title).unwrap()["resistor"].clone();
        let mut plan = view["plan"].as_array().unwrap().clone();
        plan.push(json!({
            "test_voltage_v": "500", "repeats": 1, "supply": "nominal", "position": "reference",
            "item": { "what": "indication", "resistor": resistor },
        }));
        self.program.ask("set_plan", json!({ "bench": self.id, "plan": plan }));
    }

    fn result(&self, more: Value) -> Value {
        let mut asked = json!({ "bench": self.id });
        for (name, value) in more.as_object().unwrap() {
            asked[name] = value.clone();
        }
        self.program.ask("bench_result", asked)
    }

    /// The report of a run of this program, as data.
    fn report(&self, id: &Value) -> Value {
        let written = self.program.ask("make_tester_report", json!({ "bench": id, "format": "json" }));
        serde_json::from_slice(&std::fs::read(written["files"][0].as_str().unwrap()).unwrap()).unwrap()
    }

    /// Answers the look at the tester.
    fn look(&self) {
        let look = json!({ "case": "yes", "leads": "yes", "marked_category": "no", "marked_standard": "yes", "battery": "yes" });
        self.program.ask("set_bench_look", json!({ "bench": self.id, "look": look }));
    }

    /// The card of the tester is changed: ±30 % everywhere.
    fn card_says_30_percent(&self) {
        let tester = self.view()["tester"].clone();
        let mut card = self.program.ask("tester", json!({ "tester": tester }))["card"].clone();
        for voltage in card["voltages"].as_array_mut().unwrap() {
            for range in voltage["ranges"].as_array_mut().unwrap() {
                range["percent"] = "30".into();
            }
        }
        let identity = json!({ "name": "Tester A", "serial": "serial Tester A" });
        self.program.ask("save_tester", json!({ "tester": tester, "identity": identity, "card": card }));
    }

    fn close(&self, reason: &str) -> Value {
        self.look();
        let asked = json!({ "bench": self.id, "valid_until": "24 Nov 2027", "reason": reason });
        self.program.ask("close_bench", asked)
    }
}

fn plain(text: &Value) -> String {
    text.as_str().unwrap().replace('\u{a0}', " ")
}

#[test]
fn the_result_says_both_answers_with_their_reasons_and_every_line_of_a_budget() {
    let bench = Bench::full();
    wrong_at_the_low_end(&bench);
    let result = bench.result(json!({}));
    let voltage = result["voltages"].as_array().unwrap().iter().find(|one| one["volts"] == "500").unwrap().clone();
    assert_eq!(plain(&voltage["holds"]["words"]), "500 V: indications hold from 10 MΩ to 900 MΩ");
    assert_eq!(plain(&voltage["conforms"]["words"]), "Does not conform to IEC 61557-2:2019: rated current");
    let point = voltage["points"].as_array().unwrap().iter().find(|one| plain(&one["known"]) == "1.0 MΩ").unwrap();
    assert_eq!(point["shown"], json!(["0.88\u{a0}MΩ", "0.88\u{a0}MΩ", "0.88\u{a0}MΩ"]));
    // 0.88 − 1.00 = −0.12 MΩ; ±(3 % of 0.88 + 2 · 0.01) MΩ = 0.0464 MΩ (calc).
    assert_eq!(plain(&point["error"]), "−0.12 MΩ");
    assert_eq!(plain(&point["error_percent"]), "−12 %");
    assert_eq!(plain(&point["permitted"]), "±46.4 kΩ");
    assert_eq!(point["decision"], json!({ "level": "look", "words": "does not conform" }));
    let inputs: Vec<String> = point["budget"].as_array().unwrap().iter().map(|one| plain(&one["input"])).collect();
    assert!(inputs.iter().any(|one| one.contains("certificate")), "{inputs:?}");
    assert!(inputs.iter().any(|one| one.contains("half a step")), "{inputs:?}");
    assert_eq!(point["sum"].as_array().unwrap().len(), 4);
    // 310 V through 500 kΩ is 0.62 mA, at least 1 mA is asked (IEC 61557-2:2019, 6.4: resistor seen, 1 mA seen).
    let requirements: Vec<String> =
        voltage["requirements"].as_array().unwrap().iter().map(|one| plain(&one["words"])).collect();
    assert!(requirements.iter().any(|one| one.starts_with("rated current: 0.62")), "{requirements:?}");
}

#[test]
fn a_point_left_out_of_the_view_stays_in_the_judgement() {
    let bench = Bench::full();
    wrong_at_the_low_end(&bench);
    let at_500 =
        |view: &Value| view["voltages"].as_array().unwrap().iter().find(|one| one["volts"] == "500").unwrap().clone();
    let all = at_500(&bench.result(json!({})));
    let low = all["points"].as_array().unwrap().iter().find(|one| plain(&one["known"]) == "0.5 MΩ").unwrap();
    let less = at_500(&bench.result(json!({ "left_out": low["measured"], "magnified": 4 })));
    let points = |view: &Value| view["error_plot"]["series"][0]["points"].as_array().unwrap().len();
    assert_eq!(points(&less) + 1, points(&all));
    assert_eq!(less["holds"], all["holds"]);
    assert_eq!(less["points"].as_array().unwrap().len(), all["points"].as_array().unwrap().len());
    assert!(less["error_plot"]["y"]["to"].as_f64().unwrap() < all["error_plot"]["y"]["to"].as_f64().unwrap() / 3.9);
    assert!(all["load_plot"]["lines"].as_array().unwrap().len() == 2);
}

/// Where everything of a plot lies, in data units, without its words: as the screen is given it, and as paper is.
fn on_screen(plot: &Value) -> Value {
    let axis = |axis: &Value| json!([axis["from"], axis["to"], each(&axis["ticks"], |tick| tick["at"].clone())]);
    let series = plot["series"].as_array().unwrap().iter().flat_map(|one| one["points"].as_array().unwrap());
    let marks: Vec<Value> = series.map(|at| json!([at["x"], at["y"], at["half"], at["beyond"]])).collect();
    json!({
        "axes": [axis(&plot["x"]), axis(&plot["y"])],
        "bands": each(&plot["bands"], |band| band["samples"].clone()),
        "lines": each(&plot["lines"], |line| line["corners"].clone()),
        "marks": marks,
    })
}

fn on_paper(plot: &Value) -> Value {
    let axis = |axis: &Value| json!([axis["from"], axis["to"], each(&axis["ticks"], |tick| tick["at"].clone())]);
    json!({
        "axes": [axis(&plot["x"]), axis(&plot["y"])],
        "bands": each(&plot["bands"], |band| band["samples"].clone()),
        "lines": each(&plot["bounds"], |bound| bound["corners"].clone()),
        "marks": each(&plot["marks"], |at| json!([at["x"], at["y"], at["half"], at["beyond"]])),
    })
}

fn each(all: &Value, of: impl Fn(&Value) -> Value) -> Value {
    all.as_array().unwrap().iter().map(of).collect()
}

#[test]
fn every_plot_of_a_report_lies_where_the_screen_draws_it() {
    let bench = Bench::full();
    wrong_at_the_low_end(&bench);
    bench.close("");
    let (screen, paper) = (bench.result(json!({})), bench.report(&bench.id));
    let (shown, printed) = (screen["voltages"].as_array().unwrap(), paper["voltages"].as_array().unwrap());
    assert_eq!(shown.len(), printed.len());
    let mut compared = 0;
    for (shown, printed) in shown.iter().zip(printed) {
        for plot in ["error_plot", "load_plot"] {
            assert_eq!(shown[plot].is_null(), printed[plot].is_null(), "{} {plot}", shown["volts"]);
            if !shown[plot].is_null() {
                assert_eq!(on_screen(&shown[plot]), on_paper(&printed[plot]), "{} {plot}", shown["volts"]);
                compared += 1;
            }
        }
    }
    assert!(compared >= 2, "{compared}");
}

#[test]
fn a_closed_run_speaks_for_its_tester_and_is_closed_again_only_with_a_reason() {
    let bench = Bench::full();
    assert_eq!(bench.program.refused("close_bench", json!({ "bench": bench.id })).code, "nothing_measured");
    wrong_at_the_low_end(&bench);
    let result = bench.result(json!({}));
    assert_eq!(result["close"]["closed"], Value::Null);
    assert_eq!(result["close"]["suggested"], "25 Nov 2027");
    let tester = bench.close("");
    let state: Vec<String> = tester["state"].as_array().unwrap().iter().map(|one| plain(&one["words"])).collect();
    assert!(state.contains(&"500 V: Tester A · barred".to_owned()), "{state:?}");
    let again = json!({ "bench": bench.id, "valid_until": "24 Nov 2027" });
    assert_eq!(bench.program.refused("close_bench", again).complaints[0].field, "reason");
    let tester = bench.close("one point was mistyped");
    let live = tester["verifications"].as_array().unwrap().iter().filter(|one| one["withdrawn"].is_null()).count();
    assert_eq!(live, 1);
    assert!(bench.view()["closed"]["words"].as_str().unwrap().contains("Nov 2026"));
    let early = json!({ "bench": bench.id, "valid_until": "24 Nov 2020", "reason": "x" });
    assert_eq!(bench.program.refused("close_bench", early).complaints[0].field, "valid_until");
}

/// Each part of the look is answered, and a tester without a serial number bears a mark, before a run speaks for it.
#[test]
fn a_run_is_closed_only_once_the_tester_was_looked_at_and_can_be_told_from_others() {
    let bench = Bench::full();
    wrong_at_the_low_end(&bench);
    let fields = |refused: provenohm_api::Failure| -> Vec<String> {
        refused.complaints.into_iter().map(|one| one.field).collect()
    };
    let close = json!({ "bench": bench.id });
    let all = ["look.case", "look.leads", "look.marked_category", "look.marked_standard", "look.battery"];
    assert_eq!(fields(bench.program.refused("close_bench", close.clone())), all);
    let remarks = bench.result(json!({}))["remarks"].as_array().unwrap().clone();
    assert!(remarks.iter().any(|one| one["words"] == "Case whole: Not looked"), "{remarks:?}");
    let look = json!({ "case": "no", "leads": "yes" });
    bench.program.ask("set_bench_look", json!({ "bench": bench.id, "look": look }));
    assert_eq!(fields(bench.program.refused("close_bench", close.clone())), all[2..]);
    bench.look();

    let tester = bench.view()["tester"].clone();
    let view = bench.program.ask("tester", json!({ "tester": tester }));
    let nameless = json!({ "name": "Tester A", "serial": "", "model": "" });
    bench.program.ask("save_tester", json!({ "tester": tester, "identity": nameless, "card": view["card"] }));
    assert_eq!(bench.view()["title"], "Tester A, without a serial number");
    assert_eq!(bench.result(json!({}))["close"]["mark_needed"], true);
    assert_eq!(fields(bench.program.refused("close_bench", close.clone())), ["mark"]);
    let look =
        json!({ "case": "yes", "leads": "yes", "marked_category": "yes", "marked_standard": "yes", "battery": "yes" });
    bench.program.ask("set_bench_look", json!({ "bench": bench.id, "look": look, "mark": "P-7" }));
    bench.program.ask("close_bench", close);
    assert_eq!(bench.report(&bench.id)["name"], "Tester A · tester without a serial number, marked P-7");
}

/// A reading near 35 °C is no repeat of the step at reference temperature, and the other way round.
#[test]
fn what_is_measured_at_another_temperature_is_another_step() {
    let bench = Bench::full();
    let at = |detail: &str| {
        let view = bench.go("500 V", "1.0 MΩ of Box 1", detail);
        let step = view["steps"].as_array().unwrap().iter().find(|one| one["id"] == view["current"]).unwrap().clone();
        (step["done"].as_u64().unwrap(), step["of"].as_u64().unwrap())
    };
    let temperature =
        |text: &str| bench.program.ask("set_temperature", json!({ "bench": bench.id, "temperature": text }));
    temperature("23");
    bench.go("500 V", "1.0 MΩ of Box 1", "");
    bench.measure("1.00", "m");
    temperature("34");
    bench.go("500 V", "1.0 MΩ of Box 1", "");
    bench.measure("1.03", "m");
    assert_eq!(at(""), (1, 3), "34 °C is near the warm end, 35 °C (IEC 61557-1:2019, 4.3, seen)");
    let warm = "Warm end of the rated temperature";
    assert_eq!(at(warm), (1, 0), "beside the plan");

    let mut plan = bench.view()["plan"].as_array().unwrap().clone();
    let resistor = plan.iter().find(|one| one["item"]["resistor"]["nominal_ohm"] == "1000000").unwrap()["item"].clone();
    plan.push(json!({ "test_voltage_v": "500", "item": resistor, "repeats": 2, "warmth": "warm" }));
    bench.program.ask("set_plan", json!({ "bench": bench.id, "plan": plan }));
    assert_eq!(at(warm), (1, 2), "planned, it counts there");
    temperature("23");
    let step = bench.go("500 V", "1.0 MΩ of Box 1", warm)["current"].clone();
    let cool = json!({ "bench": bench.id, "step": step, "key": "m", "text": "1.01" });
    assert_eq!(bench.program.refused("measure", cool).code, "other_temperature");
    assert_eq!((at(""), at(warm)), ((1, 3), (1, 2)));
}

/// A bench at 27 °C is worked at all the same: its readings stand in for those at 23 °C until there is one.
#[test]
fn a_bench_beside_the_reference_temperature_is_worked_through() {
    let bench = Bench::full();
    let done = || {
        let view = bench.go("500 V", "1.0 MΩ of Box 1", "");
        view["steps"].as_array().unwrap().iter().find(|one| one["id"] == view["current"]).unwrap()["done"].clone()
    };
    bench.program.ask("set_temperature", json!({ "bench": bench.id, "temperature": "27" }));
    for expected in [1, 2] {
        bench.go("500 V", "1.0 MΩ of Box 1", "");
        bench.measure("1.00", "m");
        assert_eq!(done(), expected);
    }
    bench.program.ask("set_temperature", json!({ "bench": bench.id, "temperature": "23" }));
    bench.go("500 V", "1.0 MΩ of Box 1", "");
    bench.measure("1.00", "m");
    assert_eq!(done(), 1, "only what was measured at 23 °C");
}

/// A voltmeter of 10 MΩ loads a tester at 500 V more than 100 kΩ/V × 500 V = 50 MΩ (IEC 61557-2:2019, 6.3, seen) allows.
#[test]
fn a_plan_says_that_a_voltmeter_is_too_heavy_for_the_open_circuit() {
    let heavy = "No meter at hand is light enough for the open-circuit voltage at 500 V: a voltmeter or probe of at least 50 MΩ is needed, else it is not tested";
    let missing = |input: &str| -> Vec<String> {
        let program = Program::start();
        program.job();
        let tester = program.tester("Tester A");
        let view = program.ask("save_reference", json!({ "form": voltmeter("Probe", input) }));
        let references = json!([view["references"][0]["id"]]);
        let plan = program
            .ask("plan_bench", json!({ "tester": tester, "references": references, "edition": "iec-61557-2-2019" }));
        plan["missing"].as_array().unwrap().iter().map(plain).collect()
    };
    assert!(missing("10 MΩ").contains(&heavy.to_owned()));
    assert!(!missing("50 MΩ").contains(&heavy.to_owned()));
    let bench = Bench::with(&[resistances(&BOX), voltmeter("Meter", "10 MΩ"), ammeter()]);
    let view = bench.go("500 V", "Open-circuit voltage", "");
    assert_eq!(plain(&view["pad"]["hint"]), heavy);
}

/// A tester whose ranges are set by hand is told which to set; one that does it by itself is not.
#[test]
fn a_step_says_which_range_to_set() {
    let bench = Bench::full();
    let tester = bench.view()["tester"].clone();
    let heading = || plain(&bench.go("500 V", "1.0 MΩ of Box 1", "")["pad"]["heading"]);
    let ranging = |ranging: &str| {
        let view = bench.program.ask("tester", json!({ "tester": tester }));
        let mut card = view["card"].clone();
        assert_eq!(card["ranging"], Value::Null, "not stated until somebody does");
        card["ranging"] = json!(ranging);
        let asked = json!({ "tester": tester, "identity": view["identity"], "card": card });
        bench.program.ask("save_tester", asked)["card_words"].clone()
    };
    let plainly = heading();
    assert_eq!(plainly, "Tester at 500 V: connect 1.0 MΩ of Box 1");
    let words = ranging("manual");
    assert!(words.as_array().unwrap().contains(&json!("Its ranges are set by hand")), "{words}");
    let said = heading();
    assert!(said.starts_with(&format!("{plainly} · range ")), "{said}");
}

/// *full* and *usual* flag every reading at that voltage, *indications only* those below 10 MΩ.
#[test]
fn what_a_failed_requirement_bars_depends_on_the_policy() {
    let bench = Bench::full();
    wrong_at_the_low_end(&bench);
    let tester = bench.close("")["id"].clone();
    let program = &bench.program;
    let job = program.ask("jobs", json!({}))["jobs"][0]["id"].clone();
    let board = program.ask("job", json!({ "job": job }))["boards"][0]["id"].as_str().unwrap().to_owned();
    program.circuits(&board, 1, crate::support::single_phase());
    program.ask("choose_tester", json!({ "board": board, "tester": tester }));
    program.ask("set_volts", json!({ "board": board, "volts": 500 }));
    let save = |text: &str| {
        let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
        let typed = json!({ "typed": { "text": text, "comparator": "exact", "unit": "m" } });
        program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    };
    save("450");
    save("1.80");
    let levels = |policy: &str| -> Vec<String> {
        let sets = program.ask("limit_sets", json!({}));
        let asked = json!({
            "job": job, "limit_set": sets["sets"][0]["name"], "value_policy": "simple", "tester_policy": policy,
            "reason": "to see",
        });
        program.ask("set_job_rules", asked);
        let look = program.ask("look", json!({ "job": job }));
        let mut readings: Vec<String> = look["items"]
            .as_array()
            .unwrap()
            .iter()
            .filter(|one| {
                one["sentences"].as_array().unwrap().iter().any(|it| it["words"].as_str().unwrap().contains("Tester A"))
            })
            .map(|one| plain(&one["shown"]))
            .collect();
        readings.sort();
        readings
    };
    assert_eq!(levels("full"), ["1.80 MΩ", "450 MΩ"]);
    assert_eq!(levels("usual"), ["1.80 MΩ", "450 MΩ"]);
    assert_eq!(levels("indications_only"), ["1.80 MΩ"]);
}

#[test]
fn drift_and_testers_side_by_side_stand_on_the_same_figures() {
    let bench = Bench::full();
    wrong_at_the_low_end(&bench);
    bench.close("");
    let drift = bench.program.ask("drift", json!({ "tester": bench.view()["tester"] }));
    let low = drift["plots"].as_array().unwrap().iter().find(|one| plain(&one["title"]) == "500 V, 1.0 MΩ").unwrap();
    assert_eq!(plain(&low["rows"][0]["error"]), "−12 %");
    assert!(low["said"].as_str().unwrap().starts_with("No line"), "one verification makes no line");
    let both = bench.program.ask("compare", json!({ "benches": [bench.id, bench.id] }));
    assert_eq!(both["chosen"][1]["id"], "B");
    let row = &both["voltages"][0]["rows"]
        .as_array()
        .unwrap()
        .iter()
        .find(|one| plain(&one["known"]) == "1.0 MΩ")
        .unwrap()
        .clone();
    assert!(plain(&row["cells"][0]["words"]).starts_with("−12 % ± "), "{row}");
    assert_eq!(row["cells"][0], row["cells"][1]);
    assert_eq!(both["voltages"][0]["plot"]["series"].as_array().unwrap().len(), 2);
    let many: Vec<Value> = vec![bench.id.clone(); 7];
    assert_eq!(bench.program.refused("compare", json!({ "benches": many })).code, "too_many_runs");
}

/// A report is followed by hand years later: made again after the card was changed and another run closed, it says what
/// it said; the later one has the drift of both, day by day.
#[test]
fn a_report_made_again_says_what_the_first_one_said() {
    let bench = Bench::full();
    wrong_at_the_low_end(&bench);
    bench.close("");
    let first = bench.report(&bench.id);
    assert_eq!(first["drift"], json!([]), "one verification makes no line");

    let tester = bench.view()["tester"].clone();
    bench.card_says_30_percent();
    let asked = json!({ "tester": tester, "references": bench.references, "edition": "iec-61557-2-2019" });
    let plan = bench.program.ask("plan_bench", asked);
    let points: Vec<Value> = plan["points"].as_array().unwrap().iter().map(|one| one["point"].clone()).collect();
    let start = json!({
        "tester": tester, "references": bench.references, "edition": "iec-61557-2-2019", "rule": "simple",
        "plan": points,
    });
    let second = Bench {
        id: bench.program.ask("start_bench", start)["id"].clone(),
        references: bench.references.clone(),
        program: bench.program,
    };
    wrong_at_the_low_end(&second);
    second.close("");

    let again = second.report(&bench.id);
    for key in first.as_object().unwrap().keys().filter(|key| *key != "as_of") {
        assert_eq!(again[key], first[key], "{key}");
    }
    assert_eq!(first["record"].as_str().unwrap().len(), 64, "what the record says of this run");
    let later = second.report(&second.id);
    assert_ne!(later["record"], first["record"]);
    let drift = later["drift"].as_array().unwrap().iter().find(|one| plain(&one["title"]) == "500 V, 1.0 MΩ").unwrap();
    assert_eq!(drift["lines"].as_array().unwrap().len(), 2);
    assert_eq!(plain(&drift["lines"][0]["error"]), "−12 %");
    let screen = second.program.ask("drift", json!({ "tester": tester }));
    let shown = screen["plots"].as_array().unwrap().iter().find(|one| one["title"] == drift["title"]).unwrap();
    assert_eq!(on_screen(&shown["plot"]), on_paper(&drift["plot"]), "drift, as the screen draws it");
    assert!(later["card"][0].as_str().unwrap().contains("30"), "{}", later["card"]);
}

#[test]
fn a_last_day_is_suggested_from_the_day_it_was_made_and_the_interval_of_the_tester() {
    let program = Program::start();
    program.job();
    let tester = program.tester("Tester A");
    let suggested = |date: &str| program.ask("suggest_last_day", json!({ "tester": tester, "date": date }));
    // 12 months are common (seen); the last day of February where the year has no 29th.
    assert_eq!(suggested("3 Mar 2026")["date"], "3 Mar 2027");
    assert_eq!(suggested("29 Feb 2028")["date"], "28 Feb 2029");
    let refused = program.refused("suggest_last_day", json!({ "tester": tester, "date": "soon" }));
    assert_eq!(refused.complaints[0].field, "date");
}

#[test]
fn the_report_of_a_run_is_written_as_pdf_workbook_and_json() {
    let bench = Bench::full();
    bench.measure("0.00", "m");
    for (format, begins) in [("pdf", b"%PDF-".as_slice()), ("xlsx", b"PK".as_slice()), ("json", b"{".as_slice())] {
        let written = bench.program.ask("make_tester_report", json!({ "bench": bench.id, "format": format }));
        let path = std::path::PathBuf::from(written["files"][0].as_str().unwrap());
        assert!(path.extension().is_some_and(|is| is == format), "{}", path.display());
        let bytes = std::fs::read(&path).unwrap();
        assert!(bytes.starts_with(begins));
        if format == "json" {
            let report: Value = serde_json::from_slice(&bytes).unwrap();
            assert_eq!(report["name"], "Tester A, serial number serial Tester A");
            assert_eq!(report["invented"], false);
            assert_eq!(report["measured"].as_array().unwrap().len(), 1);
            assert_eq!(report["evidence"]["measured"][0]["item"]["what"], "leads_shorted");
        }
    }
    let none = json!({ "bench": "0190a000-0000-7000-8000-0000000000ff", "format": "pdf" });
    assert_eq!(bench.program.refused("make_tester_report", none).code, "not_found");
}

/// What was decided stays: a card corrected afterwards is another matter, until the run is closed again with a reason.
#[test]
fn a_closed_run_is_shown_with_the_card_it_was_closed_with() {
    let bench = Bench::full();
    wrong_at_the_low_end(&bench);
    bench.close("");
    bench.card_says_30_percent();
    let low = |view: &Value| {
        let at_500 = view["voltages"].as_array().unwrap().iter().find(|one| one["volts"] == "500").unwrap();
        let points = at_500["points"].as_array().unwrap();
        let low = points.iter().find(|one| plain(&one["known"]) == "1.0 MΩ").unwrap();
        low["decision"]["words"].as_str().unwrap().to_owned()
    };
    let result = bench.result(json!({}));
    assert_eq!(low(&result), "does not conform");
    let said = |result: &Value| {
        let remarks = result["remarks"].as_array().unwrap().clone();
        remarks.iter().any(|one| one["words"].as_str().unwrap().contains("closing it again takes the card of today"))
    };
    assert!(said(&result));
    let both = bench.program.ask("compare", json!({ "benches": [bench.id, bench.id] }));
    let row = both["voltages"][0]["rows"].as_array().unwrap().iter().find(|one| plain(&one["known"]) == "1.0 MΩ");
    assert!(plain(&row.unwrap()["cells"][0]["words"]).contains("does not conform"));
    bench.close("the card was mistyped");
    let again = bench.result(json!({}));
    assert!(low(&again).starts_with("conforms") && !said(&again), "{}", low(&again));
}

/// Points can be left out of the view of several testers, and the axis magnified; the table keeps them.
#[test]
fn testers_side_by_side_are_looked_at_closer_without_changing_what_is_said() {
    let bench = Bench::full();
    wrong_at_the_low_end(&bench);
    let of = |more: Value| {
        let mut asked = json!({ "benches": [bench.id, bench.id] });
        for (name, value) in more.as_object().unwrap() {
            asked[name] = value.clone();
        }
        bench.program.ask("compare", asked)["voltages"][0].clone()
    };
    let all = of(json!({}));
    assert_eq!(all["load_plot"]["series"].as_array().unwrap().len(), 2);
    assert_eq!(all["load_plot"]["lines"].as_array().unwrap().len(), 2, "the bounds of both are drawn once");
    let low = all["rows"].as_array().unwrap().iter().find(|one| plain(&one["known"]) == "0.5 MΩ").unwrap();
    assert_eq!((low["in_view"].clone(), low["measured"].as_array().unwrap().len()), (json!(true), 6));
    let less = of(json!({ "left_out": low["measured"], "magnified": 5 }));
    assert_eq!(
        (&less["answers"], less["rows"].as_array().unwrap().len()),
        (&all["answers"], all["rows"].as_array().unwrap().len())
    );
    let points = |view: &Value| view["plot"]["series"][0]["points"].as_array().unwrap().len();
    assert_eq!(points(&less) + 1, points(&all));
    assert!(less["plot"]["y"]["to"].as_f64().unwrap() < all["plot"]["y"]["to"].as_f64().unwrap() / 4.9);
}

/// The last day counts from the last measurement, whenever the run is closed; what nobody read is said.
#[test]
fn the_suggested_last_day_counts_from_the_last_measurement() {
    let folder = tempfile::tempdir().unwrap();
    let on = |start: &str| Program::on(folder.path(), start);
    let bench = Bench::on(on("2026-03-01T10:00:00+00:00"), &[resistances(&BOX), voltmeter("Probe", "1 GΩ"), ammeter()]);
    wrong_at_the_low_end(&bench);
    let Bench { id, references, program } = bench;
    drop(program);
    let later = Bench { id, references, program: on("2026-03-20T10:00:00+00:00") };
    assert_eq!(later.result(json!({}))["close"]["suggested"], "1 Mar 2027");
    let remarks = later.result(json!({}))["remarks"].clone();
    let said = |text: &str| remarks.as_array().unwrap().iter().any(|one| one["words"].as_str().unwrap().contains(text));
    assert!(said("No temperature was read") && said("Box 1 states no change since its certificate"), "{remarks}");
}

/// A laboratory adjusted the tester between two of our own runs: the drift of each stretch is its own.
#[test]
fn drift_never_goes_on_beyond_an_adjustment_by_a_laboratory() {
    let folder = tempfile::tempdir().unwrap();
    let on = |start: &str| Program::on(folder.path(), start);
    let mut bench =
        Bench::on(on("2023-06-01T10:00:00+00:00"), &[resistances(&BOX), voltmeter("Probe", "1 GΩ"), ammeter()]);
    for year in ["2024", "2026"] {
        wrong_at_the_low_end(&bench);
        bench.look();
        bench.program.ask("close_bench", json!({ "bench": bench.id }));
        bench = bench.another(on(&format!("{year}-06-01T10:00:00+00:00")));
    }
    let tester = bench.view()["tester"].clone();
    let finding = json!({ "volts": "500", "as_found": "failed", "as_left": "good", "conforms": "yes" });
    let form = json!({
        "date": "1 Jun 2025", "valid_until": "1 Jun 2026", "kind": "calibration", "by": "A laboratory",
        "certificate": "C-9", "adjusted": true, "findings": [finding],
    });
    bench.program.ask("record_verification", json!({ "tester": tester, "form": form }));
    wrong_at_the_low_end(&bench);
    bench.look();
    bench.program.ask("close_bench", json!({ "bench": bench.id }));
    let drift = bench.program.ask("drift", json!({ "tester": bench.view()["tester"] }));
    let low = drift["plots"].as_array().unwrap().iter().find(|one| plain(&one["title"]) == "500 V, 1.0 MΩ").unwrap();
    let rows: Vec<(String, bool)> = low["rows"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| (plain(&row["when"]), !row["adjusted"].as_str().unwrap().is_empty()))
        .collect();
    let expected = [("1 Jun 2023", false), ("1 Jun 2024", true), ("1 Jun 2026", false)];
    assert_eq!(rows, expected.map(|(when, adjusted)| (when.to_owned(), adjusted)));
    assert!(low["said"].as_str().unwrap().starts_with("No line"), "two and one make no line");
}
