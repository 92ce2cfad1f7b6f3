//! The record, lent for a step at a time to what keeps it in step with others.

use crate::api::Api;
use crate::state::State;
use provenohm_assess::ids::PersonId;
use provenohm_exchange::hub;
use provenohm_logbook::record::{By, Record};
use std::sync::{MutexGuard, PoisonError};
use uuid::Uuid;

/// Lends the record of a program to what keeps it in step.
pub struct Desk<'a>(&'a Api);

impl Api {
    /// The record, lent a step at a time: between two of them people work on.
    #[must_use]
    pub fn desk(&self) -> Desk<'_> {
        Desk(self)
    }

    /// Says that several people work on this record at once.
    #[must_use]
    pub fn shared(self) -> Self {
        self.state().is_shared = true;
        self
    }

    pub(crate) fn state(&self) -> MutexGuard<'_, State> {
        // A panic elsewhere cannot leave the record half written, so what it held is used on.
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl hub::Desk for Desk<'_> {
    fn with<T>(&mut self, step: impl FnOnce(&mut Record, By<'_>) -> T) -> T {
        let state = &mut *self.0.state();
        let before = state.record.view().now().ok();
        let at = state.host.now();
        // A device seals by itself: nobody is named by it.
        let by = By { person: PersonId(Uuid::nil()), at, random: &mut state.host };
        let done = step(&mut state.record, by);
        let same = before.is_some_and(|before| state.record.view().says_more_since(before).is_ok_and(|more| !more));
        if !same {
            state.forget_judged();
        }
        done
    }
}
