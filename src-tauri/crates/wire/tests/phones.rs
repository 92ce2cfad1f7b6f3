//! Phones and a hub over real, encrypted connections: enrolled by a code, kept in step, revoked; and what answers there without
//! being the hub.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use provenohm_api::network::{Enrolling, HubAt, Network};
use provenohm_api::{Api, Host};
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::bundle::{Bundle, Head};
use provenohm_exchange::hub::{EnrolCode, JobsThere, Lacks, Line, NoAnswer, Page, Pull, Tell};
use provenohm_hub::{CONNECTIONS, Certificate, Hub, Options};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, Kind};
use provenohm_wire::Wire;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::io::{Read as _, Write as _};
use std::net::TcpListener;
use std::path::Path;
use std::sync::{Arc, Mutex};
use tempfile::TempDir;
use tokio::sync::oneshot;

struct Office {
    record: TempDir,
    address: String,
    runtime: tokio::runtime::Runtime,
    end: Option<oneshot::Sender<()>>,
    running: Option<tokio::task::JoinHandle<()>>,
    /// Cookie and page secret of the office's browser.
    session: Vec<(&'static str, String)>,
    browser: reqwest::blocking::Client,
    first: Option<String>,
}

/// A certificate as a firm might have one.
fn certificate(folder: &Path) -> Certificate {
    let made = rcgen::generate_simple_self_signed(vec!["localhost".to_owned()]).unwrap();
    let certificate = Certificate { chain: folder.join("firm.pem"), key: folder.join("firm-key.pem") };
    std::fs::write(&certificate.chain, made.cert.pem()).unwrap();
    std::fs::write(&certificate.key, made.signing_key.serialize_pem()).unwrap();
    certificate
}

impl Office {
    fn open() -> Self {
        // One for all tests of this program: only the first is the first.
        drop(rustls::crypto::ring::default_provider().install_default());
        let mut office = Self {
            record: TempDir::new().unwrap(),
            address: "https://127.0.0.1:0".into(),
            runtime: tokio::runtime::Runtime::new().unwrap(),
            end: None,
            running: None,
            session: Vec::new(),
            browser: reqwest::blocking::Client::builder().danger_accept_invalid_certs(true).no_proxy().build().unwrap(),
            first: None,
        };
        certificate(office.record.path());
        office.start();
        let code = office.first.clone().unwrap().rsplit('/').next().unwrap().to_owned();
        office.session("/first", &json!({ "code": code, "name": "A. Office", "password": "correct horse" }));
        office
    }

    fn log_in(&mut self) {
        self.session("/login", &json!({ "name": "A. Office", "password": "correct horse" }));
    }

    fn session(&mut self, path: &str, asked: &Value) {
        let opened = self.browser.post(format!("{}{path}", self.address)).json(asked).send().unwrap();
        let cookie = opened.headers()["set-cookie"].to_str().unwrap().to_owned();
        assert!(cookie.contains("; Secure"), "{cookie}");
        let cookie = cookie.split(';').next().unwrap().to_owned();
        let page = opened.json::<Value>().unwrap()["page"].as_str().unwrap().to_owned();
        self.session = vec![("cookie", cookie), ("x-provenohm-page", page)];
    }

    fn start(&mut self) {
        let folder = self.record.path();
        let options = Options {
            record: folder.to_owned(),
            listen: self.address.trim_start_matches("https://").parse().unwrap(),
            certificate: Some(Certificate { chain: folder.join("firm.pem"), key: folder.join("firm-key.pem") }),
            names: Vec::new(),
            store: None,
            connections: CONNECTIONS,
        };
        let hub = self.runtime.block_on(Hub::bind(&options)).unwrap();
        self.address = hub.reached();
        self.first = hub.first_link().map(str::to_owned);
        let (end, asked) = oneshot::channel();
        self.end = Some(end);
        self.running = Some(self.runtime.spawn(hub.run(async move { drop(asked.await) })));
    }

    fn stop(&mut self) {
        self.end.take().unwrap().send(()).unwrap();
        self.runtime.block_on(self.running.take().unwrap()).unwrap();
    }

    fn ask(&self, path: &str, asked: &Value) -> Value {
        let mut request = self.browser.post(format!("{}{path}", self.address)).json(asked);
        for (name, value) in &self.session {
            request = request.header(*name, value);
        }
        request.send().unwrap().json().unwrap()
    }

    fn call(&self, operation: &str, input: Value) -> Value {
        self.ask("/call", &json!({ "operation": operation, "input": input }))
    }

    fn code(&self) -> String {
        self.ask("/phones/code", &json!({}))["code"].as_str().unwrap().to_owned()
    }
}

struct Phone {
    api: Api,
    _papers: TempDir,
}

impl Phone {
    fn new() -> Self {
        let papers = TempDir::new().unwrap();
        Self { api: Api::in_memory(Host::system(), papers.path()).unwrap(), _papers: papers }
    }

    fn enrolled(office: &Office, name: &str) -> Self {
        let phone = Self::new();
        phone.enrol(office, &office.code(), name);
        assert_eq!(phone.round()["step"], "in_step");
        phone
    }

    fn enrol(&self, office: &Office, code: &str, name: &str) {
        let asked = json!({ "address": office.address, "code": code, "name": name });
        assert_eq!(self.call("enrol", asked)["step"], "asking");
    }

    fn call(&self, operation: &str, input: Value) -> Value {
        self.api.call(operation, input).unwrap()
    }

    /// One round of whoever attends to the office, and what is said of it.
    fn round(&self) -> Value {
        self.api.attend(&Wire);
        self.call("office", json!({}))
    }

    fn start_job(&self, name: &str) -> Value {
        self.call("start_job", json!({ "name": name, "place": "Hall", "person": "A. Recorder", "role": "" }))
    }

    fn jobs(&self) -> Vec<String> {
        let jobs = self.call("jobs", json!({}));
        jobs["jobs"].as_array().unwrap().iter().map(|job| job["name"].as_str().unwrap().to_owned()).collect()
    }
}

#[test]
fn phones_are_kept_in_step_by_the_hub_and_the_office_works_on_the_same() {
    let mut office = Office::open();
    let one = Phone::enrolled(&office, "Phone one");
    let job = one.start_job("Mill Lane");
    assert_eq!(one.round()["step"], "in_step");
    assert_eq!(office.call("jobs", json!({}))["jobs"][0]["name"], "Mill Lane");
    let where_is = |told: Value| told["lines"][0].clone();
    assert_eq!(where_is(one.call("handed", json!({ "job": job["id"] }))), "On this device and at the office");
    assert_eq!(
        where_is(office.call("handed", json!({ "job": job["id"] }))),
        "At the office, for everybody who works here"
    );

    // Another phone sees the job there, and has it when it asks for it.
    let two = Phone::enrolled(&office, "Phone two");
    let there = two.round()["there"].clone();
    assert_eq!(there[0]["words"], "Mill Lane, Hall");
    assert_eq!(two.jobs(), Vec::<String>::new());
    two.call("fetch_job", json!({ "job": job["id"] }));
    assert_eq!(two.round()["there"], json!([]));
    assert_eq!(two.jobs(), ["Mill Lane"]);

    // What is changed on one, or in the office's browser, comes to the other.
    one.call("set_job_names", json!({ "job": job["id"], "name": "Mill Lane 3", "place": "Hall" }));
    one.round();
    two.round();
    assert_eq!(two.jobs(), ["Mill Lane 3"]);
    office.call("set_job_names", json!({ "job": job["id"], "name": "Mill Lane 4", "place": "Hall" }));
    one.round();
    assert_eq!(one.jobs(), ["Mill Lane 4"]);

    // Without the hub people go on, and nothing is shown as an error.
    office.stop();
    two.start_job("Wharf");
    let said = two.round();
    assert_eq!(said["step"], "waiting", "{said}");
    assert!(said["words"].as_str().unwrap().starts_with("Not reached since"), "{said}");
    office.start();
    assert_eq!(two.round()["step"], "in_step");
    one.round();
    assert!(one.call("office", json!({}))["there"].as_array().unwrap().iter().any(|job| job["words"] == "Wharf, Hall"));

    // The hub loses all it has but its accounts, and is filled again.
    office.stop();
    for name in ["entries.sqlite", "record.sqlite", "device.sqlite"] {
        for ending in ["", "-wal", "-shm"] {
            drop(std::fs::remove_file(office.record.path().join(format!("{name}{ending}"))));
        }
    }
    office.start();
    assert_eq!((one.round()["step"].clone(), two.round()["step"].clone()), (json!("in_step"), json!("in_step")));
    office.log_in();
    let names = office.call("jobs", json!({}))["jobs"].to_string();
    assert!(names.contains("Mill Lane 4") && names.contains("Wharf"), "{names}");
}

#[test]
fn a_code_enrols_one_phone_and_a_wrong_one_none() {
    let office = Office::open();
    let code = office.code();
    let (one, two) = (Phone::new(), Phone::new());
    one.enrol(&office, &code.to_lowercase().replace('-', " "), "Phone one");
    assert_eq!(one.round()["step"], "in_step");
    two.enrol(&office, &code, "Phone two");
    let said = two.round();
    assert_eq!((&said["step"], &said["address"]), (&json!("refused"), &Value::Null));
    assert!(said["words"].as_str().unwrap().starts_with("That code is not one"), "{said}");
    let refused = two.api.call("enrol", json!({ "address": " ", "code": "ABC", "name": "" })).unwrap_err();
    let fields: Vec<&str> = refused.complaints.iter().map(|one| one.field.as_str()).collect();
    assert_eq!(fields, ["address", "code", "name"]);
    // Wrong ones of a stranger void none that the office gave.
    let code = office.code();
    for nth in 0..20 {
        two.enrol(&office, &format!("0000-0000-{nth:04}"), "Phone two");
        assert_eq!(two.round()["step"], "refused");
    }
    two.enrol(&office, &code, "Phone two");
    assert_eq!(two.round()["step"], "in_step");
    // As people copy an address from a browser; and one where nobody answers is said to be so.
    let three = Phone::new();
    let asked =
        json!({ "address": format!("{}/#/jobs", office.address), "code": office.code(), "name": "Phone three" });
    three.call("enrol", asked);
    assert_eq!(three.round()["step"], "in_step");
    let four = Phone::new();
    four.call("enrol", json!({ "address": "127.0.0.1:1", "code": office.code(), "name": "Phone four" }));
    assert!(four.round()["words"].as_str().unwrap().starts_with("No office answers"));
}

#[test]
fn a_revoked_phone_gets_and_gives_nothing_more_and_keeps_what_it_has() {
    let office = Office::open();
    let lost = Phone::enrolled(&office, "Lost phone");
    lost.start_job("Mill Lane");
    lost.round();
    let listed = office.ask("/phones", &json!({}));
    assert_eq!((&listed[0]["name"], &listed[0]["alone"]), (&json!("Lost phone"), &Value::Null));
    assert!(listed[0]["words"].as_str().unwrap().starts_with("Heard "), "{listed}");
    assert_eq!(listed[0]["revoked"], false);
    let after = office.ask("/phones/revoke", &json!({ "device": listed[0]["device"] }));
    assert!(after[0]["words"].as_str().unwrap().starts_with("Revoked "), "{after}");
    lost.start_job("Afterwards");
    let said = lost.round();
    assert_eq!(said["step"], "refused", "{said}");
    assert!(said["words"].as_str().unwrap().starts_with("The hub does not know this device"), "{said}");
    assert_eq!(lost.jobs().len(), 2);
    assert!(!office.call("jobs", json!({}))["jobs"].to_string().contains("Afterwards"));
    // Nor does a new code help: the office revoked this device.
    lost.enrol(&office, &office.code(), "Lost phone");
    assert!(lost.round()["words"].as_str().unwrap().starts_with("The office revoked this device"));
}

/// The network, with somebody who looks at the phone's screen before each page that comes.
#[derive(Clone)]
struct LookedOn(Arc<Phone>, Arc<Mutex<Vec<String>>>);

struct LookedOnLine(Box<dyn Line + Send>, LookedOn);

impl Network for LookedOn {
    fn enrol(&self, asked: &Enrolling) -> Result<HubAt, NoAnswer> {
        Wire.enrol(asked)
    }

    fn line(&self, hub: &HubAt) -> Result<Box<dyn Line + Send>, NoAnswer> {
        Ok(Box::new(LookedOnLine(Wire.line(hub)?, self.clone())))
    }
}

impl Line for LookedOnLine {
    fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer> {
        self.0.tell(tell)
    }

    fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
        self.0.send(piece)
    }

    fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer> {
        let LookedOn(phone, seen) = &self.1;
        seen.lock().unwrap().push(phone.call("office", json!({}))["words"].as_str().unwrap().to_owned());
        self.0.pull(pull)
    }

    fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
        self.0.jobs()
    }
}

#[test]
fn a_round_that_takes_its_time_says_how_far_it_is() {
    let office = Office::open();
    let phone = Arc::new(Phone::enrolled(&office, "Phone"));
    phone.start_job("Mill Lane");
    let network = LookedOn(Arc::clone(&phone), Arc::default());
    phone.api.attend(&network);
    let seen = network.1.lock().unwrap().clone();
    assert!(
        seen[0].starts_with("Being brought in step: ") && seen[0].ends_with(" entries sent, 0 received so far"),
        "{seen:?}"
    );
    assert!(phone.call("office", json!({}))["words"].as_str().unwrap().starts_with("In step with the office"));
}

/// A job as a phone hands it over, base64.
fn handed(phone: &Phone, job: &Value) -> Value {
    let written = phone.call("hand_over", json!({ "job": job["id"], "testers": [] }));
    phone.call("written_file", json!({ "path": written["files"][0] }))["base64"].clone()
}

#[test]
fn what_a_revoked_phone_wrote_beyond_what_the_hub_had_waits_whoever_brings_it() {
    let office = Office::open();
    let (lost, other) = (Phone::enrolled(&office, "Lost phone"), Phone::enrolled(&office, "Other phone"));
    let known = lost.start_job("Mill Lane");
    lost.round();
    let list = || office.ask("/phones", &json!({}));
    let of_lost =
        |list: &Value| list.as_array().unwrap().iter().find(|one| one["name"] == "Lost phone").unwrap().clone();
    let device = of_lost(&list())["device"].clone();
    office.ask("/phones/revoke", &json!({ "device": device }));
    // It goes on, in the job the hub has and in one it has not, and hands both over by file.
    lost.call("set_job_names", json!({ "job": known["id"], "name": "Mill Lane altered", "place": "Hall" }));
    let later = lost.start_job("Afterwards");
    for job in [&known, &later] {
        other.call("take_in_bundle", json!({ "base64": handed(&lost, job) }));
    }
    let own = other.start_job("Own work");
    assert_eq!(other.round()["step"], "in_step");
    assert_eq!(other.round()["words"], other.round()["words"], "it has nothing more to send");
    let jobs = || office.call("jobs", json!({}))["jobs"].to_string();
    assert!(jobs().contains("Own work") && jobs().contains("Mill Lane") && !jobs().contains("altered"), "{}", jobs());
    assert!(!jobs().contains("Afterwards"), "{}", jobs());
    let held = of_lost(&list())["held"].clone();
    assert!(held.as_str().unwrap().ends_with("entries wait to be accepted"), "{held}");
    assert_eq!(
        list().as_array().unwrap().iter().find(|one| one["name"] == "Other phone").unwrap()["alone"],
        Value::Null
    );
    // The same by file in the office's browser: nothing of it comes in, and no entry waits twice.
    let refused = office.call("take_in_bundle", json!({ "base64": handed(&lost, &later) }));
    assert_eq!(refused["code"], "bundle_held", "{refused}");
    assert!(!jobs().contains("Afterwards"), "{}", jobs());
    let nobody = office.browser.post(format!("{}/phones/accept", office.address)).json(&json!({ "device": device }));
    assert_eq!(nobody.send().unwrap().status(), 401);
    // Somebody accepts it: then it is as any other work, and goes to the phones too.
    let after = office.ask("/phones/accept", &json!({ "device": device }));
    assert_eq!(of_lost(&after)["held"], Value::Null, "{after}");
    assert!(jobs().contains("Mill Lane altered") && jobs().contains("Afterwards"), "{}", jobs());
    let audit = office.ask("/people/audit", &json!({ "before": null }));
    assert_eq!(audit["lines"][0]["words"], "A. Office accepted what Lost phone recorded");
    let third = Phone::enrolled(&office, "Third phone");
    third.call("fetch_job", json!({ "job": later["id"] }));
    third.round();
    assert_eq!(third.jobs(), ["Afterwards"]);
    // What it writes after that waits again, and a second time there is nothing to accept.
    assert_eq!(office.ask("/phones/accept", &json!({ "device": device }))["code"], "not_found");
    lost.call("set_job_names", json!({ "job": later["id"], "name": "Again later", "place": "Hall" }));
    other.call("take_in_bundle", json!({ "base64": handed(&lost, &later) }));
    other.call("set_job_names", json!({ "job": own["id"], "name": "Own work 2", "place": "Hall" }));
    other.round();
    assert!(jobs().contains("Own work 2") && !jobs().contains("Again later"), "{}", jobs());
    // Thrown away it waits no more and never came; brought again it waits again.
    assert_ne!(of_lost(&list())["held"], Value::Null);
    let nobody = office.browser.post(format!("{}/phones/drop", office.address)).json(&json!({ "device": device }));
    assert_eq!(nobody.send().unwrap().status(), 401);
    let unseen = office.ask("/phones/drop", &json!({ "device": device, "waiting": 0 }));
    assert_eq!(unseen["code"], "waiting_changed", "more waits than was shown");
    let waiting = of_lost(&list())["waiting"].clone();
    let after = office.ask("/phones/drop", &json!({ "device": device, "waiting": waiting }));
    assert_eq!(of_lost(&after)["held"], Value::Null, "{after}");
    assert_eq!(office.ask("/phones/drop", &json!({ "device": device, "waiting": waiting }))["code"], "not_found");
    assert!(!jobs().contains("Again later"), "{}", jobs());
    let audit = office.ask("/people/audit", &json!({ "before": null }));
    assert_eq!(audit["lines"][0]["words"], "A. Office threw away what Lost phone recorded");
    let brought = office.call("take_in_bundle", json!({ "base64": handed(&lost, &later) }));
    assert_eq!(brought["code"], "bundle_held", "{brought}");
    assert_ne!(of_lost(&list())["held"], Value::Null);
}

type Piece = BTreeMap<Book, Vec<Entry>>;

/// The entries of a job as a phone hands it over, parted behind each seal of its log.
fn pieces(phone: &Phone, job: &Value) -> Vec<Piece> {
    let bytes = BASE64_STANDARD.decode(handed(phone, job).as_str().unwrap()).unwrap();
    let bundle = Bundle::open(&bytes).unwrap();
    let [packed] = &bundle.manifest().books[..] else { panic!("one job and no tester") };
    let all: Vec<Entry> = bundle.entries(packed.book).unwrap().unwrap().map(Result::unwrap).collect();
    let stretches = all.split_inclusive(|entry| entry.envelope().kind == Kind::Seal.number());
    stretches.map(|entries| BTreeMap::from([(packed.book, entries.to_vec())])).collect()
}

/// What the log of a piece ends with.
fn end_of(piece: &Piece) -> Head {
    let last = piece.values().flatten().last().unwrap();
    Head { log: last.envelope().log, seq: last.envelope().seq, hash: last.hash() }
}

/// A line of a phone that brings what others recorded.
fn bringing(office: &Office) -> Box<dyn Line + Send> {
    let asked = Enrolling {
        address: office.address.clone(),
        code: EnrolCode::typed(&office.code()).unwrap(),
        device: DeviceId(uuid::Uuid::from_u128(7)),
        name: "Other phone".into(),
    };
    Wire.line(&Wire.enrol(&asked).unwrap()).unwrap()
}

#[test]
fn what_is_missing_before_a_logs_end_is_asked_for_while_something_waits() {
    let office = Office::open();
    let lost = Phone::enrolled(&office, "Lost phone");
    let device = office.ask("/phones", &json!({}))[0]["device"].clone();
    office.ask("/phones/revoke", &json!({ "device": device }));
    let waits = pieces(&lost, &lost.start_job("Mill Lane"));
    let own = Phone::new();
    let job = own.start_job("Wharf");
    for name in ["Wharf 2", "Wharf 3"] {
        handed(&own, &job);
        own.call("set_job_names", json!({ "job": job["id"], "name": name, "place": "Hall" }));
    }
    let own = pieces(&own, &job);
    let mut line = bringing(&office);
    for piece in [&waits[0], &own[0], &own[2]] {
        line.send(piece).unwrap();
    }
    let mut heads = vec![end_of(&waits[0]), end_of(&own[2])];
    heads.sort_unstable();
    let lacks = line.tell(&Tell { heads }).unwrap().logs;
    assert_eq!(lacks.iter().map(|ends| ends.log).collect::<Vec<_>>(), [end_of(&own[2]).log]);
}

/// A log of which the hub has nothing comes in pieces, as a long one does: the second is of whom the first one is.
#[test]
fn a_revoked_phones_log_waits_whole_when_it_comes_in_pieces() {
    let office = Office::open();
    let lost = Phone::enrolled(&office, "Lost phone");
    let device = office.ask("/phones", &json!({}))[0]["device"].clone();
    office.ask("/phones/revoke", &json!({ "device": device }));
    let job = lost.start_job("Mill Lane");
    handed(&lost, &job);
    lost.call("set_job_names", json!({ "job": job["id"], "name": "Mill Lane altered", "place": "Hall" }));
    let [first, second] = &pieces(&lost, &job)[..] else { panic!("two seals") };
    let mut line = bringing(&office);
    let held = || {
        let list = office.ask("/phones", &json!({}));
        list.as_array().unwrap().iter().find(|one| one["device"] == device).unwrap()["held"].clone()
    };
    // The second alone is of nobody, and not taken.
    assert!(matches!(line.send(second), Err(NoAnswer::Refused { code, .. }) if code == "not_taken"));
    assert_eq!(held(), Value::Null);
    let entries = |pieces: &[&Piece]| {
        let all: usize = pieces.iter().flat_map(|piece| piece.values()).map(Vec::len).sum();
        json!(format!("{all} entries wait to be accepted"))
    };
    line.send(first).unwrap();
    assert_eq!(held(), entries(&[first]));
    line.send(second).unwrap();
    line.send(first).unwrap();
    assert_eq!(held(), entries(&[first, second]), "each waits once");
    let jobs = || office.call("jobs", json!({}))["jobs"].to_string();
    assert!(!jobs().contains("Mill Lane"), "{}", jobs());
    office.ask("/phones/accept", &json!({ "device": device }));
    assert_eq!(held(), Value::Null);
    assert!(jobs().contains("Mill Lane altered"), "{}", jobs());
}

#[test]
fn what_answers_with_another_certificate_is_not_the_hub() {
    let mut office = Office::open();
    let phone = Phone::enrolled(&office, "Phone");
    phone.start_job("Mill Lane");
    // At the same address, with the same accounts and store: only the key is another one.
    office.stop();
    certificate(office.record.path());
    office.start();
    let said = phone.round();
    assert_eq!(said["step"], "refused");
    assert!(said["words"].as_str().unwrap().starts_with("What answers there has another key"), "{said}");
    assert_eq!(phone.jobs(), ["Mill Lane"]);
    // Somebody in between who hands on what the phone says has no use of it: it is said of another certificate.
    office.log_in();
    let code = EnrolCode::typed(&office.code()).unwrap();
    let device = DeviceId(uuid::Uuid::from_u128(7));
    let said = code.by_phone(Some([7; 32]), device).to_string();
    let asked = json!({ "said": said, "device": device, "name": "In between" });
    let refused = office.browser.post(format!("{}/sync/1/enrol", office.address)).json(&asked).send().unwrap();
    assert_eq!(refused.status(), 401);
}

#[test]
fn a_program_that_does_not_know_the_code_is_not_believed_to_be_the_hub() {
    let (listener, code) = (TcpListener::bind("127.0.0.1:0").unwrap(), EnrolCode::of([9; 12]));
    let address = listener.local_addr().unwrap().to_string();
    let answers = std::thread::spawn(move || {
        for _ in 0..2 {
            let (mut stream, _) = listener.accept().unwrap();
            let mut asked = [0; 4096];
            let _ = stream.read(&mut asked).unwrap();
            let told = format!("{{\"said\":\"{}\",\"secret\":\"0\"}}", "0".repeat(64));
            let head = format!("HTTP/1.1 200 OK\r\nConnection: close\r\nContent-Length: {}\r\n\r\n", told.len());
            stream.write_all((head + &told).as_bytes()).unwrap();
        }
    });
    let device = DeviceId(uuid::Uuid::from_u128(7));
    let told = Wire.enrol(&Enrolling { address, code, device, name: "Phone".into() });
    assert!(matches!(told, Err(NoAnswer::NotTheHub)));
    answers.join().unwrap();
}
