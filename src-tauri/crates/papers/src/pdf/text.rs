//! Making any text printable: what the typeface lacks is replaced by a visible sign, and long runs may break.
//!
//! PDF/A forbids a missing glyph, its level A a private character; a direction override could show digits in another
//! order than they were recorded. All of them become U+FFFD on paper. The attached model keeps the text as it is.

use serde_json::Value;
use typst::text::Font;

/// Printed for a character that cannot be.
pub(super) const REPLACED: char = '\u{fffd}';
/// Marks stacked on one letter beyond this are replaced, so that they cannot grow into the neighbouring rows.
const MARKS_MOST: usize = 3;
/// A run without a space longer than this may break after every [`BREAK_EVERY`] characters.
const RUN_MOST: usize = 16;
const BREAK_EVERY: usize = 8;
const BREAK: char = '\u{200b}';

/// Makes every text of a tree printable. Says whether anything was replaced.
pub(super) fn make_printable(tree: &mut Value, font: &Font) -> bool {
    match tree {
        Value::String(text) => {
            let (printed, replaced) = printable(text, font);
            *text = printed;
            replaced
        }
        Value::Array(items) => items.iter_mut().fold(false, |replaced, item| make_printable(item, font) | replaced),
        Value::Object(fields) => {
            fields.iter_mut().fold(false, |replaced, (_, item)| make_printable(item, font) | replaced)
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => false,
    }
}

fn printable(text: &str, font: &Font) -> (String, bool) {
    let mut out = String::with_capacity(text.len());
    let (mut marks, mut run, mut replaced) = (0, 0, false);
    let long = text.split_whitespace().any(|word| word.chars().count() > RUN_MOST);
    for character in text.chars() {
        marks = if is_mark(character) { marks + 1 } else { 0 };
        let printed = match character {
            '\t' | '\n' | '\r' => ' ',
            _ if marks > MARKS_MOST || !may_print(character, font) => REPLACED,
            _ => character,
        };
        replaced |= printed == REPLACED && character != REPLACED;
        run = if printed.is_whitespace() { 0 } else { run + 1 };
        if long && run > 1 && run % BREAK_EVERY == 1 && marks == 0 {
            out.push(BREAK);
        }
        out.push(printed);
    }
    (out, replaced)
}

fn may_print(character: char, font: &Font) -> bool {
    // Invisible, private or direction-changing, whatever the typeface has for them.
    let hidden = matches!(character,
        '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
        | '\u{e000}'..='\u{f8ff}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{fff0}'..='\u{fffb}' | '\u{e0000}'..='\u{10ffff}');
    !hidden && !character.is_control() && font.info().coverage.contains(u32::from(character))
}

fn is_mark(character: char) -> bool {
    matches!(character,
        '\u{300}'..='\u{36f}' | '\u{483}'..='\u{489}' | '\u{1ab0}'..='\u{1aff}' | '\u{1dc0}'..='\u{1dff}'
        | '\u{20d0}'..='\u{20ff}' | '\u{fe20}'..='\u{fe2f}')
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

    use super::super::fonts;
    use super::{REPLACED, printable};

    fn shown(text: &str) -> String {
        printable(text, fonts::regular().unwrap()).0
    }

    #[test]
    fn the_signs_of_the_trade_are_in_the_typeface() {
        let signs = ["Ω kΩ MΩ GΩ", "≥ ≤ < > ±", "L1–N", "L+ and L− – PE", "12\u{202f}345 12\u{2009}345", "487\u{a0}MΩ"];
        for text in signs.into_iter().chain(["Größe, żółw", "Ωμέγα, Щит"]) {
            assert_eq!(shown(text), text);
        }
    }

    #[test]
    fn what_cannot_be_printed_becomes_a_visible_sign() {
        for hostile in
            ["\u{202e}", "\u{200f}", "\u{26a1}", "漢", "\u{0}", "\u{e000}", "\u{ffff}", "\u{200b}", "\u{1f600}"]
        {
            assert_eq!(shown(hostile), REPLACED.to_string(), "{hostile:?}");
        }
    }

    #[test]
    fn line_ends_and_tabs_become_spaces() {
        assert_eq!(shown("a\r\nb\tc"), "a  b c");
    }

    #[test]
    fn piled_up_marks_are_cut_off() {
        let piled = format!("a{}", "\u{301}".repeat(50));
        assert_eq!(shown(&piled).chars().filter(|character| *character == '\u{301}').count(), 3);
    }

    #[test]
    fn only_long_runs_get_places_to_break() {
        assert_eq!(shown("automatic disconnec"), "automatic disconnec");
        assert_eq!(shown(&"x".repeat(20)).matches('\u{200b}').count(), 2);
    }

    #[test]
    fn digests_in_groups_stay_as_they_are() {
        let groups = ["0123456789abcdef"; 4].join(" ");
        assert_eq!(shown(&groups), groups);
    }
}
