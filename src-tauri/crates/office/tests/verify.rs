//! `verify` names the first thing that is not as it was written or signed, in a record, a bundle and a paper.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::{Folder, json, office, told};
use provenohm_api::{Api, Host};
use provenohm_papers::report::{Digest, LINES_IN_A_PART, Line, Missing, Part, Parts, Schedule};
use provenohm_papers::{Pages, attached};
use provenohm_words::{Locale, Words};
use rusqlite::Connection;
use serde_json::{Value, json};
use std::path::Path;

/// A job of one circuit, read with a proved tester, in a record that a program has open.
struct Job {
    folder: Folder,
    api: Api,
    job: String,
    board: String,
}

impl Job {
    fn read() -> Self {
        let folder = Folder::new();
        let api = Api::open(&folder.file("record"), Host::system()).unwrap();
        let ask = |operation: &str, input: Value| api.call(operation, input).unwrap();
        let job = ask("start_job", json!({ "name": "Mill Lane", "place": "", "person": "A. Recorder" }));
        let job = job["id"].as_str().unwrap().to_owned();
        let board = ask("add_board", json!({ "job": job, "name": "DB-1" }))["boards"][0]["id"].clone();
        let form = json!({ "nominal": "230", "measure": "none", "conductors": "single_phase" });
        ask("add_many_circuits", json!({ "board": board, "count": "1", "form": form }));
        let range = json!({ "from": "0.05 MΩ", "to": "999 MΩ", "resolution": "1 MΩ", "percent": "3", "digits": "2" });
        let card = json!({ "voltages": [{ "volts": "500", "over_range": "999 MΩ", "ranges": [range] }] });
        let identity = json!({ "name": "Tester A", "serial": "1001" });
        let tester = ask("save_tester", json!({ "identity": identity, "card": card }))["id"].clone();
        let finding = json!({ "volts": "500", "as_left": "good", "conforms": "yes", "holds": [{ "from": "0.1 MΩ", "to": "999 MΩ" }] });
        let form = json!({
            "date": "3 Mar 2024", "valid_until": "3 Mar 2094", "kind": "calibration", "by": "A laboratory",
            "certificate": "C-1", "findings": [finding],
        });
        ask("record_verification", json!({ "tester": tester, "form": form }));
        ask("choose_tester", json!({ "board": board, "tester": tester }));
        ask("set_volts", json!({ "board": board, "volts": 500 }));
        let board = board.as_str().unwrap().to_owned();
        let read = Self { folder, api, job, board };
        read.reading("487");
        read
    }

    fn signed() -> Self {
        let read = Self::read();
        read.ask("sign_off", json!({ "job": read.job, "name": "R. Reviewer" }));
        read
    }

    fn ask(&self, operation: &str, input: Value) -> Value {
        self.api.call(operation, input).unwrap_or_else(|failure| panic!("{operation}: {failure:?}"))
    }

    fn reading(&self, megohms: &str) {
        let slot = self.ask("run", json!({ "board": self.board }))["slot"].clone();
        let typed = json!({ "typed": { "text": megohms, "comparator": "exact", "unit": "m" } });
        self.ask("save_reading", json!({ "board": self.board, "slot": slot, "indication": typed }));
    }

    fn pdf(&self) -> String {
        let made = self.ask("make_schedule", json!({ "job": self.job, "format": "pdf" }));
        made["files"][0].as_str().unwrap().to_owned()
    }

    fn bundle(&self) -> String {
        let made = self.ask("hand_over", json!({ "job": self.job, "testers": [] }));
        made["files"][0].as_str().unwrap().to_owned()
    }

    fn record(&self) -> String {
        self.folder.text("record")
    }

    /// Somebody with a tool for databases, who does not know the rules of this one.
    fn by_hand(&self, sql: &str) {
        let file = Connection::open(self.folder.file("record").join("record.sqlite")).unwrap();
        file.pragma_update(None, "foreign_keys", false).unwrap();
        assert!(file.execute(sql, []).unwrap() > 0, "{sql}");
    }
}

/// What `verify` says first, of files that hold.
fn holds(file: &str) -> String {
    let said = told(&["verify", file]);
    said.lines().next().unwrap().to_owned()
}

/// What `verify` says first, of files that do not hold: exit 3.
fn does_not(files: &[&str]) -> String {
    let arguments: Vec<&str> = std::iter::once("verify").chain(files.iter().copied()).collect();
    let output = office(&arguments);
    assert_eq!(output.status.code(), Some(3), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap().lines().next().unwrap().to_owned()
}

const SIGNED: &str = "What was signed is as it was signed";

#[test]
fn a_record_a_bundle_and_a_paper_that_were_signed_say_by_whom_and_when() {
    let job = Job::signed();
    for file in [job.record(), job.bundle(), job.pdf()] {
        assert_eq!(holds(&file), SIGNED, "{file}");
        let said = told(&["verify", &file]);
        assert!(
            said.contains("Signed as No. 1 by R. Reviewer, ") && said.contains("Sealed by a device with the key "),
            "{said}"
        );
    }
    let as_json = json(&["verify", &job.pdf(), "--json"]);
    assert_eq!(as_json["holds"], true);
    assert!(as_json["lines"].to_string().contains("The pages are those of the attached data"), "{as_json}");
}

#[test]
fn what_nobody_signed_is_said_not_to_be() {
    let job = Job::read();
    for file in [job.record(), job.bundle(), job.pdf()] {
        assert_eq!(holds(&file), "Nothing here is altered, and nothing here is signed", "{file}");
    }
}

#[test]
fn what_came_after_is_counted_and_nothing_of_it_is_signed() {
    let job = Job::signed();
    // A paper is named for the second it is as of, so the next one may take its place.
    let before = job.folder.text("before.pdf");
    std::fs::copy(job.pdf(), &before).unwrap();
    job.reading("200");
    assert_eq!(holds(&job.record()), SIGNED);
    assert!(told(&["verify", &job.record()]).contains("1 entry after sign-off No. 1"));
    let said = told(&["verify", &job.pdf()]);
    assert!(said.starts_with("The data is not what was signed: sign-off No. 1 is of another state"), "{said}");
    assert!(!said.contains(SIGNED), "{said}");
    assert_eq!(holds(&before), SIGNED, "the paper made before stands");
}

#[test]
fn an_entry_altered_by_hand_is_named() {
    let job = Job::signed();
    job.by_hand("UPDATE entry SET body = zeroblob(length(body)) WHERE kind = 50");
    let said = does_not(&[&job.record()]);
    assert!(said.starts_with("Entry ") && said.ends_with(" is not as it was written"), "{said}");
}

#[test]
fn a_file_with_a_destroyed_page_is_damaged() {
    let Job { folder, api, .. } = Job::signed();
    drop(api);
    let file = folder.file("record").join("record.sqlite");
    let mut bytes = std::fs::read(&file).unwrap();
    let at = (0..bytes.len() - 9).find(|at| bytes[*at..].starts_with(b"Mill Lane")).unwrap() / 4096 * 4096;
    bytes[at..at + 4096].fill(0xa5);
    std::fs::write(&file, bytes).unwrap();
    let said = does_not(&[&file.display().to_string()]);
    assert_eq!(said, "This file is damaged: entries may be missing that nothing here tells of");
}

#[test]
fn a_record_larger_than_any_bundle_is_looked_at_where_it_lies() {
    let Job { folder, api, .. } = Job::signed();
    drop(api);
    let file = folder.file("record").join("record.sqlite");
    // Room that SQLite keeps at the end of a file and does not count.
    std::fs::OpenOptions::new().write(true).open(&file).unwrap().set_len(300 << 20).unwrap();
    assert_eq!(holds(&file.display().to_string()), SIGNED);
}

#[test]
fn a_tail_cut_off_is_named() {
    let job = Job::signed();
    job.reading("200");
    job.by_hand("DELETE FROM entry WHERE id = (SELECT max(id) FROM entry)");
    let said = does_not(&[&job.record()]);
    assert!(said.ends_with(", noted here as its last, is missing"), "{said}");
    // Whoever also takes the notes away cannot take away what the sign-off says of the tester's log.
    let job = Job::signed();
    let tester = "(SELECT log FROM opened WHERE noun = 4)";
    job.by_hand(&format!(
        "DELETE FROM entry WHERE log IN {tester} AND seq >= (SELECT max(seq) - 1 FROM entry WHERE log IN {tester})"
    ));
    job.by_hand(&format!("DELETE FROM head WHERE log IN {tester}"));
    job.by_hand(&format!("DELETE FROM own_log WHERE log IN {tester}"));
    let said = does_not(&[&job.record()]);
    assert!(said.ends_with(", which sign-off No. 1 covers, is missing"), "{said}");
}

#[test]
fn a_log_removed_is_named() {
    let job = Job::signed();
    let tester = "(SELECT log FROM opened WHERE noun = 4)";
    job.by_hand(&format!("DELETE FROM entry WHERE log IN {tester}"));
    let said = does_not(&[&job.record()]);
    assert!(said.starts_with("Log ") && said.ends_with(": nothing of it is here"), "{said}");
    job.by_hand("DELETE FROM head WHERE log NOT IN (SELECT log FROM entry)");
    job.by_hand("DELETE FROM own_log WHERE log NOT IN (SELECT log FROM entry)");
    let said = does_not(&[&job.record()]);
    assert!(said.ends_with(", which sign-off No. 1 covers, is missing"), "{said}");
}

#[test]
fn looking_at_a_record_changes_nothing_in_it() {
    let job = Job::signed();
    let rows = |job: &Job| -> i64 {
        let file = Connection::open(job.folder.file("record").join("record.sqlite")).unwrap();
        file.query_row("SELECT total(length(envelope)) + count(*) FROM entry", [], |row| row.get::<_, f64>(0)).unwrap()
            as i64
    };
    let before = rows(&job);
    told(&["verify", &job.record()]);
    assert_eq!(rows(&job), before);
}

/// A schedule of more lines than one document holds: each part is looked at, and the whole only with all of them.
#[test]
fn the_parts_of_a_long_paper_are_verified_together() {
    let job = Job::signed();
    let part: Part = serde_json::from_slice(&attached(&std::fs::read(job.pdf()).unwrap()).unwrap().model).unwrap();
    let mut long = Schedule { signatures: Vec::new(), ..part.schedule };
    let pair = Line::Missing(Missing { pair: "L–PE".to_owned() });
    long.boards[0].circuits[0].lines.extend(std::iter::repeat_n(pair, 2 * LINES_IN_A_PART));
    let words = Words::new(Locale::ENGLISH);
    let written = |(at, part): (usize, &Part)| {
        let file = job.folder.file(&format!("part-{at}.pdf"));
        std::fs::write(&file, Pages::typeset(part, &words).unwrap().pdf().unwrap()).unwrap();
        file.display().to_string()
    };
    let files: Vec<String> = Parts::of(&long).unwrap().parts.iter().enumerate().map(written).collect();
    let [one, two, three] = &files[..] else { panic!("{files:?}") };
    let said = told(&["verify", two]);
    assert!(said.starts_with("Parts that are missing here: 1, 3."), "{said}");
    assert!(told(&["verify", three, one, two]).starts_with("Nothing here is altered"));
    long.job.name.push('x');
    let other = Parts::of(&long).unwrap();
    let other = written((9, &other.parts[2]));
    assert_eq!(does_not(&[one, two, &other]), "These parts are not of one schedule");
}

/// The paper with its data changed by whoever has this program too.
fn forged(paper: &str, folder: &Folder, change: impl FnOnce(&mut Part)) -> String {
    let mut part: Part = serde_json::from_slice(&attached(&std::fs::read(paper).unwrap()).unwrap().model).unwrap();
    change(&mut part);
    let pages = Pages::typeset(&part, &Words::new(Locale::ENGLISH)).unwrap();
    let file = folder.file("forged.pdf");
    std::fs::write(&file, pages.pdf().unwrap()).unwrap();
    file.display().to_string()
}

#[test]
fn a_paper_with_other_data_is_named() {
    let job = Job::signed();
    let paper = job.pdf();
    let said = does_not(&[&forged(&paper, &job.folder, |part| part.schedule.job.name.push('x'))]);
    assert_eq!(said, "The attached data does not have the digest that stands on its pages");
    // The digest made anew as well: then it is not what the sign-off names.
    let whole = |part: &mut Part| {
        part.schedule.job.name.push('x');
        part.whole = part.schedule.digest().unwrap();
        part.schedule.signatures[0].model = part.whole.clone();
    };
    let said = does_not(&[&forged(&paper, &job.folder, whole)]);
    assert_eq!(said, "Sign-off No. 1 in the attached data is not borne out by its seal");
    let other_name = |part: &mut Part| part.schedule.signatures[0].name = "S. Body".to_owned();
    let said = does_not(&[&forged(&paper, &job.folder, other_name)]);
    assert_eq!(said, "Sign-off No. 1 in the attached data is not borne out by its seal");
    // Counts on page 1 are no part of the digest, and are held against the data.
    let said = does_not(&[&forged(&paper, &job.folder, |part| part.totals.look += 1)]);
    assert_eq!(said, "The attached data does not have the digest that stands on its pages");
    let other = Digest::of(b"other");
    let said = does_not(&[&forged(&paper, &job.folder, |part| part.schedule.record = Some(other))]);
    assert_eq!(said, "The attached data does not have the digest that stands on its pages");
}

#[test]
fn a_paper_with_other_pages_is_named() {
    let job = Job::signed();
    let paper = job.pdf();
    let mut bytes = std::fs::read(&paper).unwrap();
    let begins = b"\nstream\n";
    let at = bytes.windows(begins.len()).position(|window| window == begins).unwrap() + begins.len() + 20;
    bytes[at] ^= 1;
    let file = job.folder.file("altered.pdf");
    std::fs::write(&file, &bytes).unwrap();
    assert_eq!(does_not(&[&file.display().to_string()]), "The pages are not those of the attached data");
}

#[test]
fn a_paper_of_another_version_is_verified_by_its_data_alone() {
    let job = Job::signed();
    let bytes = std::fs::read(job.pdf()).unwrap();
    let ours = provenohm_papers::maker().as_bytes();
    let mut other = bytes.clone();
    let mut from = 0;
    while let Some(at) = other[from..].windows(ours.len()).position(|window| window == ours) {
        other[from + at + ours.len() - 1] = b'9';
        from += at + ours.len();
    }
    let file = job.folder.file("other.pdf");
    std::fs::write(&file, &other).unwrap();
    let said = told(&["verify", &file.display().to_string()]);
    assert!(said.starts_with(SIGNED), "{said}");
    assert!(said.contains("Data verified, pages not comparable: another version made them"), "{said}");
}

#[test]
fn an_altered_bundle_and_a_file_of_something_else_are_refused_in_one_sentence() {
    let job = Job::signed();
    let mut bytes = std::fs::read(job.bundle()).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    let file = job.folder.file("altered.provenohm-bundle");
    std::fs::write(&file, &bytes).unwrap();
    let said = common::refused(&["verify", &file.display().to_string()]);
    assert!(said.contains("altered or cut off"), "{said}");
    let text = job.folder.with("notes.txt", "nothing");
    assert!(common::refused(&["verify", &text]).contains("no schedule PDF, bundle or record"), "{text}");
    let empty = job.folder.with("empty.pdf", "%PDF-1.7\n");
    assert_eq!(does_not(&[&empty]), "No data of a schedule is attached to this PDF");
    assert!(!Path::new(&job.folder.text("none")).exists());
}
