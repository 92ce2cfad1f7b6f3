//! References: what is typed stands in the record digit for digit, and what cannot be one is refused by its field.

use crate::support::Program;
use serde_json::{Value, json};

fn value(nominal: &str, more: Value) -> Value {
    let mut value = json!({ "nominal": nominal, "stated_as": "expanded" });
    for (name, text) in more.as_object().unwrap() {
        value[name] = text.clone();
    }
    value
}

fn resistor() -> Value {
    json!({
        "kind": "resistor", "name": "Resistor 1", "serial": "R 1", "certificate": "C-7", "valid_until": "1 May 2027",
        "values": [value("1 MΩ", json!({
            "stated": "1.000203 MΩ", "within_percent": "0,02", "within": "10 Ω", "k": "2", "drift_percent": "0.01",
            "voltage_coefficient": "5", "stated_at": "500", "temperature_coefficient": "25", "rated_voltage": "1000",
        }))],
    })
}

fn saved(program: &Program, form: &Value) -> Value {
    program.job();
    program.ask("save_reference", json!({ "form": form }))
}

#[test]
fn a_resistor_comes_back_as_it_was_typed() {
    let program = Program::start();
    let view = saved(&program, &resistor());
    let one = &view["references"][0];
    assert_eq!(one["title"], "Resistor 1, resistor, serial number R 1");
    assert_eq!(one["lines"][0], "Certificate C-7");
    assert_eq!(
        one["lines"][1],
        "1.0\u{a0}MΩ: 1.000203\u{a0}MΩ, U = 0.02\u{a0}% + 10\u{a0}Ω (k = 2), changed at most 0.01\u{a0}% since, 5 ppm/V, \
         25 ppm/K, up to 1000\u{a0}V"
    );
    assert_eq!(one["state"], json!({ "level": "done", "words": "Certificate in date until 1 May 2027" }));

    let again = program.ask("save_reference", json!({ "reference": one["id"], "form": one["form"] }));
    assert_eq!(again["references"][0]["form"], one["form"]);
    assert_eq!(again["done"]["undo"], Value::Null, "nothing changed, so nothing was written");
}

#[test]
fn meters_say_the_unit_of_their_ranges_and_what_they_load_the_tester_with() {
    let program = Program::start();
    let voltmeter = json!({
        "kind": "voltmeter", "name": "Meter 1", "serial": "M 1", "input_resistance": "10 MΩ",
        "values": [value("600", json!({ "within_percent": "0.05", "within": "30 mV", "resolution": "0.01 V" })),
                   value("15 kV", json!({ "within_percent": "0.1" }))],
    });
    let ammeter = json!({
        "kind": "current_meter", "name": "Meter 2", "serial": "M 2",
        "values": [value("20 mA", json!({ "within_percent": "0.2", "within": "2 µA", "stated_as": "tolerance" }))],
    });
    saved(&program, &voltmeter);
    let view = program.ask("save_reference", json!({ "form": ammeter }));
    let lines = |index: usize| view["references"][index]["lines"].clone();
    assert_eq!(lines(0)[1], "Loads the tester with 10\u{a0}MΩ");
    assert_eq!(lines(0)[2], "600\u{a0}V: 600\u{a0}V, U = 0.05\u{a0}% + 0.03\u{a0}V (k = 2), one step 0.01\u{a0}V");
    assert_eq!(lines(1)[1], "20\u{a0}mA: 20\u{a0}mA ± 0.2\u{a0}% + 0.002\u{a0}mA, taken as rectangular");
    for index in [0, 1] {
        let one = &view["references"][index];
        assert_eq!(one["state"]["level"], "look", "no last day");
        let again = program.ask("save_reference", json!({ "reference": one["id"], "form": one["form"] }));
        assert_eq!(again["done"]["undo"], Value::Null, "{}", one["form"]);
    }
}

#[test]
fn what_cannot_be_a_reference_is_refused_by_its_field() {
    let program = Program::start();
    program.job();
    let complaints = |form: Value| -> Vec<(String, String)> {
        let refused = program.refused("save_reference", json!({ "form": form }));
        refused.complaints.into_iter().map(|one| (one.field, one.words)).collect()
    };
    let with = |values: Value| json!({ "kind": "current_meter", "name": "Meter", "serial": "1", "values": values });
    let amps = "Write a current with its unit, for example 1.02 mA";
    assert_eq!(complaints(with(json!([value("2", json!({}))]))), [("values.0.nominal".into(), amps.into())]);
    assert_eq!(complaints(with(json!([]))), [("values".into(), "Enter at least one value".into())]);
    let twice = complaints(with(json!([value("2 mA", json!({})), value("2000 µA", json!({}))])));
    assert_eq!(twice, [("values.1.nominal".into(), "This value stands here twice".into())]);
    let k = complaints(with(json!([value("2 mA", json!({ "k": "0.5" }))])));
    assert_eq!(k, [("values.0.k".into(), "k is 1 or more".into())]);
    let mut bare = resistor();
    bare["name"] = json!(" ");
    bare["values"][0]["nominal"] = json!("1 mΩ");
    let fields: Vec<String> = complaints(bare).into_iter().map(|(field, _)| field).collect();
    assert_eq!(fields, ["name", "values.0.nominal"]);
    for (nominal, form) in
        [("-5 V", "voltmeter"), ("0 V", "voltmeter"), ("99999999999999999999999999999 kV", "voltmeter")]
    {
        let form = json!({ "kind": form, "name": "M", "serial": "1", "input_resistance": "10 MΩ", "values": [value(nominal, json!({}))] });
        assert_eq!(complaints(form).len(), 1, "{nominal}");
    }
}

#[test]
fn a_lapsed_certificate_says_what_it_costs_and_a_removed_reference_comes_back() {
    let program = Program::start();
    let mut form = resistor();
    form["valid_until"] = json!("24 Nov 2026");
    let view = saved(&program, &form);
    assert_eq!(
        view["references"][0]["state"]["words"],
        "Certificate lapsed on 24 Nov 2026: what is decided by it is conditional at most"
    );
    let id = view["references"][0]["id"].clone();
    form["valid_until"] = json!("24 Nov 2027");
    program.ask("save_reference", json!({ "reference": id, "form": form }));
    let removed = program.ask("remove_reference", json!({ "reference": id }));
    assert_eq!(removed["references"], json!([]), "and no earlier certificate of it");
    program.ask("undo", json!({ "token": removed["done"]["undo"] }));
    let back = program.ask("references", json!({}));
    assert_eq!(back["references"][0]["state"]["words"], "Certificate in date until 24 Nov 2027");
    assert_eq!(
        program
            .refused("save_reference", json!({ "reference": "01900000-0000-7000-8000-000000000000", "form": form }))
            .code,
        "not_found"
    );
}
