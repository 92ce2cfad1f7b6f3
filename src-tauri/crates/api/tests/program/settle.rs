//! Two devices do something to one thing apart; both hand over, and a person settles on one of them.

use crate::support::{Program, single_phase, slot_at_500_v};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};

/// Two devices that hold one job with a board of two circuits and one tester.
pub(crate) struct Two {
    pub(crate) one: Program,
    pub(crate) other: Program,
    pub(crate) job: String,
    pub(crate) board: String,
    pub(crate) tester: String,
}

impl Two {
    pub(crate) fn start() -> Self {
        let one = Program::start();
        let (job, board) = one.job();
        one.circuits(&board, 2, single_phase());
        let tester = one.tester("Tester A");
        one.certificate(&tester, "3 Mar 2026", "3 Mar 2027");
        one.ask("choose_tester", json!({ "board": board, "tester": tester }));
        let other = Program::start_with(7);
        give(&one, &other, &job);
        let person = other.ask("add_person", json!({ "job": job, "name": "B. Recorder" }))["people"].clone();
        let person = person.as_array().unwrap().iter().find(|it| it["name"] == "B. Recorder").unwrap()["id"].clone();
        other.ask("be_person", json!({ "job": job, "person": person }));
        other.ask("choose_tester", json!({ "board": board, "tester": tester }));
        give(&other, &one, &job);
        Self { one, other, job, board, tester }
    }

    /// The same asked of both devices, with something that differs.
    fn apart(&self, operation: &str, input: impl Fn(&str) -> Value) {
        self.one.ask(operation, input("one"));
        self.other.ask(operation, input("other"));
    }

    /// Each gives the other what it has; the questions, which are the same on both but for whose device is whose.
    pub(crate) fn meet(&self) -> Vec<Value> {
        give(&self.one, &self.other, &self.job);
        give(&self.other, &self.one, &self.job);
        let (one, other) = (open(&self.one, &self.job), open(&self.other, &self.job));
        let bare = |all: &[Value]| -> Vec<Value> {
            all.iter().map(|it| json!([it["id"], it["asks"], it["place"], choices(it)])).collect()
        };
        assert_eq!(bare(&one), bare(&other));
        one
    }

    /// Settles on the first device, hands it over, and holds that nothing is open on either.
    fn settled(&self, question: &Value, choice: usize) -> Value {
        let answer =
            json!({ "job": self.job, "question": question["id"], "choice": question["choices"][choice]["id"] });
        let settled = self.one.ask("settle", answer.clone());
        assert_eq!(settled["view"]["questions"], json!([]));
        assert_eq!(self.one.refused("settle", answer).code, "not_found", "settled once");
        assert_eq!(self.meet(), Vec::<Value>::new());
        let undo = settled["done"]["undo"].clone();
        assert_eq!(self.listed(&undo).len(), 1, "it can be taken back later: {settled}");
        undo
    }

    /// What of the list of what was settled is taken back by this.
    fn listed(&self, undo: &Value) -> Vec<Value> {
        let made = self.one.ask("settling", json!({ "job": self.job }))["made"].clone();
        made.as_array().unwrap().iter().filter(|it| it["undo"] == *undo).cloned().collect()
    }

    /// Takes a settling back: the question is there again.
    fn open_again(&self, undo: &Value, question: &Value) {
        self.one.ask("undo", json!({ "token": undo }));
        assert_eq!(open(&self.one, &self.job), std::slice::from_ref(question));
        assert_eq!(self.listed(undo), Vec::<Value>::new());
    }

    pub(crate) fn circuit(&self, program: &Program, at: usize) -> Value {
        program.ask("circuits", json!({ "board": self.board }))["circuits"][at].clone()
    }
}

pub(crate) fn give(from: &Program, to: &Program, job: &str) {
    let path = from.ask("hand_over", json!({ "job": job, "testers": [] }))["files"][0].clone();
    let bytes = std::fs::read(path.as_str().unwrap()).unwrap();
    to.ask("take_in_bundle", json!({ "base64": BASE64_STANDARD.encode(bytes) }));
}

pub(crate) fn open(program: &Program, job: &str) -> Vec<Value> {
    program.ask("settling", json!({ "job": job }))["questions"].as_array().unwrap().clone()
}

pub(crate) fn choices(question: &Value) -> Vec<String> {
    question["choices"].as_array().unwrap().iter().map(|it| it["words"].as_str().unwrap().to_owned()).collect()
}

/// Reads the first pair.
pub(crate) fn read(program: &Program, board: &str, text: &str) {
    let slot = slot_at_500_v(program, board);
    let typed = json!({ "typed": { "text": text, "comparator": "exact", "unit": "m" } });
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
}

/// The one question, with its words, its place and its choices.
fn one_question(two: &Two, asks: &str, place: &str, wanted: &[&str]) -> Value {
    let all = two.meet();
    let [question] = &all[..] else { panic!("{all:?}") };
    assert_eq!((&question["asks"], &question["place"]), (&json!(asks), &json!(place)));
    let mut said = choices(question);
    said.sort();
    assert_eq!(said, wanted);
    question.clone()
}

fn at(question: &Value, words: &str) -> usize {
    choices(question).iter().position(|it| it == words).unwrap()
}

#[test]
fn two_readings_of_a_pair_say_who_where_when_and_with_which_tester() {
    let two = Two::start();
    read(&two.one, &two.board, "487");
    read(&two.other, &two.board, "350");
    let question = one_question(&two, "Two readings of one pair", "DB-1 · 1 · L–N", &["350\u{a0}MΩ", "487\u{a0}MΩ"]);
    let said = &question["choices"][at(&question, "350\u{a0}MΩ")]["lines"];
    assert!(said[0].as_str().unwrap().starts_with("B. Recorder, device "), "{said}");
    assert!(said[1].as_str().unwrap().starts_with("25 Nov 2026 11:0"), "{said}");
    assert_eq!(said[2], "Tester A, serial number serial Tester A, 500\u{a0}V");
    let own = &question["choices"][at(&question, "487\u{a0}MΩ")]["lines"];
    assert_eq!(own[0], "A. Recorder, this device");
    assert!(question["both"].is_string(), "a third way");
    let stop = |program: &Program| program.ask("job", json!({ "job": two.job }))["stop"].clone();
    assert_eq!(stop(&two.one), 1);
    let undo = two.settled(&question, at(&question, "350\u{a0}MΩ"));
    assert_eq!((stop(&two.one), stop(&two.other)), (json!(0), json!(0)));
    two.open_again(&undo, &question);
    let both = json!({ "job": two.job, "question": question["id"], "choice": "both" });
    assert_eq!(two.one.ask("settle", both)["view"]["words"], "Nothing to settle");
    assert_eq!(two.meet(), Vec::<Value>::new());
}

/// The screen may be left and the app ended: what was settled stands in the record, and whoever did it takes it back.
#[test]
fn a_settling_is_taken_back_later_by_whoever_made_it() {
    let two = Two::start();
    read(&two.one, &two.board, "487");
    read(&two.other, &two.board, "350");
    let question = two.meet().remove(0);
    two.settled(&question, at(&question, "350\u{a0}MΩ"));
    let made = |program: &Program| program.ask("settling", json!({ "job": two.job }))["made"].clone();
    let (here, there) = (made(&two.one), made(&two.other));
    assert_eq!(here[0]["words"], "DB-1 · 1 · L–N: 350\u{a0}MΩ");
    assert!(here[0]["by"].as_str().unwrap().starts_with("A. Recorder, this device, 25 Nov 2026"), "{here}");
    assert_eq!((here.as_array().unwrap().len(), &there[0]["words"]), (1, &here[0]["words"]));
    assert_eq!(there[0]["undo"], Value::Null, "another device's choice is not this one's to undo");
    two.open_again(&here[0]["undo"], &question);
    assert_eq!(made(&two.one), json!([]));
}

/// Nobody took it back: the other was chosen, and that is what every place says of it, and a job made of the file.
#[test]
fn what_was_not_chosen_is_told_as_that() {
    let two = Two::start();
    read(&two.one, &two.board, "487");
    read(&two.other, &two.board, "350");
    let question = two.meet().remove(0);
    let undo = two.settled(&question, at(&question, "350\u{a0}MΩ"));
    let slot = two.one.ask("look", json!({ "job": two.job }))["boards"][0]["rows"][0]["cells"][0]["slot"].clone();
    let earlier = |program: &Program, board: &Value| {
        let all = program.ask("origin", json!({ "board": board, "slot": slot }))["earlier"].clone();
        (all[0]["shown"].clone(), all[0]["what"].as_str().unwrap().to_owned(), all[1].clone())
    };
    let (shown, what, more) = earlier(&two.other, &json!(two.board));
    assert_eq!((shown, more), (json!("487\u{a0}MΩ"), Value::Null));
    assert!(what.starts_with("not chosen by A. Recorder, 25 Nov 2026 10:"), "{what}");
    assert!(what.ends_with(": another reading of the pair was chosen"), "{what}");
    let past = |program: &Program, job: &str| -> Vec<Value> {
        let file: Value = serde_json::from_str(&program.api.job_file(job).unwrap()).unwrap();
        file["readings"].as_array().unwrap().iter().map(|one| one["past"]["fate"]["kind"].clone()).collect()
    };
    let mut said = past(&two.one, &two.job);
    assert_eq!(said.iter().filter(|it| **it == "not_chosen").count(), 1, "{said:?}");
    said.retain(|it| !it.is_null());
    assert_eq!(said, ["not_chosen"]);
    let csv = two.one.ask("make_schedule", json!({ "job": two.job, "format": "csv" }))["files"][0].clone();
    let csv = std::fs::read_to_string(csv.as_str().unwrap()).unwrap();
    assert!(csv.contains(",not_chosen,") && !csv.contains(",withdrawn,"), "{csv}");
    let pdf = two.one.ask("make_schedule", json!({ "job": two.job, "format": "pdf" }))["files"][0].clone();
    let page = crate::sign_off::paper(&pdf.as_str().unwrap().into());
    assert!(page.contains("Not chosen: another reading of the pair was chosen"), "{page}");
    // A new job made of the file chooses as this one did.
    let third = Program::start_with(9);
    let text = two.one.api.job_file(&two.job).unwrap();
    let job = third.ask("import_job_file", json!({ "text": text }))["job"].as_str().unwrap().to_owned();
    assert_eq!(past(&third, &job), past(&two.one, &two.job));
    assert_eq!(open(&third, &job), Vec::<Value>::new(), "nothing is asked again");
    two.open_again(&undo, &question);
}

#[test]
fn two_names_of_a_job() {
    let two = Two::start();
    two.apart("set_job_names", |who| json!({ "job": two.job, "name": format!("Mill {who}"), "place": "North" }));
    let question = one_question(&two, "Two names of the job", "Mill one", &["Mill one · North", "Mill other · North"]);
    assert_eq!(question["both"], Value::Null, "one of them counts");
    let undo = two.settled(&question, at(&question, "Mill other · North"));
    assert_eq!(two.one.ask("job", json!({ "job": two.job }))["name"], "Mill other");
    two.open_again(&undo, &question);
}

#[test]
fn two_sets_of_rules() {
    let two = Two::start();
    let set = two.one.ask("job", json!({ "job": two.job }))["limit_set"]["name"].clone();
    two.apart("set_job_rules", |who| {
        let policy = if who == "one" { "guarded" } else { "simple" };
        json!({ "job": two.job, "limit_set": set, "value_policy": policy, "tester_policy": "full", "reason": "asked" })
    });
    let all = two.meet();
    assert_eq!(all[0]["asks"], "Two sets of rules for the job");
    let said = choices(&all[0]);
    assert!(said.iter().all(|it| it.starts_with("Judged by IEC 60364-6:2016: ")) && said[0] != said[1], "{said:?}");
    let undo = two.settled(&all[0], 1);
    two.open_again(&undo, &all[0]);
}

#[test]
fn two_lists_of_people() {
    let two = Two::start();
    for (program, name) in [(&two.one, "C. one"), (&two.other, "C. other")] {
        let people = program.ask("add_person", json!({ "job": two.job, "name": name }))["people"].clone();
        // A name goes along once its person has written something.
        let id = people.as_array().unwrap().iter().find(|it| it["name"] == name).unwrap()["id"].clone();
        program.ask("be_person", json!({ "job": two.job, "person": id }));
        program.ask("confirm_cautions", json!({ "job": two.job }));
    }
    let wanted = ["A. Recorder, B. Recorder, C. one", "A. Recorder, B. Recorder, C. other"];
    let question = one_question(&two, "Two lists of the people of the job", "Mill Lane", &wanted);
    let undo = two.settled(&question, 0);
    two.open_again(&undo, &question);
}

#[test]
fn two_names_of_a_board() {
    let two = Two::start();
    two.apart("rename_board", |who| json!({ "board": two.board, "name": format!("DB {who}") }));
    let question = one_question(&two, "Two names of one board", "DB one", &["DB one", "DB other"]);
    let undo = two.settled(&question, at(&question, "DB other"));
    assert_eq!(two.other.ask("job", json!({ "job": two.job }))["boards"][0]["name"], "DB other");
    two.open_again(&undo, &question);
}

#[test]
fn two_orders_of_circuits() {
    let two = Two::start();
    two.one.circuits(&two.board, 1, single_phase());
    assert_eq!(two.meet(), Vec::<Value>::new());
    let [first, third] = [0, 2].map(|at| two.circuit(&two.one, at)["id"].clone());
    two.one.ask("move_circuit", json!({ "circuit": third, "by": -2 }));
    two.other.ask("move_circuit", json!({ "circuit": first, "by": 1 }));
    let question = one_question(&two, "Two orders of the circuits", "DB-1", &["2, 1, 3", "3, 1, 2"]);
    let undo = two.settled(&question, at(&question, "2, 1, 3"));
    assert_eq!(two.circuit(&two.one, 0)["reference"], "2");
    two.open_again(&undo, &question);
}

#[test]
fn two_names_of_a_circuit_and_two_descriptions_of_what_it_is() {
    let two = Two::start();
    let circuit = two.circuit(&two.one, 0);
    let save = |program: &Program, description: &str, nominal: &str| {
        let mut form = circuit["form"].clone();
        form["description"] = json!(description);
        form["nominal"] = json!(nominal);
        program.ask("save_circuit", json!({ "board": two.board, "circuit": circuit["id"], "form": form }));
    };
    save(&two.one, "Oven", "230");
    save(&two.other, "Stove", "230");
    let question = one_question(&two, "Two names of one circuit", "DB-1 · 1 Oven", &["1 Oven", "1 Stove"]);
    let undo = two.settled(&question, at(&question, "1 Stove"));
    assert_eq!(two.circuit(&two.other, 0)["description"], "Stove");
    two.open_again(&undo, &question);
    two.settled(&question, at(&question, "1 Stove"));

    save(&two.one, "Stove", "110");
    save(&two.other, "Stove", "400");
    let all = two.meet();
    assert_eq!(all[0]["asks"], "Two descriptions of what one circuit is");
    assert!(choices(&all[0]).iter().any(|it| it.starts_with("110\u{a0}V a.c., ")), "{all:?}");
    let undo = two.settled(&all[0], 0);
    two.open_again(&undo, &all[0]);
}

#[test]
fn two_corrections_of_a_reading_settle_what_they_dispute_and_nothing_else() {
    let two = Two::start();
    read(&two.one, &two.board, "487");
    read(&two.one, &two.board, "350");
    assert_eq!(two.meet(), Vec::<Value>::new());
    let rows = two.one.ask("readings", json!({ "job": two.job }))["rows"].clone();
    let [first, second] = [0, 1].map(|at| rows[at]["reading"].clone());
    let correct = |program: &Program, readings: Value, volts: u32| {
        let asked = json!({ "job": two.job, "readings": readings, "volts": volts, "reason": "read off the tester" });
        program.ask("correct_readings", asked);
    };
    correct(&two.one, json!([first]), 500);
    correct(&two.other, json!([first, second]), 250);
    let wanted = ["Test voltage 250\u{a0}V", "Test voltage 500\u{a0}V"];
    let place = "DB-1 · 1 · L–N · 487\u{a0}MΩ";
    let question = one_question(&two, "Two corrections of one reading", place, &wanted);
    let undo = two.settled(&question, at(&question, "Test voltage 500\u{a0}V"));
    let volts = |at: usize| two.one.ask("readings", json!({ "job": two.job }))["rows"][at]["volts"].clone();
    assert_eq!([volts(0), volts(1)], ["500\u{a0}V", "250\u{a0}V"], "the second keeps what was said of it");
    two.open_again(&undo, &question);
}

#[test]
fn corrections_one_after_the_other_choose_between_nothing() {
    let two = Two::start();
    read(&two.one, &two.board, "487");
    let reading = two.one.ask("readings", json!({ "job": two.job }))["rows"][0]["reading"].clone();
    for volts in [250, 1000, 250, 1000] {
        let asked = json!({ "job": two.job, "readings": [reading], "volts": volts, "reason": "read off the tester" });
        two.one.ask("correct_readings", asked);
    }
    assert_eq!(two.one.ask("settling", json!({ "job": two.job }))["made"], json!([]));
}

#[test]
fn two_names_of_a_tester() {
    let two = Two::start();
    read(&two.one, &two.board, "487");
    two.meet();
    let form = two.one.ask("tester", json!({ "tester": two.tester }))["card"].clone();
    two.apart("save_tester", |who| {
        let identity = json!({ "name": format!("Tester {who}"), "serial": "7" });
        json!({ "tester": two.tester, "identity": identity, "card": form })
    });
    let place = "Tester one, serial number 7";
    let question = one_question(&two, "Two names of one tester", place, &["Tester one · 7", "Tester other · 7"]);
    let undo = two.settled(&question, at(&question, "Tester other · 7"));
    two.open_again(&undo, &question);
}

#[test]
fn a_choice_that_was_not_shown_is_refused_and_so_is_one_of_a_question_that_changed() {
    let two = Two::start();
    two.apart("set_job_names", |who| json!({ "job": two.job, "name": format!("Mill {who}"), "place": "" }));
    let all = two.meet();
    for choice in ["both", "", "0"] {
        let refused = two.one.refused("settle", json!({ "job": two.job, "question": all[0]["id"], "choice": choice }));
        assert_eq!(refused.code, "not_found");
    }
    // A third value came in between: what was on the screen is not what is chosen from now.
    let third = Program::start_with(99);
    give(&two.other, &third, &two.job);
    third.ask("add_person", json!({ "job": two.job, "name": "D. Recorder" }));
    third.ask("set_job_names", json!({ "job": two.job, "name": "Mill third", "place": "" }));
    let choice = json!({ "job": two.job, "question": all[0]["id"], "choice": all[0]["choices"][0]["id"] });
    assert_eq!(third.refused("settle", choice).code, "not_found");
}

/// `DB-1` with a circuit removed by one and changed by the other.
fn removed_and_changed(two: &Two, change: impl Fn(&Program)) -> Value {
    let circuit = two.circuit(&two.one, 0)["id"].clone();
    two.one.ask("remove_circuit", json!({ "circuit": circuit }));
    change(&two.other);
    let all = two.meet();
    let [question] = &all[..] else { panic!("{all:?}") };
    assert_eq!(question["asks"], "Removed on one device, changed on another");
    assert_eq!(choices(question), ["Keep it", "Remove it"]);
    question.clone()
}

fn references(program: &Program, board: &str) -> Vec<String> {
    let view = program.ask("circuits", json!({ "board": board }))["circuits"].clone();
    view.as_array().unwrap().iter().map(|one| one["reference"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn a_circuit_removed_by_one_and_read_by_the_other_stays_until_a_person_says_otherwise() {
    let two = Two::start();
    let question = removed_and_changed(&two, |other| read(other, &two.board, "350"));
    for program in [&two.one, &two.other] {
        assert_eq!(references(program, &two.board), ["1", "2"], "kept");
    }
    assert_eq!(question["place"], "DB-1 · 1");
    let [keep, remove] = [0, 1].map(|at| question["choices"][at]["lines"][0].as_str().unwrap().to_owned());
    assert!(keep.starts_with("350\u{a0}MΩ: B. Recorder, device "), "{keep}");
    assert!(remove.starts_with("A. Recorder, this device, "), "{remove}");

    let undo = two.settled(&question, 1);
    assert_eq!([&two.one, &two.other].map(|program| references(program, &two.board).len()), [1, 1]);
    two.one.ask("undo", json!({ "token": undo }));
    assert_eq!(two.meet(), std::slice::from_ref(&question), "asked again, on both");
    two.settled(&question, 0);
    assert_eq!([&two.one, &two.other].map(|program| references(program, &two.board).len()), [2, 2]);
}

#[test]
fn a_circuit_removed_by_one_and_renamed_by_the_other_stays_and_a_removal_that_knew_asks_nobody() {
    let two = Two::start();
    let rename = |program: &Program| {
        let circuit = two.circuit(program, 0);
        let mut form = circuit["form"].clone();
        form["description"] = json!("Oven");
        program.ask("save_circuit", json!({ "board": two.board, "circuit": circuit["id"], "form": form }));
    };
    let question = removed_and_changed(&two, rename);
    let keep = question["choices"][0]["lines"][0].as_str().unwrap();
    assert!(keep.starts_with("1 Oven: B. Recorder, device "), "{keep}");
    two.settled(&question, 0);
    // Now the other's change is known: what is removed is gone.
    let circuit = two.circuit(&two.one, 0)["id"].clone();
    two.one.ask("remove_circuit", json!({ "circuit": circuit }));
    assert_eq!(two.meet(), Vec::<Value>::new());
    assert_eq!(references(&two.other, &two.board), ["2"]);
}

#[test]
fn a_board_removed_by_one_and_worked_on_by_the_other_stays() {
    let two = Two::start();
    two.one.ask("remove_board", json!({ "board": two.board }));
    read(&two.other, &two.board, "350");
    let all = two.meet();
    assert_eq!((all.len(), &all[0]["place"]), (1, &json!("DB-1")), "{all:?}");
    let boards = |program: &Program| program.ask("job", json!({ "job": two.job }))["boards"].as_array().unwrap().len();
    assert_eq!((boards(&two.one), boards(&two.other)), (1, 1));
    let undo = two.settled(&all[0], 1);
    assert_eq!((boards(&two.one), boards(&two.other)), (0, 0));
    two.one.ask("undo", json!({ "token": undo }));
    two.settled(&all[0], 0);
    assert_eq!((boards(&two.one), boards(&two.other)), (1, 1));
}
