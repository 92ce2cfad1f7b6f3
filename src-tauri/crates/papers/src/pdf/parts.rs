//! All documents of a schedule, several of them typeset at a time.

use std::num::NonZero;
use std::ops::ControlFlow;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use provenohm_words::Words;

use super::Pages;
use crate::PaperError;
use crate::report::{Part, Parts};

/// Hears how many parts are done, and says whether to go on.
type Watch<'w> = &'w (dyn Fn(usize) -> ControlFlow<()> + Sync);

impl Parts {
    /// Each part as PDF/A-3a, in their order. The same parts give the same bytes, however many are made at a time.
    ///
    /// # Errors
    /// [`PaperError`] of the first part that cannot be made.
    pub fn pdfs(&self, words: &Words) -> Result<Vec<Vec<u8>>, PaperError> {
        self.pdfs_watched(words, &|_| ControlFlow::Continue(()))
    }

    /// The same while somebody watches, who hears how many parts are done and can stop it between two.
    ///
    /// # Errors
    /// [`PaperError`] of the first part that cannot be made, or that it was stopped.
    pub fn pdfs_watched(&self, words: &Words, watch: Watch<'_>) -> Result<Vec<Vec<u8>>, PaperError> {
        let at_a_time = thread::available_parallelism().map_or(1, NonZero::get).min(self.parts.len());
        let (next, done) = (AtomicUsize::new(0), AtomicUsize::new(0));
        let work = || {
            let mut made = Vec::new();
            while watch(done.load(Ordering::Relaxed)).is_continue()
                && let Some((at, part)) = taken(&next, &self.parts)
            {
                made.push((at, Pages::typeset_beside(part, words, at_a_time - 1).and_then(|pages| pages.pdf())));
                done.fetch_add(1, Ordering::Relaxed);
            }
            made
        };
        let mut made = thread::scope(|scope| {
            let beside: Vec<_> = (1..at_a_time).map(|_| scope.spawn(work)).collect();
            let mut made = work();
            for one in beside {
                made.extend(one.join().map_err(|_| PaperError::Typeset("a part was not made".to_owned()))?);
            }
            Ok::<_, PaperError>(made)
        })?;
        typst::comemo::evict(0);
        if watch(done.into_inner()).is_break() || made.len() < self.parts.len() {
            return Err(PaperError::Stopped);
        }
        made.sort_by_key(|(at, _)| *at);
        made.into_iter().map(|(_, pdf)| pdf).collect()
    }
}

/// The next part that nobody has taken.
fn taken<'a>(next: &AtomicUsize, parts: &'a [Part]) -> Option<(usize, &'a Part)> {
    let at = next.fetch_add(1, Ordering::Relaxed);
    Some((at, parts.get(at)?))
}
