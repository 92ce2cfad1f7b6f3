//! Texts that a spreadsheet could take for a formula.

/// What could begin a formula.
const BEGINNINGS: [char; 11] = ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];

/// The text as a spreadsheet may be given it: where its first character could begin a formula (`=`, `+`, `-`, `@`, tab,
/// carriage return, line feed, and their full-width forms), an apostrophe stands before it. Numbers never pass through
/// here: resistances and digits have no sign.
pub fn defused(text: &str) -> String {
    if text.starts_with(BEGINNINGS) { format!("'{text}") } else { text.to_owned() }
}

/// What [`defused`] was given, so that a table that was copied out reads back in.
pub fn plain(text: &str) -> &str {
    text.strip_prefix('\'').filter(|rest| rest.starts_with(BEGINNINGS)).unwrap_or(text)
}

#[cfg(test)]
mod tests {
    use super::{defused, plain};

    #[test]
    fn what_could_begin_a_formula_is_defused_and_nothing_else() {
        for hostile in ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "＝1"] {
            assert_eq!(defused(hostile), format!("'{hostile}"));
            assert_eq!(plain(&defused(hostile)), hostile);
        }
        for harmless in ["", "487", "L–PE", "a=1", "> 999 MΩ"] {
            assert_eq!(defused(harmless), harmless);
        }
        assert_eq!(plain("'tis"), "'tis", "an apostrophe of one's own stays");
    }
}
