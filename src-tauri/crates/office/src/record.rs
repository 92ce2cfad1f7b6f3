//! Between a record and files: job files and bundles.

use crate::ask::{Outcome, read};
use crate::tell;
use provenohm_api::headless;
use provenohm_api::views::RecallView;
use provenohm_api::{Api, Failure, Host};
use serde_json::{Value, json};
use std::path::Path;
use std::process::ExitCode;

pub(crate) fn import(file: &Path, record: &Path) -> Outcome {
    let text = read(file)?;
    // A file that is none leaves no record behind.
    headless::job_file(&text).map_err(|refused| format!("{}: {refused}", file.display()))?;
    let told = call(&open(record)?, "import_job_file", json!({ "text": text }));
    let told = told.map_err(|sentence| format!("{}: {sentence}", file.display()))?;
    tell::lines([text_of(&told["done"]["words"]), text_of(&told["job"])])
}

pub(crate) fn bundle(job: Option<&str>, record: &Path, output: &Path) -> Outcome {
    let api = existing(record)?;
    let id = only(&api, job)?;
    let written = api.bundle_file(&id, output);
    let without = written.map_err(|failure| format!("{}: {}", output.display(), sentence(failure)))?;
    tell::lines(without)
}

pub(crate) fn receive(file: &Path, record: &Path, look: bool, as_json: bool) -> Outcome {
    let place = |refused: String| format!("{}: {refused}", file.display());
    // A file that is none leaves no record behind.
    let bytes = headless::bundle(file).map_err(|refused| place(refused.to_string()))?;
    let told = open(record)?.receive(&bytes, look).map_err(|failure| place(sentence(failure)))?;
    if as_json {
        return tell::json(&told);
    }
    tell::lines(std::iter::once(told.words).chain(told.lines))
}

pub(crate) fn export(job: Option<&str>, record: &Path, output: Option<&Path>) -> Outcome {
    let api = existing(record)?;
    let id = only(&api, job)?;
    let text = api.job_file(&id).map_err(sentence)?;
    match output {
        Some(path) => {
            headless::write_text(path, &text).map_err(|refused| format!("{}: {refused}", path.display()))?;
        }
        None => return tell::whole(&text),
    }
    Ok(ExitCode::SUCCESS)
}

/// The id of the job that is named, or of the only one there is.
fn only(api: &Api, job: Option<&str>) -> Result<String, String> {
    let jobs = match (call(api, "jobs", json!({})), job) {
        // A record that cannot be listed may still hold the job that is named.
        (Err(_), Some(job)) => return Ok(job.to_owned()),
        (jobs, _) => jobs?,
    };
    let jobs: Vec<&Value> = jobs["jobs"].as_array().into_iter().flatten().collect();
    let named = |one: &&&Value| job.is_none_or(|job| one["id"] == job || one["name"] == job);
    let found: Vec<&&Value> = jobs.iter().filter(named).collect();
    let [one] = found.as_slice() else {
        let names: Vec<String> =
            jobs.iter().map(|one| format!("{} {}", text_of(&one["id"]), text_of(&one["name"]))).collect();
        return Err(headless::no_one_job(job.filter(|_| found.is_empty()), &names));
    };
    Ok(text_of(&one["id"]))
}

pub(crate) fn recall(tester: &str, record: &Path, as_json: bool, output: Option<&Path>) -> Outcome {
    let api = existing(record)?;
    let told = call(&api, "recall", json!({ "tester": tester }))?;
    if let Some(path) = output {
        let Some(id) = told["tester"].as_str() else { return Err(text_of(&told["words"])) };
        api.recall_file(id, path).map_err(sentence)?;
    }
    if as_json {
        return tell::json(&told);
    }
    let told: RecallView = serde_json::from_value(told).map_err(|error| error.to_string())?;
    tell::lines(headless::recall_lines(&told))
}

pub(crate) fn tester_report(record: &Path, tester: &str, bench: Option<&str>, output: &Path) -> Outcome {
    existing(record)?.tester_report_file(tester, bench, output).map_err(sentence)?;
    tell::lines([output.display().to_string()])
}

pub(crate) fn demo(record: &Path) -> Outcome {
    let told = call(&open(record)?, "make_demo", json!({}))?;
    tell::lines([text_of(&told["id"])])
}

/// A record that is there already.
fn existing(record: &Path) -> Result<Api, String> {
    if Api::is_record(record) { open(record) } else { Err(headless::no_record(record)) }
}

/// A record, made where there is none.
fn open(record: &Path) -> Result<Api, String> {
    if record.exists() && !record.is_dir() {
        return Err(headless::no_record(record));
    }
    Api::open(record, Host::system()).map_err(|failure| format!("{}: {}", record.display(), sentence(failure)))
}

fn call(api: &Api, operation: &str, input: Value) -> Result<Value, String> {
    api.call(operation, input).map_err(sentence)
}

fn sentence(failure: Failure) -> String {
    match failure.detail {
        Some(detail) => format!("{} ({detail})", failure.words),
        None => failure.words,
    }
}

fn text_of(value: &Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}
