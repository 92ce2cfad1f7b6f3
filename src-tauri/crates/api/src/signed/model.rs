//! The report model of a record, and of a cut of it.

use crate::failure::Failure;
use crate::judged::Judged;
use crate::lacking::Lacking;
use crate::report;
use provenohm_assess::ids::JobId;
use provenohm_assess::moment::Moment;
use provenohm_exchange::bundle::books_of;
use provenohm_exchange::job_file::Made;
use provenohm_exchange::snapshot;
use provenohm_logbook::entry::body::CutEnd;
use provenohm_logbook::record::Record;
use provenohm_logbook::view::View;
use provenohm_papers::report::{Digest, Finding, Schedule, Sign};
use provenohm_words::Words;

/// A job as it was signed.
pub(crate) struct AsSigned {
    pub(crate) judged: Judged,
    /// What the record said.
    pub(crate) said: Said,
}

/// What a record says of a job and its testers: the digest of all of it, and when the last of it was recorded.
#[derive(Clone)]
pub(crate) struct Said {
    digest: Option<Digest>,
    last: Option<Moment>,
    lacking: Lacking,
}

impl Said {
    /// What a record says of a job.
    pub(crate) fn of(view: &View<'_>, job: JobId) -> Result<Self, Failure> {
        let books = books_of(view, job, &[])?;
        let digest = Digest::named(&view.fingerprint(&books)?.to_string());
        Ok(Self { digest, last: view.last_recorded(&books)?, lacking: Lacking::of(view, job)? })
    }

    /// As of when this is, and its fingerprint.
    pub(crate) fn stamp(&self, words: &Words) -> String {
        let fingerprint = self.digest.as_ref().map(|digest| digest.fingerprint().to_string()).unwrap_or_default();
        let as_of = self.last.map(|last| words.date_time(last)).unwrap_or_default();
        words.text_with("answer-as-of", &[("time", as_of.into()), ("fingerprint", fingerprint.into())])
    }

    /// What is missing of it, a line each.
    pub(crate) fn lacking(&self, words: &Words) -> Vec<String> {
        self.lacking.lines(words)
    }

    /// The report model of the job as judged on this record. Nothing in it was recorded later than its "as of".
    pub(crate) fn model(&self, words: &Words, judged: &Judged) -> Result<Schedule, Failure> {
        let mut model = report::schedule(words, judged)?;
        let lacking = self.lacking.lines(words).into_iter();
        let lacking = lacking.map(|sentence| Finding { sign: Sign::Look, sentence, places: Vec::new() });
        model.findings.splice(0..0, lacking);
        let as_of = self.last.map_or(model.as_of, |last| last.max(model.as_of));
        Ok(Schedule { record: self.digest.clone(), as_of, ..model })
    }
}

/// The report model of a job as the record says it, without what it says of sign-offs.
pub(crate) fn model_of(words: &Words, view: &View<'_>, job: JobId, judged: &Judged) -> Result<Schedule, Failure> {
    Said::of(view, job)?.model(words, judged)
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
