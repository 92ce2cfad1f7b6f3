//! What is missing of a job on this device, as far as it can tell, and what it cannot read.

use crate::failure::Failure;
use provenohm_assess::ids::JobId;
use provenohm_exchange::bundle::books_of;
use provenohm_logbook::chain::Gap;
use provenohm_logbook::view::View;
use provenohm_words::Words;
use serde::{Deserialize, Serialize};

/// What keeps a job from being whole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Lacking {
    /// Entries in between that are not here.
    gaps: u64,
    /// Testers readings rely on of which nothing is here.
    testers: u64,
    /// Entries only a newer version reads.
    newer: u64,
}

impl Lacking {
    /// What a record lacks of a job and its testers.
    pub(crate) fn of(view: &View<'_>, job: JobId) -> Result<Self, Failure> {
        let books = books_of(view, job, &[])?;
        let mut lacking = Self { newer: view.need_newer(&books)?, ..Self::default() };
        for book in &books {
            lacking.gaps += view.gaps(*book)?.iter().map(Gap::missing).sum::<u64>();
            lacking.testers += u64::from(view.logs(*book)?.is_empty());
        }
        Ok(lacking)
    }

    /// A line each; none where nothing is missing.
    pub(crate) fn lines(self, words: &Words) -> Vec<String> {
        let counts = [
            ("answer-bundle-gaps", self.gaps),
            ("answer-bundle-lacks", self.testers),
            ("answer-bundle-newer", self.newer),
        ];
        let there = counts.into_iter().filter(|(_, count)| *count > 0);
        there.map(|(key, count)| words.text_with(key, &[("count", count.into())])).collect()
    }
}
