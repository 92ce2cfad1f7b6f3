//! What a few entries changed in a snapshot: enough to bring it up to date without reading the job anew.

use crate::job_file::{NotTested, Taken};
use crate::snapshot::{not_tested, taken_of};
use provenohm_assess::ids::JobId;
use provenohm_logbook::entry::EntryRef;
use provenohm_logbook::view::{ReadError, Stated, View};

/// The readings and slots that some entries bear on, as the record has them now.
#[derive(Clone, Debug)]
pub struct Renewed {
    /// The readings, in the order of a snapshot. One that the snapshot lacks comes after all it has.
    pub readings: Vec<Taken>,
    /// The slots that were not tested, where one of them is touched.
    pub not_tested: Option<Vec<NotTested>>,
}

/// What this device's own entries changed in a job since its snapshot, where nobody else wrote in between. They say
/// something of readings and of slots not tested, and of nothing else. Nothing where a reading's id is not its own: then
/// only a new snapshot tells.
///
/// # Errors
/// [`ReadError`].
pub fn renewed(view: &View<'_>, job: JobId, since: &[EntryRef]) -> Result<Option<Renewed>, ReadError> {
    let touched = view.touched(since)?;
    let mut readings = Vec::with_capacity(touched.readings.len());
    for id in touched.readings {
        match &view.reading(id)?[..] {
            [one] => readings.push(taken_of(view, one)?),
            _ => return Ok(None),
        }
    }
    let not_tested = if touched.not_tested { Some(not_tested_of(view, job)?) } else { None };
    Ok(Some(Renewed { readings, not_tested }))
}

/// The slots of a job that were not tested.
pub(crate) fn not_tested_of(view: &View<'_>, job: JobId) -> Result<Vec<NotTested>, ReadError> {
    Ok(view.not_tested(job)?.into_iter().filter(Stated::is_live).map(not_tested).collect())
}
