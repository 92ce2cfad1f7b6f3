//! A reviewer at another device: accepts with a reason, asks for a new reading, adds an own one. The first reading stays.

use crate::recall::box_wrong_at_one_megohm;
use crate::support::{Program, single_phase};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};

/// A recorder with a board of one circuit, read L–N 0.50, L–PE 50, N–PE 487 MΩ, and a reviewer who has it by a bundle.
struct Scene {
    recorder: Program,
    reviewer: Program,
    job: String,
    board: String,
    tester: String,
}

impl Scene {
    fn new() -> Self {
        let (recorder, reviewer) = (Program::start(), Program::start_with(7));
        let (job, board) = recorder.job();
        recorder.circuits(&board, 1, single_phase());
        let tester = recorder.tester("Tester A");
        recorder.certificate(&tester, "3 Mar 2026", "3 Mar 2027");
        let scene = Self { recorder, reviewer, job, board, tester };
        scene.hold(&scene.recorder);
        for text in ["0.50", "50", "487"] {
            let slot = scene.run(&scene.recorder)["slot"].clone();
            scene.save(&scene.recorder, &slot, text);
        }
        bring(&scene.recorder, &scene.reviewer, &scene.job);
        scene.reviewer.ask("add_person", json!({ "job": scene.job, "name": "R. Reviewer", "role": "reviewer" }));
        scene
    }

    fn hold(&self, program: &Program) {
        program.ask("choose_tester", json!({ "board": self.board, "tester": self.tester }));
        program.ask("set_volts", json!({ "board": self.board, "volts": 500 }));
    }

    fn run(&self, program: &Program) -> Value {
        program.ask("run", json!({ "board": self.board }))
    }

    fn save(&self, program: &Program, slot: &Value, text: &str) -> Value {
        let indication = json!({ "typed": { "text": text, "comparator": "exact", "unit": "m" } });
        program.ask("save_reading", json!({ "board": self.board, "slot": slot, "indication": indication }))
    }

    fn look(&self, program: &Program) -> Value {
        program.ask("look", json!({ "job": self.job }))
    }

    /// The slot of the reading below its limit.
    fn below(&self) -> Value {
        self.look(&self.reviewer)["items"][0]["slot"].clone()
    }

    fn about(&self, slot: &Value, reason: &str) -> Value {
        json!({ "board": self.board, "slot": slot, "reason": reason })
    }

    fn origin(&self, program: &Program, slot: &Value) -> Value {
        program.ask("origin", json!({ "board": self.board, "slot": slot }))
    }

    fn job_view(&self, program: &Program) -> Value {
        program.ask("job", json!({ "job": self.job }))
    }
}

fn bring(from: &Program, to: &Program, job: &str) {
    let written = from.ask("hand_over", json!({ "job": job, "testers": [] }));
    let bytes = std::fs::read(written["files"][0].as_str().unwrap()).unwrap();
    to.ask("take_in_bundle", json!({ "base64": BASE64_STANDARD.encode(bytes) }));
}

fn counts(look: &Value) -> [u64; 4] {
    ["look", "accepted", "asked", "stop"].map(|name| look[name].as_u64().unwrap())
}

#[test]
fn what_is_asked_for_leads_the_recorder_there_and_a_new_reading_answers() {
    let scene = Scene::new();
    let slot = scene.below();
    let asked = scene.reviewer.ask("ask_reading", scene.about(&slot, "far below its neighbours"));
    assert_eq!(asked["words"], "Asked for a new reading: DB-1 · 1 · L–N");
    let look = scene.look(&scene.reviewer);
    assert_eq!(counts(&look), [1, 0, 1, 0], "it is still one to look at");
    assert_eq!(look["items"][0]["asked"], "R. Reviewer asks for a new reading: far below its neighbours");
    assert_eq!(look["boards"][0]["rows"][0]["cells"][0]["asked"], true);
    assert_eq!(scene.run(&scene.recorder)["ended"]["words"], "No pair of this board is open");

    bring(&scene.reviewer, &scene.recorder, &scene.job);
    let job = scene.job_view(&scene.recorder);
    assert!(job["look_words"].as_str().unwrap().ends_with("1 new reading asked for"), "{job}");
    assert!(job["boards"][0]["summary"].as_str().unwrap().ends_with(" · 1 new reading asked for"), "{job}");
    let jobs = scene.recorder.ask("jobs", json!({}));
    assert!(jobs["jobs"][0]["summary"].as_str().unwrap().ends_with(" · 1 new reading asked for"), "{jobs}");
    let run = scene.run(&scene.recorder);
    assert_eq!(run["slot"], slot, "though every pair is filled");
    assert_eq!(run["asked"], "R. Reviewer asks for a new reading: far below its neighbours");
    let marks: Vec<&Value> = run["slots"].as_array().unwrap().iter().map(|slot| &slot["asked"]).collect();
    assert_eq!(marks, [&json!(true), &json!(false), &json!(false)]);
    assert_eq!(run["circuits"][0]["asked"], true);
    assert_eq!(run["hint"], "A new reading replaces 0.50\u{a0}MΩ as repeated");

    let saved = scene.save(&scene.recorder, &slot, "120");
    assert_eq!((&saved["moved"], &saved["run"]["asked"]), (&json!("end"), &Value::Null));
    assert!(!scene.job_view(&scene.recorder)["look_words"].as_str().unwrap().contains("asked"));
    let undone = scene.recorder.ask("undo_reading", json!({ "board": scene.board }));
    assert_eq!(undone["run"]["asked"], run["asked"], "undo opens it again");
    scene.save(&scene.recorder, &slot, "120");
    bring(&scene.recorder, &scene.reviewer, &scene.job);
    assert_eq!(counts(&scene.look(&scene.reviewer)), [0, 0, 0, 0]);
    let origin = scene.origin(&scene.reviewer, &slot);
    assert_eq!(
        (&origin["current"][0]["shown"], &origin["earlier"][1]["shown"]),
        (&json!("120\u{a0}MΩ"), &json!("0.50\u{a0}MΩ"))
    );
    assert!(origin["review"][0]["words"].as_str().unwrap().ends_with("Answered since"), "{origin}");
    assert_eq!(origin["review"][0]["holds"], false);
}

#[test]
fn a_request_is_taken_back_by_undo_and_by_a_reason() {
    let scene = Scene::new();
    let slot = scene.below();
    let asked = scene.reviewer.ask("ask_reading", scene.about(&slot, "looks odd"));
    scene.reviewer.ask("undo", json!({ "token": asked["undo"] }));
    assert_eq!(counts(&scene.look(&scene.reviewer))[2], 0);
    let silent = scene.reviewer.refused("ask_reading", scene.about(&slot, " "));
    assert_eq!((silent.code.as_str(), silent.complaints[0].field.as_str()), ("form", "reason"));
    scene.reviewer.ask("ask_reading", scene.about(&slot, "looks odd"));
    let entry = scene.origin(&scene.reviewer, &slot)["review"][0]["entry"].clone();
    let withdrawn = json!({ "job": scene.job, "entry": entry, "reason": "seen on site" });
    assert_eq!(scene.reviewer.ask("withdraw_review", withdrawn.clone())["words"], "The request is withdrawn");
    assert_eq!(counts(&scene.look(&scene.reviewer))[2], 0);
    assert_eq!(scene.reviewer.refused("withdraw_review", withdrawn).code, "not_found");
}

#[test]
fn a_pair_whose_reading_was_withdrawn_stays_one_to_go_to() {
    let scene = Scene::new();
    let slot = scene.below();
    scene.reviewer.ask("ask_reading", scene.about(&slot, "wrong circuit?"));
    bring(&scene.reviewer, &scene.recorder, &scene.job);
    let reading = scene.origin(&scene.recorder, &slot)["current"][0]["id"].clone();
    let withdrawn = json!({ "job": scene.job, "reading": reading, "reason": "read on the wrong circuit" });
    scene.recorder.ask("withdraw_reading", withdrawn);
    let run = scene.run(&scene.recorder);
    assert_eq!(run["slot"], slot);
    assert_eq!(run["asked"], "R. Reviewer asks for a new reading: wrong circuit?");
    let reason = json!({ "board": scene.board, "slot": slot, "reason": "no_access" });
    let saved = scene.recorder.ask("mark_not_tested", reason);
    assert_eq!(saved["run"]["asked"], Value::Null, "that it cannot be tested is an answer");
}

#[test]
fn what_was_accepted_leaves_the_list_and_no_judgement_changes() {
    let scene = Scene::new();
    let slot = scene.below();
    let before = scene.look(&scene.reviewer);
    let done = scene.reviewer.ask("accept", scene.about(&slot, "an old heating cable, measured twice"));
    assert_eq!(done["words"], "Accepted: DB-1 · 1 · L–N");
    let look = scene.look(&scene.reviewer);
    assert_eq!(counts(&look), [0, 1, 0, 0]);
    assert_eq!(look["words"], "Nothing to look at, 0 block a sign-off · 1 accepted with a reason");
    let item = &look["items"][0];
    let accepted = item["accepted"].as_str().unwrap();
    assert!(accepted.starts_with("Accepted by R. Reviewer ("), "{accepted}");
    assert!(accepted.ends_with("): an old heating cable, measured twice"), "{accepted}");
    assert_eq!((&item["level"], &item["sentences"]), (&json!("look"), &before["items"][0]["sentences"]));
    assert_eq!(look["boards"][0]["rows"][0]["cells"][0]["sign"], "look");
    assert_eq!(look["boards"][0]["rows"][0]["cells"][0]["accepted"], true);
    bring(&scene.reviewer, &scene.recorder, &scene.job);
    assert_eq!(counts(&scene.look(&scene.recorder)), [0, 1, 0, 0], "on every device");
    scene.reviewer.ask("undo", json!({ "token": done["undo"] }));
    assert_eq!(counts(&scene.look(&scene.reviewer)), [1, 0, 0, 0]);
    scene.reviewer.ask("accept", scene.about(&slot, "an old heating cable"));
    let entry = scene.origin(&scene.reviewer, &slot)["review"][0]["entry"].clone();
    scene.reviewer.ask("withdraw_review", json!({ "job": scene.job, "entry": entry, "reason": "cable replaced" }));
    assert_eq!(counts(&scene.look(&scene.reviewer)), [1, 0, 0, 0]);
}

#[test]
fn a_graver_reason_asks_anew_and_the_earlier_acceptance_is_told() {
    let scene = Scene::new();
    let slot = scene.below();
    scene.reviewer.ask("accept", scene.about(&slot, "an old heating cable"));
    assert_eq!(counts(&scene.look(&scene.reviewer)), [0, 1, 0, 0]);
    scene.reviewer.ask("record_quick_check", box_wrong_at_one_megohm(&scene.tester));
    let look = scene.look(&scene.reviewer);
    assert_eq!(counts(&look), [2, 0, 0, 0], "and another one is in doubt");
    let item = &look["items"][0];
    assert_eq!((&item["slot"], &item["accepted"]), (&slot, &Value::Null));
    let before = item["accepted_before"].as_str().unwrap();
    assert!(before.starts_with("Accepted before by R. Reviewer"), "{before}");
    scene.reviewer.ask("accept", scene.about(&slot, "measured again with another tester"));
    assert_eq!(counts(&scene.look(&scene.reviewer)), [1, 1, 0, 0]);
}

#[test]
fn a_new_reading_is_not_accepted_by_what_was_said_of_the_first() {
    let scene = Scene::new();
    let slot = scene.below();
    scene.reviewer.ask("accept", scene.about(&slot, "an old heating cable"));
    scene.hold(&scene.reviewer);
    scene.save(&scene.recorder, &slot, "0.40");
    bring(&scene.recorder, &scene.reviewer, &scene.job);
    assert_eq!(counts(&scene.look(&scene.reviewer)), [1, 0, 0, 0]);
}

#[test]
fn a_stop_cannot_be_accepted_and_nothing_to_look_at_neither() {
    let scene = Scene::new();
    let fine = scene.run(&scene.recorder)["slots"].clone();
    let nothing = scene.look(&scene.reviewer)["boards"][0]["rows"][0]["cells"][2]["slot"].clone();
    assert!(fine.is_array());
    assert_eq!(scene.reviewer.refused("accept", scene.about(&nothing, "fine")).code, "accept_nothing");
    // Both devices repeat one reading: two values stand side by side.
    let slot = scene.below();
    scene.save(&scene.recorder, &slot, "0.60");
    scene.hold(&scene.reviewer);
    scene.save(&scene.reviewer, &slot, "0.70");
    bring(&scene.recorder, &scene.reviewer, &scene.job);
    let refused = scene.reviewer.refused("accept", scene.about(&slot, "either will do"));
    assert_eq!(refused.code, "accept_stopped");
    assert_eq!(refused.words, "A stop cannot be accepted: settle, correct or repeat the reading");
    assert_eq!(scene.origin(&scene.reviewer, &slot)["acceptable"], false);
}

#[test]
fn a_pair_not_tested_is_accepted_as_long_as_that_is_what_was_said() {
    let scene = Scene::new();
    let slot = scene.below();
    let asked = |reason: &str| json!({ "board": scene.board, "slot": slot, "reason": reason });
    let reading = scene.origin(&scene.recorder, &slot)["current"][0]["id"].clone();
    scene.recorder.ask("withdraw_reading", json!({ "job": scene.job, "reading": reading, "reason": "wrong circuit" }));
    scene.recorder.ask("mark_not_tested", asked("no_access"));
    bring(&scene.recorder, &scene.reviewer, &scene.job);
    assert_eq!(counts(&scene.look(&scene.reviewer)), [1, 0, 0, 0]);
    scene.reviewer.ask("accept", scene.about(&slot, "the landlord has it tested"));
    let look = scene.look(&scene.reviewer);
    assert_eq!((counts(&look), &look["not_tested"]), ([0, 1, 0, 0], &json!(1)));
    scene.reviewer.ask("mark_not_tested", asked("live"));
    assert_eq!(counts(&scene.look(&scene.reviewer)), [1, 0, 0, 0], "another statement");
}

/// Whatever a reviewer does, the first reading is the entry it was, and is told under whoever took it.
#[test]
fn the_reviewer_never_overwrites() {
    let scene = Scene::new();
    let slot = scene.below();
    let first = |program: &Program| -> Value {
        let file: Value = serde_json::from_str(&program.api.job_file(&scene.job).unwrap()).unwrap();
        let one = &file["readings"][0];
        json!([one["reading"], one["recorded_at"], one["device"], one["why"], one["corrections"]])
    };
    let before = first(&scene.recorder);
    scene.hold(&scene.reviewer);
    let acts: [(&str, Value); 3] = [
        ("accept", scene.about(&slot, "an old heating cable")),
        ("ask_reading", scene.about(&slot, "looks odd")),
        (
            "save_reading",
            json!({ "board": scene.board, "slot": slot, "indication": { "typed": { "text": "120", "comparator": "exact", "unit": "m" } } }),
        ),
    ];
    for (act, asked) in acts {
        scene.reviewer.ask(act, asked);
        assert_eq!(first(&scene.reviewer), before, "{act}");
    }
    let origin = scene.origin(&scene.reviewer, &slot);
    let who = |reading: &Value| reading["lines"][0]["value"].clone();
    let standing = |at: usize| (who(&origin["current"][at]), origin["current"][at]["shown"].clone());
    assert_eq!(standing(0), (json!("A. Recorder"), json!("0.50\u{a0}MΩ")), "both stand");
    assert_eq!(standing(1), (json!("R. Reviewer"), json!("120\u{a0}MΩ")), "by whoever took it");
    assert_eq!(origin["earlier"], json!([]));
    assert_eq!(counts(&scene.look(&scene.reviewer))[3], 1, "which one counts is settled");
    bring(&scene.reviewer, &scene.recorder, &scene.job);
    assert_eq!(first(&scene.recorder), before);
}

/// Replacing and withdrawing are for whoever took the reading, and for anyone once somebody else asks for it anew.
#[test]
fn what_another_read_is_neither_replaced_nor_withdrawn() {
    let scene = Scene::new();
    let slot = scene.below();
    let reading = scene.origin(&scene.reviewer, &slot)["current"][0]["id"].clone();
    let again = json!({ "job": scene.job, "reading": reading, "text": "120", "comparator": "exact", "unit": "m", "why": "mistyped" });
    let withdrawn = json!({ "job": scene.job, "reading": reading, "reason": "looks odd" });
    let changeable = |program: &Program| scene.origin(program, &slot)["current"][0]["changeable"].clone();
    let refuses = |when: &str| {
        for (act, asked) in [("replace_reading", &again), ("withdraw_reading", &withdrawn)] {
            let refused = scene.reviewer.refused(act, asked.clone());
            assert_eq!(refused.code, "reading_of_another", "{act}, {when}");
            assert!(refused.words.contains("Ask for a new one, or add your own"), "{}", refused.words);
        }
        assert_eq!((changeable(&scene.reviewer), changeable(&scene.recorder)), (json!(false), json!(true)), "{when}");
    };
    refuses("at first");
    scene.reviewer.ask("ask_reading", scene.about(&slot, "looks odd"));
    refuses("to ask is not to be asked");
    // A third person at the reviewer's device is asked like the recorder.
    let view = scene.reviewer.ask("add_person", json!({ "job": scene.job, "name": "C. Recorder", "role": "recorder" }));
    let people = view["people"].as_array().unwrap();
    let third = people.iter().find(|one| one["name"] == "C. Recorder").unwrap()["id"].clone();
    scene.reviewer.ask("be_person", json!({ "job": scene.job, "person": third }));
    assert_eq!(changeable(&scene.reviewer), true);
    let undo = scene.reviewer.ask("replace_reading", again.clone())["undo"].clone();
    assert_eq!(scene.origin(&scene.reviewer, &slot)["earlier"][0]["changeable"], false, "it no longer stands");
    scene.reviewer.ask("undo", json!({ "token": undo }));
    // The recorder mends it after all, having been asked, and takes that back.
    bring(&scene.reviewer, &scene.recorder, &scene.job);
    assert_eq!(changeable(&scene.recorder), true);
    let mended = scene.recorder.ask("replace_reading", again);
    scene.recorder.ask("undo", json!({ "token": mended["undo"] }));
    assert_eq!(scene.origin(&scene.recorder, &slot)["current"][0]["id"], reading);
    // What it was read with may be put right by anyone, with a reason: the old value stays in sight.
    let correct = json!({ "job": scene.job, "readings": [reading], "volts": 250, "reason": "set to 250 V that day" });
    scene.reviewer.ask("correct_readings", correct);
    scene.recorder.ask("withdraw_reading", withdrawn);
    assert_eq!(scene.origin(&scene.recorder, &slot)["current"], json!([]));
}

#[test]
fn what_is_signed_says_what_was_accepted_and_asked_for() {
    let scene = Scene::new();
    let slot = scene.below();
    scene.reviewer.ask("accept", scene.about(&slot, "an old heating cable"));
    let other = scene.look(&scene.reviewer)["boards"][0]["rows"][0]["cells"][1]["slot"].clone();
    scene.reviewer.ask("ask_reading", scene.about(&other, "read it at 500 V again"));
    let view = scene.reviewer.ask("sign_off_view", json!({ "job": scene.job }));
    assert_eq!(view["counts"], json!(["3 readings", "1 line accepted with a reason"]));
    let open: Vec<&str> =
        view["open"].as_array().unwrap().iter().map(|it| it["said"]["words"].as_str().unwrap()).collect();
    assert!(open.contains(&"1 new reading is asked for"), "{open:?}");
    let signed = scene.reviewer.ask("sign_off", json!({ "job": scene.job, "name": "R. Reviewer" }));
    let paper = |format: &str| {
        let asked = json!({ "job": scene.job, "format": format, "as_signed": signed["signed"][0]["entry"] });
        std::fs::read(scene.reviewer.ask("make_schedule", asked)["files"][0].as_str().unwrap()).unwrap()
    };
    let pdf = paper("pdf");
    let told = scene.reviewer.ask("verify_file", json!({ "files": [BASE64_STANDARD.encode(&pdf)] }));
    assert_eq!((&told["holds"], &told["words"]), (&json!(true), &json!("What was signed is as it was signed")));
    let csv = String::from_utf8(paper("csv")).unwrap();
    assert!(csv.contains("an old heating cable,R. Reviewer,2026-11-25T"), "{csv}");
}

/// Both go with the file, under the ids of the job that is made from it; without a reason they are refused.
#[test]
fn requests_and_acceptances_go_with_the_job_file() {
    let scene = Scene::new();
    let slot = scene.below();
    scene.reviewer.ask("accept", scene.about(&slot, "an old heating cable"));
    scene.reviewer.ask("ask_reading", scene.about(&slot, "looks odd"));
    let file: Value = serde_json::from_str(&scene.reviewer.api.job_file(&scene.job).unwrap()).unwrap();
    assert_eq!(file["accepted"][0]["codes"], json!(["below"]));
    let other = Program::start_with(9);
    let imported = other.ask("import_job_file", json!({ "text": file.to_string() }));
    let look = other.ask("look", json!({ "job": imported["job"] }));
    assert_eq!(counts(&look), [0, 1, 1, 0]);
    assert_eq!(look["items"][0]["accepted"], scene.look(&scene.reviewer)["items"][0]["accepted"]);
    for list in ["accepted", "requested"] {
        let mut silent = file.clone();
        silent[list][0]["reason"] = json!(" ");
        let refused = Program::start().refused("import_job_file", json!({ "text": silent.to_string() }));
        assert_eq!(refused.code, "not_a_job_file");
        assert!(refused.words.contains(&format!("{list}[0]")), "{refused:?}");
    }
}
