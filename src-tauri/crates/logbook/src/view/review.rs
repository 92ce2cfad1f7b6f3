//! What reviewers said of a job.

use super::facet::Stated;
use super::query::{ReadError, View};
use crate::entry::body::{Accepted, AcceptedOf, Content, NotTested, ReadingTaken, Request};
use crate::entry::{Noun, Object, ObjectId};
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::JobId;

impl View<'_> {
    /// The new readings that were asked for in a job, whatever became of it.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn requests(&self, job: JobId) -> Result<Vec<Stated<Request>>, ReadError> {
        self.on_standing(job, |asked: &mut Request| Some(&mut asked.pair))
    }

    /// What was accepted in a job, whatever became of it.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn accepted(&self, job: JobId) -> Result<Vec<Stated<Accepted>>, ReadError> {
        self.on_standing(job, |accepted: &mut Accepted| match &mut accepted.of {
            AcceptedOf::NotTested { pair, .. } => Some(pair),
            AcceptedOf::Reading { .. } => None,
        })
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
        let readings = self.on_standing(job, |taken: &mut ReadingTaken| Some(&mut taken.reading.pair))?;
        let readings: Vec<_> = readings.into_iter().filter(Stated::is_live).collect();
        let said = self.on_standing(job, |said: &mut NotTested| Some(&mut said.pair))?;
        let said: Vec<_> = said.into_iter().filter(Stated::is_live).collect();
        open.retain(|asked| {
            let here = |pair: &Pair, stage: Stage| stage == asked.value.stage && is_same(pair, &asked.value.pair);
            let readings = readings.iter().map(|one| &one.value.reading).filter(|it| here(&it.pair, it.stage));
            let said = said.iter().map(|one| &one.value).filter(|it| here(&it.pair, it.stage));
            asked.value.is_open(readings.map(|it| it.id), said.map(|it| it.at))
        });
        Ok(open)
    }

    /// What was said of a job's pairs, each on the circuits that stand: those said to be one with others speak for them.
    fn on_standing<T: Content>(
        &self,
        job: JobId,
        pair: impl Fn(&mut T) -> Option<&mut Pair>,
    ) -> Result<Vec<Stated<T>>, ReadError> {
        let same = self.same_circuits(job)?;
        let mut all = self.stated::<T>(about(job))?;
        all.iter_mut().filter_map(|one| pair(&mut one.value)).for_each(|pair| same.on(pair));
        Ok(all)
    }
}

fn about(job: JobId) -> Object {
    Object { noun: Noun::Job, id: ObjectId(job.0) }
}

/// The same two ends, whichever is named first.
fn is_same(one: &Pair, other: &Pair) -> bool {
    one == other || (one.a == other.b && one.b == other.a)
}
