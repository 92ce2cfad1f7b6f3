//! A board recorded by the keypad's operations, reading by reading.

use crate::support::{Program, single_phase};
use provenohm_api::{Api, Host};
use serde_json::{Value, json};

fn typed(text: &str, unit: &str) -> Value {
    json!({ "typed": { "text": text, "comparator": "exact", "unit": unit } })
}

struct Run {
    program: Program,
    board: String,
    tester: String,
}

impl Run {
    /// Two single-phase circuits and a proved tester set to 500 V.
    fn ready() -> Self {
        let program = Program::start();
        let (_, board) = program.job();
        program.circuits(&board, 2, single_phase());
        let tester = program.tester("Tester A");
        program.certificate(&tester, "3 Mar 2026", "3 Mar 2027");
        program.ask("choose_tester", json!({ "board": board, "tester": tester }));
        program.ask("set_volts", json!({ "board": board, "volts": 500 }));
        Self { program, board, tester }
    }

    fn view(&self) -> Value {
        self.program.ask("run", json!({ "board": self.board }))
    }

    fn slot(&self) -> Value {
        self.view()["slot"].clone()
    }

    fn save(&self, indication: Value) -> Value {
        self.program.ask("save_reading", json!({ "board": self.board, "slot": self.slot(), "indication": indication }))
    }
}

#[test]
fn a_reading_is_saved_judged_and_read_back() {
    let run = Run::ready();
    let saved = run.save(typed("487", "m"));
    assert_eq!(saved["saved"]["pair"], "L–N");
    assert_eq!(saved["saved"]["shown"], "487\u{a0}MΩ");
    assert_eq!(saved["saved"]["judgement"]["words"], "meets 1.0\u{a0}MΩ at 500\u{a0}V");
    assert_eq!(saved["saved"]["judgement"]["level"], "done");
    assert_eq!(saved["moved"], "pair");
    assert_eq!(saved["run"]["slots"][0]["sign"], "done");
    assert_eq!(saved["run"]["slots"][0]["shown"], "487\u{a0}MΩ");
}

#[test]
fn digits_stay_as_they_were_typed() {
    let run = Run::ready();
    assert_eq!(run.save(typed("1.20", "m"))["saved"]["shown"], "1.20\u{a0}MΩ");
}

#[test]
fn a_slot_with_a_reading_says_what_the_next_one_replaces_before_it_is_saved() {
    let run = Run::ready();
    let slot = run.slot();
    assert_eq!(run.view()["hint"], Value::Null);
    run.save(typed("0.85", "m"));
    let again = run.program.ask("run", json!({ "board": run.board, "slot": slot }));
    assert_eq!(again["hint"], "A new reading replaces 0.85\u{a0}MΩ as repeated");
}

#[test]
fn one_tap_saves_over_range_and_the_last_pair_leads_to_the_next_circuit() {
    let run = Run::ready();
    assert_eq!(run.view()["over_range"]["label"], ">\u{a0}999\u{a0}MΩ");
    run.save(json!("over_range"));
    run.save(json!("over_range"));
    let saved = run.save(json!("over_range"));
    assert_eq!(saved["moved"], "circuit");
    assert_eq!(saved["run"]["announce"], "Now circuit 2");
    for _ in 0..2 {
        run.save(json!("over_range"));
    }
    let saved = run.save(json!("over_range"));
    assert_eq!(saved["moved"], "end");
    assert_eq!(saved["run"]["ended"]["lines"][0]["words"], "6 readings taken");
}

#[test]
fn a_value_below_its_limit_says_so_and_is_listed() {
    let run = Run::ready();
    let saved = run.save(typed("0.40", "m"));
    assert_eq!(saved["saved"]["judgement"]["level"], "look");
    assert!(saved["saved"]["judgement"]["words"].as_str().unwrap().contains("1.0\u{a0}MΩ"), "{saved}");
    let job = run.view()["job"].clone();
    let look = run.program.ask("look", json!({ "job": job }));
    assert_eq!(look["items"][0]["place"], "DB-1 · 1 · L–N");
    assert_eq!(look["items"][0]["shown"], "0.40\u{a0}MΩ");
}

#[test]
fn half_typed_digits_are_kept_and_refused_ones_are_not() {
    let run = Run::ready();
    let slot = run.slot();
    let draft = |text: &str| json!({ "board": run.board, "slot": slot, "text": text, "comparator": "exact" });
    let told = run.program.ask("draft", draft("48"));
    assert_eq!(told["shown"], "48");
    assert_eq!(told["refused"], Value::Null);
    assert_eq!(told["ruler"].as_array().unwrap().len(), 3);
    assert_eq!(run.view()["draft"]["text"], "48");
    assert_eq!(run.program.refused("draft", draft("123456")).code, "refused");
    assert_eq!(run.view()["draft"]["text"], "48");
    // The one-tap key never throws typed digits away.
    let asked = json!({ "board": run.board, "slot": slot, "indication": "over_range" });
    assert_eq!(run.program.refused("save_reading", asked).words, "Clear 48 first");
    run.save(typed("48", "m"));
    assert_eq!(run.view()["draft"]["text"], "");
}

#[test]
fn undo_goes_back_without_end_and_brings_the_digits_back() {
    let run = Run::ready();
    let first = run.slot();
    run.save(typed("487", "m"));
    run.save(typed("1.20", "g"));
    let undo = || run.program.ask("undo_reading", json!({ "board": run.board }));
    let undone = undo();
    assert_eq!(undone["run"]["draft"]["text"], "1.20");
    assert_eq!(undone["run"]["read_back"]["shown"], "487\u{a0}MΩ");
    let undone = undo();
    assert_eq!(undone["run"]["slot"], first);
    assert_eq!(undone["run"]["draft"]["text"], "487");
    assert_eq!(undone["run"]["can_undo"], false);
    assert_eq!(run.program.refused("undo_reading", json!({ "board": run.board })).code, "nothing_to_undo");
    // What was taken back stays in the record.
    let origin = run.program.ask("origin", json!({ "board": run.board, "slot": first }));
    assert_eq!(origin["earlier"][0]["shown"], "487\u{a0}MΩ");
}

#[test]
fn another_test_voltage_is_announced_ahead_all_through_the_circuit_before_it() {
    let run = Run::ready();
    let selv = json!({ "nominal": "24", "measure": "selv", "conductors": "single_phase" });
    run.program.circuits(&run.board, 1, selv);
    assert_eq!(run.view()["ahead"], Value::Null, "circuit 2 asks for 500 V as circuit 1 does");
    for _ in 0..3 {
        run.save(json!("over_range"));
    }
    for _ in 0..3 {
        assert_eq!(run.view()["ahead"], "250\u{a0}V from circuit 3 on");
        run.save(json!("over_range"));
    }
    let view = run.view();
    assert_eq!(view["ask_volts"]["words"], "Tester set to 250\u{a0}V");
    assert_eq!(view["ahead"], Value::Null, "now the pad asks for it");
    run.program.ask("set_volts", json!({ "board": run.board, "volts": 250 }));
    assert_eq!(run.view()["ahead"], Value::Null, "no other circuit is open");
    let first = view["circuits"][0]["id"].clone();
    run.program.ask("undo_reading", json!({ "board": run.board }));
    run.program.ask("run", json!({ "board": run.board, "circuit": first }));
    run.program.ask("set_volts", json!({ "board": run.board, "volts": 500 }));
    assert_eq!(run.view()["ahead"], Value::Null, "circuit 2 comes first, still open");
}

#[test]
fn another_test_voltage_has_to_be_set_before_anything_is_saved() {
    let run = Run::ready();
    let selv = json!({ "nominal": "24", "measure": "selv", "conductors": "single_phase" });
    let view = run.program.circuits(&run.board, 1, selv);
    let circuit = view["circuits"][2]["id"].clone();
    let jumped = run.program.ask("run", json!({ "board": run.board, "circuit": circuit }));
    assert_eq!(jumped["ask_volts"]["words"], "Tester set to 250\u{a0}V");
    let asked = json!({ "board": run.board, "slot": jumped["slot"], "indication": typed("20", "m") });
    assert_eq!(run.program.refused("save_reading", asked.clone()).code, "voltage_not_said");
    let set = run.program.ask("set_volts", json!({ "board": run.board, "volts": 250 }));
    assert_eq!(set["ask_volts"], Value::Null);
    assert_eq!(run.program.ask("save_reading", asked)["saved"]["shown"], "20\u{a0}MΩ");
}

#[test]
fn not_tested_has_a_reason_and_undo() {
    let run = Run::ready();
    let slot = run.slot();
    let asked = json!({ "board": run.board, "slot": slot, "reason": "no_access" });
    let saved = run.program.ask("mark_not_tested", asked);
    assert_eq!(saved["run"]["slots"][0]["sign"], "look");
    let undone = run.program.ask("undo_reading", json!({ "board": run.board }));
    assert_eq!(undone["run"]["slot"], slot);
    assert_eq!(undone["run"]["slots"][0]["sign"], "todo");
}

#[test]
fn joined_lives_that_meet_prove_each_and_anything_else_asks_for_the_singles() {
    let run = Run::ready();
    let circuit = run.view()["circuit"]["id"].clone();
    let joined = run.program.ask("set_joined", json!({ "circuit": circuit, "joined": true }));
    let names = |run: &Value| -> Vec<String> {
        run["slots"].as_array().unwrap().iter().map(|slot| slot["name"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(names(&joined), ["L–N", "L+N – PE"]);
    run.save(json!("over_range"));
    let low = run.save(typed("0.90", "m"));
    assert_eq!(names(&low["run"]), ["L–N", "L+N – PE", "L–PE", "N–PE"]);
    run.program.ask("undo_reading", json!({ "board": run.board }));
    run.save(typed("200", "m"));
    assert_eq!(run.view()["circuits"][0]["progress"], "2 of 2");
}

#[test]
fn a_tester_without_verification_is_flagged_and_recording_one_clears_it() {
    let run = Run::ready();
    let other = run.program.tester("Tester B");
    run.program.ask("choose_tester", json!({ "board": run.board, "tester": other }));
    run.program.ask("set_volts", json!({ "board": run.board, "volts": 500 }));
    let saved = run.save(typed("487", "m"));
    assert_eq!(saved["saved"]["judgement"]["level"], "look");
    let told = run.program.certificate(&other, "3 Mar 2026", "3 Mar 2027");
    assert!(told["words"].as_str().unwrap().contains("1 reading is no longer flagged"), "{}", told["words"]);
    assert_eq!(run.view()["read_back"]["judgement"]["level"], "done");
}

#[test]
fn a_wrong_tester_is_corrected_on_many_readings_at_once_and_the_old_value_stays() {
    let run = Run::ready();
    let slot = run.slot();
    run.save(typed("487", "m"));
    run.save(typed("300", "m"));
    let other = run.program.tester("Tester B");
    let job = run.view()["job"].clone();
    let all = run.program.ask("readings", json!({ "job": job }));
    let ids: Vec<Value> = all["rows"].as_array().unwrap().iter().map(|row| row["reading"].clone()).collect();
    let asked = json!({ "job": job, "readings": ids, "tester": other, "reason": "" });
    assert_eq!(run.program.refused("correct_readings", asked).complaints[0].field, "reason");
    let asked = json!({ "job": job, "readings": ids, "tester": other, "reason": "took the other case" });
    let done = run.program.ask("correct_readings", asked);
    assert_eq!(done["words"], "Corrected 2 readings");
    let origin = run.program.ask("origin", json!({ "board": run.board, "slot": slot }));
    let lines = origin["current"][0]["lines"].to_string();
    assert!(lines.contains("Tester B"), "{lines}");
    assert!(lines.contains("took the other case") && lines.contains("Tester A"), "{lines}");
    run.program.ask("undo", json!({ "token": done["undo"] }));
    let origin = run.program.ask("origin", json!({ "board": run.board, "slot": slot }));
    assert!(!origin["current"][0]["lines"].to_string().contains("Tester B"));
    assert_eq!(run.tester.len(), 36);
}

#[test]
fn a_lead_check_belongs_to_the_tester_in_hand() {
    let run = Run::ready();
    let check = |leads: &str, indication: Value| {
        run.program.ask("record_lead_check", json!({ "board": run.board, "leads": leads, "indication": indication }))
    };
    assert_eq!(check("shorted", json!("near_zero"))["said"]["level"], "done");
    assert_eq!(check("open", json!("over_range"))["said"]["level"], "done");
    assert_eq!(check("shorted", json!("over_range"))["said"]["level"], "look");
}

#[test]
fn two_programs_on_one_record_see_each_others_readings() {
    let folder = tempfile::tempdir().unwrap();
    let open = || Api::open(folder.path(), Host::system()).unwrap();
    let (one, other) = (open(), open());
    let job = one.call("start_job", json!({ "name": "Mill Lane", "place": "", "person": "A. Recorder" })).unwrap();
    let board = one.call("add_board", json!({ "job": job["id"], "name": "DB-1" })).unwrap()["boards"][0]["id"].take();
    one.call("add_many_circuits", json!({ "board": board, "count": "1", "form": single_phase() })).unwrap();
    let save = |program: &Api| {
        let run = program.call("set_volts", json!({ "board": board, "volts": 500 })).unwrap();
        let typed = json!({ "typed": { "text": "487", "comparator": "exact", "unit": "m" } });
        program.call("save_reading", json!({ "board": board, "slot": run["slot"], "indication": typed })).unwrap();
    };
    let done = |program: &Api| program.call("job", json!({ "job": job["id"] })).unwrap()["boards"][0]["done"].take();
    save(&one);
    assert_eq!(done(&other), 1);
    save(&other);
    assert_eq!((done(&one), done(&other)), (json!(2), json!(2)), "what one had judged before is not shown on");
}

#[test]
fn an_earlier_visit_to_the_same_circuit_is_told_with_its_ratio() {
    let program = Program::start();
    program.job();
    let tester = program.tester("Tester A");
    let visit_at = |volts: u32, place: &str, digits: &str| {
        let job = program.ask("start_job", json!({ "name": "A visit", "place": place, "person": "A. Recorder" }));
        let view = program.ask("add_board", json!({ "job": job["id"], "name": "DB-1" }));
        let board = view["boards"][0]["id"].as_str().unwrap().to_owned();
        program.circuits(&board, 1, single_phase());
        program.ask("choose_tester", json!({ "board": board, "tester": tester }));
        program.ask("set_volts", json!({ "board": board, "volts": volts }));
        let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
        program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed(digits, "m") }));
        let origin = program.ask("origin", json!({ "board": board, "slot": slot }));
        origin["visits"]
            .as_array()
            .unwrap()
            .iter()
            .map(|one| one.as_str().unwrap().replace('\u{a0}', " "))
            .collect::<Vec<_>>()
    };
    let visit = |place: &str, digits: &str| visit_at(500, place, digits);
    assert!(visit("Mill Lane", "480").is_empty());
    assert!(visit("Elsewhere", "300").is_empty(), "another place is another installation");
    assert_eq!(visit(" mill lane ", "120"), ["25 Nov 2026: 480 MΩ; now 120 MΩ, 0.25 times that"]);
    assert!(visit("", "1").is_empty(), "no place, nothing to compare with");
    // At another test voltage insulation reads otherwise: both are told, and no ratio.
    let at_250 = visit_at(250, "Mill Lane", "240");
    assert_eq!(at_250[0], "25 Nov 2026: 120 MΩ at 500 V; now 240 MΩ at 250 V, not to be compared");
}
