//! The pseudo-locale: the catalogue with its letters accented, 40 % longer, in « ».
//!
//! What is filled in (quantities, names, dates) stays as it is, and so do units and abbreviations in the text.

use fluent_syntax::ast::{Entry, Expression, Pattern, PatternElement, Resource};
use fluent_syntax::{parser, serializer};

/// The catalogue text in the pseudo-locale.
pub(crate) fn pseudo(catalogue: &str) -> String {
    // Entries that cannot be read stay out here and are missing from the screen; a test parses every file.
    let mut resource: Resource<String> = parser::parse(catalogue.to_owned()).unwrap_or_else(|(readable, _)| readable);
    for entry in &mut resource.body {
        let (value, attributes) = match entry {
            Entry::Message(message) => (message.value.as_mut(), &mut message.attributes),
            Entry::Term(term) => (Some(&mut term.value), &mut term.attributes),
            _ => continue,
        };
        value.into_iter().chain(attributes.iter_mut().map(|attribute| &mut attribute.value)).for_each(bracket);
    }
    serializer::serialize(&resource)
}

fn bracket(pattern: &mut Pattern<String>) {
    stretch(pattern);
    pattern.elements.insert(0, PatternElement::TextElement { value: "«".to_owned() });
    pattern.elements.push(PatternElement::TextElement { value: "»".to_owned() });
}

fn stretch(pattern: &mut Pattern<String>) {
    for element in &mut pattern.elements {
        match element {
            PatternElement::TextElement { value } => *value = stretched(value),
            PatternElement::Placeable { expression: Expression::Select { variants, .. } } => {
                variants.iter_mut().for_each(|variant| stretch(&mut variant.value));
            }
            PatternElement::Placeable { .. } => {}
        }
    }
}

/// Each word accented; vowels doubled until the text is 40 % longer, and marks added where they do not suffice.
fn stretched(text: &str) -> String {
    let letters = text.chars().filter(|c| c.is_alphabetic()).count();
    let mut owed = (letters * 2).div_ceil(5);
    let mut out = String::new();
    for piece in text.split_inclusive(|c: char| !c.is_alphabetic()) {
        if untouched(piece) {
            out.push_str(piece);
            continue;
        }
        for letter in piece.chars() {
            out.push(accented(letter));
            if owed > 0 && "aeiou".contains(letter) {
                out.push(accented(letter));
                owed -= 1;
            }
        }
    }
    let end = out.trim_end().len();
    out.insert_str(end, &"~".repeat(owed));
    out
}

/// Units and abbreviations: `MΩ`, `V`, `SELV`, `L`. (`A` at the start of a sentence stays too; it does no harm.)
fn untouched(piece: &str) -> bool {
    piece.contains('Ω') || !piece.chars().any(char::is_lowercase)
}

const fn accented(letter: char) -> char {
    match letter {
        'a' => 'á',
        'c' => 'ç',
        'e' => 'é',
        'i' => 'í',
        'n' => 'ñ',
        'o' => 'ö',
        's' => 'š',
        'u' => 'ü',
        'y' => 'ý',
        'z' => 'ž',
        'A' => 'Á',
        'C' => 'Ç',
        'E' => 'É',
        'I' => 'Í',
        'N' => 'Ñ',
        'O' => 'Ö',
        'S' => 'Š',
        'U' => 'Ü',
        other => other,
    }
}
