//! The lines as a workbook. Every cell is a text, so that digits keep their zeros and nothing is a formula.

use std::borrow::Cow;

use chrono::{Datelike, Timelike};
use provenohm_assess::moment::Moment;
use provenohm_words::Words;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, FormatAlign, Workbook, XlsxError};

use super::entries::entries;
use super::{Table, data, readings, tables};
use crate::PaperError;
use crate::fixed::Fixed;
use crate::report::Parts;

/// UTF-16 units a cell holds.
const CELL_MOST: usize = 32_767;
/// Column widths are fitted up to this many pixels; longer texts wrap.
const WIDEST: u32 = 320;

impl Parts {
    /// Three sheets: the lines for people, what page 1 says, and the lines for software as in the CSV. The same schedule gives the same bytes.
    ///
    /// # Errors
    /// [`PaperError::Sheet`] if the workbook cannot be written.
    pub fn xlsx(&self, words: &Words) -> Result<Vec<u8>, PaperError> {
        let mut workbook = Workbook::new();
        if let Some(first) = self.parts.first() {
            let words = words.with_usual_offset(first.schedule.offset());
            let fixed = Fixed::new(&words);
            let title = fixed.text("title");
            let created = created(first.schedule.as_of)?;
            let properties = DocProperties::new().set_title(&title).set_creation_datetime(&created);
            workbook.set_properties(&properties);
            let entries = entries(&self.parts);
            put(&mut workbook, &readings::table(&entries, &fixed))?;
            put(&mut workbook, &tables::about(&first.schedule, &self.whole, &fixed))?;
            put(&mut workbook, &data::table(&entries, &fixed))?;
        }
        Ok(workbook.save_to_buffer()?)
    }
}

/// Adds a table as a sheet.
pub(crate) fn put(workbook: &mut Workbook, table: &Table) -> Result<(), XlsxError> {
    let head = Format::new().set_bold().set_text_wrap();
    let cell = Format::new().set_text_wrap().set_align(FormatAlign::Top);
    let sheet = workbook.add_worksheet();
    sheet.set_name(&table.name)?;
    let heads = usize::from(!table.heads.is_empty());
    for (column, text) in (0..).zip(&table.heads) {
        sheet.write_string_with_format(0, column, text, &head)?;
    }
    for (row, cells) in (u32::try_from(heads).unwrap_or_default()..).zip(&table.rows) {
        for (column, text) in (0..).zip(cells).filter(|(_, text)| !text.is_empty()) {
            sheet.write_string_with_format(row, column, fitted(text), &cell)?;
        }
    }
    if heads == 1 {
        sheet.set_freeze_panes(1, 0)?;
        let last = u16::try_from(table.heads.len().saturating_sub(1)).unwrap_or(u16::MAX);
        sheet.autofilter(0, 0, u32::try_from(table.rows.len()).unwrap_or(u32::MAX), last)?;
    }
    sheet.set_autofit_max_width(WIDEST);
    sheet.autofit();
    Ok(())
}

/// The text as far as a cell holds it, cut visibly; the CSV and the attached data hold all of it.
fn fitted(text: &str) -> Cow<'_, str> {
    if text.len() <= CELL_MOST || text.encode_utf16().count() <= CELL_MOST {
        return text.into();
    }
    let mut left = CELL_MOST - 1;
    let held = text.chars().take_while(|character| {
        let held = character.len_utf16() <= left;
        left = left.saturating_sub(character.len_utf16());
        held
    });
    held.chain(['…']).collect::<String>().into()
}

/// When a workbook says it was made.
pub(crate) fn created(at: Moment) -> Result<ExcelDateTime, XlsxError> {
    let small = |value: u32| u8::try_from(value).unwrap_or_default();
    let at = at.to_utc();
    let year = u16::try_from(at.year()).unwrap_or_default();
    ExcelDateTime::from_ymd(year, small(at.month()), small(at.day()))?.and_hms(
        u16::from(small(at.hour())),
        small(at.minute()),
        f64::from(at.second()),
    )
}
