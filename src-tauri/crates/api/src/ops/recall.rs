//! The recall as a person's tool: what a failed tester puts in doubt, who to call, and what became of each reading.

use crate::failure::Failure;
use crate::judged::slot_id;
use crate::ops::checks::entry_words;
use crate::ops::files::{place_of, write_file, written};
use crate::ops::undo::token;
use crate::read::Fields;
use crate::recalled::{Recalled, RecalledJob, RecalledLine, Resolution, Whose, whose};
use crate::report;
use crate::state::State;
use crate::tell;
use crate::views::*;
use provenohm_assess::ids::TesterId;
use provenohm_assess::judgement::Level;
use provenohm_assess::policy::Policies;
use provenohm_assess::recall::Class;
use provenohm_exchange::bundle::books_of;
use provenohm_logbook::entry::Fact;
use provenohm_logbook::entry::body::{Book, RecallResolved, SignOff};
use provenohm_logbook::view::{Stated, View};
use provenohm_papers::report::Digest;
use provenohm_papers::{Pages, PaperError};
use provenohm_words::Words;
use std::collections::BTreeSet;
use std::path::Path;

pub(crate) fn recall(state: &mut State, asked: RecallAsk) -> Result<RecallView, Failure> {
    match whose(state, &asked.tester)? {
        Whose::One(tester) => recall_view(state, tester),
        Whose::Several(testers) => {
            let now = state.host.now();
            let mut candidates = Vec::new();
            for id in testers {
                let tester = provenohm_exchange::tester(&state.record.view(), id, &mut Vec::new())?;
                candidates.push(tell::tester_line(&state.words, &tester, Policies::default(), now));
            }
            let args = [("serial", asked.tester.trim().into()), ("count", candidates.len().into())];
            Ok(RecallView {
                tester: None,
                name: String::new(),
                serial: asked.tester.trim().to_owned(),
                words: state.words.text_with("answer-recall-several", &args),
                candidates,
                counts: RecallCounts::default(),
                causes: Vec::new(),
                jobs: Vec::new(),
                said: None,
                undo: None,
            })
        }
    }
}

pub(crate) fn resolve_recall(state: &mut State, asked: ResolveRecall) -> Result<RecallView, Failure> {
    let mut fields = Fields::new(&state.words);
    let reason = fields.needed("reason", &asked.reason, "complaint-reason-needed");
    fields.settle(Some(()))?;
    let recalled = Recalled::of(state, asked.tester)?;
    let job = recalled.jobs.iter().find(|job| job.judged.file.job.id == asked.job);
    let found = job.and_then(|job| {
        let of = |line: &&RecalledLine| job.reading(line).is_some_and(|one| one.reading.id == asked.reading);
        Some((job, job.lines.iter().find(of)?))
    });
    let (job, line) = found.ok_or_else(|| Failure::of("not_found"))?;
    let shown = job.reading(line).map(|one| state.words.reading(&one.reading.shown)).unwrap_or_default();
    let person = match state.me(asked.job)? {
        Some(person) => person,
        None => state.anyone()?,
    };
    let at = state.host.now();
    let receipt = state.write(person, |writer| {
        for cause in &line.causes {
            let said = RecallResolved { job: asked.job, reading: asked.reading, entry: cause.entry, person, at };
            writer.append(Fact::from(said).because(reason.as_str()))?;
        }
        Ok(())
    })?;
    let said = state.words.text_with("answer-recall-resolved", &[("reading", shown.into())]);
    Ok(RecallView { said: Some(said), undo: token(&receipt), ..recall_view(state, asked.tester)? })
}

fn recall_view(state: &mut State, tester: TesterId) -> Result<RecallView, Failure> {
    let recalled = Recalled::of(state, tester)?;
    Ok(view_of(&state.words, &recalled))
}

fn view_of(words: &Words, recalled: &Recalled) -> RecallView {
    let counts = counts(recalled.lines());
    let causes = recalled
        .entries
        .iter()
        .filter_map(|entry| {
            let (title, lines) = entry_words(words, &recalled.tester, *entry)?;
            let own = recalled.lines().filter(|line| line.causes.iter().any(|cause| cause.entry == *entry));
            Some(RecallCause { title, lines, readings: small(own.count()) })
        })
        .collect();
    let args = [
        ("all", counts.all.into()),
        ("resolved", counts.resolved.into()),
        ("tester", recalled.tester.name.as_str().into()),
    ];
    RecallView {
        tester: Some(recalled.tester.id),
        name: recalled.tester.name.clone(),
        serial: recalled.tester.serial.clone(),
        candidates: Vec::new(),
        words: words.text_with("answer-recall-sum", &args),
        counts,
        causes,
        jobs: recalled.jobs.iter().map(|job| job_view(words, job)).collect(),
        said: None,
        undo: None,
    }
}

pub(crate) fn make_recall(state: &mut State, asked: MakeRecall) -> Result<Written, Failure> {
    let now = state.host.now();
    let ending = match asked.format {
        RecallFormat::Pdf => "pdf",
        RecallFormat::Csv => "csv",
    };
    let name = format!("recall-{}-{}.{ending}", asked.tester, now.format("%Y%m%d-%H%M%S"));
    let path = place_of(state, &name)?;
    write_recall(state, asked.tester, asked.format, &path)?;
    Ok(written(state, "answer-recall-written", &[path]))
}

/// Writes the recall list of a tester.
pub(crate) fn write_recall(
    state: &mut State,
    tester: TesterId,
    format: RecallFormat,
    path: &Path,
) -> Result<(), Failure> {
    let recalled = Recalled::of(state, tester)?;
    let as_of = state.host.now();
    let record = record_of(&state.record.view(), &recalled)?;
    let words = &state.words;
    let list = report::recall_list(words, &recalled, |words| view_of(words, &recalled), as_of, record);
    let written = match format {
        RecallFormat::Csv => list.csv(),
        RecallFormat::Pdf => Pages::typeset_recall(&list, words).and_then(|pages| pages.pdf()),
    };
    let bytes = written.map_err(|error| match error {
        PaperError::TooLong { .. } => Failure::of("recall_too_long").because(error),
        other => Failure::of("schedule").because(other),
    })?;
    write_file(path, &bytes)
}

/// The digest of what a recall list is made from: the books of the tester, and of the jobs with their testers.
fn record_of(view: &View<'_>, recalled: &Recalled) -> Result<Option<Digest>, Failure> {
    let id = recalled.tester.id;
    let mut books: BTreeSet<Book> = view.tester(id)?.same.into_iter().chain([id]).map(Book::from).collect();
    for job in &recalled.jobs {
        books.extend(books_of(view, job.judged.file.job.id, &[])?);
    }
    Ok(Digest::named(&view.fingerprint(&books)?.to_string()))
}

/// How many lines, sorted and resolved.
fn counts<'a>(lines: impl Iterator<Item = &'a RecalledLine>) -> RecallCounts {
    lines.fold(RecallCounts::default(), |mut counts, line| {
        counts.all += 1;
        counts.resolved += u32::from(line.resolution.is_some());
        match class_of(line) {
            RecallClass::TestAgain => counts.test_again += 1,
            RecallClass::CannotBeJudged => counts.cannot_be_judged += 1,
            RecallClass::StillClears => counts.still_clears += 1,
        }
        counts
    })
}

fn job_view(words: &Words, job: &RecalledJob) -> RecallJob {
    let judged = &job.judged;
    let mut boards: Vec<(usize, RecallBoard)> = Vec::new();
    for line in &job.lines {
        let Some(view) = line_view(words, job, line) else { continue };
        match boards.last_mut() {
            Some((place, board)) if *place == line.board => board.lines.push(view),
            _ => {
                let on = judged.file.boards.get(line.board);
                let name = on.map(|board| board.name.clone()).unwrap_or_default();
                boards.push((line.board, RecallBoard { board: on.map(|board| board.id), name, lines: vec![view] }));
            }
        }
    }
    let person = |(person, part): &(_, String)| {
        let part = if part.is_empty() { "none" } else { part.as_str() };
        words.text_with("answer-recall-person", &[("name", judged.person(*person).into()), ("part", part.into())])
    };
    let signed = |one: &Stated<SignOff>| {
        let args = [
            ("number", one.value.number.to_string().into()),
            ("name", one.value.name.as_str().into()),
            ("time", words.date_time(one.recorded).into()),
            ("count", job.lines.len().into()),
        ];
        words.text_with("answer-recall-signed", &args)
    };
    RecallJob {
        job: judged.file.job.id,
        name: judged.file.job.name.clone(),
        place: judged.file.job.place.clone(),
        invented: judged.file.job.invented,
        people: job.people.iter().map(person).collect(),
        signed: job.signed.iter().map(signed).collect(),
        counts: counts(job.lines.iter()),
        boards: boards.into_iter().map(|(_, board)| board).collect(),
    }
}

fn line_view(words: &Words, job: &RecalledJob, line: &RecalledLine) -> Option<RecallLine> {
    let judged = &job.judged;
    let one = job.reading(line)?;
    let cause = line.causes.first()?;
    let circuit = one.reading.pair.circuits().into_iter().next().and_then(|id| judged.circuit(id));
    let limit = one.judgement.value.limit.as_ref().map(|limit| limit.minimum_ohm);
    let reckoned = !matches!(cause.class, Class::CannotBeJudged { .. });
    let about = tell::about(judged, one.reading.tester, None);
    Some(RecallLine {
        reading: one.reading.id,
        circuit: circuit.map(|circuit| circuit.id),
        slot: slot_id(one.reading.stage, &one.reading.pair),
        circuit_name: circuit.map(|circuit| tell::circuit_name(words, circuit)).unwrap_or_default(),
        pair: circuit.map(|circuit| tell::pair_name(words, judged, circuit.id, &one.reading.pair)).unwrap_or_default(),
        shown: words.reading(&one.reading.shown),
        volts: words.volts(one.reading.test_voltage_v),
        time: words.date_time(one.reading.at),
        class: class_of(line),
        class_words: words.recall_class_name(&cause.class),
        words: words.recall_class(&cause.class, limit),
        remark: reckoned.then(|| words.recall_remark(cause.found)),
        because: Sentence {
            level: one.judgement.tester.level(),
            words: words.tester_sentence(&one.judgement.tester, &about, &one.reading),
        },
        resolved: line.resolution.as_ref().map(|it| resolved(words, job, it)),
    })
}

fn resolved(words: &Words, job: &RecalledJob, resolution: &Resolution) -> String {
    match resolution {
        Resolution::Tested(id) => {
            let again = job.judged.reading(*id);
            let reading = again.map(|one| words.reading(&one.reading.shown)).unwrap_or_default();
            let at = again.map(|one| words.date_time(one.reading.at)).unwrap_or_default();
            words.text_with("answer-recall-tested-again", &[("reading", reading.into()), ("at", at.into())])
        }
        Resolution::Stated { reason, person, at } => words.text_with(
            "answer-recall-stated",
            &[
                ("reason", reason.as_str().into()),
                ("person", job.judged.person(*person).into()),
                ("at", words.date_time(*at).into()),
            ],
        ),
    }
}

fn class_of(line: &RecalledLine) -> RecallClass {
    match line.causes.first().map(|cause| &cause.class) {
        Some(Class::TestAgain { .. }) => RecallClass::TestAgain,
        Some(Class::StillClears { .. }) => RecallClass::StillClears,
        Some(Class::CannotBeJudged { .. }) | None => RecallClass::CannotBeJudged,
    }
}

fn small(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// How many readings a tester puts in doubt, for its own screen; nothing where it puts none.
pub(crate) fn in_doubt(state: &mut State, tester: TesterId) -> Result<Option<Sentence>, Failure> {
    let recalled = Recalled::of(state, tester)?;
    let counts = counts(recalled.lines());
    Ok(in_doubt_words(&state.words, counts.all, counts.all - counts.resolved))
}

/// How many readings are in doubt, and how many of them nobody has resolved; nothing where none is.
pub(crate) fn in_doubt_words(words: &Words, all: u32, open: u32) -> Option<Sentence> {
    let (level, key) = match (all, open) {
        (0, _) => return None,
        (_, 0) => (Level::Remark, "answer-recall-in-doubt"),
        _ => (Level::Look, "answer-recall-in-doubt-open"),
    };
    let args = [("count", all.into()), ("open", open.into())];
    Some(Sentence { level, words: words.text_with(key, &args) })
}
