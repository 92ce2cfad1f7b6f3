//! Who is logged in, and who tries too often. Kept in memory: a hub that is started anew asks everybody again.

use crate::secret::{Kept, Secret};
use std::collections::HashMap;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// How long a session lasts without a word.
const LASTS: Duration = Duration::from_secs(12 * 60 * 60);
/// Wrong passwords in [`WHILE`] after which no other is heard.
const MOST_WRONG: usize = 10;
const WHILE: Duration = Duration::from_secs(15 * 60);

struct Session {
    name: String,
    heard: Instant,
}

impl Session {
    fn lasts(&self, now: Instant) -> bool {
        now.saturating_duration_since(self.heard) < LASTS
    }
}

#[derive(Default)]
struct Held {
    sessions: HashMap<Kept, Session>,
    wrong: Vec<Instant>,
    first: Option<Kept>,
}

/// The sessions of one hub.
pub(crate) struct Sessions(Mutex<Held>);

impl Sessions {
    /// With the code by which the first account is made, while there is none.
    pub(crate) fn with_first_code(code: Option<Secret>) -> Self {
        Self(Mutex::new(Held { first: code.map(|code| code.kept()), ..Held::default() }))
    }

    /// Uses the first code up. False if it is not the one, or was used.
    pub(crate) fn use_first_code(&self, said: &str) -> bool {
        let mut held = self.held();
        let right = held.first == Some(Kept::of(said));
        if right {
            held.first = None;
        }
        right
    }

    /// Opens a session for a name, with what goes into its cookie.
    pub(crate) fn open(&self, name: &str, now: Instant, cookie: &Secret) {
        let mut held = self.held();
        held.sessions.retain(|_, one| one.lasts(now));
        held.sessions.insert(cookie.kept(), Session { name: name.to_owned(), heard: now });
    }

    /// Whose session a cookie is of; hearing from it keeps it.
    pub(crate) fn hear(&self, cookie: &str, now: Instant) -> Option<String> {
        let mut held = self.held();
        let session = held.sessions.get_mut(&Kept::of(cookie)).filter(|one| one.lasts(now))?;
        session.heard = now;
        Some(session.name.clone())
    }

    pub(crate) fn close(&self, cookie: &str) {
        self.held().sessions.remove(&Kept::of(cookie));
    }

    /// Whether another password may be tried.
    pub(crate) fn may_try(&self, now: Instant) -> bool {
        let mut held = self.held();
        held.wrong.retain(|at| now.saturating_duration_since(*at) < WHILE);
        held.wrong.len() < MOST_WRONG
    }

    /// A wrong password was tried.
    pub(crate) fn tried_wrong(&self, now: Instant) {
        self.held().wrong.push(now);
    }

    fn held(&self) -> MutexGuard<'_, Held> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn secret(seed: u8) -> Secret {
        Secret::make(&mut |bytes: &mut [u8]| {
            bytes.fill(seed);
            Ok(())
        })
        .unwrap()
    }

    #[test]
    fn a_session_ends_when_it_was_silent_for_long_or_is_closed() {
        let (sessions, start) = (Sessions::with_first_code(None), Instant::now());
        let (cookie, other) = (secret(1), secret(2));
        sessions.open("A", start, &cookie);
        let nearly = LASTS - Duration::from_secs(1);
        assert_eq!(sessions.hear(cookie.told(), start + nearly).as_deref(), Some("A"));
        assert_eq!(sessions.hear(cookie.told(), start + nearly * 2).as_deref(), Some("A"));
        assert_eq!(sessions.hear(cookie.told(), start + nearly * 2 + LASTS), None);
        sessions.open("B", start, &other);
        sessions.close(other.told());
        assert_eq!(sessions.hear(other.told(), start), None);
    }

    #[test]
    fn wrong_passwords_are_heard_again_after_a_while() {
        let (sessions, now) = (Sessions::with_first_code(None), Instant::now());
        for _ in 0..MOST_WRONG {
            assert!(sessions.may_try(now));
            sessions.tried_wrong(now);
        }
        assert!(!sessions.may_try(now));
        assert!(sessions.may_try(now + WHILE));
    }
}
