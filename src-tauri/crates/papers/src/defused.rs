//! Texts that a spreadsheet could take for a formula.

/// The text as a spreadsheet may be given it: where its first character could begin a formula (`=`, `+`, `-`, `@`, tab,
/// carriage return, line feed, and their full-width forms), an apostrophe stands before it. Numbers never pass through
/// here: resistances and digits have no sign.
pub(crate) fn defused(text: &str) -> String {
    match text.chars().next() {
        Some('=' | '+' | '-' | '@' | '\t' | '\r' | '\n' | '＝' | '＋' | '－' | '＠') => format!("'{text}"),
        _ => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::defused;

    #[test]
    fn what_could_begin_a_formula_is_defused_and_nothing_else() {
        for hostile in ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "＝1"] {
            assert_eq!(defused(hostile), format!("'{hostile}"));
        }
        for plain in ["", "487", "L–PE", "a=1", "> 999 MΩ"] {
            assert_eq!(defused(plain), plain);
        }
    }
}
