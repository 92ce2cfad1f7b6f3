//! What is said when something could not be done.

use crate::words::Words;

impl Words {
    /// The sentence of a failure's stable code: what happened and what to do. A code without one of its own gets the
    /// sentence that is true of all of them: nothing was lost.
    #[must_use]
    pub fn failure(&self, code: &str) -> String {
        let key = format!("failure-{code}");
        if self.has(&key) { self.text(&key) } else { self.text("failure-unexpected") }
    }
}
