//! Job files: a snapshot of one job out, a new job from one in.

use crate::failure::Failure;
use crate::ops::files::{file_stem, place_of, write_file, written};
use crate::ops::undo::token_of;
use crate::recalled::whose;
use crate::state::{State, maker};
use crate::tell;
use crate::views::*;
use chrono::SubsecRound as _;
use provenohm_assess::ids::JobId;
use provenohm_assess::limits::shipped;
use provenohm_exchange::job_file::{JobFile, Made, NotAJobFile};
use provenohm_exchange::{import, snapshot};
use provenohm_logbook::entry::Kind;
use provenohm_logbook::entry::body::Person;

pub(crate) fn export_job(state: &mut State, asked: OfJob) -> Result<Written, Failure> {
    let judged = state.judged(asked.job)?;
    let text = job_text(state, asked.job)?;
    let path = place_of(state, &format!("{}.job.json", file_stem(&judged)))?;
    write_file(&path, text.as_bytes())?;
    Ok(written(state, "answer-job-exported", &[path]))
}

/// The text of a job's file.
pub(crate) fn job_text(state: &mut State, job: provenohm_assess::ids::JobId) -> Result<String, Failure> {
    let made = Made { at: state.host.now().trunc_subsecs(3), by: maker() };
    let file = snapshot(&state.record.view(), job, &[], made)?;
    let text = file.write().map_err(|error| Failure::of("unexpected").because(error))?;
    // Part of a book may be missing here: a file that nobody can read again is none.
    JobFile::read(&text).map_err(|why| Failure::of("job_file_incomplete").because(why))?;
    Ok(text)
}

pub(crate) fn preview_job_file(state: &mut State, asked: JobFileText) -> Result<JobFilePreview, Failure> {
    let file = read(state, &asked.text)?;
    let ids: Vec<JobId> = state.record.view().jobs()?.iter().map(|job| job.job).collect();
    let mut same_name = false;
    for id in ids {
        same_name |= state.judged(id)?.file.job.name == file.job.name;
    }
    let same_serials = same_serials(state, &file)?;
    let words = &state.words;
    let name = &file.job.limit_set;
    let shipped = shipped().map_err(|error| Failure::of("unexpected").because(error))?;
    let set = shipped.iter().find(|one| one.name.id == name.id).map_or(name.id.0.clone(), |one| one.set.title.clone());
    let mut lines = vec![
        words.text_with("answer-file-made", &[("at", words.date_time(file.made.at).into())]),
        words.text_with("answer-file-set", &[("set", set.into()), ("version", name.version.into())]),
    ];
    lines.extend(file.boards.iter().map(|board| {
        let args = [("board", board.name.as_str().into()), ("circuits", board.circuits.len().into())];
        words.text_with("answer-file-board", &args)
    }));
    lines.push(words.text_with("answer-file-testers", &[("count", file.testers.len().into())]));
    lines.extend(same_serials);
    if same_name {
        lines.push(words.text_with("answer-file-same-name", &[("name", file.job.name.as_str().into())]));
    }
    if file.job.invented {
        lines.push(words.text("answer-demo"));
    }
    Ok(JobFilePreview {
        words: words.text_with(
            "answer-job-file",
            &[
                ("name", file.job.name.as_str().into()),
                ("boards", file.boards.len().into()),
                ("readings", file.readings.iter().filter(|taken| taken.stands()).count().into()),
            ],
        ),
        lines,
    })
}

pub(crate) fn import_job_file(state: &mut State, asked: JobFileText) -> Result<Imported, Failure> {
    let file = read(state, &asked.text)?;
    if state.record.view().jobs()?.iter().any(|job| job.job == file.job.id) {
        return Err(Failure::of("job_is_here"));
    }
    let person = match state.anyone_yet()? {
        Some(person) => person,
        // Nobody has said who they are on this device: the first of the file's people stands for who brought it in.
        None => {
            let first = file.people.first().ok_or_else(|| Failure::of("no_person"))?;
            state.person_named(&first.name, &first.role)?
        }
    };
    let same_serials = same_serials(state, &file)?;
    let plan = import::Plan::of(&file, asked.text.as_bytes(), &mut || state.host.id())?;
    for one in plan.people() {
        state.record.keep_person(&Person { person: one.id, name: one.name.clone(), role: one.role.clone() })?;
    }
    let job = plan.job();
    let receipt = state.write(person, |writer| Ok(plan.append(writer)?))?;
    state.be(job, person)?;
    let imported = state.words.text_with("answer-job-imported", &[("name", file.job.name.as_str().into())]);
    let words = std::iter::once(imported).chain(same_serials).collect::<Vec<_>>().join(". ");
    // Without their beginnings job and testers are there no more, whatever else is said of them.
    let begun = receipt.appended.iter().filter(|one| matches!(one.kind, Kind::JobOpened | Kind::TesterIdentity));
    let begun: Vec<_> = begun.map(|one| one.entry).collect();
    Ok(Imported { job, done: Done { words, undo: Some(token_of(&begun)) } })
}

/// That a tester of the file has the serial number of one that is here: they stay two, and what proves or fails one
/// says nothing of the other.
fn same_serials(state: &State, file: &JobFile) -> Result<Vec<String>, Failure> {
    let mut said = Vec::new();
    for tester in file.testers.iter().filter(|tester| !tester.serial.trim().is_empty()) {
        if whose(state, &tester.serial).is_ok() {
            let args = [("serial", tester.serial.as_str().into()), ("name", tester.name.as_str().into())];
            said.push(state.words.text_with("answer-file-same-serial", &args));
        }
    }
    Ok(said)
}

/// Reads a job file, with the reason in the person's words where it is none.
pub(crate) fn read(state: &State, text: &str) -> Result<JobFile, Failure> {
    JobFile::read(text).map_err(|why| {
        let code = if matches!(why, NotAJobFile::Newer(_)) { "job_file_newer" } else { "not_a_job_file" };
        Failure::of(code).saying(tell::not_a_job_file(&state.words, &why))
    })
}
