//! Saving one reading beside what no record can do without: appending its bytes to a file and flushing it to the disk.
use std::fs::OpenOptions;
use std::io::Write as _;

use crate::figure::{Pairs, Row};
use crate::{Broken, job::Job};

/// Readings saved for one figure, each beside one append.
const READINGS: usize = 150;

/// Bytes of the entry that one reading becomes: envelope, salt and body.
const BYTES: usize = 300;

/// With a job of 54 circuits on record, and with one of 500.
pub(crate) fn rows() -> Result<Vec<Row>, Broken> {
    [(3, 18), (25, 20)].into_iter().map(|(boards, circuits)| row(boards, circuits)).collect()
}

fn row(boards: usize, circuits: usize) -> Result<Row, Broken> {
    let folder = tempfile::tempdir()?;
    let mut bare = OpenOptions::new().create(true).append(true).open(folder.path().join("bare"))?;
    let mut job = Job::make(&folder.path().join("record"), boards, circuits)?;
    let readings = boards * circuits * 3;
    job.record(readings - READINGS)?;
    let mut pairs = Pairs::default();
    for nth in 0..READINGS {
        let asked = job.next(nth)?;
        let append = || {
            bare.write_all(&[0x5a; BYTES])?;
            bare.sync_all()?;
            Ok(())
        };
        pairs.measure::<Broken>(|| Ok(job.save(asked)?), append)?;
    }
    let what = format!("save a reading, up to {readings} of {} circuits on record", boards * circuits);
    Ok(pairs.row(what, format!("append and flush {BYTES} bytes")))
}
