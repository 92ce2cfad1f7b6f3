//! The first sheet of a spreadsheet file as text parted by tabs: what its cells would paste as, line for line.

use calamine::{DataRef, Reader, Xlsx};
use std::collections::BTreeMap;
use std::io::{Cursor, Read};

/// Why a file has no sheet to read.
#[derive(Debug)]
pub(crate) enum NoSheet {
    /// There is more in it than any table of a board has.
    TooLarge,
    /// It is no spreadsheet file, or a damaged one.
    Unreadable(String),
}

/// A file of as many lines as are taken at once has a fortieth of it.
const MOST_BYTES: usize = 4 * 1024 * 1024;
/// What it may come to once unpacked: a small file can be made to swell to a thousand times its size.
const MOST_UNPACKED: u64 = 32 * 1024 * 1024;
const MOST_PARTS: usize = 1_000;
const MOST_ROWS: u32 = 10_000;
const MOST_COLUMNS: u32 = 256;
const MOST_CELLS: usize = 200_000;

/// The first sheet of an XLSX file.
pub(crate) fn first_sheet(bytes: &[u8]) -> Result<String, NoSheet> {
    if bytes.len() > MOST_BYTES {
        return Err(NoSheet::TooLarge);
    }
    unpack_within_bounds(bytes)?;
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(unreadable)?;
    let name = book.sheet_names().into_iter().next().ok_or_else(|| unreadable("no sheet"))?;
    let mut cells = book.worksheet_cells_reader(&name).map_err(unreadable)?;
    let decimals: Vec<Option<usize>> = cells
        .styles()
        .iter()
        .map(|style| decimals_of(style.number_format.as_ref().map_or("", |format| &format.format_code)))
        .collect();
    let mut rows: BTreeMap<u32, BTreeMap<u32, String>> = BTreeMap::new();
    let mut count = 0;
    while let Some((cell, style)) = cells.next_cell_with_style_id().map_err(unreadable)? {
        let text = text_of(cell.get_value(), decimals.get(style).copied().flatten());
        if text.is_empty() {
            continue;
        }
        let (row, column) = cell.get_position();
        count += 1;
        if count > MOST_CELLS || row >= MOST_ROWS || column >= MOST_COLUMNS {
            return Err(NoSheet::TooLarge);
        }
        rows.entry(row).or_default().insert(column, text);
    }
    written(&rows).map_err(unreadable)
}

fn unreadable(error: impl std::fmt::Display) -> NoSheet {
    NoSheet::Unreadable(error.to_string())
}

/// Unpacks every part once and keeps none: what it says of its own size is not believed.
fn unpack_within_bounds(bytes: &[u8]) -> Result<(), NoSheet> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).map_err(unreadable)?;
    if archive.len() > MOST_PARTS {
        return Err(NoSheet::TooLarge);
    }
    let mut left = MOST_UNPACKED;
    for at in 0..archive.len() {
        let part = archive.by_index(at).map_err(unreadable)?;
        let unpacked = std::io::copy(&mut part.take(left + 1), &mut std::io::sink()).map_err(unreadable)?;
        left = left.checked_sub(unpacked).ok_or(NoSheet::TooLarge)?;
    }
    Ok(())
}

/// How many decimals a number format shows, where it is a plain one: trailing zeros are part of a reading.
fn decimals_of(format: &str) -> Option<usize> {
    let (whole, decimals) = format.split_once('.').unwrap_or((format, ""));
    let plain = matches!(whole, "0" | "#0" | "##0" | "###0") && decimals.bytes().all(|digit| digit == b'0');
    (plain && decimals.len() <= 9).then_some(decimals.len())
}

fn text_of(cell: &DataRef<'_>, decimals: Option<usize>) -> String {
    match cell {
        DataRef::Int(number) => number.to_string(),
        DataRef::Float(number) => match decimals {
            Some(decimals) => format!("{number:.decimals$}"),
            None => number.to_string(),
        },
        DataRef::String(text) => text.trim().to_owned(),
        DataRef::SharedString(text) => text.trim().to_owned(),
        DataRef::Bool(whether) => whether.to_string(),
        DataRef::DateTime(at) if at.is_datetime() => {
            let (year, month, day, hour, minute, second, _) = at.to_ymd_hms_milli();
            if at.as_f64() < 1.0 {
                // A time of day without a day.
                return format!("{hour:02}:{minute:02}:{second:02}");
            }
            let date = format!("{year:04}-{month:02}-{day:02}");
            if (hour, minute, second) == (0, 0, 0) { date } else { format!("{date} {hour:02}:{minute:02}:{second:02}") }
        }
        DataRef::DateTime(span) => span.as_f64().to_string(),
        DataRef::DateTimeIso(text) | DataRef::DurationIso(text) => text.clone(),
        // What the sheet itself could not work out is said as it shows it, and complained about where it is read.
        DataRef::Error(error) => error.to_string(),
        DataRef::Empty => String::new(),
    }
}

/// Rows at the places they have in the sheet, so that complaints name its lines.
fn written(rows: &BTreeMap<u32, BTreeMap<u32, String>>) -> Result<String, String> {
    let mut writer = csv::WriterBuilder::new().delimiter(b'\t').flexible(true).from_writer(Vec::new());
    let last = rows.keys().last().copied();
    for at in 0..=last.unwrap_or(0) {
        let row = rows.get(&at);
        let width = row.and_then(|row| row.keys().last().copied()).map_or(0, |last| last + 1);
        // A line break in a cell would move the lines below it.
        let cell = |column| row.and_then(|row| row.get(&column)).map(|text| text.replace(['\n', '\r'], " "));
        let cells: Vec<String> = (0..width).map(|column| cell(column).unwrap_or_default()).collect();
        if cells.is_empty() {
            writer.write_record([" "]).map_err(|error| error.to_string())?;
        } else {
            writer.write_record(cells).map_err(|error| error.to_string())?;
        }
    }
    let bytes = writer.into_inner().map_err(|error| error.to_string())?;
    String::from_utf8(bytes).map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{MOST_BYTES, NoSheet, decimals_of, first_sheet};
    use std::io::{Cursor, Write as _};
    use zip::ZipWriter;
    use zip::write::SimpleFileOptions;

    fn packed(parts: &[(&str, &[u8])]) -> Vec<u8> {
        let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
        for (name, bytes) in parts {
            writer.start_file(*name, SimpleFileOptions::default()).unwrap();
            writer.write_all(bytes).unwrap();
        }
        writer.finish().unwrap().into_inner()
    }

    fn book(rows: &str) -> Vec<u8> {
        const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
        const LINKS: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
        const PACKAGE: &str = "http://schemas.openxmlformats.org/package/2006/relationships";
        let link = |id: &str, kind: &str, to: &str| {
            format!(r#"<Relationship Id="{id}" Type="{LINKS}/{kind}" Target="{to}"/>"#)
        };
        let links = |all: String| format!(r#"<Relationships xmlns="{PACKAGE}">{all}</Relationships>"#);
        let workbook = format!(
            r#"<workbook xmlns="{MAIN}" xmlns:r="{LINKS}"><sheets><sheet name="One" sheetId="1" r:id="a"/></sheets></workbook>"#
        );
        let styles = format!(
            r#"<styleSheet xmlns="{MAIN}"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy-mm-dd hh:mm"/></numFmts>
            <cellXfs count="3"><xf numFmtId="0"/><xf numFmtId="2"/><xf numFmtId="164"/></cellXfs></styleSheet>"#
        );
        let sheet = format!(r#"<worksheet xmlns="{MAIN}"><sheetData>{rows}</sheetData></worksheet>"#);
        packed(&[
            ("_rels/.rels", links(link("w", "officeDocument", "xl/workbook.xml")).as_bytes()),
            ("xl/workbook.xml", workbook.as_bytes()),
            (
                "xl/_rels/workbook.xml.rels",
                links(link("a", "worksheet", "worksheets/sheet1.xml") + &link("s", "styles", "styles.xml")).as_bytes(),
            ),
            ("xl/styles.xml", styles.as_bytes()),
            ("xl/worksheets/sheet1.xml", sheet.as_bytes()),
        ])
    }

    fn text(at: &str, text: &str) -> String {
        format!(r#"<c r="{at}" t="inlineStr"><is><t>{text}</t></is></c>"#)
    }

    #[test]
    fn cells_come_as_they_are_shown_at_the_lines_they_stand_on() {
        let rows = format!(
            r#"<row r="1">{}{}</row><row r="3">{}<c r="B3" s="1"><v>1.2</v></c><c r="C3"><v>487</v></c><c r="D3" s="2"><v>46351.4375</v></c></row>"#,
            text("A1", "circuit"),
            text("B1", "reading"),
            text("A3", "two&#10;lines")
        );
        let told = first_sheet(&book(&rows)).unwrap();
        let lines: Vec<Vec<&str>> = told.lines().map(|line| line.split('\t').collect()).collect();
        assert_eq!(lines[0], ["circuit", "reading"]);
        assert_eq!(lines[1].concat().trim(), "");
        assert_eq!(lines[2], ["two lines", "1.20", "487", "2026-11-25 10:30:00"]);
    }

    #[test]
    fn what_swells_or_sprawls_is_refused_before_it_is_held() {
        let zeros = vec![b' '; 64 * 1024 * 1024];
        let bomb = packed(&[("xl/sharedStrings.xml", &zeros)]);
        assert!(bomb.len() < MOST_BYTES, "{}", bomb.len());
        assert!(matches!(first_sheet(&bomb), Err(NoSheet::TooLarge)));
        for far in ["XFD1", "A1048576"] {
            let rows = format!(r#"<row r="1">{}</row>"#, text(far, "far"));
            assert!(matches!(first_sheet(&book(&rows)), Err(NoSheet::TooLarge)), "{far}");
        }
        let good = book(&format!(r#"<row r="1">{}</row>"#, text("A1", "circuit")));
        for cut in (0..good.len()).step_by(7) {
            assert!(first_sheet(&good[..cut]).is_err(), "cut at {cut}");
        }
        // Any byte of it altered: read, or refused in words.
        for at in 0..good.len() {
            let mut bad = good.clone();
            bad[at] ^= 0x55;
            drop(first_sheet(&bad));
        }
    }

    #[test]
    fn a_plain_format_says_how_many_zeros_stand_at_the_end() {
        for (format, decimals) in [
            ("0.00", Some(2)),
            ("0", Some(0)),
            ("#0.0", Some(1)),
            ("General", None),
            ("0.00%", None),
            ("#,##0.00", None),
            ("", None),
        ] {
            assert_eq!(decimals_of(format), decimals, "{format}");
        }
    }

    #[test]
    fn what_is_no_spreadsheet_or_too_large_is_told_apart() {
        assert!(matches!(first_sheet(b"circuit\tpair"), Err(NoSheet::Unreadable(_))));
        assert!(matches!(first_sheet(&vec![0; MOST_BYTES + 1]), Err(NoSheet::TooLarge)));
    }
}
