//! The columns of the lines, and what keeps to one line of text in them.
//!
//! A row known to be one line high has its height before it is laid out; the typesetter then places its cells once, and
//! need not try them first. Nearly every row of a long schedule is one.

use super::rows::ReadingRow;
use crate::pdf::ems;

/// Millimetres of each column: the one that holds rows together, number, pair, reading, test voltage, limit, judgement,
/// tester, time, person. They fill an A4 page across, between its margins.
pub(super) const LINES_MM: [f64; 10] = [0.0, 9.0, 34.0, 30.0, 21.0, 20.0, 61.0, 38.0, 32.0, 28.0];
const POINTS_A_MM: f64 = 72.0 / 25.4;
/// Size of the text in a line, and of what stands small beside it; as in the template.
const BODY_PT: f64 = 9.0;
const LEAST_PT: f64 = 8.2;
/// White space of a cell, left and right.
const INSETS_PT: f64 = 5.0;
/// A sign with the space after it.
const SIGN_PT: f64 = 10.5;
/// Widths are added up letter by letter; a pair of letters may stand a little further apart.
const MARGIN: f64 = 1.004;

/// Whether every cell of the row is one line of text.
pub(super) fn one_line(row: &ReadingRow) -> bool {
    let [_, _, pair, _, voltage, _, judgement, tester, time, person] = LINES_MM;
    let said = [(row.judgement.as_str(), BODY_PT), (" ", LEAST_PT), (row.notes.as_str(), LEAST_PT)];
    row.stage.is_none()
        && row.remarks.is_empty()
        && row.limit_mark.is_empty()
        && fits(pair, SIGN_PT, &[(&row.pair, BODY_PT)])
        && fits(voltage, 0.0, &[(&row.voltage, BODY_PT)])
        && fits(judgement, 0.0, &said)
        && fits(tester, SIGN_PT, &[(&row.tester, BODY_PT)])
        && fits(time, 0.0, &[(&row.time, BODY_PT)])
        && fits(person, 0.0, &[(&row.person, BODY_PT)])
}

/// Whether texts of those sizes, one after the other, fit a column beside something of `taken` points. A character that
/// is not in the typeface fits nowhere.
fn fits(column_mm: f64, taken: f64, texts: &[(&str, f64)]) -> bool {
    let widths = texts.iter().map(|(text, size)| Some(ems(text)? * size));
    let width: Option<f64> = widths.sum();
    width.is_some_and(|width| width * MARGIN + taken + INSETS_PT <= column_mm * POINTS_A_MM)
}

#[cfg(test)]
mod tests {
    use super::{BODY_PT, LINES_MM, fits};

    #[test]
    fn the_columns_fill_the_page() {
        assert!((LINES_MM.iter().sum::<f64>() - (297.0 - 2.0 * 12.0)).abs() < 1e-9);
    }

    #[test]
    fn only_what_surely_fits_is_one_line() {
        let fits = |text: &str| fits(28.0, 0.0, &[(text, BODY_PT)]);
        assert!(fits("") && fits("A. Recorder"));
        assert!(!fits("A recorder with a long name"), "too long");
        assert!(!fits("two\nlines") && !fits("漢"), "not in the typeface");
    }
}
