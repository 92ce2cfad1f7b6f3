//! Judging 100,000 readings beside reading the same ones from the record.
use std::collections::BTreeMap;

use provenohm_assess::circuit::Electrical;
use provenohm_assess::ids::{CircuitId, JobId, PersonId, ReadingId};
use provenohm_assess::judge::{Asked, Known, Wanted, judge};
use provenohm_assess::limits::{LimitSet, Under, shipped};
use provenohm_assess::reading::Reading;
use provenohm_assess::tester::Prepared;
use provenohm_exchange::job_file::{JobFile, Tester};
use provenohm_logbook::entry::body::{Person, ReadingTaken};
use provenohm_logbook::record::{By, Place, Record, WriteError};
use uuid::Uuid;

use crate::figure::{Pairs, Row};
use crate::{Broken, job::Job};

const READINGS: usize = 100_000;
const PAIRS: usize = 3;

/// What readings are judged by.
struct Grounds<'a> {
    set: &'a LimitSet,
    circuits: BTreeMap<CircuitId, &'a Electrical>,
    testers: Vec<Prepared>,
    file: &'a JobFile,
}

pub(crate) fn row() -> Result<Row, Broken> {
    let folder = tempfile::tempdir()?;
    let mut job = Job::make(&folder.path().join("job"), 3, 18)?;
    job.record(162)?;
    let file: JobFile = serde_json::from_str(&job.file()?)?;
    let Ok([first, ..]) = shipped() else { return Err(Broken::NoPart("judge".to_owned())) };
    let circuits = file.boards.iter().flat_map(|board| &board.circuits);
    let grounds = Grounds {
        set: &first.set,
        circuits: circuits.map(|one| (one.id, &one.electrical)).collect(),
        testers: file.testers.iter().flat_map(Tester::histories).map(|history| Prepared::new(&history)).collect(),
        file: &file,
    };
    let place = Place { record: folder.path().join("many.sqlite"), device: folder.path().join("device.sqlite") };
    let record = fill(&place, &file)?;
    let read = || -> Result<Vec<Reading>, Broken> {
        let all = record.view().readings(file.job.id)?;
        Ok(all.into_iter().map(|one| one.taken.value.reading).collect())
    };
    let readings = read()?;
    let mut pairs = Pairs::default();
    for _ in 0..PAIRS {
        let judged = || {
            readings.iter().for_each(|reading| drop(std::hint::black_box(grounds.judge(reading))));
            Ok(())
        };
        pairs.measure(judged, || read().map(|all| drop(std::hint::black_box(all))))?;
    }
    Ok(pairs.row(format!("judge {} readings", readings.len()), "read them from the record"))
}

impl Grounds<'_> {
    fn judge(&self, reading: &Reading) -> provenohm_assess::judgement::Judgement {
        let under = Under { stage: reading.stage, loads: reading.conditions.loads };
        let limit = self.set.limit_for(&reading.pair, under, |id| self.circuits.get(&id).copied());
        let wanted = Wanted { limit: limit.ok().map(|limit| limit.to_limit()), ..Wanted::default() };
        let tester = self.testers.iter().find(|one| Some(one.tester()) == reading.tester);
        let policies = self.file.job.policies;
        judge(&Asked { reading, wanted: &wanted, tester, policies, known: Known::default() })
    }
}

/// Writes the readings of a job again and again, under other ids, in one transaction.
fn fill(place: &Place, file: &JobFile) -> Result<Record, Broken> {
    let mut count = 0_u64;
    let mut random = move |bytes: &mut [u8]| {
        for byte in bytes {
            count = count.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            *byte = count.to_be_bytes()[0];
        }
        Ok(())
    };
    let mut record = Record::open(place, &mut random)?;
    let job: JobId = file.job.id;
    let Some(by) = file.readings.last().map(|taken| (taken.reading.person, taken.recorded_at)) else {
        return Ok(record);
    };
    let (person, at): (PersonId, _) = by;
    record.keep_person(&Person { person, name: "A. Recorder".to_owned(), role: String::new() })?;
    record.write(By { person, at, random: &mut random }, |writer| {
        for (nth, taken) in file.readings.iter().cycle().take(READINGS).enumerate() {
            let id = ReadingId(Uuid::from_u128(nth as u128 + 1));
            let reading = Reading { id, ..taken.reading.clone() };
            writer.append(ReadingTaken { job, reading, why: None })?;
        }
        Ok::<(), WriteError>(())
    })?;
    Ok(record)
}
