//! One job on three devices, each with a record of its own, from an empty board to a verified paper. Each step is broken
//! off once: the app is killed while it works on it. What it had begun is then there whole or not at all, and asking once
//! more goes on from there.
use crate::sign_off::CHOOSE;
use provenohm_tests::{Job, Opening, Trouble, Window, program, single_phase};
use serde_json::{Value, json};
use tempfile::TempDir;

/// A device: its record, and the window open on it.
struct Device {
    folder: TempDir,
    window: Window,
}

impl Device {
    async fn open() -> Result<Self, Trouble> {
        let folder = tempfile::tempdir().unwrap();
        let window = Window::open(&Opening::phone(folder.path())).await?;
        Ok(Self { folder, window })
    }

    async fn call(&self, operation: &str, input: Value) -> Result<Value, Trouble> {
        self.window.call(operation, input).await
    }

    /// Starts an operation and kills the app at once, then opens it again.
    async fn killed_in(self, operation: &str, input: &Value) -> Result<Self, Trouble> {
        let start = "window.__TAURI_INTERNALS__.invoke('call', { operation: arguments[0], input: arguments[1] })";
        self.window.ask(&format!("void {start}"), &[json!(operation), input.clone()]).await?;
        self.window.kill()?;
        let window = Window::open(&Opening::phone(self.folder.path())).await?;
        Ok(Self { folder: self.folder, window })
    }

    /// Hands the job over: the bundle's bytes, base64.
    async fn bundle(&self, job: &str) -> Result<Value, Trouble> {
        let written = self.call("hand_over", json!({ "job": job, "testers": [] })).await?;
        base64(&written)
    }

    async fn take_in(&self, bundle: &Value) -> Result<Value, Trouble> {
        let told = self.call("take_in_bundle", json!({ "base64": bundle })).await?;
        let [came, joined, same, settle] =
            ["came", "joined", "same", "to_settle"].map(|name| told[name].as_u64().unwrap());
        assert_eq!(came, joined + same + settle, "{told}");
        Ok(told)
    }

    /// Whoever works here.
    async fn person(&self, job: &str, name: &str) -> Result<(), Trouble> {
        let view = self.call("add_person", json!({ "job": job, "name": name })).await?;
        let people = view["people"].as_array().unwrap();
        let id = people.iter().find(|one| one["name"] == name).unwrap()["id"].clone();
        self.call("be_person", json!({ "job": job, "person": id })).await?;
        self.call("confirm_cautions", json!({ "job": job })).await?;
        Ok(())
    }

    /// Reads a circuit's pairs, one after the other.
    async fn read(&self, job: &Job, circuit: usize, digits: &[&str]) -> Result<(), Trouble> {
        for (pair, digits) in digits.iter().enumerate() {
            let slot = self.slot(job, circuit, pair).await?;
            self.call("save_reading", reading(job, &slot, digits)).await?;
        }
        Ok(())
    }

    /// A pair of a circuit, both counted from 0.
    async fn slot(&self, job: &Job, circuit: usize, pair: usize) -> Result<Value, Trouble> {
        let look = self.call("look", json!({ "job": job.job })).await?;
        Ok(look["boards"][0]["rows"][circuit]["cells"][pair]["slot"].clone())
    }

    async fn readings(&self, job: &Job) -> Result<u64, Trouble> {
        Ok(self.call("look", json!({ "job": job.job })).await?["all"].as_u64().unwrap())
    }

    async fn to_settle(&self, job: &Job) -> Result<Vec<Value>, Trouble> {
        Ok(self.call("settling", json!({ "job": job.job })).await?["questions"].as_array().unwrap().clone())
    }

    /// What the record says, as far as people can tell: everything to look at, and every board.
    async fn told(&self, job: &Job) -> Result<Value, Trouble> {
        self.call("look", json!({ "job": job.job })).await
    }
}

fn reading(job: &Job, slot: &Value, digits: &str) -> Value {
    let typed = json!({ "typed": { "text": digits, "comparator": "exact", "unit": "m" } });
    json!({ "board": job.board, "slot": slot, "indication": typed })
}

fn base64(written: &Value) -> Result<Value, Trouble> {
    let encoded =
        std::process::Command::new("base64").args(["-w0", written["files"][0].as_str().unwrap()]).output().unwrap();
    Ok(json!(String::from_utf8(encoded.stdout).unwrap()))
}

#[tokio::test]
async fn two_record_one_reviews_and_a_kill_in_each_step_loses_nothing() -> Result<(), Trouble> {
    // The first device prepares the job and hands it over.
    let one = Device::open().await?;
    let job = Job::with(&one.window, &[(4, single_phase())]).await?;
    job.prove_tester(&one.window).await?;
    one.call("set_volts", json!({ "board": job.board, "volts": 500 })).await?;
    let one = one.killed_in("hand_over", &json!({ "job": job.job, "testers": [] })).await?;
    let prepared = one.bundle(&job.job).await?;

    // The second takes it in, and each records a half of the board; one pair is read on both.
    let two = Device::open().await?;
    let two = two.killed_in("take_in_bundle", &json!({ "base64": prepared })).await?;
    two.take_in(&prepared).await?;
    two.person(&job.job, "B. Recorder").await?;
    two.call("choose_tester", json!({ "board": job.board, "tester": job.tester })).await?;
    two.call("set_volts", json!({ "board": job.board, "volts": 500 })).await?;
    let first = one.slot(&job, 0, 0).await?;
    let one = one.killed_in("save_reading", &reading(&job, &first, "487")).await?;
    if one.readings(&job).await? == 0 {
        one.call("save_reading", reading(&job, &first, "487")).await?;
    }
    assert_eq!(one.readings(&job).await?, 1, "saved once, whatever was broken off");
    one.read(&job, 1, &["200", "210", "220"]).await?;
    two.read(&job, 0, &["350", "360", "370"]).await?;
    two.read(&job, 2, &["300", "310", "2.10"]).await?;
    two.read(&job, 3, &["320", "330", "340"]).await?;

    // Bundles go both ways.
    let theirs = two.bundle(&job.job).await?;
    let one = one.killed_in("take_in_bundle", &json!({ "base64": theirs })).await?;
    one.take_in(&theirs).await?;
    two.take_in(&one.bundle(&job.job).await?).await?;
    assert_eq!(one.told(&job).await?, two.told(&job).await?, "the same entries say the same");

    // The pair that both read is settled by a key, taken back by another, and settled for good.
    assert_eq!(one.to_settle(&job).await?.len(), 1);
    one.window.go(&format!("#/settle/{}", job.job)).await?;
    one.window.until_shown("To settle 1 of 1").await?;
    one.window.type_keys("1").await?;
    one.window.until_shown("Nothing to settle").await?;
    one.window.type_with_control('z').await?;
    one.window.until_shown("To settle 1 of 1").await?;
    let open = one.to_settle(&job).await?.remove(0);
    let choice = json!({ "job": job.job, "question": open["id"], "choice": open["choices"][0]["id"] });
    let one = one.killed_in("settle", &choice).await?;
    if !one.to_settle(&job).await?.is_empty() {
        one.call("settle", choice).await?;
    }
    assert_eq!(one.to_settle(&job).await?, [] as [Value; 0]);

    // A third person reviews it on a third device, and asks for a new reading of one pair.
    let three = Device::open().await?;
    three.take_in(&one.bundle(&job.job).await?).await?;
    three.person(&job.job, "R. Reviewer").await?;
    let low = three.slot(&job, 2, 2).await?;
    let asked = json!({ "board": job.board, "slot": low, "reason": "far below its neighbours" });
    let three = three.killed_in("ask_reading", &asked).await?;
    if three.told(&job).await?["asked"] == json!(0) {
        three.call("ask_reading", asked).await?;
    }
    assert_eq!(three.told(&job).await?["asked"], json!(1));
    two.take_in(&three.bundle(&job.job).await?).await?;
    two.window.go(&format!("#/run/{}", job.board)).await?;
    two.window.until_shown("R. Reviewer asks for a new reading: far below its neighbours").await?;
    let again = reading(&job, &two.slot(&job, 2, 2).await?, "315");
    let two = two.killed_in("save_reading", &again).await?;
    if two.told(&job).await?["asked"] == json!(1) {
        two.call("save_reading", again).await?;
    }
    three.take_in(&two.bundle(&job.job).await?).await?;
    assert_eq!(three.told(&job).await?["asked"], json!(0), "answered by the new reading");

    // Signed off, on paper, and verified from the file.
    let name = json!({ "job": job.job, "name": "R. Reviewer" });
    let three = three.killed_in("sign_off", &name).await?;
    let signed = |view: &Value| view["signed"].as_array().map_or(0, Vec::len);
    if signed(&three.call("sign_off_view", json!({ "job": job.job })).await?) == 0 {
        three.call("sign_off", name).await?;
    }
    let view = three.call("sign_off_view", json!({ "job": job.job })).await?;
    assert_eq!(signed(&view), 1, "signed once: {view}");
    let paper = json!({ "job": job.job, "format": "pdf" });
    let three = three.killed_in("make_schedule", &paper).await?;
    let written = three.call("make_schedule", paper).await?;
    let verified = three.call("verify_file", json!({ "files": [base64(&written)?] })).await?;
    assert_eq!(verified["holds"], json!(true), "{verified}");
    assert_eq!(verified["words"], "What was signed is as it was signed", "{verified}");

    // Somebody else has the file alone: the app says so from it, and so does the program without a window.
    three.window.go("#/handover").await?;
    three.window.until_shown("Choose PDFs or a bundle").await?;
    three.window.ask(CHOOSE, &[base64(&written)?]).await?;
    three.window.until_shown("What was signed is as it was signed").await?;
    let file = written["files"][0].as_str().unwrap();
    let told = std::process::Command::new(program("provenohm-office")?).args(["verify", file]).output().unwrap();
    let said = String::from_utf8_lossy(&told.stdout).into_owned();
    assert!(told.status.success() && said.contains("What was signed is as it was signed"), "{told:?}");

    // One reading arrives late: it is after sign-off, and the paper still says what was signed.
    two.read(&job, 1, &["201"]).await?;
    three.take_in(&two.bundle(&job.job).await?).await?;
    let late = three.call("sign_off_view", json!({ "job": job.job })).await?;
    assert!(late["signed"][0]["since"].to_string().contains("after sign-off"), "{late}");
    let verified = three.call("verify_file", json!({ "files": [base64(&written)?] })).await?;
    assert_eq!(verified["words"], "What was signed is as it was signed", "{verified}");
    Ok(())
}
