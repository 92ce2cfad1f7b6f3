//! What is said when something typed is not a quantity.

use crate::words::Words;
use provenohm_assess::quantity::Refusal;

impl Words {
    /// Why something typed is not a quantity, and what to do; `typed` is what stands in the field.
    #[must_use]
    pub fn refusal(&self, refusal: Refusal, typed: &str) -> String {
        self.text_with(refusal.code(), &[("shown", typed.into()), ("example", "487\u{a0}MΩ".into())])
    }
}
