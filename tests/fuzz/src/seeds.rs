//! What the fuzzing starts from: the worked examples that the formats are published with.
use std::path::Path;

use provenohm_api::{Api, Host};
use provenohm_logbook::entry::{Entry, Kind, Salt};
use serde_json::Value;

/// The published examples of a target, as its input.
#[must_use]
pub fn seeds(target: &str) -> Vec<Vec<u8>> {
    match target {
        "entry" => entries(),
        "bundle" => bundles(),
        "hub-request" => conversation(),
        "job-file" => vec![published("job.example.json")],
        "verification-file" => vec![published("verification.example.json")],
        "limit-set" => vec![published("limit-set.example.json")],
        _ => Vec::new(),
    }
}

/// The test vectors: each entry as sent, and its body as its kind.
fn entries() -> Vec<Vec<u8>> {
    let Ok(Value::Array(vectors)) = serde_json::from_slice(&published("entry.vectors.json")) else {
        panic!("entry.vectors.json is no list")
    };
    let seeds = vectors.iter().flat_map(|vector| {
        let part = |name: &str| unhex(vector[name].as_str().unwrap_or_default());
        let body = part("body");
        let kind = Kind::ALL.into_iter().position(|kind| vector["kind"] == kind.number());
        let as_fact = kind.and_then(|at| u8::try_from(at + 2).ok()).map(|choice| [&[choice][..], &body].concat());
        let salt = part("salt").try_into().map(Salt).ok();
        let entry = salt.map(|salt| Entry::from_parts(part("envelope"), Some((salt, body))));
        let as_sent = entry.and_then(Result::ok).map(|entry| [&[1][..], &entry.to_wire()].concat());
        [as_fact, as_sent]
    });
    seeds.flatten().collect()
}

/// The test vectors: each as a whole file, and without its digest.
fn bundles() -> Vec<Vec<u8>> {
    let Ok(Value::Array(vectors)) = serde_json::from_slice(&published("bundle.vectors.json")) else {
        panic!("bundle.vectors.json is no list")
    };
    let files = vectors.iter().map(|vector| unhex(vector["file"].as_str().unwrap_or_default()));
    let both = |file: Vec<u8>| {
        let told = &file[..file.len().saturating_sub(32)];
        [[&[0][..], &file].concat(), [&[1][..], told].concat()]
    };
    files.flat_map(both).collect()
}

/// The published conversation: each request and each answer, as what it is.
fn conversation() -> Vec<Vec<u8>> {
    let Ok(Value::Array(steps)) = serde_json::from_slice(&published("hub.vectors.json")) else {
        panic!("hub.vectors.json is no list")
    };
    let messages = steps.iter().flat_map(|step| {
        let (asked, told): (u8, Option<u8>) = match step["path"].as_str().unwrap_or_default() {
            "/sync/1/tell" => (0, Some(4)),
            "/sync/1/send" => (2, None),
            "/sync/1/pull" => (1, Some(3)),
            _ => (5, Some(5)),
        };
        let part = |choice: u8, name: &str| [&[choice][..], &unhex(step[name].as_str().unwrap_or_default())].concat();
        [Some(part(asked, "request")), told.map(|choice| part(choice, "answer"))]
    });
    messages.flatten().collect()
}

fn published(name: &str) -> Vec<u8> {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../schemas").join(name);
    std::fs::read(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()))
}

fn unhex(text: &str) -> Vec<u8> {
    let byte = |pair: &[u8]| std::str::from_utf8(pair).ok().and_then(|pair| u8::from_str_radix(pair, 16).ok());
    text.as_bytes().chunks(2).filter_map(byte).collect()
}

/// The program over a record in memory, whose time stands still and whose chance counts, so that an input gives the
/// same again.
pub(crate) fn program(papers: &Path) -> Api {
    let noon = chrono::DateTime::UNIX_EPOCH.fixed_offset() + chrono::Duration::days(25_000);
    let mut count = 0_u8;
    let host = Host::new(
        move || noon,
        move |bytes| {
            for byte in bytes {
                count = count.wrapping_mul(5).wrapping_add(113);
                *byte = count;
            }
            Ok(())
        },
    );
    match Api::in_memory(host, papers) {
        Ok(api) => api,
        Err(failure) => panic!("the record does not open: {failure:?}"),
    }
}
