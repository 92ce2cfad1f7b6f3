//! The recall list as CSV (RFC 4180: commas, CRLF, UTF-8), for any other software: fixed names, codes, ISO times.

use super::{RecallList, RecallSort};
use crate::PaperError;
use crate::defused::defused;
use crate::sheet::comparator_code;

const HEADS: [&str; 23] = [
    "tester",
    "serial",
    "job_id",
    "job",
    "place",
    "people",
    "signed",
    "board",
    "circuit",
    "pair",
    "reading_id",
    "comparator",
    "ohms",
    "test_voltage_v",
    "taken_at",
    "sorted",
    "sentence",
    "remark",
    "because",
    "resolved",
    "times_in_texts",
    "invented_demonstration_data",
    "fingerprint",
];

impl RecallList {
    /// A row a reading. `fingerprint` is that of the record, as papers print it. `times_in_texts` is the offset (`UTC+01:00`) of every time a sentence states without one. A text that a spreadsheet could take for a formula has an apostrophe before it.
    ///
    /// # Errors
    /// [`PaperError::Table`] if the table cannot be written.
    pub fn csv(&self) -> Result<Vec<u8>, PaperError> {
        let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
        writer.write_record(HEADS)?;
        let fingerprint = self.fingerprint().map(|it| it.to_string()).unwrap_or_default();
        let times = format!("UTC{}", self.offset());
        for job in &self.jobs {
            for board in &job.boards {
                for line in &board.lines {
                    let sorted = match line.sort {
                        RecallSort::TestAgain => "test_again",
                        RecallSort::CannotBeJudged => "cannot_be_judged",
                        RecallSort::StillClears => "still_clears",
                    };
                    let row = [
                        self.name.clone(),
                        self.serial.clone(),
                        job.id.to_string(),
                        job.name.clone(),
                        job.place.clone(),
                        job.people.join("; "),
                        job.signed.join("; "),
                        board.name.clone(),
                        line.circuit.clone(),
                        line.pair.clone(),
                        line.reading.to_string(),
                        comparator_code(line.shown.comparator).to_owned(),
                        line.shown.ohms().0.to_string(),
                        line.test_voltage_v.0.normalize().to_string(),
                        line.taken_at.to_rfc3339(),
                        sorted.to_owned(),
                        line.sentence.clone(),
                        line.remark.clone().unwrap_or_default(),
                        line.because.clone(),
                        line.resolved.clone().unwrap_or_default(),
                        times.clone(),
                        (self.demo || job.demo).to_string(),
                        fingerprint.clone(),
                    ];
                    writer.write_record(row.iter().map(|cell| defused(cell)))?;
                }
            }
        }
        writer.into_inner().map_err(|error| PaperError::Table(error.into_error().into()))
    }
}
