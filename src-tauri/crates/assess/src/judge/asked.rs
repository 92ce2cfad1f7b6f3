//! What is asked: one reading, what its set asks of that pair, the testers on record, the policies, what is known.

use super::Median;
use crate::ids::TesterId;
use crate::limits::{Limit, ReducedReason};
use crate::policy::Policies;
use crate::reading::Reading;
use crate::tester::Prepared;
use std::collections::BTreeMap;

/// What a limit set asks of the pair of one reading, with the loads and the stage *of that reading*.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Wanted {
    /// The highest limit among the members of the pair; absent: the set has no row for one of them.
    pub limit: Option<Limit>,
    /// The limit at the reduced test voltage, and the reasons that allow it, where the set has such a rule for every
    /// member.
    pub reduced: Option<(Limit, Vec<ReducedReason>)>,
    /// The set forbids this pair with those loads.
    pub forbidden: bool,
    /// It is on a conductor that its circuit does not have.
    pub no_such_conductor: bool,
    /// The members ask for different test voltages, so one reading cannot serve them all.
    pub members_differ: bool,
}

/// What is known of the reading beside its own fields.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Known {
    /// Its device clock was earlier than an entry it follows, or more than a day ahead of the receiver's.
    pub doubtful_clock: bool,
    /// A critical entry that this version cannot read touches it.
    pub needs_newer_version: bool,
    /// The median of the other readings of the same pair kind on the board, where there are enough.
    pub median: Option<Median>,
}

/// The testers on record, each prepared once; more than one value where its card or identity has two live values.
#[derive(Clone, Debug, Default)]
pub struct Testers(BTreeMap<TesterId, Vec<Prepared>>);

impl Testers {
    /// Sorts in prepared histories by their tester.
    pub fn new(histories: impl IntoIterator<Item = Prepared>) -> Self {
        let mut testers = Self::default();
        for prepared in histories {
            testers.0.entry(prepared.tester()).or_default().push(prepared);
        }
        testers
    }

    /// The live values of one tester; none where nothing of it is on record.
    #[must_use]
    pub fn of(&self, tester: TesterId) -> &[Prepared] {
        self.0.get(&tester).map_or(&[], Vec::as_slice)
    }
}

/// One reading with one value of everything its judgement depends on.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// The reading.
    pub reading: &'a Reading,
    /// What its set asks of that pair.
    pub wanted: &'a Wanted,
    /// Its tester's history; absent: none chosen, or nothing on record of it.
    pub tester: Option<&'a Prepared>,
    /// The job's policies.
    pub policies: Policies,
    /// What else is known.
    pub known: Known,
}
