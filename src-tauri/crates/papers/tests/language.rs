//! Every word on paper comes from the catalogue: in the pseudo-locale no plain word is left.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod invented;
mod told;

use std::collections::BTreeSet;
use std::io::Cursor;

use calamine::{Reader as _, Xlsx};
use invented::{every_text, large, signed, small};
use provenohm_papers::Pages;
use provenohm_papers::report::{Digest, Parts, Schedule};
use provenohm_words::{Locale, Words};
use told::text_of;

/// Without a letter in any of the model's texts; what is left on paper are our own words.
fn wordless(schedule: &Schedule) -> Schedule {
    every_text::replaced(schedule, "0")
}

/// Words with small letters and no accent. Units and abbreviations have no small letter but the k of kΩ, and mm.
fn plain_words<'a>(text: &'a str, digests: &BTreeSet<String>) -> Vec<&'a str> {
    let words = text.split(|c: char| !c.is_alphanumeric());
    words
        .filter(|word| word.chars().any(|c| c.is_ascii_lowercase()) && word.len() > 1 && word.is_ascii())
        .filter(|word| *word != "mm" && !digests.contains(*word) && !word.chars().any(|c| c.is_ascii_digit()))
        .collect()
}

/// The groups of digits that digests are printed in.
fn digests(parts: &Parts) -> BTreeSet<String> {
    let own = parts.parts.iter().map(|part| Digest::of(&part.canonical().unwrap()));
    let record = parts.parts.iter().filter_map(|part| part.schedule.record.clone());
    let all = own.chain([parts.whole.clone()]).chain(record);
    let groups = all.flat_map(|digest| {
        let long = digest.as_str().as_bytes().chunks(16).map(|group| String::from_utf8(group.to_vec()).unwrap());
        let short = digest.fingerprint().to_string().split(' ').map(str::to_owned).collect::<Vec<_>>();
        long.chain(short).collect::<Vec<_>>()
    });
    groups.collect()
}

#[test]
fn on_pages() {
    for schedule in [small(), large(400), signed()] {
        let parts = Parts::of(&wordless(&schedule)).unwrap();
        let said = |locale| {
            let words = Words::new(locale);
            // Of a schedule in parts the first and the last say all there is to say.
            let parts: Vec<_> = parts.parts.first().into_iter().chain(parts.parts.last()).collect();
            parts.iter().map(|part| text_of(&Pages::typeset(part, &words).unwrap().pdf().unwrap())).collect::<String>()
        };
        let digests = digests(&parts);
        // A long word may be parted where a line ends.
        let pseudo = said(Locale::PSEUDO).replace('\u{200b}', "");
        assert_eq!(plain_words(&pseudo, &digests), [] as [&str; 0], "{pseudo}");
        // The same look finds the words of English pages.
        let english = said(Locale::ENGLISH);
        let found = plain_words(&english, &digests);
        assert!(["Reading", "Pair", "Time", "Person", "look"].iter().all(|word| found.contains(word)), "{found:?}");
    }
}

#[test]
fn in_the_workbook() {
    let parts = Parts::of(&wordless(&small())).unwrap();
    let digests = digests(&parts);
    for (locale, english) in [(Locale::PSEUDO, false), (Locale::ENGLISH, true)] {
        let words = Words::new(locale);
        let mut book: Xlsx<_> = Xlsx::new(Cursor::new(parts.xlsx(&words).unwrap())).unwrap();
        for sheet in ["papers-sheet-readings", "papers-sheet-about"].map(|key| words.text(key)) {
            let cells = book.worksheet_range(&sheet).unwrap();
            let text: Vec<String> = cells.rows().flatten().map(ToString::to_string).chain([sheet]).collect();
            let text = text.join("\n");
            let found = plain_words(&text, &digests);
            assert_eq!(!found.is_empty(), english, "{found:?}");
        }
    }
}
