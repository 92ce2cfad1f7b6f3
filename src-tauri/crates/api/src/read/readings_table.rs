//! A table of readings, pasted from a spreadsheet or read from a file. What it says is read here and nothing is filled in;
//! where a line belongs, and whether it is here already, is asked of the job.

use super::reading_cells::{Cells, moment, shortened};
use super::{NAME_MOST, NOTE_MOST, delimited};
use crate::read::table::{code, yes_or_no};
use crate::views::{LineComplaint, TableFormat};
use chrono::SecondsFormat;
use provenohm_assess::circuit::{Loads, Stage};
use provenohm_assess::limits::ReducedReason;
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Comparator, Shown, Volts};
use provenohm_assess::reading::{Conditions, Reading};
use provenohm_papers::{defused, plain};
use provenohm_words::Words;

/// One line that says a reading.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Line {
    pub(crate) line: u32,
    /// The board's name; empty: not said.
    pub(crate) board: String,
    pub(crate) circuit: String,
    pub(crate) pair: String,
    pub(crate) stage: Stage,
    pub(crate) shown: Shown,
    pub(crate) volts: Volts,
    /// Name or serial number; [`NONE`]: none was chosen.
    pub(crate) tester: String,
    pub(crate) serial: String,
    pub(crate) at: Moment,
    /// Who took it; empty: whoever records.
    pub(crate) read_by: String,
    /// Absent: as the circuit has them.
    pub(crate) loads: Option<Loads>,
    /// Absent: not stated.
    pub(crate) n_isolated: Option<bool>,
    /// Absent: as the circuit says; inside, absent: said that there is none.
    pub(crate) reduced: Option<Option<ReducedReason>>,
}

/// What a table says.
#[derive(Debug, Default)]
pub(crate) struct ReadingLines {
    pub(crate) lines: Vec<Line>,
    pub(crate) complaints: Vec<LineComplaint>,
    /// How many lines say a reading, those that cannot be read among them.
    pub(crate) count: usize,
}

/// Said where there is none: an empty cell says nothing.
pub(crate) const NONE: &str = "none";

/// The columns in the order they are written in. `description`, `status` and `judgement` are for people: what they say is
/// not read back.
const COLUMNS: [&str; 18] = [
    "board",
    "circuit",
    "description",
    "pair",
    "stage",
    "status",
    "comparator",
    "reading",
    "unit",
    "test_voltage_v",
    "tester",
    "tester_serial",
    "time",
    "read_by",
    "loads",
    "n_isolated",
    "reduced",
    "judgement",
];

/// Read beside them: a day of its own, where `time` is only a time of day.
const DATE: &str = "date";

/// What every table has to say, even where a cell is empty.
const NEEDED: [&str; 9] =
    ["circuit", "pair", "stage", "comparator", "reading", "unit", "test_voltage_v", "tester", "time"];

/// More readings than a board has.
const MOST_LINES: usize = 2_000;

/// Complaints after this many are not listed: nobody reads them, and the sum says how many lines there are.
const MOST_COMPLAINTS: usize = 500;

/// The lines of a table and the complaints about them. A time without an offset is one of this place.
pub(crate) fn read_readings(words: &Words, text: &str, format: TableFormat, here: Moment) -> ReadingLines {
    let mut read = ReadingLines::default();
    let mut columns: Option<Vec<&str>> = None;
    let mut head_is_wrong = false;
    let mut reader = delimited::reader(text, format);
    for record in reader.records() {
        let Ok(record) = record else {
            read.complain(0, words.text("complaint-line-unreadable"));
            break;
        };
        if delimited::is_blank(&record) {
            continue;
        }
        let line = delimited::line_of(&record);
        let Some(columns) = &columns else {
            let (named, complaints) = head(words, &record);
            head_is_wrong = !complaints.is_empty();
            complaints.into_iter().for_each(|words| read.complain(line, words));
            columns = Some(named);
            continue;
        };
        let field = |name: &str| {
            let place = columns.iter().position(|column| *column == name);
            plain(place.and_then(|place| record.get(place)).unwrap_or_default().trim()).trim()
        };
        // An open pair that was copied out, and that nobody filled in.
        if ["comparator", "reading", "unit", "time"].iter().all(|name| field(name).is_empty()) && !head_is_wrong {
            continue;
        }
        read.count += 1;
        if head_is_wrong {
            continue;
        }
        if read.count > MOST_LINES {
            if read.count == MOST_LINES + 1 {
                read.complain(line, words.text_with("complaint-lines", &[("most", MOST_LINES.into())]));
            }
            continue;
        }
        if record.len() > columns.len() && record.iter().skip(columns.len()).any(|more| !more.trim().is_empty()) {
            let args = [("found", record.len().into()), ("expected", columns.len().into())];
            read.complain(line, words.text_with("complaint-columns", &args));
            continue;
        }
        match line_of(words, line, field, here) {
            Ok(line) => read.lines.push(line),
            Err(all) => all.into_iter().for_each(|words| read.complain(line, words)),
        }
    }
    if read.count == 0 && read.complaints.is_empty() {
        read.complain(1, words.text("complaint-no-readings"));
    }
    read
}

impl ReadingLines {
    /// A complaint about a line.
    pub(crate) fn complain(&mut self, line: u32, words: String) {
        if self.complaints.len() < MOST_COMPLAINTS {
            self.complaints.push(LineComplaint { line, words });
        }
    }
}

/// The columns a head names, and what is wrong with it. A column that is not known is not left out in silence.
fn head(words: &Words, record: &csv::StringRecord) -> (Vec<&'static str>, Vec<String>) {
    let mut complaints = Vec::new();
    let mut columns: Vec<&'static str> = Vec::new();
    for name in record {
        let name = name.trim().to_lowercase();
        let known = COLUMNS.into_iter().chain([DATE]).find(|column| *column == name);
        match known {
            _ if name.is_empty() => columns.push(""),
            Some(known) if columns.contains(&known) => {
                complaints.push(words.text_with("complaint-column-twice", &[("column", known.into())]));
            }
            Some(known) => columns.push(known),
            None => {
                let name = shortened(&name);
                complaints.push(words.text_with("complaint-unknown-column", &[("column", name.into())]));
            }
        }
    }
    // Of a first row that names hardly anything: it is no head at all.
    let missing: Vec<&str> = NEEDED.into_iter().filter(|column| !columns.contains(column)).collect();
    if missing.len() > 4 {
        return (columns, vec![words.text("complaint-no-head")]);
    }
    complaints
        .extend(missing.into_iter().map(|it| words.text_with("complaint-column-missing", &[("column", it.into())])));
    (columns, complaints)
}

fn line_of<'f>(words: &Words, line: u32, field: impl Fn(&str) -> &'f str, here: Moment) -> Result<Line, Vec<String>> {
    let mut cells = Cells::new(words);
    let board = cells.text(field("board"), NAME_MOST);
    let circuit = cells.needed("circuit", field("circuit"), NAME_MOST);
    // The circuits of a group are all named in it.
    let pair = cells.needed("pair", field("pair"), NOTE_MOST);
    let stage = cells.needed_choice::<Stage>("stage", field("stage"), &["before", "after"]);
    let shown = cells.shown(field("comparator"), field("reading"), field("unit"));
    let volts = cells.volts(field("test_voltage_v"));
    let tester = cells.text(field("tester"), NAME_MOST);
    let serial = cells.text(field("tester_serial"), NAME_MOST);
    if tester.is_empty() && serial.is_empty() {
        cells.complain("complaint-tester-needed", &[]);
    }
    let at = match moment(words, field(DATE), field("time"), here) {
        Some(at) => Some(at),
        None => {
            cells.complain("complaint-date-and-time", &[("example", "25 Nov 2026 10:42".into())]);
            None
        }
    };
    let read_by = cells.text(field("read_by"), NAME_MOST);
    let loads = cells.choice::<Loads>(field("loads"), &["out", "connected", "electronics"]);
    let n_isolated = cells.yes_or_no(field("n_isolated"));
    let reduced = match field("reduced").to_lowercase().as_str() {
        NONE => Some(None),
        "" => None,
        reason => {
            let choices = [NONE, "surge_protector", "equipment", "equipment_connected"];
            Some(cells.choice::<ReducedReason>(reason, &choices))
        }
    };
    let wrong = cells.wrong();
    match (stage, shown, volts, at) {
        (Some(stage), Some(shown), Some(volts), Some(at)) if wrong.is_empty() => Ok(Line {
            line,
            board,
            circuit,
            pair,
            stage,
            shown,
            volts,
            tester,
            serial,
            at,
            read_by,
            loads,
            n_isolated,
            reduced,
        }),
        _ => Err(wrong),
    }
}

/// A line to be written: a pair, and the reading that stands there.
pub(crate) struct Written<'a> {
    pub(crate) board: &'a str,
    pub(crate) circuit: &'a str,
    pub(crate) description: &'a str,
    pub(crate) pair: String,
    pub(crate) stage: Stage,
    /// What is known of the pair: `read`, `open`, …
    pub(crate) status: &'static str,
    pub(crate) read: Option<WrittenReading<'a>>,
}

/// The reading of a written line.
pub(crate) struct WrittenReading<'a> {
    pub(crate) reading: &'a Reading,
    pub(crate) tester: String,
    pub(crate) serial: String,
    pub(crate) person: &'a str,
    pub(crate) judgement: String,
}

/// Readings as a table that [`read_readings`] reads, parted by tabs, with its head: comparator, digits and unit each in a
/// column of their own, so that no spreadsheet rounds them.
pub(crate) fn write_readings<'a>(lines: impl IntoIterator<Item = Written<'a>>) -> Result<Vec<u8>, csv::Error> {
    let mut writer = csv::WriterBuilder::new().delimiter(b'\t').from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    for line in lines {
        let place = [line.board.to_owned(), line.circuit.to_owned(), line.description.to_owned(), line.pair];
        let stage = [code(line.stage), line.status.to_owned()];
        let read = line.read.map(reading_cells).unwrap_or_default();
        writer.write_record(place.into_iter().chain(stage).chain(read).map(|cell| defused(&cell)))?;
    }
    writer.into_inner().map_err(|error| error.into_error().into())
}

fn reading_cells(read: WrittenReading<'_>) -> [String; 12] {
    let WrittenReading { reading, tester, serial, person, judgement } = read;
    let Conditions { loads, n_isolated, reduced } = reading.conditions;
    let comparator = match reading.shown.comparator {
        Comparator::Exact => "",
        Comparator::MoreThan => ">",
        Comparator::LessThan => "<",
    };
    [
        comparator.to_owned(),
        reading.shown.digits.to_string(),
        reading.shown.unit.symbol().to_owned(),
        reading.test_voltage_v.0.normalize().to_string(),
        tester,
        serial,
        reading.at.to_rfc3339_opts(SecondsFormat::AutoSi, false),
        person.to_owned(),
        code(loads),
        n_isolated.map(yes_or_no).unwrap_or_default(),
        reduced.map_or_else(|| NONE.to_owned(), code),
        judgement,
    ]
}

#[cfg(test)]
mod tests {
    use super::{COLUMNS, NEEDED};

    #[test]
    fn every_column_is_described_in_its_order() {
        let described = include_str!("../../../../../schemas/readings-table.md");
        let rows = described.lines().filter_map(|line| line.strip_prefix("| `")?.split_once('`'));
        let (names, rest): (Vec<&str>, Vec<&str>) = rows.unzip();
        assert_eq!(names, COLUMNS);
        let needed = names.into_iter().zip(rest).filter(|(_, rest)| rest.starts_with(" | yes |"));
        assert_eq!(needed.map(|(name, _)| name).collect::<Vec<_>>(), NEEDED);
    }
}
