//! The text of the catalogue.

use crate::locale::Locale;
use crate::pseudo::pseudo;

/// Everything of one locale as one Fluent resource, for a reader of its own (the screens).
#[must_use]
pub fn catalogue(locale: Locale) -> String {
    let whole = locale.language.files.iter().map(|(_, text)| *text).collect::<Vec<_>>().join("\n");
    if locale.pseudo { pseudo(&whole) } else { whole }
}
