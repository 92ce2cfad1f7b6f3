//! Work that takes longer than a moment: how far it is, and a way to stop it, both without waiting for it to end.

use crate::failure::Failure;
use provenohm_exchange::join::Progress;
use std::ops::ControlFlow;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

/// How far the work in hand is. One at a time: whoever works holds the record.
#[derive(Debug, Default)]
pub(crate) struct LongWork {
    done: AtomicU64,
    of: AtomicU64,
    stop: AtomicBool,
}

impl LongWork {
    /// Work begins. A wish to stop what came before does not stop it.
    pub(crate) fn begin(&self) {
        self.stop.store(false, Ordering::SeqCst);
        self.tell(Progress { done: 0, of: 0 });
    }

    /// Hears how far it is, and says whether to go on.
    pub(crate) fn reached(&self, progress: Progress) -> ControlFlow<()> {
        self.tell(progress);
        if self.stop.load(Ordering::SeqCst) { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }

    /// What was made, unless somebody asked meanwhile to stop: then nothing of it is told or written.
    ///
    /// # Errors
    /// `stopped`.
    pub(crate) fn unless_stopped<T>(&self, made: T) -> Result<T, Failure> {
        if self.stop.load(Ordering::SeqCst) { Err(Failure::of("stopped")) } else { Ok(made) }
    }

    /// How far it is.
    pub(crate) fn progress(&self) -> Progress {
        Progress { done: self.done.load(Ordering::SeqCst), of: self.of.load(Ordering::SeqCst) }
    }

    /// Asks it to stop. It does so before anything is kept, or it is done already.
    pub(crate) fn stop(&self) {
        self.stop.store(true, Ordering::SeqCst);
    }

    fn tell(&self, progress: Progress) {
        self.done.store(progress.done, Ordering::SeqCst);
        self.of.store(progress.of, Ordering::SeqCst);
    }
}
