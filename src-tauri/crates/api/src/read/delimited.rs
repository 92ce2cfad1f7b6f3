//! Text in rows and columns: pasted from a spreadsheet, or read from a file.

use crate::views::TableFormat;

/// Its rows, the first one too; how many fields each has is for whoever reads it.
pub(super) fn reader(text: &str, format: TableFormat) -> csv::Reader<&[u8]> {
    let text = text.trim_start_matches('\u{feff}');
    let delimiter = match format {
        TableFormat::Tsv => b'\t',
        // A file from a region with a decimal comma parts its fields by semicolons.
        TableFormat::Csv if text.lines().next().is_some_and(|head| head.contains(';')) => b';',
        TableFormat::Csv => b',',
    };
    csv::ReaderBuilder::new().delimiter(delimiter).has_headers(false).flexible(true).from_reader(text.as_bytes())
}

/// The line a row begins on, from 1.
pub(super) fn line_of(record: &csv::StringRecord) -> u32 {
    record.position().and_then(|at| u32::try_from(at.line()).ok()).unwrap_or(0)
}

/// Nothing stands in it.
pub(super) fn is_blank(record: &csv::StringRecord) -> bool {
    record.iter().all(|field| field.trim().is_empty())
}
