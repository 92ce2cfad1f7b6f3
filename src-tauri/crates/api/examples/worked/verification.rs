//! An invented tester that is right at 10 MΩ and above, 12 % low at 1 MΩ, and whose voltage falls away at the rated load.

use super::Fault;
use provenohm_api::headless::VerificationFile;
use serde_json::{Value, json};

const BENCH: &str = "0190a000-0000-7000-8000-000000000001";
const TESTER: &str = "0190a000-0000-7000-8000-000000000002";
const BOX: &str = "0190a000-0000-7000-8000-000000000011";
const PROBE: &str = "0190a000-0000-7000-8000-000000000012";
const METER: &str = "0190a000-0000-7000-8000-000000000013";

pub(super) fn file() -> Result<VerificationFile, Fault> {
    let resistor = |ohm: &str| {
        json!({
            "nominal_ohm": ohm, "stated_ohm": ohm, "within_percent": "0.2", "stated": { "expanded": { "k": "2" } },
            "drift_percent": "0.1", "voltage_coefficient": "1", "rated_voltage_v": "1000",
        })
    };
    let values = ["500000", "1000000", "10000000", "100000000", "1000000000"].map(resistor);
    let range = |nominal: &str, unit: &str| {
        json!({
            format!("nominal_{unit}"): nominal, format!("stated_{unit}"): nominal,
            "within_percent": "0.5", "stated": "tolerance",
        })
    };
    let reference = |id: &str, name: &str, what: Value| json!({ "id": id, "name": name, "serial": name, "valid_until": "2027-01-31", "what": what });
    let references = json!([
        reference(BOX, "Box 1", json!({ "kind": "decade_box", "values": values })),
        reference(
            PROBE,
            "Probe 1",
            json!({
                "kind": "high_voltage_probe", "ranges": [range("2000", "v")], "input_resistance_ohm": "1000000000",
            })
        ),
        reference(METER, "Meter 1", json!({ "kind": "current_meter", "ranges": [range("0.02", "a")] })),
    ]);
    let of_range = |from: &str, to: &str, step: &str| {
        json!({
            "from_ohm": from, "to_ohm": to, "resolution_ohm": step, "accuracy_percent": "3", "accuracy_digits": 2,
        })
    };
    let card = json!({ "voltages": [{
        "test_voltage_v": "500",
        "ranges": [of_range("50000", "20000000", "10000"), of_range("20000000", "2000000000", "1000000")],
    }] });
    let value = json!({
        "format": "provenohm-verification", "version": 1, "invented": true, "card": card, "references": references,
        "tester": { "name": "Tester B", "serial": "1002", "model": "Invented model" },
        "run": {
            "id": BENCH, "tester": TESTER, "references": [BOX, PROBE, METER], "edition": "iec-61557-2-2019",
            "rule": "guard_u", "adjusted": false, "by": "an invented bench", "started": "2026-03-02T09:00:00+01:00",
            "look": {
                "case": "yes", "leads": "yes", "marked_category": "yes", "marked_standard": "no", "battery": "yes",
            },
        },
        "measured": measured(),
    });
    Ok(serde_json::from_value(value)?)
}

fn measured() -> Vec<Value> {
    let at = |ohm: &str| json!({ "reference": BOX, "nominal_ohm": ohm });
    let shown = |digits: &str| json!({ "comparator": "exact", "digits": digits, "unit": "Mohm" });
    let indication =
        |ohm: &str, digits: &str| json!({ "what": "indication", "resistor": at(ohm), "shown": shown(digits) });
    let volts = |shown: &str| json!({ "reference": PROBE, "shown": shown });
    let items = [
        json!({ "what": "leads_shorted", "shown": shown("0.00") }),
        indication("1000000", "0.88"),
        indication("1000000", "0.88"),
        indication("1000000", "0.89"),
        indication("10000000", "9.98"),
        indication("100000000", "101"),
        indication("1000000000", "1005"),
        json!({ "what": "open_circuit", "voltage": volts("560") }),
        json!({ "what": "at_load", "role": "rated", "load": at("500000"), "voltage": volts("310") }),
        json!({ "what": "at_load", "role": "further", "load": at("10000000"), "voltage": volts("552") }),
        json!({ "what": "short_circuit", "current": { "reference": METER, "shown": "0.0007" } }),
    ];
    let items = items.into_iter().zip(0_u32..);
    items
        .map(|(item, i)| {
            json!({
                "id": format!("0190a000-0000-7000-8000-0000000001{i:02}"), "bench": BENCH, "test_voltage_v": "500",
                "at": format!("2026-03-02T09:{:02}:00+01:00", i + 10), "item": item,
            })
        })
        .collect()
}
