//! A board's circuits: their order, and tables out of it and back in.

use crate::support::{Program, single_phase};
use serde_json::{Value, json};

fn references(view: &Value) -> Vec<&str> {
    view["circuits"].as_array().unwrap().iter().map(|one| one["reference"].as_str().unwrap()).collect()
}

#[test]
fn a_circuit_moves_by_any_number_of_places_and_stops_at_the_ends() {
    let program = Program::start();
    let (_, board) = program.job();
    let view = program.circuits(&board, 4, single_phase());
    let first = view["circuits"][0]["id"].clone();
    let moved = |by: i32| program.ask("move_circuit", json!({ "circuit": first, "by": by }));
    assert_eq!(references(&moved(2)), ["2", "3", "1", "4"]);
    assert_eq!(references(&moved(-1)), ["2", "1", "3", "4"]);
    assert_eq!(references(&moved(99)), ["2", "3", "4", "1"]);
    assert_eq!(references(&moved(-99)), ["1", "2", "3", "4"]);
}

#[test]
fn circuits_copied_out_read_back_in_as_they_were() {
    let program = Program::start();
    let (job, board) = program.job();
    let table = "reference\tdescription\tnominal_v\tmeasure\tconductors\tnotes\tlives_joined\tspd_stays\titem\tlocation\n\
                 =K1\tOven\t230\t\t\t\"two\nlines\"\t\t\t\t\n2\t-Lamp\t24\tselv\t\t\t\t\t\twet\n\
                 3\tPump\t400\t\tthree_phase\t\tyes\tYES\theating_element\tfire_risk\n";
    program.ask("import_circuits", json!({ "board": board, "text": table, "format": "tsv" }));
    let copied = program.ask("copy_out", json!({ "board": board, "what": "circuits" }));
    let text = copied["text"].as_str().unwrap();
    assert!(text.starts_with("reference\tdescription\tnominal_v\t"), "{text}");
    assert!(text.contains("'=K1\tOven"), "no spreadsheet takes it for a formula: {text}");

    let boards = program.ask("add_board", json!({ "job": job, "name": "DB-2" }));
    let other = boards["boards"][1]["id"].clone();
    let back = program.ask("import_circuits", json!({ "board": other, "text": text, "format": "tsv" }));
    let forms = |view: &Value| -> Vec<Value> {
        view["circuits"].as_array().unwrap().iter().map(|one| one["form"].clone()).collect()
    };
    let copied = forms(&back["view"]);
    assert_eq!(copied, forms(&program.ask("circuits", json!({ "board": board }))));
    let pump = ["joined_to_earth", "spd_stays", "item", "location"].map(|name| copied[2][name].clone());
    assert_eq!(pump, [json!(true), json!(true), json!("heating_element"), json!("fire_risk")]);
    assert_eq!(copied[1]["location"], "wet");
}

#[test]
fn readings_copied_out_have_comparator_and_unit_in_columns_of_their_own() {
    let program = Program::start();
    let (job, board) = program.job();
    program.circuits(&board, 1, single_phase());
    let boards = program.ask("add_board", json!({ "job": job, "name": "DB-2" }));
    program.circuits(boards["boards"][1]["id"].as_str().unwrap(), 1, single_phase());
    program.ask("set_volts", json!({ "board": board, "volts": 500 }));
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    let typed = json!({ "typed": { "text": "1.20", "comparator": "more_than", "unit": "m" } });
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));

    let copied = program.ask("copy_out", json!({ "board": board, "what": "readings" }));
    let text = copied["text"].as_str().unwrap();
    let mut lines = text.lines().map(|line| line.split('\t').collect::<Vec<_>>());
    let head = lines.next().unwrap();
    let rows: Vec<Vec<&str>> = lines.collect();
    assert_eq!(rows.len(), 3, "the three pairs of this board's one circuit: {text}");
    let column = |name: &str| head.iter().position(|one| *one == name).unwrap_or_else(|| panic!("{name} in {head:?}"));
    let cells: Vec<&str> = ["comparator", "reading", "unit"].map(|name| rows[0][column(name)]).into();
    assert_eq!(cells, [">", "1.20", "MΩ"]);
    assert!(rows.iter().all(|row| row[column("board")] == "DB-1"), "{text}");
}

fn table(board: &str, text: &str, format: &str) -> Value {
    json!({ "board": board, "text": text, "format": format })
}

#[test]
fn a_table_is_shown_before_it_is_taken_and_can_be_taken_back() {
    let program = Program::start();
    let (_, board) = program.job();
    // A decimal comma in the file, so fields are parted by semicolons; columns in an order of their own.
    let text = "reference;conductors;nominal_v;description;measure\n1;single_phase;230;Sockets;none\n2;single_phase;24;Bell;selv\n";
    let preview = program.ask("preview_circuits", table(&board, text, "csv"));
    assert_eq!(preview["complaints"], json!([]));
    let rows = preview["rows"].as_array().unwrap();
    assert_eq!(rows.len(), 2);
    assert_eq!((rows[0]["line"].as_u64(), rows[0]["reference"].as_str()), (Some(2), Some("1")));
    assert!(rows[0]["follows"].as_str().unwrap().contains("1.0\u{a0}MΩ"), "IEC 60364-6:2016 Table 6.1: {}", rows[0]);
    assert!(rows[1]["follows"].as_str().unwrap().contains("0.5\u{a0}MΩ"), "IEC 60364-6:2016 Table 6.1: {}", rows[1]);
    let before = program.ask("circuits", json!({ "board": board }));
    assert_eq!(before["circuits"], json!([]), "a preview takes nothing");

    let taken = program.ask("import_circuits", table(&board, text, "csv"));
    assert_eq!(references(&taken["view"]), ["1", "2"]);
    program.ask("undo", json!({ "token": taken["undo"] }));
    assert_eq!(program.ask("circuits", json!({ "board": board }))["circuits"], json!([]));
}

#[test]
fn a_table_with_complaints_names_each_line_and_is_not_taken() {
    let program = Program::start();
    let (_, board) = program.job();
    program.circuits(&board, 1, single_phase());
    let text = "2\tOven\t230\n3\tBell\t60\tac\t\tselv\n1\tTwice\t230\n4\tNothing\tmany\n";
    let preview = program.ask("preview_circuits", table(&board, text, "tsv"));
    let lines: Vec<u64> =
        preview["complaints"].as_array().unwrap().iter().map(|one| one["line"].as_u64().unwrap()).collect();
    assert_eq!(lines, [2, 3, 4], "{}", preview["complaints"]);
    assert!(preview["complaints"][0]["words"].as_str().unwrap().contains("SELV"), "above 50 V a.c.");
    let refused = program.refused("import_circuits", table(&board, text, "tsv"));
    let fields: Vec<&str> = refused.complaints.iter().map(|one| one.field.as_str()).collect();
    assert_eq!(fields, ["line.2", "line.3", "line.4"]);
    let after = program.ask("circuits", json!({ "board": board }));
    assert_eq!(references(&after), ["1"], "whole or not at all");
}

#[test]
fn an_empty_or_unreadable_table_is_refused_in_words() {
    let program = Program::start();
    let (_, board) = program.job();
    for text in ["", "\n\n", "reference\tdescription\n", "reference\tcolour\n1\tred\n"] {
        let preview = program.ask("preview_circuits", table(&board, text, "tsv"));
        assert!(!preview["complaints"].as_array().unwrap().is_empty(), "{text:?}: {preview}");
        assert!(program.refused("import_circuits", table(&board, text, "tsv")).complaints[0].words.len() > 5);
    }
}
