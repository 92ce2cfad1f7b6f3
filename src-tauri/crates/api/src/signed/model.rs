//! The report model of a record, and of a cut of it.

use crate::failure::Failure;
use crate::judged::Judged;
use crate::report;
use provenohm_assess::ids::JobId;
use provenohm_exchange::bundle::books_of;
use provenohm_exchange::job_file::Made;
use provenohm_exchange::snapshot;
use provenohm_logbook::entry::body::CutEnd;
use provenohm_logbook::record::Record;
use provenohm_logbook::view::View;
use provenohm_papers::report::{Digest, Schedule};
use provenohm_words::Words;

/// A job as it was signed.
pub(crate) struct AsSigned {
    pub(crate) judged: Judged,
    /// Digest of what the record said.
    pub(crate) record: Option<Digest>,
}

/// The digest of what the record says of a job and its testers.
pub(crate) fn record_of(view: &View<'_>, job: JobId) -> Result<Option<Digest>, Failure> {
    Ok(Digest::named(&view.fingerprint(&books_of(view, job, &[])?)?.to_string()))
}

/// The report model of a job as the record says it, without what it says of sign-offs.
pub(crate) fn model_of(words: &Words, view: &View<'_>, job: JobId, judged: &Judged) -> Result<Schedule, Failure> {
    Ok(Schedule { record: record_of(view, job)?, ..report::schedule(words, judged)? })
}

/// The job as a cut says it, judged by the rules of this version; the cut's entries go into `past`, which is empty.
/// Nothing where not all of the cut is here.
pub(crate) fn put_together(
    view: &View<'_>,
    job: JobId,
    cut: &[CutEnd],
    past: &mut Record,
    made: Made,
) -> Result<Option<Judged>, Failure> {
    let covered = view.covered(cut)?;
    if !covered.missing.is_empty() {
        return Ok(None);
    }
    past.receive(&covered.entries).map_err(|error| Failure::of("unexpected").because(error))?;
    Judged::of(snapshot(&past.view(), job, &[], made)?).map(Some)
}
