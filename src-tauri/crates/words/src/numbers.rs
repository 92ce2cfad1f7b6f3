//! How a language writes numbers.

/// U+2009: between groups of three digits, from five digits on (SI Brochure 5.3.4: a thin space, never a point or
/// a comma).
const GROUP: char = '\u{2009}';

/// The decimal sign of a language. Grouping and the space before a unit are the same everywhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NumberStyle {
    decimal: char,
}

impl NumberStyle {
    /// The style of a language's tag: a comma where its speakers write one, otherwise a point.
    #[must_use]
    pub fn of_language(tag: &str) -> Self {
        let language = tag.split('-').next().unwrap_or(tag);
        let comma = matches!(
            language,
            "bg" | "cs"
                | "da"
                | "de"
                | "el"
                | "es"
                | "et"
                | "fi"
                | "fr"
                | "hr"
                | "hu"
                | "it"
                | "lt"
                | "lv"
                | "nb"
                | "nl"
                | "nn"
                | "pl"
                | "pt"
                | "ro"
                | "ru"
                | "sk"
                | "sl"
                | "sr"
                | "sv"
                | "tr"
                | "uk"
        );
        Self { decimal: if comma { ',' } else { '.' } }
    }

    /// The decimal sign: a point or a comma.
    #[must_use]
    pub const fn decimal_sign(self) -> char {
        self.decimal
    }

    /// A number written with a decimal point and no grouping, as it is shown.
    pub(crate) fn shown(self, plain: &str) -> String {
        let (whole, fraction) =
            plain.split_once('.').map_or((plain, None), |(whole, fraction)| (whole, Some(fraction)));
        let mut shown = grouped(whole);
        if let Some(fraction) = fraction {
            shown.push(self.decimal);
            shown.push_str(fraction);
        }
        shown
    }
}

fn grouped(whole: &str) -> String {
    if whole.len() < 5 || !whole.bytes().all(|b| b.is_ascii_digit()) {
        return whole.to_owned();
    }
    let mut out = String::new();
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i).is_multiple_of(3) {
            out.push(GROUP);
        }
        out.push(digit);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// SI Brochure 5.3.4 (memory-H): digits in groups of three by a thin space, none for four digits; the decimal
    /// sign is the point or the comma on the line.
    #[test]
    fn groups_from_five_digits_and_uses_the_sign_of_the_language() {
        let cases = [("9999", "9999"), ("10000", "10\u{2009}000"), ("12345.6", "12\u{2009}345.6"), ("0.05", "0.05")];
        for (plain, shown) in cases {
            assert_eq!(NumberStyle::of_language("en").shown(plain), shown);
            for comma in ["de", "fr", "pl", "de-CH"] {
                assert_eq!(NumberStyle::of_language(comma).shown(plain), shown.replace('.', ","));
            }
        }
    }
}
