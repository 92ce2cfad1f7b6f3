//! What reviewers said of a job.

use super::facet::Stated;
use super::query::{ReadError, View};
use crate::entry::body::{Accepted, NotTested, ReadingTaken, Request};
use crate::entry::{Noun, Object, ObjectId};
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::JobId;

impl View<'_> {
    /// The new readings that were asked for in a job, whatever became of it.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn requests(&self, job: JobId) -> Result<Vec<Stated<Request>>, ReadError> {
        self.stated(about(job))
    }

    /// What was accepted in a job, whatever became of it.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn accepted(&self, job: JobId) -> Result<Vec<Stated<Accepted>>, ReadError> {
        self.stated(about(job))
    }

    /// The requests that wait for an answer: not withdrawn, and nothing stands in their slot but what they asked about.
    /// Taking an answer back opens them again.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn open_requests(&self, job: JobId) -> Result<Vec<Stated<Request>>, ReadError> {
        let mut open: Vec<_> = self.requests(job)?.into_iter().filter(Stated::is_live).collect();
        if open.is_empty() {
            return Ok(open);
        }
        let readings: Vec<_> = self.stated::<ReadingTaken>(about(job))?.into_iter().filter(Stated::is_live).collect();
        let said: Vec<_> = self.stated::<NotTested>(about(job))?.into_iter().filter(Stated::is_live).collect();
        open.retain(|asked| {
            let here = |pair: &Pair, stage: Stage| stage == asked.value.stage && is_same(pair, &asked.value.pair);
            let readings = readings.iter().map(|one| &one.value.reading).filter(|it| here(&it.pair, it.stage));
            let said = said.iter().map(|one| &one.value).filter(|it| here(&it.pair, it.stage));
            asked.value.is_open(readings.map(|it| it.id), said.map(|it| it.at))
        });
        Ok(open)
    }
}

fn about(job: JobId) -> Object {
    Object { noun: Noun::Job, id: ObjectId(job.0) }
}

/// The same two ends, whichever is named first.
fn is_same(one: &Pair, other: &Pair) -> bool {
    one == other || (one.a == other.b && one.b == other.a)
}
