//! Tables of circuits, pasted or from a file: what the preview takes, the import takes, line for line.
use std::path::Path;
use std::sync::OnceLock;

use provenohm_api::Api;
use serde_json::{Value, json};

use crate::seeds::program;

/// An even first byte means TSV, an odd one CSV; the rest is the table.
pub(crate) fn holds(bytes: &[u8]) {
    static BOARD: OnceLock<(Api, Value)> = OnceLock::new();
    let (program, board) = BOARD.get_or_init(empty_board);
    let Some((format, bytes)) = bytes.split_first() else { return };
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let format = if format % 2 == 0 { "tsv" } else { "csv" };
    let table = json!({ "board": board, "text": text, "format": format });
    let seen = match program.call("preview_circuits", table.clone()) {
        Ok(seen) => seen,
        Err(failure) => panic!("a preview complains by line, it does not fail: {failure:?}"),
    };
    let rows = seen["rows"].as_array().map_or(0, Vec::len);
    let complaints = seen["complaints"].as_array().map_or(0, Vec::len);
    assert!(rows + complaints > 0, "said nothing of {text:?}");
    let lines = text.lines().count().max(1);
    assert!(rows <= lines, "{rows} circuits from {lines} lines");
    if complaints > 0 {
        assert!(program.call("import_circuits", table).is_err(), "taken in spite of {}", seen["complaints"]);
        return;
    }
    // On a board of its own, so that no input sees what an earlier one left.
    let (program, board) = empty_board();
    let table = json!({ "board": board, "text": text, "format": format });
    let taken = match program.call("import_circuits", table) {
        Ok(taken) => taken,
        Err(failure) => panic!("seen without complaint and then refused: {failure:?}"),
    };
    let circuits = taken["view"]["circuits"].as_array().map_or(0, Vec::len);
    assert_eq!(circuits, rows, "taken as seen");
    if let Err(failure) = program.call("undo", json!({ "token": taken["undo"] })) {
        panic!("an import that cannot be undone: {failure:?}");
    }
}

fn empty_board() -> (Api, Value) {
    let program = program(Path::new("."));
    let ask = |operation: &str, input: Value| match program.call(operation, input) {
        Ok(told) => told,
        Err(failure) => panic!("{operation}: {failure:?}"),
    };
    let job = ask("start_job", json!({ "name": "Invented", "place": "", "person": "A. Recorder", "role": "" }));
    let view = ask("add_board", json!({ "job": job["id"], "name": "DB-1" }));
    let board = view["boards"][0]["id"].clone();
    (program, board)
}
