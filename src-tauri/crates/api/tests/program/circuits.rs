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
    let table = "reference\tdescription\tnominal_v\tmeasure\tconductors\tnotes\n\
                 =K1\tOven\t230\t\t\t\"two\nlines\"\n2\t-Lamp\t24\tselv\t\t\n3\tPump\t400\t\tthree_phase\t\n";
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
    assert_eq!(forms(&back["view"]), forms(&program.ask("circuits", json!({ "board": board }))));
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
    let cells: Vec<&str> = ["comparator", "shown_digits", "shown_unit"].map(|name| rows[0][column(name)]).into();
    assert_eq!(cells, ["more_than", "1.20", "MΩ"]);
    assert!(rows.iter().all(|row| row[column("board")] == "DB-1"), "{text}");
}
