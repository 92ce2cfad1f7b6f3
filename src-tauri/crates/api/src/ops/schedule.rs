//! The schedule: what it will say, its pages as pictures, and its files.

use crate::failure::Failure;
use crate::long_work::LongWork;
use crate::ops::files::{file_named, file_stem_alone, place_of, write_file, written};
use crate::ops::sign_off::{said, since_of};
use crate::signed::{Standing, model_of, signatures, standing};
use crate::state::State;
use crate::views::*;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use provenohm_assess::ids::JobId;
use provenohm_assess::judgement::Level;
use provenohm_exchange::join::Progress;
use provenohm_papers::report::{Parts, Schedule, Sign as PaperSign, Signature};
use provenohm_papers::{Pages, PaperError, Scale};
use provenohm_words::{Locale, Words};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Pixels for one point of the page: an A4 page about 1,260 pixels wide.
const PREVIEW_SCALE: f64 = 1.5;

pub(crate) fn schedule(state: &mut State, asked: OfJob) -> Result<ScheduleView, Failure> {
    let judged = state.judged(asked.job)?;
    let model = now(state, asked.job)?;
    let standing = standing(state, asked.job)?;
    let words = &state.words;
    let mut ready = signed_lines(words, &standing);
    let several = standing.len() > 1;
    let other = standing.iter().filter(|one| several || !one.after.is_empty());
    let as_signed = other.map(|one| Choice { id: one.said.entry.to_string(), words: said(words, &one.said) }).collect();
    ready.extend(model.findings.iter().map(|finding| {
        let level = match finding.sign {
            PaperSign::Stop => Level::Stop,
            PaperSign::Look => Level::Look,
            PaperSign::Done | PaperSign::ToDo => Level::Remark,
        };
        let to = (level >= Level::Look).then_some(ReadyPlace::Look);
        ReadyLine { said: Sentence { level, words: finding.sentence.clone() }, to }
    }));
    let formats = [("pdf", "PDF"), ("xlsx", "XLSX"), ("csv", "CSV")];
    Ok(ScheduleView {
        job: asked.job,
        title: judged.file.job.name.clone(),
        ready,
        as_signed,
        formats: formats.map(|(id, name)| Choice { id: id.to_owned(), words: name.to_owned() }).into(),
    })
}

pub(crate) fn preview_page(state: &mut State, asked: PageAsk) -> Result<PageView, Failure> {
    let model = of(state, asked.job, asked.as_signed.as_deref())?;
    let words = &state.words;
    let parts = parts(&model)?;
    // Pages are counted through all parts.
    let (mut before, mut found) = (0, None);
    for part in &parts.parts {
        let pages = Pages::typeset(part, words).map_err(typeset)?;
        let page = usize::try_from(asked.page).unwrap_or(usize::MAX).checked_sub(before);
        if let Some(page) = page.filter(|page| (1..=pages.count()).contains(page)) {
            found = Some(pages.png(page, Scale::nearest(PREVIEW_SCALE)).map_err(typeset)?);
        }
        before += pages.count();
    }
    let png = found.ok_or_else(|| Failure::of("page_not_there"))?;
    let alt = words.text_with("answer-page-alt", &[("page", asked.page.into()), ("pages", before.into())]);
    let pages = u32::try_from(before).unwrap_or(u32::MAX);
    Ok(PageView { page: asked.page, pages, png_base64: STANDARD.encode(png), alt })
}

pub(crate) fn make_schedule(state: &mut State, asked: MakeSchedule) -> Result<Written, Failure> {
    let judged = state.judged(asked.job)?;
    let model = of(state, asked.job, asked.as_signed.as_deref())?;
    let extension = extension(asked.format);
    // Two who signed apart signed two papers, maybe as of one instant.
    let by = asked.as_signed.as_ref().and(model.signatures.first()).map(|one| format!("-{}", file_named(&one.name)));
    let at = model.as_of.format("%Y%m%d-%H%M%S");
    let stem = file_stem_alone(&state.record.view(), &judged)?;
    let name = format!("{stem}-{at}{}.{extension}", by.unwrap_or_default());
    let work = Arc::clone(&state.long_work);
    let files = write_schedule(&state.words, &model, asked.format, &place_of(state, &name)?, &work)?;
    Ok(written(state, "answer-schedule-made", &files))
}

/// The schedule as it is now, in a folder of the host's choice.
pub(crate) fn schedule_into(
    state: &mut State,
    job: JobId,
    format: &str,
    folder: &Path,
) -> Result<Vec<PathBuf>, Failure> {
    let format = serde_json::from_value(format.into()).map_err(|error| Failure::of("bad_input").because(error))?;
    let model = now(state, job)?;
    let path = folder.join(format!("schedule.{}", extension(format)));
    write_schedule(&state.words, &model, format, &path, &LongWork::default())
}

const fn extension(format: ScheduleFormat) -> &'static str {
    match format {
        ScheduleFormat::Pdf => "pdf",
        ScheduleFormat::Xlsx => "xlsx",
        ScheduleFormat::Csv => "csv",
    }
}

/// Who signed and what has come since, or that nobody did.
fn signed_lines(words: &Words, standing: &[Standing]) -> Vec<ReadyLine> {
    let remark = |words: String| Sentence { level: Level::Remark, words };
    let mut lines: Vec<Sentence> = Vec::new();
    for one in standing {
        lines.push(remark(said(words, &one.said)));
        lines.extend(since_of(words, one));
    }
    if lines.is_empty() {
        lines.push(remark(words.text("answer-not-signed")));
    }
    lines.into_iter().map(|said| ReadyLine { said, to: Some(ReadyPlace::SignOff) }).collect()
}

/// The model of what the record says now, or of what was signed.
fn of(state: &mut State, job: JobId, as_signed: Option<&str>) -> Result<Schedule, Failure> {
    match as_signed {
        Some(entry) => signed(state, job, entry),
        None => now(state, job),
    }
}

fn now(state: &mut State, job: JobId) -> Result<Schedule, Failure> {
    let judged = state.judged(job)?;
    let signatures = signatures(state, job)?;
    Ok(Schedule { signatures, ..model_of(&state.words, &state.record.view(), job, &judged)? })
}

/// What was signed by one of the sign-offs that stand, as it was signed: the same bytes each time, whatever has come since.
fn signed(state: &mut State, job: JobId, entry: &str) -> Result<Schedule, Failure> {
    let standing = standing(state, job)?;
    let all = standing.iter().zip(signatures(state, job)?);
    let found = all.into_iter().find(|(one, _)| one.said.entry.to_string() == entry);
    let (one, signature) = found.ok_or_else(|| Failure::of("not_signed"))?;
    let lacking = || Failure::of("sign_off_incomplete");
    let as_signed = state.as_signed(job, &one.said)?.ok_or_else(lacking)?;
    let words = Locale::named(&one.said.value.language).map_or_else(|| state.words.clone(), Words::new);
    let model = as_signed.said.model(&words, &as_signed.judged)?;
    Ok(Schedule { signatures: vec![Signature { after: 0, in_doubt: 0, ..signature }], ..model })
}

/// Writes a schedule; a long one as FILE-1.pdf, FILE-2.pdf … Returns where.
pub(crate) fn write_schedule(
    words: &Words,
    model: &Schedule,
    format: ScheduleFormat,
    path: &Path,
    work: &LongWork,
) -> Result<Vec<PathBuf>, Failure> {
    work.begin();
    let files: Vec<(PathBuf, Vec<u8>)> = match format {
        ScheduleFormat::Xlsx => vec![(path.to_owned(), parts(model)?.xlsx(words).map_err(typeset)?)],
        ScheduleFormat::Csv => vec![(path.to_owned(), parts(model)?.csv(words).map_err(typeset)?)],
        ScheduleFormat::Pdf => {
            let parts = parts(model)?;
            let of = parts.parts.len() as u64;
            let pdfs = parts.pdfs_watched(words, &|done| work.reached(Progress { done: done as u64, of }));
            let pdfs = pdfs.map_err(typeset)?;
            let alone = pdfs.len() == 1;
            let named = |number: u32| if alone { path.to_owned() } else { numbered(path, number) };
            parts.parts.iter().map(|part| named(part.number)).zip(pdfs).collect()
        }
    };
    let files = work.unless_stopped(files)?;
    for (path, bytes) in &files {
        write_file(path, bytes)?;
    }
    Ok(files.into_iter().map(|(path, _)| path).collect())
}

fn numbered(path: &Path, number: u32) -> PathBuf {
    let stem = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let extension = path.extension().map(|it| it.to_string_lossy().into_owned()).unwrap_or_default();
    path.with_file_name(format!("{stem}-{number}.{extension}"))
}

fn parts(model: &Schedule) -> Result<Parts, Failure> {
    Parts::of(model).map_err(|error| Failure::of("schedule").because(error))
}

fn typeset(error: PaperError) -> Failure {
    match error {
        PaperError::Stopped => Failure::of("stopped"),
        other => Failure::of("schedule").because(other),
    }
}
