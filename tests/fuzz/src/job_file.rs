//! Job files: refused with place and reason, or read, judged, put on paper and taken into the record.
use provenohm_api::headless;
use provenohm_exchange::job_file::{JobFile, Taken};

use crate::seeds::program;

pub(crate) fn holds(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let Ok(file) = JobFile::read(text) else { return };
    let Ok(written) = file.write() else { panic!("a job file that was read cannot be written") };
    assert_eq!(JobFile::read(&written).as_ref(), Ok(&file), "written and read back it is the same");

    let judged = headless::judge(text, None);
    assert_eq!(headless::judge(&written, None), judged, "judged alike");
    let Ok(folder) = tempfile::tempdir() else { panic!("no folder for a schedule") };
    let paper = headless::job_file(text).and_then(|job| headless::schedule(job, &folder.path().join("schedule.csv")));
    assert_eq!(paper.is_ok(), judged.is_ok(), "what can be judged can be put on paper: {paper:?}");

    let program = program(folder.path());
    let Ok(imported) = program.call("import_job_file", serde_json::json!({ "text": text })) else { return };
    let Some(job) = imported["job"].as_str() else { panic!("no job in {imported}") };
    let again = match program.job_file(job) {
        Ok(again) => again,
        Err(failure) => panic!("what was taken in cannot be given out: {failure:?}"),
    };
    // Importing records all of it now, so what the file knew of clocks stays behind.
    let in_record = JobFile::read(&again);
    let doubted = |file: &JobFile| {
        let ahead = |one: &Taken| one.every().iter().any(|it| it.is_ahead_of(one.last_recorded_at()));
        file.readings.iter().any(|one| one.doubtful_clock || ahead(one))
    };
    if doubted(&file) || in_record.as_ref().is_ok_and(doubted) {
        return;
    }
    let told = headless::judge(&again, None).map(|judged| (judged.sums, judged.limit_set));
    assert_eq!(told, judged.map(|judged| (judged.sums, judged.limit_set)), "the record judges as the file");
}
