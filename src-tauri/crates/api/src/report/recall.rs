//! The recall list on paper, from what its screen shows.

use super::usual_offset;
use crate::recalled::Recalled;
use crate::views::{RecallClass, RecallJob as JobShown, RecallView};
use provenohm_assess::RULES_VERSION;
use provenohm_assess::moment::Moment;
use provenohm_papers::recall::{RecallBoard, RecallCause, RecallJob, RecallLine, RecallList, RecallSort};
use provenohm_papers::report::Digest;
use provenohm_words::Words;

/// The list as a report model, of what `show` tells in words that say a time's offset where it is not the usual one.
pub(crate) fn recall_list(
    words: &Words,
    recalled: &Recalled,
    show: impl FnOnce(&Words) -> RecallView,
    as_of: Moment,
    record: Option<Digest>,
) -> RecallList {
    let offset = usual_offset(recalled.readings().map(|one| one.reading.at)).unwrap_or(*as_of.offset());
    let shown = show(&words.with_usual_offset(offset));
    let cause = |it: &crate::views::RecallCause| RecallCause { title: it.title.clone(), lines: it.lines.clone() };
    RecallList {
        language: words.locale().id().to_owned(),
        as_of,
        offset_minutes: offset.local_minus_utc() / 60,
        rules_version: RULES_VERSION,
        tester: recalled.tester.id,
        name: shown.name.clone(),
        serial: shown.serial.clone(),
        demo: recalled.invented,
        sum: shown.words.clone(),
        causes: shown.causes.iter().map(cause).collect(),
        jobs: shown.jobs.iter().map(|job| of_job(recalled, job)).collect(),
        record,
    }
}

fn of_job(recalled: &Recalled, job: &JobShown) -> RecallJob {
    let judged = recalled.jobs.iter().map(|it| &it.judged).find(|judged| judged.file.job.id == job.job);
    let line = |it: &crate::views::RecallLine| {
        let reading = &judged?.reading(it.reading)?.reading;
        Some(RecallLine {
            reading: it.reading,
            circuit: it.circuit_name.clone(),
            pair: it.pair.clone(),
            shown: reading.shown,
            test_voltage_v: reading.test_voltage_v,
            taken_at: reading.at,
            sort: match it.class {
                RecallClass::TestAgain => RecallSort::TestAgain,
                RecallClass::CannotBeJudged => RecallSort::CannotBeJudged,
                RecallClass::StillClears => RecallSort::StillClears,
            },
            sentence: it.words.clone(),
            remark: it.remark.clone(),
            because: it.because.words.clone(),
            resolved: it.resolved.clone(),
        })
    };
    RecallJob {
        id: job.job,
        name: job.name.clone(),
        place: job.place.clone(),
        demo: job.invented,
        people: job.people.clone(),
        signed: job.signed.clone(),
        boards: job
            .boards
            .iter()
            .map(|board| RecallBoard { name: board.name.clone(), lines: board.lines.iter().filter_map(line).collect() })
            .collect(),
    }
}
