//! Who is logged in. Kept in memory: a hub that is started anew asks everybody again.

use crate::account::Account;
use crate::secret::{Kept, Secret};
use provenohm_api::PersonId;
use std::collections::HashMap;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// How long a session lasts without a word.
const LASTS: Duration = Duration::from_secs(12 * 60 * 60);

/// A person who logged in, by the password that has this hash: with another one, or none, the session is over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct LoggedIn {
    pub(crate) person: PersonId,
    by: Option<String>,
}

impl LoggedIn {
    pub(crate) fn of(account: &Account) -> Self {
        Self { person: account.person, by: account.hash.clone() }
    }

    /// Whether the login still is, as the account stands now.
    pub(crate) fn holds(&self, account: &Account) -> bool {
        self.by.is_some() && *self == Self::of(account)
    }
}

struct Session {
    whose: LoggedIn,
    heard: Instant,
}

impl Session {
    fn lasts(&self, now: Instant) -> bool {
        now.saturating_duration_since(self.heard) < LASTS
    }
}

/// The sessions of one hub.
#[derive(Default)]
pub(crate) struct Sessions(Mutex<HashMap<Kept, Session>>);

impl Sessions {
    /// Opens a session, with what goes into its cookie.
    pub(crate) fn open(&self, whose: LoggedIn, now: Instant, cookie: &Secret) {
        let mut held = self.held();
        held.retain(|_, one| one.lasts(now));
        held.insert(cookie.kept(), Session { whose, heard: now });
    }

    /// Whose session a cookie is of.
    pub(crate) fn whose(&self, cookie: &str, now: Instant) -> Option<LoggedIn> {
        self.held().get(&Kept::of(cookie)).filter(|one| one.lasts(now)).map(|one| one.whose.clone())
    }

    /// A person did something: their session lasts from now on. What a page asks by itself keeps none.
    pub(crate) fn keep(&self, cookie: &str, now: Instant) {
        if let Some(session) = self.held().get_mut(&Kept::of(cookie)).filter(|one| one.lasts(now)) {
            session.heard = now;
        }
    }

    pub(crate) fn close(&self, cookie: &str) {
        self.held().remove(&Kept::of(cookie));
    }

    fn held(&self) -> MutexGuard<'_, HashMap<Kept, Session>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use uuid::Uuid;

    fn secret(seed: u8) -> Secret {
        Secret::make(&mut |bytes: &mut [u8]| {
            bytes.fill(seed);
            Ok(())
        })
        .unwrap()
    }

    fn whose(person: u128) -> LoggedIn {
        LoggedIn { person: PersonId(Uuid::from_u128(person)), by: Some("hash".to_owned()) }
    }

    #[test]
    fn a_session_ends_when_it_was_silent_for_long_or_is_closed() {
        let (sessions, start) = (Sessions::default(), Instant::now());
        let (cookie, other) = (secret(1), secret(2));
        sessions.open(whose(1), start, &cookie);
        let nearly = LASTS - Duration::from_secs(1);
        sessions.keep(cookie.told(), start + nearly);
        assert_eq!(sessions.whose(cookie.told(), start + nearly * 2), Some(whose(1)));
        // Asking keeps nothing, and what has ended is not brought back.
        assert_eq!(sessions.whose(cookie.told(), start + nearly + LASTS), None);
        sessions.keep(cookie.told(), start + nearly + LASTS);
        assert_eq!(sessions.whose(cookie.told(), start + nearly + LASTS), None);
        sessions.open(whose(2), start, &other);
        sessions.close(other.told());
        assert_eq!(sessions.whose(other.told(), start), None);
    }
}
