//! Documents on pages: typeset once, then written as PDF/A-3a or drawn as pictures of its pages.

mod attached;
mod fonts;
mod parts;
mod text;
mod world;

use chrono::{Datelike, Timelike};
use provenohm_assess::moment::Moment;
use provenohm_words::Words;
use typst::diag::SourceDiagnostic;
use typst::foundations::{Datetime, Smart};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};
use typst_render::RenderOptions;

use crate::PaperError;
use crate::fixed::Fixed;
use crate::recall::{self, LINES_ON_PAPER, RecallList};
use crate::report::{Digest, Part, shortened};
use crate::tester_report::{self, TesterReport};
use crate::view::View;

pub(crate) use self::fonts::ems;
use self::world::{PaperWorld, Template};

pub use self::attached::{Attached, MOST_PDF_BYTES, NotAttached, attached, maker};

/// One part of a schedule, placed on pages.
pub struct Pages {
    document: PagedDocument,
    identity: String,
    as_of: Moment,
}

impl Pages {
    /// Typesets `part` with the fixed words of `words`.
    ///
    /// # Errors
    /// [`PaperError`] if the model cannot be written or the typesetter refuses.
    pub fn typeset(part: &Part, words: &Words) -> Result<Self, PaperError> {
        Self::typeset_beside(part, words, 0)
    }

    /// The same, while up to so many others are being typeset.
    fn typeset_beside(part: &Part, words: &Words, others: usize) -> Result<Self, PaperError> {
        let words = words.with_usual_offset(part.schedule.offset());
        let fixed = Fixed::new(&words);
        let model = part.canonical()?;
        let own = Digest::of(&model);
        let short = shortened(part)?;
        let mut view = serde_json::to_value(View::of(short.as_ref().unwrap_or(part), &own, &fixed))?;
        view["shortened"] = short.is_some().then(|| fixed.text("shortened")).into();
        Self::placed(Template::Schedule, view, (model, part.schedule.as_of), &fixed, others)
    }

    /// Typesets a recall list with the fixed words of `words`.
    ///
    /// # Errors
    /// [`PaperError`] if it is longer than [`LINES_ON_PAPER`], cannot be written, or the typesetter refuses.
    pub fn typeset_recall(list: &RecallList, words: &Words) -> Result<Self, PaperError> {
        if list.len() > LINES_ON_PAPER {
            return Err(PaperError::TooLong { lines: list.len(), most: LINES_ON_PAPER });
        }
        let words = words.with_usual_offset(list.offset());
        let fixed = Fixed::new(&words);
        let model = serde_json::to_vec(list)?;
        let view = serde_json::to_value(recall::View::of(list, &Digest::of(&model), &fixed))?;
        Self::placed(Template::Recall, view, (model, list.as_of), &fixed, 0)
    }

    /// Typesets a tester report with the fixed words of `words`.
    ///
    /// # Errors
    /// [`PaperError`] if the report cannot be written or the typesetter refuses.
    pub fn typeset_tester(report: &TesterReport, words: &Words) -> Result<Self, PaperError> {
        let words = words.with_usual_offset(*report.as_of.offset());
        let fixed = Fixed::new(&words);
        let model = report.json()?;
        let view = serde_json::to_value(tester_report::View::of(report, &Digest::of(&model), &fixed)?)?;
        Self::placed(Template::Tester, view, (model, report.as_of), &fixed, 0)
    }

    /// Places a view on pages and keeps the model to attach, while up to so many others are being typeset.
    fn placed(
        template: Template,
        mut view: serde_json::Value,
        (model, as_of): (Vec<u8>, Moment),
        fixed: &Fixed<'_>,
        others: usize,
    ) -> Result<Self, PaperError> {
        let own = Digest::of(&model);
        let replaced = text::make_printable(&mut view, fonts::regular()?);
        view["replaced"] =
            replaced.then(|| fixed.with("replaced-characters", &[("sign", &text::REPLACED.to_string())])).into();
        let world = PaperWorld::new(template, serde_json::to_vec(&view)?, model)?;
        let document = typst::compile::<PagedDocument>(&world).output.map_err(refused)?;
        // The typesetter keeps what it has laid out; a phone has better uses for that memory. What was used while as many
        // documents were made as are in the making stays.
        typst::comemo::evict(others);
        Ok(Self { document, identity: own.as_str().to_owned(), as_of })
    }

    /// Number of pages.
    #[must_use]
    pub fn count(&self) -> usize {
        self.document.pages().len()
    }

    /// The document as PDF/A-3a with the report model attached. The same part gives the same bytes.
    ///
    /// # Errors
    /// [`PaperError::Typeset`] if the document does not keep to PDF/A-3a.
    pub fn pdf(&self) -> Result<Vec<u8>, PaperError> {
        let standards = PdfStandards::new(&[PdfStandard::A_3a])
            .map_err(|error| PaperError::Typeset(error.message().to_string()))?;
        let options = PdfOptions {
            ident: Smart::Custom(self.identity.clone()),
            creator: Smart::Custom(Some(maker().to_owned())),
            timestamp: timestamp(self.as_of),
            standards,
            ..PdfOptions::default()
        };
        typst_pdf::pdf(&self.document, &options).map_err(refused)
    }

    /// Page `page` (from 1) as PNG.
    ///
    /// # Errors
    /// [`PaperError::NoSuchPage`], or [`PaperError::Picture`] if the picture cannot be written.
    pub fn png(&self, page: usize, scale: Scale) -> Result<Vec<u8>, PaperError> {
        let missing = || PaperError::NoSuchPage { page, pages: self.count() };
        let page = page.checked_sub(1).and_then(|index| self.document.pages().get(index)).ok_or_else(missing)?;
        let options = RenderOptions { pixel_per_pt: scale.0.into(), ..RenderOptions::default() };
        typst_render::render(page, &options).encode_png().map_err(|error| PaperError::Picture(error.to_string()))
    }
}

/// Pixels a typographic point (1/72 inch), kept between a thumbnail and a good print: 0.25 to 4.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale(f64);

impl Scale {
    /// The nearest scale there is.
    #[must_use]
    pub fn nearest(pixels_a_point: f64) -> Self {
        Self(if pixels_a_point.is_nan() { 1.0 } else { pixels_a_point.clamp(0.25, 4.0) })
    }
}

fn timestamp(at: Moment) -> Option<Timestamp> {
    let small = |value: u32| u8::try_from(value).ok();
    let (month, day) = (small(at.month())?, small(at.day())?);
    let (hour, minute, second) = (small(at.hour())?, small(at.minute())?, small(at.second())?);
    let time = Datetime::from_ymd_hms(at.year(), month, day, hour, minute, second)?;
    Timestamp::new_local(time, at.offset().local_minus_utc() / 60)
}

fn refused(errors: impl IntoIterator<Item = SourceDiagnostic>) -> PaperError {
    let messages: Vec<String> = errors.into_iter().map(|error| error.message.to_string()).collect();
    PaperError::Typeset(messages.join("; "))
}
