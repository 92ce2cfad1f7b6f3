//! The cautions, for screen and paper.

use crate::words::Words;

/// Every caution in the order it is read. Their wording rests on common practice of the trade; the leads on GS 38
/// (finger guards, at most 4 mm of exposed tip).
const CAUTIONS: [&str; 12] = [
    "caution-dead",
    "caution-sources",
    "caution-proving",
    "caution-photovoltaic",
    "caution-explosive",
    "caution-disconnect",
    "caution-warn",
    "caution-earth-lead",
    "caution-discharge",
    "caution-reconnect",
    "caution-leads",
    "caution-decide",
];

impl Words {
    /// What stands above the cautions.
    #[must_use]
    pub fn cautions_title(&self) -> String {
        self.text("caution-title")
    }

    /// The cautions, in the order they are read.
    #[must_use]
    pub fn cautions(&self) -> Vec<String> {
        CAUTIONS.iter().map(|key| self.text_with(key, &[("tip", "4\u{a0}mm".into())])).collect()
    }
}
