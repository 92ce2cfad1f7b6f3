//! The schedule: what it will say, its pages as pictures, and its files.

use crate::failure::Failure;
use crate::ops::files::{file_stem, not_written, write_file};
use crate::report;
use crate::state::State;
use crate::views::*;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use provenohm_assess::judgement::Level;
use provenohm_papers::report::{Parts, Schedule, Sign as PaperSign};
use provenohm_papers::{Pages, Scale};
use std::path::{Path, PathBuf};

/// Pixels for one point of the page: an A4 page about 1,260 pixels wide.
const PREVIEW_SCALE: f64 = 1.5;

pub(crate) fn schedule(state: &mut State, asked: OfJob) -> Result<ScheduleView, Failure> {
    let judged = state.judged(asked.job)?;
    let words = &state.words;
    let model = report::schedule(words, &judged)?;
    let mut ready =
        vec![ReadyLine { said: Sentence { level: Level::Remark, words: words.text("answer-not-signed") }, to: None }];
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
        formats: formats.map(|(id, name)| Choice { id: id.to_owned(), words: name.to_owned() }).into(),
    })
}

pub(crate) fn preview_page(state: &mut State, asked: PageAsk) -> Result<PageView, Failure> {
    let judged = state.judged(asked.job)?;
    let words = &state.words;
    let parts = parts(&report::schedule(words, &judged)?)?;
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
    let model = report::schedule(&state.words, &judged)?;
    let extension = match asked.format {
        ScheduleFormat::Pdf => "pdf",
        ScheduleFormat::Xlsx => "xlsx",
        ScheduleFormat::Csv => "csv",
    };
    let name = format!("{}-{}.{extension}", file_stem(&judged), model.as_of.format("%Y%m%d-%H%M%S"));
    std::fs::create_dir_all(&state.papers).map_err(not_written)?;
    let written = write_schedule(&state.words, &model, asked.format, &state.papers.join(name))?;
    let path = written.first().map(|path| path.display().to_string()).unwrap_or_default();
    let words = state.words.text_with("answer-schedule-made", &[("path", path.as_str().into())]);
    Ok(Written { path, words })
}

/// Writes a schedule; a long one as FILE-1.pdf, FILE-2.pdf … Returns where.
pub(crate) fn write_schedule(
    words: &provenohm_words::Words,
    model: &Schedule,
    format: ScheduleFormat,
    path: &Path,
) -> Result<Vec<PathBuf>, Failure> {
    let files: Vec<(PathBuf, Vec<u8>)> = match format {
        ScheduleFormat::Xlsx => vec![(path.to_owned(), parts(model)?.xlsx(words).map_err(typeset)?)],
        ScheduleFormat::Csv => vec![(path.to_owned(), parts(model)?.csv(words).map_err(typeset)?)],
        ScheduleFormat::Pdf => {
            let parts = parts(model)?;
            let pdfs = parts.pdfs(words).map_err(typeset)?;
            let alone = pdfs.len() == 1;
            let named = |number: u32| if alone { path.to_owned() } else { numbered(path, number) };
            parts.parts.iter().map(|part| named(part.number)).zip(pdfs).collect()
        }
    };
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

fn typeset(error: provenohm_papers::PaperError) -> Failure {
    Failure::of("schedule").because(error)
}
