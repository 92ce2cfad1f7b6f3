//! One circumstance of a reading: its first value and what corrections made of it. The old value stays visible.

use crate::entry::EntryRef;

/// A value of a circumstance and the entry that says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Claim<T> {
    /// The reading's entry, or a correction's.
    pub entry: EntryRef,
    /// The value.
    pub value: T,
    /// Whether it is current.
    pub live: bool,
    /// Why it was corrected to this.
    pub reason: Option<String>,
}

/// One circumstance of a reading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Circumstance<T> {
    /// Every value it was given, the first one first.
    pub claims: Vec<Claim<T>>,
}

impl<T: PartialEq> Circumstance<T> {
    /// The current values, each once. Two wait for a person to settle them by a correction.
    #[must_use]
    pub fn live(&self) -> Vec<&T> {
        let mut live: Vec<&T> = Vec::new();
        for claim in self.claims.iter().filter(|claim| claim.live) {
            if !live.contains(&&claim.value) {
                live.push(&claim.value);
            }
        }
        live
    }

    /// Values that are no longer current.
    pub fn earlier(&self) -> impl Iterator<Item = &Claim<T>> {
        self.claims.iter().filter(|claim| !claim.live)
    }

    /// Whether it was ever corrected.
    #[must_use]
    pub fn is_corrected(&self) -> bool {
        self.claims.len() > 1
    }
}
