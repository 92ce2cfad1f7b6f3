//! Tables of readings, pasted or from a file: what the preview takes, the import takes, line for line, and what is copied
//! out then is known again.
use std::path::Path;
use std::sync::OnceLock;

use provenohm_api::Api;
use serde_json::{Value, json};

use crate::seeds::program;

/// An even first byte means TSV, an odd one CSV; the rest is the table.
pub(crate) fn holds(bytes: &[u8]) {
    static BOARD: OnceLock<(Api, Value)> = OnceLock::new();
    let (program, board) = BOARD.get_or_init(board_with_circuits);
    let Some((format, bytes)) = bytes.split_first() else { return };
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let format = if format % 2 == 0 { "tsv" } else { "csv" };
    let table = json!({ "board": board, "text": text, "format": format });
    let seen = told(program, "preview_readings", table.clone());
    let count = |name: &str| seen[name].as_u64().unwrap_or_default();
    let (lines, new, same, not) = (count("lines"), count("new"), count("same"), count("not_taken"));
    assert_eq!(lines, new + same + not, "the sum of {text:?}");
    let complaints = seen["complaints"].as_array().map_or(0, Vec::len);
    assert!(lines + u64::try_from(complaints).unwrap_or(1) > 0, "said nothing of {text:?}");
    assert_eq!(same, 0, "nothing is here yet");
    if complaints > 0 {
        assert!(program.call("import_readings", table).is_err(), "taken in spite of {}", seen["complaints"]);
        return;
    }
    // On a board of its own, so that no input sees what an earlier one left.
    let (program, board) = board_with_circuits();
    let table = json!({ "board": board, "text": text, "format": format });
    let taken = told(&program, "import_readings", table);
    let copied = told(&program, "copy_out", json!({ "board": board, "what": "readings" }));
    let again = json!({ "board": board, "text": copied["text"], "format": "tsv" });
    let again = told(&program, "preview_readings", again);
    assert_eq!((again["same"].as_u64(), again["lines"].as_u64()), (Some(new), Some(new)), "known again: {again}");
    told(&program, "undo", json!({ "token": taken["undo"] }));
}

fn told(program: &Api, operation: &str, input: Value) -> Value {
    match program.call(operation, input) {
        Ok(told) => told,
        Err(failure) => panic!("{operation}: {failure:?}"),
    }
}

fn board_with_circuits() -> (Api, Value) {
    let program = program(Path::new("."));
    let started = json!({ "name": "Invented", "place": "", "person": "A. Recorder", "role": "" });
    let job = told(&program, "start_job", started);
    let view = told(&program, "add_board", json!({ "job": job["id"], "name": "DB-1" }));
    let board = view["boards"][0]["id"].clone();
    let form = json!({ "nominal": "230", "measure": "none", "conductors": "single_phase" });
    told(&program, "add_many_circuits", json!({ "board": board, "count": "2", "form": form }));
    (program, board)
}
