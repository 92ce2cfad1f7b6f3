//! Who tries passwords too often. A try counts as wrong from its start, so that many at once are no way around.

use crate::secret::Kept;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// Wrong passwords of one name in [`WHILE`] after which no other is heard.
const MOST: usize = 10;
/// The same of all names together, so that guessing at many names ends too. No more than this is ever kept in memory.
const MOST_OF_ALL: usize = 100;
const WHILE: Duration = Duration::from_secs(15 * 60);

/// One password that is tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Try {
    /// A name of any length takes the same room.
    of: Kept,
    at: Instant,
}

/// The wrong passwords of late, and those being tried.
#[derive(Default)]
pub(crate) struct Tries(Mutex<Vec<Try>>);

impl Tries {
    /// Begins to try a password for a name. Nothing if that was done too often.
    pub(crate) fn begin(&self, name: &str, now: Instant) -> Option<Try> {
        let mut tries = self.tries();
        tries.retain(|one| now.saturating_duration_since(one.at) < WHILE);
        let one = Try { of: Kept::of(name), at: now };
        let of_name = tries.iter().filter(|other| other.of == one.of).count();
        if of_name >= MOST || tries.len() >= MOST_OF_ALL {
            return None;
        }
        tries.push(one);
        Some(one)
    }

    /// The password was right: this try no longer counts. Wrong ones before it do.
    pub(crate) fn was_right(&self, right: Try) {
        let mut tries = self.tries();
        if let Some(at) = tries.iter().position(|one| *one == right) {
            tries.swap_remove(at);
        }
    }

    fn tries(&self) -> MutexGuard<'_, Vec<Try>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn wrong_passwords_of_one_name_leave_the_others_heard() {
        let (tries, now) = (Tries::default(), Instant::now());
        for _ in 0..MOST {
            assert!(tries.begin("A", now).is_some());
        }
        assert_eq!(tries.begin("A", now), None);
        assert!(tries.begin("B", now).is_some());
        assert!(tries.begin("A", now + WHILE).is_some());
    }

    #[test]
    fn right_ones_never_count() {
        let (tries, now) = (Tries::default(), Instant::now());
        for _ in 0..MOST_OF_ALL * 2 {
            tries.was_right(tries.begin("A", now).unwrap());
        }
    }

    #[test]
    fn a_flood_of_names_is_soon_not_heard_and_takes_no_room() {
        let (tries, now) = (Tries::default(), Instant::now());
        let heard = (0..10_000).filter(|name| tries.begin(&name.to_string(), now).is_some()).count();
        assert_eq!((heard, tries.tries().len()), (MOST_OF_ALL, MOST_OF_ALL));
        assert!(tries.begin("A", now + WHILE).is_some());
        assert_eq!(tries.tries().len(), 1);
    }
}
