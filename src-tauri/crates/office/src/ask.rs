//! Limits, one reading, a job file, a verification.

use crate::command::{Circuit, Explain};
use crate::tell::{self, json};
use provenohm_api::headless::{self, ExplainAsked, LimitAsked, SetAsked};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Farads, Ohms, Percent, Shown, Volts};
use serde::de::DeserializeOwned;
use serde::de::value::{Error, StrDeserializer};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What `judge --strict` and `verify` answer when something does not hold.
const NOT_STRICT: u8 = 3;

/// Done, or why not in one sentence.
pub(crate) type Outcome = Result<ExitCode, String>;

pub(crate) fn sets(as_json: bool) -> Outcome {
    let sets = headless::sets().map_err(|refused| refused.to_string())?;
    if as_json {
        return json(&sets);
    }
    tell::lines(sets.iter().map(|set| format!("{}  {}", set.id, set.title)))
}

pub(crate) fn limit(circuit: &Circuit, as_json: bool) -> Outcome {
    let told = headless::limit(&asked(circuit)?).map_err(|refused| refused.to_string())?;
    if as_json { json(&told) } else { tell::lines(told.lines) }
}

pub(crate) fn explain(explain: &Explain) -> Outcome {
    let asked = ExplainAsked {
        shown: explain.reading,
        limit: asked(&explain.circuit)?,
        pair: explain.pair.clone(),
        accuracy: explain.accuracy,
        resolution: explain.resolution,
        policy: word("policy", &explain.policy)?,
        taken_v: explain.taken,
        reduced: explain.reduced.as_deref().map(|reason| word("reduced", reason)).transpose()?,
    };
    let told = headless::explain(&asked).map_err(|refused| refused.to_string())?;
    if explain.json { json(&told) } else { tell::lines(told.lines) }
}

pub(crate) fn judge(file: &Path, at: Option<Moment>, as_json: bool, strict: bool) -> Outcome {
    let text = read(file)?;
    let told = headless::judge(&text, at).map_err(|refused| format!("{}: {refused}", file.display()))?;
    if as_json {
        json(&told)?;
    } else {
        tell::lines(headless::judgement_lines(&told))?;
    }
    if strict && !told.strict {
        tell::complain(&headless::not_strict_because(&told));
        return Ok(ExitCode::from(NOT_STRICT));
    }
    Ok(ExitCode::SUCCESS)
}

pub(crate) fn bench(file: &Path, as_json: bool) -> Outcome {
    let told = headless::bench(&read(file)?).map_err(|refused| format!("{}: {refused}", file.display()))?;
    if as_json { json(&told) } else { tell::lines(told.lines) }
}

pub(crate) fn schedule(file: &Path, output: &Path) -> Outcome {
    let text = read(file)?;
    let job = headless::job_file(&text).map_err(|refused| format!("{}: {refused}", file.display()))?;
    let written = headless::schedule(job, output).map_err(|refused| format!("{}: {refused}", output.display()))?;
    tell::lines(written.iter().map(|path| path.display().to_string()))
}

pub(crate) fn tester_report(file: &Path, output: &Path) -> Outcome {
    let text = read(file)?;
    headless::tester_report(&text, output).map_err(|refused| format!("{}: {refused}", file.display()))?;
    tell::lines([output.display().to_string()])
}

pub(crate) fn verify(files: &[PathBuf], as_json: bool) -> Outcome {
    let told = headless::verify(files).map_err(|refused| refused.to_string())?;
    if as_json {
        json(&told)?;
    } else {
        tell::lines(headless::verify_lines(&told))?;
    }
    Ok(if told.holds { ExitCode::SUCCESS } else { ExitCode::from(NOT_STRICT) })
}

pub(crate) fn parallel(members: &[Shown], uncertainty: Option<Percent>, as_json: bool) -> Outcome {
    let told = headless::parallel(members, uncertainty).map_err(|refused| refused.to_string())?;
    if as_json { json(&told) } else { tell::lines(told.lines) }
}

pub(crate) fn own(with: Shown, without: Shown, uncertainty: Percent, as_json: bool) -> Outcome {
    let told = headless::own(with, without, uncertainty).map_err(|refused| refused.to_string())?;
    if as_json { json(&told) } else { tell::lines(told.lines) }
}

pub(crate) fn discharge((through, capacitance): (Ohms, Farads), (from, to): (Volts, Volts), as_json: bool) -> Outcome {
    let told = headless::discharge((through, capacitance), (from, to)).map_err(|refused| refused.to_string())?;
    if as_json { json(&told) } else { tell::lines(told.lines) }
}

/// A file's text.
pub(crate) fn read(file: &Path) -> Result<String, String> {
    headless::read_text(file).map_err(|refused| format!("{}: {refused}", file.display()))
}

fn asked(circuit: &Circuit) -> Result<LimitAsked, String> {
    let set = match &circuit.set_file {
        Some(file) => SetAsked::own(&read(file)?).map_err(|refused| format!("{}: {refused}", file.display()))?,
        None => SetAsked::Shipped(circuit.set.clone().unwrap_or_default()),
    };
    Ok(LimitAsked {
        set,
        nominal_v: circuit.nominal,
        measure: word("measure", &circuit.measure)?,
        current: word("current", &circuit.current)?,
        to_earth_v: circuit.to_earth,
        supply_v: circuit.supply,
        loads: word("loads", &circuit.loads)?,
        item: circuit.item.as_deref().map(|item| word("item", item)).transpose()?,
        conductors: circuit.conductors.as_deref().map(|it| word("conductors", it)).transpose()?,
        stage: word("stage", &circuit.stage)?,
    })
}

/// A choice by its word, as files write it.
fn word<T: DeserializeOwned>(option: &str, text: &str) -> Result<T, String> {
    T::deserialize(StrDeserializer::<Error>::new(text))
        .map_err(|error| format!("--{option}: {}", headless::json_complaint(&error.to_string())))
}
