//! What went wrong, in one sentence, and what to do next.
use std::fmt;

/// A failure as a person reads it.
#[derive(Debug)]
pub(crate) struct Trouble {
    what: String,
    next: String,
}

impl Trouble {
    pub(crate) fn new(what: impl Into<String>, next: impl Into<String>) -> Self {
        Self { what: what.into(), next: next.into() }
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}\nNext: {}", self.what, self.next)
    }
}
