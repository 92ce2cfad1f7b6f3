#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
//! What is kept and renewed is what the record, read and judged anew, says.

use crate::operations::dispatch;
use crate::ops::run::Hand;
use crate::state::{State, maker};
use crate::testing;
use proptest::prelude::*;
use provenohm_assess::ids::JobId;
use provenohm_exchange::job_file::Made;
use serde_json::{Value, json};

/// A program over a record in memory, with a clock that ticks by a second and counted randomness.
struct Program {
    state: State,
    job: JobId,
    board: Value,
}

impl Program {
    /// A board with circuits whose pairs stand alone, are joined to earth, and are read in a group.
    fn start() -> Self {
        let mut program = Self { state: testing::state(), job: JobId(uuid::Uuid::nil()), board: Value::Null };
        let asked = json!({ "name": "Mill Lane", "place": "", "person": "A. Recorder", "role": "" });
        let job = program.ask("start_job", asked)["id"].take();
        program.job = serde_json::from_value(job.clone()).unwrap();
        program.board = program.ask("add_board", json!({ "job": job, "name": "DB-1" }))["boards"][0]["id"].take();
        let joined = json!({ "nominal": "400", "to_earth": "230", "measure": "none", "conductors": "three_phase_n", "joined_to_earth": true });
        let alone = json!({ "nominal": "230", "measure": "none", "conductors": "single_phase" });
        let low = json!({ "nominal": "24", "measure": "selv", "conductors": "single_phase" });
        for (count, form) in [("4", alone), ("2", joined), ("2", low)] {
            program.ask("add_many_circuits", json!({ "board": program.board, "count": count, "form": form }));
        }
        let range =
            json!({ "from": "0.05 MΩ", "to": "999 MΩ", "resolution": "0.01 MΩ", "percent": "3", "digits": "2" });
        let voltage = |volts: &str| json!({ "volts": volts, "over_range": "999 MΩ", "ranges": [range] });
        let card = json!({ "voltages": [voltage("250"), voltage("500")] });
        let tester = program.ask("save_tester", json!({ "identity": { "name": "A", "serial": "1" }, "card": card }));
        program.ask("choose_tester", json!({ "board": program.board, "tester": tester["id"] }));
        program
    }

    fn ask(&mut self, operation: &str, input: Value) -> Value {
        dispatch(&mut self.state, operation, input).unwrap_or_else(|failure| panic!("{operation}: {failure:?}"))
    }

    /// Goes to a slot, sets the voltage it asks for, and does something there.
    fn act(&mut self, act: &Act) {
        let board = self.board.clone();
        if matches!(act, Act::Undo) {
            // Nothing to undo is an answer too.
            let _nothing = dispatch(&mut self.state, "undo_reading", json!({ "board": board }));
            return;
        }
        let run = self.ask("run", json!({ "board": board }));
        let circuits = run["circuits"].as_array().unwrap();
        let circuit = &circuits[act.at().0 % circuits.len()]["id"];
        let run = self.ask("run", json!({ "board": board, "circuit": circuit }));
        let slots = run["slots"].as_array().unwrap();
        let slot = slots[act.at().1 % slots.len()]["id"].clone();
        let run = self.ask("run", json!({ "board": board, "slot": slot }));
        if let Some(volts) = run["ask_volts"]["volts"].as_u64() {
            self.ask("set_volts", json!({ "board": board, "volts": volts }));
        }
        match act {
            Act::Read(_, digits) => {
                let typed = json!({ "typed": { "text": digits, "comparator": "exact", "unit": "m" } });
                self.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
            }
            Act::NotTested(_) => {
                let said = json!({ "board": board, "slot": slot, "reason": "no_access", "words": "" });
                self.ask("mark_not_tested", said);
            }
            Act::Undo => {}
        }
    }

    /// What is kept, and what the record says anew.
    fn both(&mut self) -> (String, String) {
        let kept = self.state.judged(self.job).unwrap();
        let made = Made { at: kept.file.made.at, by: maker() };
        let in_hand = Hand::of(&self.state).unwrap().tester.into_iter().collect();
        let anew = self.state.judged_anew(self.job, &in_hand, made).unwrap();
        (format!("{kept:#?}"), format!("{anew:#?}"))
    }
}

#[derive(Clone, Debug)]
enum Act {
    Read((usize, usize), &'static str),
    NotTested((usize, usize)),
    Undo,
}

impl Act {
    fn at(&self) -> (usize, usize) {
        match self {
            Self::Read(at, _) | Self::NotTested(at) => *at,
            Self::Undo => (0, 0),
        }
    }
}

fn acts() -> impl Strategy<Value = Vec<Act>> {
    let at = || (0usize..8, 0usize..6);
    // Below the limit, too close to it, far below the others, and like the others.
    let digits = prop::sample::select(vec!["0.4", "1.01", "2.1", "350", "487", "612"]);
    let act = prop_oneof![
        6 => (at(), digits).prop_map(|(at, digits)| Act::Read(at, digits)),
        1 => at().prop_map(Act::NotTested),
        2 => Just(Act::Undo),
    ];
    prop::collection::vec(act, 1..40)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_kept_is_what_the_record_says(acts in acts()) {
        let mut program = Program::start();
        program.both();
        for act in acts {
            program.act(&act);
            let (kept, anew) = program.both();
            prop_assert_eq!(kept, anew, "after {:?}", act);
        }
    }
}

#[test]
fn a_reading_far_below_is_marked_and_unmarked_as_the_others_arrive() {
    let mut program = Program::start();
    let marked = |program: &mut Program| {
        let kept = program.state.judged(program.job).unwrap();
        kept.readings.iter().filter(|one| format!("{:?}", one.judgement).contains("FarBelowOthers")).count()
    };
    program.act(&Act::Read((0, 1), "1.01"));
    for at in [(0, 2), (1, 1), (1, 2), (2, 1)] {
        program.act(&Act::Read(at, "487"));
    }
    assert_eq!(marked(&mut program), 0, "four others are too few");
    program.act(&Act::Read((2, 2), "487"));
    assert_eq!(marked(&mut program), 1);
    program.act(&Act::Undo);
    assert_eq!(marked(&mut program), 0, "the fifth was taken back");
    let (kept, anew) = program.both();
    assert_eq!(kept, anew);
}
