//! `provenohm-office`: what can be done without a window. It asks the same functions as the screens and holds no rule
//! of the trade. Exit 0: done. 2: something could not be read or done, in one sentence. 3: `judge --strict` and not
//! every required pair meets, is proved, and has no fault of method; or `verify`, and something is not what was signed.

mod ask;
mod command;
mod record;
mod serve;
mod tell;

use clap::Parser;
use clap::error::{ContextKind, ContextValue};
use command::{Arguments, Command};
use std::process::ExitCode;

/// Input that cannot be read, or something that cannot be done: one sentence.
const REFUSED: u8 = 2;

fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => return not_asked(&error),
    };
    let outcome = match arguments.command {
        Command::Sets { json } => ask::sets(json),
        Command::Limit { circuit, json } => ask::limit(&circuit, json),
        Command::Explain(explain) => ask::explain(&explain),
        Command::Bench { file, json } => ask::bench(&file, json),
        Command::Judge { file, at, json, strict } => ask::judge(&file, at, json, strict),
        Command::Schedule { file, output } => ask::schedule(&file, &output),
        Command::TesterReport { file: Some(file), output, .. } => ask::tester_report(&file, &output),
        Command::TesterReport { file: None, record, tester, bench, output } => {
            record::tester_report(&record.unwrap_or_default(), &tester.unwrap_or_default(), bench.as_deref(), &output)
        }
        Command::Import { file, record } => record::import(&file, &record),
        Command::Export { job, record, output } => record::export(job.as_deref(), &record, output.as_deref()),
        Command::Bundle { job, record, output } => record::bundle(job.as_deref(), &record, &output),
        Command::Receive { file, record, look, json } => record::receive(&file, &record, look, json),
        Command::Verify { files, json } => ask::verify(&files, json),
        Command::Parallel { members, uncertainty, json } => ask::parallel(&members, uncertainty, json),
        Command::Own { with, without, uncertainty, json } => ask::own(with, without, uncertainty, json),
        Command::Discharge { through, capacitance, from, to, json } => {
            ask::discharge((through, capacitance), (from, to), json)
        }
        Command::Recall { tester, record, json, output } => record::recall(&tester, &record, json, output.as_deref()),
        Command::Serve(how) => serve::serve(how),
        Command::Backup { record, store, output } => serve::back_up(record.as_deref(), store.as_deref(), &output),
        Command::Restore { from, record } => serve::restore(&from, &record),
        Command::Move { record, to } => serve::move_to(&record, &to),
        Command::Demo { record } => record::demo(&record),
    };
    match outcome {
        Ok(code) => code,
        Err(sentence) => {
            tell::complain(&sentence);
            ExitCode::from(REFUSED)
        }
    }
}

/// Help and version as they are; anything else that is no request, in one sentence.
fn not_asked(error: &clap::Error) -> ExitCode {
    if !error.use_stderr() {
        return match tell::whole(&error.to_string()) {
            Ok(code) => code,
            Err(_) => ExitCode::from(REFUSED),
        };
    }
    if let (Some(ContextValue::String(option)), Some(reason)) =
        (error.get(ContextKind::InvalidArg), std::error::Error::source(error))
    {
        tell::complain(&format!("{}: {reason}", option.split(' ').next().unwrap_or_default()));
        return ExitCode::from(REFUSED);
    }
    let text = error.to_string();
    let first = text.split("\n\n").next().unwrap_or_default();
    let sentence = first.trim_start_matches("error: ").split_whitespace().collect::<Vec<_>>().join(" ");
    tell::complain(&sentence);
    ExitCode::from(REFUSED)
}
