//! Signing off: what is signed, what stops it, what comes after, and how it is taken back.

use crate::support::{Program, single_phase, slot_at_500_v};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use provenohm_api::Failure;
use serde_json::{Value, json};
use std::path::PathBuf;
use std::process::Command;

/// A job with one circuit, all three pairs read with a proved tester.
pub(crate) struct Signing {
    pub(crate) program: Program,
    pub(crate) job: String,
    pub(crate) board: String,
    pub(crate) tester: String,
}

impl Signing {
    pub(crate) fn begun() -> Self {
        let signing = Self::without_a_tester();
        signing.program.ask("choose_tester", json!({ "board": signing.board, "tester": signing.tester }));
        slot_at_500_v(&signing.program, &signing.board);
        (0..3).for_each(|_| signing.read("487"));
        signing
    }

    /// The same before anything was read, and with no tester chosen.
    fn without_a_tester() -> Self {
        let program = Program::start();
        let (job, board) = program.job();
        program.circuits(&board, 1, single_phase());
        let tester = program.tester("Tester A");
        program.certificate(&tester, "3 Mar 2026", "3 Mar 2027");
        Self { program, job, board, tester }
    }

    pub(crate) fn read(&self, megohms: &str) {
        let slot = self.program.ask("run", json!({ "board": self.board }))["slot"].clone();
        let typed = json!({ "typed": { "text": megohms, "comparator": "exact", "unit": "m" } });
        self.program.ask("save_reading", json!({ "board": self.board, "slot": slot, "indication": typed }));
    }

    pub(crate) fn sign(&self) -> Value {
        self.program.ask("sign_off", json!({ "job": self.job, "name": "R. Reviewer" }))
    }

    fn try_to_sign(&self) -> Failure {
        self.program.refused("sign_off", json!({ "job": self.job, "name": "R. Reviewer" }))
    }

    pub(crate) fn view(&self) -> Value {
        self.program.ask("sign_off_view", json!({ "job": self.job }))
    }

    fn withdraw_a_reading(&self) {
        let readings = self.program.ask("readings", json!({ "job": self.job }));
        let reading = readings["rows"][0]["reading"].clone();
        let asked = json!({ "job": self.job, "reading": reading, "reason": "read on the wrong circuit" });
        self.program.ask("withdraw_reading", asked);
    }

    /// The paper of now, or the one that was signed first of those that stand.
    pub(crate) fn pdf(&self, as_signed: bool) -> PathBuf {
        let signed = self.view()["signed"].clone();
        let stands = signed.as_array().unwrap().iter().find(|one| one["stands"] == true);
        let entry = stands.filter(|_| as_signed).map(|one| one["entry"].clone());
        let asked = json!({ "job": self.job, "format": "pdf", "as_signed": entry });
        PathBuf::from(self.program.ask("make_schedule", asked)["files"][0].as_str().unwrap())
    }
}

pub(crate) fn paper(path: &PathBuf) -> String {
    let output = Command::new("pdftotext").arg("-raw").arg(path).arg("-").output().unwrap();
    String::from_utf8(output.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
}

fn said(lines: &Value) -> Vec<String> {
    let lines = lines.as_array().unwrap().iter();
    lines.map(|line| line["words"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn one_screen_says_what_would_be_signed() {
    let signing = Signing::begun();
    let view = signing.view();
    assert_eq!(view["button"], "Sign off 3 readings");
    assert_eq!(view["counts"][0], "3 readings");
    assert_eq!(view["blocked"], Value::Null);
    assert!(view["covers"].as_str().unwrap().starts_with("This will be sign-off No. 1, over "), "{view}");
    assert_eq!(view["testers"][0]["words"], "Tester A, serial number serial Tester A");
    assert_eq!(view["testers"][0]["verifications"].as_array().unwrap().len(), 1);
    assert_eq!(view["signed"], json!([]));
}

#[test]
fn a_name_signs_and_every_page_says_so() {
    let signing = Signing::begun();
    let before = std::fs::read(signing.pdf(false)).unwrap();
    let refused = signing.program.refused("sign_off", json!({ "job": signing.job, "name": "  " }));
    assert_eq!((refused.code.as_str(), refused.complaints[0].field.as_str()), ("form", "name"));
    let view = signing.sign();
    assert!(view["signed"][0]["words"].as_str().unwrap().starts_with("Signed as No. 1 by R. Reviewer, "), "{view}");
    assert_eq!(said(&view["signed"][0]["since"]), ["Nothing was recorded after sign-off"]);
    assert!(view["covers"].as_str().unwrap().contains("No. 2"), "{view}");
    let text = paper(&signing.pdf(false));
    assert!(text.contains("Signed as No. 1 by R. Reviewer") && !text.contains("Not signed"), "{text}");
    assert!(!text.contains("after sign-off") && !text.contains("not as it stands"), "{text}");
    assert_ne!(before, std::fs::read(signing.pdf(false)).unwrap());
    let job = signing.program.ask("job", json!({ "job": signing.job }));
    assert_eq!(said(&job["signed"]).len(), 2, "{job}");
}

#[test]
fn what_is_recorded_after_it_is_listed_and_never_enters_the_signed_paper() {
    let signing = Signing::begun();
    signing.sign();
    let signed = std::fs::read(signing.pdf(true)).unwrap();
    assert_eq!(signed, std::fs::read(signing.pdf(false)).unwrap(), "nothing came after: one paper");
    signing.withdraw_a_reading();
    let view = signing.view();
    assert_eq!(said(&view["signed"][0]["since"]), ["1 entry after sign-off"]);
    assert!(
        view["signed"][0]["later"][0]
            .as_str()
            .unwrap()
            .starts_with("Something withdrawn: DB-1 · 1 · L–N, 487\u{a0}MΩ · A. Recorder · "),
        "{view}"
    );
    let ready = signing.program.ask("schedule", json!({ "job": signing.job }));
    assert_eq!(ready["as_signed"][0]["id"], view["signed"][0]["entry"]);
    assert!(ready["as_signed"][0]["words"].as_str().unwrap().starts_with("Signed as No. 1 by R. Reviewer"), "{ready}");
    assert!(paper(&signing.pdf(false)).contains("1 entry after sign-off"));
    assert_eq!(signed, std::fs::read(signing.pdf(true)).unwrap());
    signing.program.ask("add_board", json!({ "job": signing.job, "name": "DB-9" }));
    let later = signing.view()["signed"][0]["later"].clone();
    let last = later.as_array().unwrap().last().unwrap().as_str().unwrap();
    assert!(last.starts_with("The name of a board · A. Recorder · "), "each by what it is: {later}");
    // A new issue has the next number, and is the one that stands.
    signing.sign();
    assert!(paper(&signing.pdf(false)).contains("Signed as No. 2 by R. Reviewer"));
    assert_eq!(said(&signing.view()["signed"][1]["since"]), ["A later sign-off has the next number"]);
}

#[test]
fn only_a_stop_keeps_it_from_being_signed() {
    let signing = Signing::without_a_tester();
    assert_eq!(signing.try_to_sign().code, "sign_off_nothing");
    let slot = slot_at_500_v(&signing.program, &signing.board);
    let typed = json!({ "typed": { "text": "0.20", "comparator": "exact", "unit": "m" } });
    let saved =
        signing.program.ask("save_reading", json!({ "board": signing.board, "slot": slot, "indication": typed }));
    let refused = signing.try_to_sign();
    assert_eq!(refused.code, "sign_off_stopped");
    assert_eq!(refused.words, "1 thing stops a sign-off: see things to look at");
    assert_eq!(signing.view()["blocked"]["words"], refused.words);
    assert_eq!(signing.view()["signed"], json!([]), "nothing was recorded");
    // Below its limit, and pairs missing: looked at, and signed with.
    let readings = [saved["saved"]["reading"].clone()];
    let fixed = json!({
        "job": signing.job, "readings": readings, "tester": signing.tester, "reason": "tester A was used",
    });
    signing.program.ask("correct_readings", fixed);
    assert_eq!(signing.sign()["signed"].as_array().unwrap().len(), 1);
    assert!(signing.view()["open"].as_array().unwrap().len() >= 2);
}

#[test]
fn it_is_withdrawn_with_a_reason_and_stays_on_record() {
    let signing = Signing::begun();
    let entry = signing.sign()["signed"][0]["entry"].clone();
    let asked = |reason: &str| json!({ "job": signing.job, "entry": entry, "name": "S. Second", "reason": reason });
    assert_eq!(signing.program.refused("withdraw_sign_off", asked(" ")).code, "form");
    let nobody = json!({ "job": signing.job, "entry": entry, "name": " ", "reason": "circuit 3 was forgotten" });
    assert_eq!(signing.program.refused("withdraw_sign_off", nobody).complaints[0].field, "name");
    let view = signing.program.ask("withdraw_sign_off", asked("circuit 3 was forgotten"));
    let line = &view["signed"][0];
    assert_eq!(line["stands"], false);
    let withdrawn = said(&line["since"]).remove(0);
    assert!(
        withdrawn.starts_with("Withdrawn by S. Second, 25 Nov 2026"),
        "whoever says so, not whoever signed: {withdrawn}"
    );
    assert!(withdrawn.ends_with(": circuit 3 was forgotten"), "{withdrawn}");
    assert!(paper(&signing.pdf(false)).contains("Not signed"));
    assert_eq!(signing.program.refused("withdraw_sign_off", asked("again")).code, "not_found");
    let asked = json!({ "job": signing.job, "format": "pdf", "as_signed": entry });
    assert_eq!(signing.program.refused("make_schedule", asked).code, "not_signed");
    assert!(signing.sign()["signed"][0]["words"].as_str().unwrap().starts_with("Signed as No. 2"));
}

#[test]
fn a_tester_that_fails_later_puts_signed_readings_in_doubt() {
    let signing = Signing::begun();
    signing.sign();
    let finding = json!({ "volts": "500", "as_found": "failed" });
    let form = json!({
        "date": "25 Nov 2026", "kind": "calibration", "by": "A laboratory", "certificate": "C-2",
        "findings": [finding],
    });
    signing.program.ask("record_verification", json!({ "tester": signing.tester, "form": form }));
    let since = said(&signing.view()["signed"][0]["since"]);
    assert_eq!(since, ["1 entry after sign-off", "Since then 3 readings have come into doubt"]);
    let job = signing.program.ask("job", json!({ "job": signing.job }));
    assert!(said(&job["signed"]).contains(&since[1]), "{job}");
    let text = paper(&signing.pdf(false));
    assert!(text.contains("Since sign-off No. 1, 3 readings have come into doubt"), "{text}");
    assert!(!paper(&signing.pdf(true)).contains("come into doubt"), "the signed paper stands");
}

/// Everybody who holds the same entries sees the same sign-off, the same fingerprint and the same paper.
#[test]
fn another_device_with_the_same_entries_makes_the_same_paper() {
    let signing = Signing::begun();
    signing.sign();
    let bundle = signing.program.ask("hand_over", json!({ "job": signing.job, "testers": [] }));
    let other = Program::start_with(77);
    let bytes = std::fs::read(bundle["files"][0].as_str().unwrap()).unwrap();
    other.api.receive(&bytes, false).unwrap();
    let asked = json!({ "job": signing.job, "format": "pdf" });
    let made = other.ask("make_schedule", asked)["files"][0].as_str().unwrap().to_owned();
    assert_eq!(std::fs::read(made).unwrap(), std::fs::read(signing.pdf(false)).unwrap());
    let view = other.ask("sign_off_view", json!({ "job": signing.job }));
    assert_eq!(view["signed"], signing.view()["signed"]);
    assert_eq!(view["covers"], signing.view()["covers"]);
}

/// Two people who sign apart both have No. 1: both stand, on every device, until one is withdrawn or a next one signed.
#[test]
fn two_who_sign_apart_are_both_shown() {
    let one = Signing::begun();
    let bundle = |program: &Program| {
        let path = program.ask("hand_over", json!({ "job": one.job, "testers": [] }))["files"][0].clone();
        std::fs::read(path.as_str().unwrap()).unwrap()
    };
    let other = Program::start_with(77);
    other.api.receive(&bundle(&one.program), false).unwrap();
    one.sign();
    other.ask("sign_off", json!({ "job": one.job, "name": "S. Second" }));
    let (first, second) = (bundle(&one.program), bundle(&other));
    one.program.api.receive(&second, false).unwrap();
    other.api.receive(&first, false).unwrap();
    let (here, there) = (one.view(), other.ask("sign_off_view", json!({ "job": one.job })));
    assert_eq!(here["signed"], there["signed"]);
    let signed = said(&here["signed"]);
    assert!(signed.iter().all(|line| line.starts_with("Signed as No. 1 by ")) && signed.len() == 2, "{signed:?}");
    let text = paper(&one.pdf(false));
    assert!(text.contains("by R. Reviewer") && text.contains("by S. Second"), "{text}");
    assert!(here["covers"].as_str().unwrap().contains("No. 2"));
    // Two papers were signed, and either can be had.
    let offered = one.program.ask("schedule", json!({ "job": one.job }))["as_signed"].clone();
    assert_eq!(said(&offered).len(), 2, "{offered}");
    let mut papers = std::collections::BTreeSet::new();
    for (at, name) in ["R. Reviewer", "S. Second"].into_iter().enumerate() {
        let choice =
            offered.as_array().unwrap().iter().find(|it| it["words"].as_str().unwrap().contains(name)).unwrap();
        let asked = json!({ "job": one.job, "format": "pdf", "as_signed": choice["id"] });
        let path = PathBuf::from(one.program.ask("make_schedule", asked.clone())["files"][0].as_str().unwrap());
        let other_name = ["S. Second", "R. Reviewer"][at];
        assert!(paper(&path).contains(name) && !paper(&path).contains(&format!("No. 1 by {other_name}")), "{name}");
        assert_eq!(
            one.program.ask("preview_page", json!({ "job": one.job, "page": 1, "as_signed": choice["id"] }))["page"],
            1
        );
        papers.insert(path);
    }
    assert_eq!(papers.len(), 2, "neither takes the other's place: {papers:?}");
}

/// A visit on which nothing could be tested is a visit: what was said is signed.
#[test]
fn a_visit_where_nothing_could_be_tested_is_signed() {
    let signing = Signing::without_a_tester();
    assert_eq!(signing.try_to_sign().code, "sign_off_nothing");
    let slot = signing.program.ask("run", json!({ "board": signing.board }))["slot"].clone();
    signing.program.ask("mark_not_tested", json!({ "board": signing.board, "slot": slot, "reason": "live" }));
    let view = signing.view();
    assert_eq!((&view["blocked"], &view["button"]), (&Value::Null, &json!("Sign off without a reading")));
    assert!(view["counts"].as_array().unwrap().contains(&json!("1 pair not tested")), "{view}");
    assert_eq!(signing.sign()["signed"].as_array().unwrap().len(), 1);
    assert!(paper(&signing.pdf(true)).contains("Signed as No. 1 by R. Reviewer"));
}

/// What is later is told by its place; of more than twenty the rest is asked for; and what was known of a tester long
/// before is not news because somebody now reads with it.
#[test]
fn what_came_after_is_told_by_place_and_no_other_book_is_listed() {
    let signing = Signing::begun();
    let new = signing.program.tester("Tester B");
    signing.program.certificate(&new, "4 Mar 2026", "4 Mar 2027");
    signing.program.certificate(&new, "5 Mar 2026", "5 Mar 2027");
    let entry = signing.sign()["signed"][0]["entry"].clone();
    signing.program.circuits(&signing.board, 1, single_phase());
    let before = signing.view()["signed"][0]["later"].as_array().unwrap().len();
    signing.program.ask("choose_tester", json!({ "board": signing.board, "tester": new }));
    slot_at_500_v(&signing.program, &signing.board);
    signing.read("200");
    let line = signing.view()["signed"][0].clone();
    let later = line["later"].as_array().unwrap().clone();
    assert_eq!(later.len(), before + 1, "the reading alone: {line}");
    let last = later.last().unwrap().as_str().unwrap();
    assert!(last.starts_with("A reading: DB-1 · 2 · L–N, 200\u{a0}MΩ · A. Recorder · "), "{last}");
    assert!(said(&line["since"]).contains(&"1 tester came to the job after sign-off".to_owned()), "{line}");
    for number in 0..25 {
        signing.program.ask("add_board", json!({ "job": signing.job, "name": format!("DB-{}", 20 + number) }));
    }
    let line = signing.view()["signed"][0].clone();
    let (shown, more) = (line["later"].as_array().unwrap().len(), line["more"].as_u64().unwrap());
    assert_eq!((shown, more > 0), (20, true));
    let all = signing.program.ask("after_sign_off", json!({ "job": signing.job, "entry": entry }))["lines"].clone();
    assert_eq!(all.as_array().unwrap().len() as u64, 20 + more);
    assert_eq!(all.as_array().unwrap()[..20], *line["later"].as_array().unwrap());
    assert_eq!(
        signing.program.refused("after_sign_off", json!({ "job": signing.job, "entry": "?" })).code,
        "not_found"
    );
}

/// The parts of one schedule are told as one; a bundle among them is not.
#[test]
fn files_are_verified_together_only_where_they_are_one_schedule() {
    let signing = Signing::begun();
    signing.sign();
    let pdf = BASE64_STANDARD.encode(std::fs::read(signing.pdf(true)).unwrap());
    let told = signing.program.ask("verify_file", json!({ "files": [pdf, pdf] }));
    assert_eq!(told["words"], "What was signed is as it was signed", "one part twice is that part");
    let bundle = signing.program.ask("hand_over", json!({ "job": signing.job, "testers": [] }));
    let bundle = BASE64_STANDARD.encode(std::fs::read(bundle["files"][0].as_str().unwrap()).unwrap());
    let mixed = signing.program.refused("verify_file", json!({ "files": [pdf, bundle] }));
    assert_eq!(mixed.code, "verify_several");
    assert_eq!(signing.program.refused("verify_file", json!({ "files": [] })).code, "verify_several");
}

/// Review, signature and paper name the same record: as of when, and its fingerprint.
#[test]
fn every_page_of_a_review_says_as_of_when_and_of_which_record() {
    let signing = Signing::begun();
    let look = signing.program.ask("look", json!({ "job": signing.job }));
    let as_of = look["as_of"].as_str().unwrap();
    let (time, fingerprint) = as_of.strip_prefix("As of ").unwrap().split_once(", fingerprint ").unwrap();
    assert!(time.starts_with("25 Nov 2026 10:0") && fingerprint.len() == 19, "{as_of}");
    let covers = signing.view()["covers"].as_str().unwrap().to_owned();
    assert!(covers.ends_with(&format!(", as of {time}, fingerprint {fingerprint}")), "{covers}");
    assert!(paper(&signing.pdf(false)).contains(&format!("Fingerprint {fingerprint}")));
    let csv = signing.program.ask("make_schedule", json!({ "job": signing.job, "format": "csv" }))["files"][0].clone();
    let csv = std::fs::read_to_string(csv.as_str().unwrap()).unwrap();
    assert!(csv.lines().nth(1).unwrap().ends_with(&format!(",{fingerprint}")), "{csv}");
}
