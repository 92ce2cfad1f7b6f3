//! Lead checks of one tester: which readings they put in doubt.

use super::{LeadCheck, LeadEnd};
use crate::ids::CheckId;
use crate::moment::{Instant, Moment, day_of};

/// One check of the leads, placed in time.
#[derive(Clone, Copy, Debug)]
struct Check {
    instant: Instant,
    good: bool,
    id: CheckId,
    at: Moment,
    job_started: Option<Instant>,
}

/// The checks of one kind (shorted, or open), earliest first; failed before good at one instant.
#[derive(Clone, Debug, Default)]
pub(super) struct Leads(Vec<Check>);

impl Leads {
    pub(super) fn new(checks: &[LeadCheck], leads: LeadEnd) -> Self {
        let of_kind = checks.iter().filter(|c| c.leads == leads).map(|c| Check {
            instant: c.at.to_utc(),
            good: c.good,
            id: c.id,
            at: c.at,
            job_started: c.job_started.map(|m| m.to_utc()),
        });
        let mut all: Vec<Check> = of_kind.collect();
        all.sort_unstable_by_key(|c| (c.instant, c.good, c.id));
        Self(all)
    }

    /// The failed check that reaches back to this instant: the first from it on, with no good one between them, and
    /// made in a job that had started by then. A good check at the very instant counts as made before it.
    pub(super) fn doubted_by(&self, at: Moment) -> Option<(CheckId, Moment)> {
        let instant = at.to_utc();
        let from = self.0.partition_point(|c| c.instant < instant);
        let later = self.0.get(from..).unwrap_or_default();
        let ours = later.iter().filter(|c| !(c.good && c.instant == instant)).take_while(|c| !c.good);
        ours.into_iter().find(|c| c.job_started.is_none_or(|start| start <= instant)).map(|c| (c.id, c.at))
    }

    /// Whether a good check was made on the day of this instant, before it or after.
    pub(super) fn good_that_day(&self, at: Moment) -> bool {
        let (start, end) = day_of(at);
        let from = self.0.partition_point(|c| c.instant < start);
        self.0.iter().skip(from).take_while(|c| c.instant < end).any(|c| c.good)
    }
}
