#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
//! Whatever is done at the bench, in whatever order: each figure is found again, and the record rebuilt says the same.

use crate::failure::Failure;
use crate::operations::dispatch;
use crate::state::State;
use crate::testing;
use proptest::prelude::*;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// What one does at the bench.
#[derive(Clone, Debug)]
enum Act {
    /// Jumps to a step and saves with one of its keys.
    Measure {
        step: usize,
        key: usize,
        digits: &'static str,
    },
    /// Saves over-range there.
    OverRange {
        step: usize,
    },
    /// Leaves digits half typed there.
    Draft {
        step: usize,
        digits: &'static str,
    },
    Skip,
    Undo,
    /// Withdraws the figure at that place of all that still stand, with a reason or without.
    Withdraw {
        which: usize,
        reason: &'static str,
    },
    Series(&'static str),
    Temperature(&'static str),
    Look(&'static str),
    Close(&'static str),
    /// The program ends and starts again.
    Restart,
}

/// A figure that was saved: where, as what, and in which series.
#[derive(Clone, Debug, PartialEq)]
struct Saved {
    step: Value,
    words: Value,
    series: Value,
    /// Whether it still counts.
    stands: bool,
}

/// Every part answered alike.
fn look_of(answer: &str) -> Value {
    ["case", "leads", "marked_category", "marked_standard", "battery"]
        .into_iter()
        .map(|part| (part.to_owned(), json!(answer)))
        .collect::<serde_json::Map<_, _>>()
        .into()
}

struct Bench {
    state: Option<State>,
    id: Value,
    tester: Value,
    saved: BTreeMap<String, Saved>,
}

impl Bench {
    /// A run with a decade box, a voltmeter and a current meter.
    fn start() -> Self {
        let mut bench =
            Self { state: Some(testing::state()), id: Value::Null, tester: Value::Null, saved: BTreeMap::new() };
        bench.ask("start_job", json!({ "name": "Mill Lane", "place": "", "person": "A. Recorder" })).unwrap();
        let range =
            json!({ "from": "0.05 MΩ", "to": "999 MΩ", "resolution": "0.01 MΩ", "percent": "3", "digits": "2" });
        let card = json!({ "voltages": [{ "volts": "500", "over_range": "999 MΩ", "ranges": [range] }] });
        let tester = json!({ "identity": { "name": "T", "serial": "1" }, "card": card });
        bench.tester = bench.ask("save_tester", tester).unwrap()["id"].take();
        let value = |nominal: &str| json!({ "nominal": nominal, "within_percent": "0.1", "stated_as": "tolerance", "rated_voltage": "1000" });
        let forms = [
            ("decade_box", "", ["0.5 MΩ", "1 MΩ", "100 MΩ"].map(value).to_vec()),
            ("voltmeter", "1 GΩ", vec![value("1500 V")]),
            ("current_meter", "", vec![value("20 mA")]),
        ];
        let mut references = Value::Null;
        for (kind, input, values) in forms {
            let form =
                json!({ "kind": kind, "name": kind, "serial": kind, "input_resistance": input, "values": values });
            references = bench.ask("save_reference", json!({ "form": form })).unwrap()["references"].take();
        }
        let references: Vec<Value> = references.as_array().unwrap().iter().map(|one| one["id"].clone()).collect();
        let mut start = json!({ "tester": bench.tester, "references": references, "edition": "iec-61557-2-2019" });
        let plan = bench.ask("plan_bench", start.clone()).unwrap();
        start["plan"] = plan["points"].as_array().unwrap().iter().map(|one| one["point"].clone()).collect();
        start["rule"] = json!("simple");
        bench.id = bench.ask("start_bench", start).unwrap()["id"].take();
        bench
    }

    fn ask(&mut self, operation: &str, input: Value) -> Result<Value, Failure> {
        let answer = dispatch(self.state.as_mut().unwrap(), operation, input);
        // A refusal has words for the person; nothing may break.
        assert_ne!(answer.as_ref().err().map(|failure| failure.code.as_str()), Some("unexpected"), "{operation}");
        answer
    }

    fn view(&mut self) -> Value {
        self.ask("bench", json!({ "bench": self.id })).unwrap()
    }

    /// Jumps to a step; the run then.
    fn go(&mut self, step: usize) -> Value {
        let view = self.view();
        let steps = view["steps"].as_array().unwrap();
        let step = &steps[step % steps.len()]["id"];
        self.ask("bench", json!({ "bench": self.id, "step": step })).unwrap()
    }

    /// Every figure of the series in hand: its step, its words, and whether it counts.
    fn found(view: &Value) -> BTreeMap<String, Saved> {
        let steps = view["steps"].as_array().unwrap().iter();
        let shown = steps.flat_map(|step| step["shown"].as_array().unwrap().iter().map(move |one| (step, one)));
        let saved = shown.map(|(step, one)| {
            let saved = Saved {
                step: step["id"].clone(),
                words: one["words"].clone(),
                series: view["series"].clone(),
                stands: one["withdrawn"].is_null(),
            };
            (one["id"].as_str().unwrap().to_owned(), saved)
        });
        saved.collect()
    }

    /// Measures, and notes the one figure that came of it.
    fn measure(&mut self, asked: Value) {
        let step = asked["step"].clone();
        let Ok(view) = self.ask("measure", asked) else { return };
        let mut new: Vec<(String, Saved)> =
            Self::found(&view).into_iter().filter(|(id, _)| !self.saved.contains_key(id)).collect();
        let (id, saved) = new.pop().expect("what was saved is shown");
        assert!(new.is_empty() && saved.step == step && saved.stands, "{saved:?}");
        assert_eq!(view["last"]["shown"], saved.words);
        self.saved.insert(id, saved);
    }

    fn act(&mut self, act: &Act) {
        let id = self.id.clone();
        match act {
            Act::Measure { step, key, digits } => {
                let view = self.go(*step);
                let keys = view["pad"]["keys"].as_array().unwrap();
                let key = &keys[key % keys.len()]["key"];
                let text = if view["pad"]["digits"] == true { *digits } else { "" };
                self.measure(json!({ "bench": id, "step": view["current"], "key": key, "text": text }));
            }
            Act::OverRange { step } => {
                let step = self.go(*step)["current"].take();
                self.measure(json!({ "bench": id, "step": step, "key": "over_range" }));
            }
            Act::Draft { step, digits } => {
                let step = self.go(*step)["current"].take();
                let draft = json!({ "bench": id, "step": step, "text": digits, "comparator": "exact" });
                let kept = self.ask("bench_draft", draft).is_ok();
                assert!(!kept || self.view()["pad"]["draft"]["text"] == *digits);
            }
            Act::Skip => {
                let step = self.view()["current"].take();
                let _at_the_end = self.ask("skip_step", json!({ "bench": id, "step": step }));
            }
            Act::Undo => {
                // Nothing to undo is an answer too; what it reached may be of the other series.
                let _nothing = self.ask("undo_measured", json!({ "bench": id }));
                self.note_withdrawn();
            }
            Act::Withdraw { which, reason } => {
                let standing: Vec<String> =
                    self.saved.iter().filter(|(_, one)| one.stands).map(|(id, _)| id.clone()).collect();
                let Some(measured) = standing.get(which % standing.len().max(1)) else { return };
                let asked = json!({ "bench": id, "measured": measured, "reason": reason });
                let done = self.ask("withdraw_measured", asked).is_ok();
                assert!(done != reason.is_empty(), "a reason is all it takes");
                self.note_withdrawn();
            }
            Act::Series(series) => drop(self.ask("set_series", json!({ "bench": id, "series": series })).unwrap()),
            Act::Temperature(typed) => drop(self.ask("set_temperature", json!({ "bench": id, "temperature": typed }))),
            Act::Look(answer) => {
                drop(self.ask("set_bench_look", json!({ "bench": id, "look": look_of(answer) })).unwrap());
            }
            Act::Close(reason) => {
                drop(self.ask("close_bench", json!({ "bench": id, "valid_until": "24 Nov 2027", "reason": reason })));
            }
            Act::Restart => {
                let State { record, host, .. } = self.state.take().unwrap();
                self.state = Some(State::new(record, host, std::path::PathBuf::new()));
            }
        }
    }

    /// Undo and withdrawal take one figure at most out of what counts, and none away.
    fn note_withdrawn(&mut self) {
        let mut gone = 0;
        for series in ["as_found", "as_left"] {
            for (id, found) in self.of_series(series) {
                let known = self.saved.get_mut(&id).expect("nothing appears by itself");
                gone += usize::from(known.stands && !found.stands);
                known.stands &= found.stands;
            }
        }
        assert!(gone <= 1);
    }

    /// What stands on record in a series; the run stays in the one it was in.
    fn of_series(&mut self, series: &str) -> BTreeMap<String, Saved> {
        let here = self.view()["series"].take();
        let view = self.ask("set_series", json!({ "bench": self.id, "series": series })).unwrap();
        self.ask("set_series", json!({ "bench": self.id, "series": here })).unwrap();
        Self::found(&view)
    }

    /// Each figure is found again as it was saved, and nothing else.
    fn check_found(&mut self) {
        let mut found = self.of_series("as_found");
        found.extend(self.of_series("as_left"));
        assert_eq!(found, self.saved);
    }

    /// The run, what it comes to, and the tester's own page.
    fn said(&mut self) -> [Value; 3] {
        let result = self.ask("bench_result", json!({ "bench": self.id })).unwrap_or(Value::Null);
        let tester = self.ask("tester", json!({ "tester": self.tester })).unwrap();
        [self.view(), result, tester]
    }

    /// The record made anew from its entries is the record, and says the same.
    fn check_rebuilt(&mut self) {
        let (said, before) = (self.said(), self.state.as_ref().unwrap().record.projection().unwrap());
        self.state.as_mut().unwrap().record.rebuild().unwrap();
        assert_eq!(self.state.as_ref().unwrap().record.projection().unwrap(), before);
        self.act(&Act::Restart);
        assert_eq!(self.said(), said);
    }
}

fn acts() -> impl Strategy<Value = Vec<Act>> {
    let digits = || prop::sample::select(vec!["0.00", "0.88", "1.01", "12.", "100", "510", "0.5", "99999", ""]);
    let act = prop_oneof![
        8 => (0usize..60, 0usize..4, digits()).prop_map(|(step, key, digits)| Act::Measure { step, key, digits }),
        1 => (0usize..60).prop_map(|step| Act::OverRange { step }),
        1 => (0usize..60, digits()).prop_map(|(step, digits)| Act::Draft { step, digits }),
        1 => Just(Act::Skip),
        2 => Just(Act::Undo),
        1 => (0usize..20, prop::sample::select(vec!["leads apart", ""]))
            .prop_map(|(which, reason)| Act::Withdraw { which, reason }),
        1 => prop::sample::select(vec!["as_found", "as_left"]).prop_map(Act::Series),
        1 => prop::sample::select(vec!["23", "warm", ""]).prop_map(Act::Temperature),
        1 => prop::sample::select(vec!["yes", "no"]).prop_map(Act::Look),
        1 => prop::sample::select(vec!["", "one point was mistyped"]).prop_map(Act::Close),
        1 => Just(Act::Restart),
    ];
    prop::collection::vec(act, 1..25)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn each_figure_is_found_again_and_the_record_rebuilt_says_the_same(acts in acts()) {
        let mut bench = Bench::start();
        for act in acts {
            bench.act(&act);
            bench.check_found();
        }
        bench.check_rebuilt();
    }
}
