//! The catalogue as a whole.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use fluent_syntax::ast::{Entry, Expression, Pattern, PatternElement};
use fluent_syntax::parser;
use provenohm_assess::quantity::Refusal;
use provenohm_words::{Locale, Words, catalogue};

/// Every message with each way it can come out; what is filled in stands as one word.
fn messages(locale: Locale) -> Vec<(String, Vec<String>)> {
    let resource = parser::parse(catalogue(locale)).expect("the catalogue can be read");
    let mut out = Vec::new();
    for entry in &resource.body {
        if let Entry::Message(message) = entry {
            let value = message.value.as_ref().expect("a message has a text");
            out.push((message.id.name.clone(), outcomes(value)));
        }
    }
    out
}

fn outcomes(pattern: &Pattern<String>) -> Vec<String> {
    let mut texts = vec![String::new()];
    for element in &pattern.elements {
        let parts = match element {
            PatternElement::TextElement { value } => vec![value.clone()],
            PatternElement::Placeable { expression: Expression::Select { variants, .. } } => {
                variants.iter().flat_map(|variant| outcomes(&variant.value)).collect()
            }
            PatternElement::Placeable { .. } => vec!["⟨filled⟩".to_owned()],
        };
        texts = texts.iter().flat_map(|text| parts.iter().map(move |part| format!("{text}{part}"))).collect();
    }
    texts
}

#[test]
fn every_entry_of_every_language_can_be_read() {
    for locale in Locale::all().chain([Locale::PSEUDO]) {
        assert_eq!(Words::new(locale).unreadable(), [] as [String; 0], "{}", locale.id());
    }
}

#[test]
fn every_language_has_the_same_messages() {
    let keys = |locale| {
        let mut keys: Vec<_> = messages(locale).into_iter().map(|(key, _)| key).collect();
        keys.sort();
        keys
    };
    for locale in Locale::all().chain([Locale::PSEUDO]) {
        assert_eq!(keys(locale), keys(Locale::ENGLISH), "{}", locale.id());
    }
}

#[test]
fn a_missing_message_is_shown_as_its_key() {
    assert_eq!(Words::new(Locale::ENGLISH).text("no-such-message"), "no-such-message");
}

#[test]
fn a_message_that_lacks_something_says_what() {
    let shown = Words::new(Locale::ENGLISH).text("said-meets-limit");
    assert!(shown.starts_with("said-meets-limit: ") && shown.contains("$limit"), "{shown}");
}

#[test]
fn words_can_be_shared_between_threads() {
    fn shared<T: Send + Sync>() {}
    shared::<Words>();
}

/// Nobody is blamed, begged or reassured, and nothing is called safe: a value meets a limit, is below it, is too close
/// to call or cannot be judged. Only a verification may say *failed* or *conditional fail*, words of the calibration trade.
#[test]
fn no_message_scolds_or_reassures() {
    const UNWANTED: [&str; 21] = [
        "invalid",
        "error",
        "errors",
        "please",
        "sorry",
        "oops",
        "forbidden",
        "forgot",
        "illegal",
        "warning",
        "safe",
        "safely",
        "unsafe",
        "pass",
        "passed",
        "passes",
        "ok",
        "okay",
        "compliant",
        "fails",
        "failure",
    ];
    for (key, texts) in messages(Locale::ENGLISH) {
        for text in texts {
            let said: Vec<_> = text.split(|c: char| !c.is_alphabetic()).map(str::to_lowercase).collect();
            let of_a_tester = ["tester", "verification", "outcome", "recall"].iter().any(|about| key.contains(about));
            // What a tester shows beyond the truth is its error, a word of the trade too.
            let of_its_error = of_a_tester
                || ["answer-plot", "answer-drift", "column-error", "plot-magnified"]
                    .iter()
                    .any(|it| key.starts_with(it));
            let unwanted =
                said.iter().find(|word| UNWANTED.contains(&word.as_str()) && !(of_its_error && *word == "error"));
            assert_eq!(unwanted, None, "{key}: {text}");
            assert!(of_a_tester || !said.iter().any(|word| word == "failed" || word == "fail"), "{key}: {text}");
        }
    }
}

/// One line at a glance: refusals, complaints and whatever is said of a reading.
#[test]
fn short_lines_stay_within_twelve_words_and_have_no_full_stop() {
    const SHORT: [&str; 4] = ["refused-", "complaint-", "said-", "hint-"];
    const EXPLAINED: [&str; 4] = ["said-guard-", "said-policy-", "said-limit-", "said-tag-"];
    for (key, texts) in messages(Locale::ENGLISH) {
        let short = SHORT.iter().any(|start| key.starts_with(start));
        if !short || EXPLAINED.iter().any(|start| key.starts_with(start)) {
            continue;
        }
        for text in texts {
            let words = text.split_whitespace().filter(|word| word.chars().any(char::is_alphanumeric)).count();
            assert!(words <= 12, "{key} has {words} words: {text}");
            assert!(!text.ends_with('.') || text.ends_with("c."), "{key}: {text}");
        }
    }
}

#[test]
fn the_pseudo_locale_is_two_fifths_longer_and_bracketed() {
    let english = messages(Locale::ENGLISH);
    for ((key, plain), (_, pseudo)) in english.iter().zip(messages(Locale::PSEUDO)) {
        for (plain, pseudo) in plain.iter().zip(pseudo) {
            assert!(pseudo.starts_with('«') && pseudo.ends_with('»'), "{key}: {pseudo}");
            let letters =
                |text: &str| text.replace("filled", "").chars().filter(|c| c.is_alphabetic() || *c == '~').count();
            assert!(letters(&pseudo) * 5 >= letters(plain) * 7, "{key}: {plain} / {pseudo}");
        }
    }
}

/// A sentence nobody says is deleted. Whoever says it names its key as a literal, whole or without these endings.
#[test]
fn every_sentence_is_said_somewhere() {
    const ENDINGS: [&str; 6] = ["", "-days", "-months", "-years", "-requirement", "-point"];
    let source: String = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/src"))
        .unwrap()
        .map(|file| std::fs::read_to_string(file.unwrap().path()).unwrap())
        .collect();
    for (key, _) in messages(Locale::ENGLISH) {
        let named = |ending| key.strip_suffix(ending).is_some_and(|key| source.contains(&format!("\"{key}\"")));
        assert!(!key.starts_with("said-") || ENDINGS.into_iter().any(named), "nobody says {key}");
    }
}

/// What an operation answers, complains of or fails with, and what stands on papers, is named where it is said: by its
/// key, a failure by its code.
#[test]
fn every_answer_is_given_somewhere() {
    fn sources(folder: &std::path::Path, out: &mut String) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                sources(&path, out);
            } else if path.extension().is_some_and(|kind| kind == "rs") {
                out.push_str(&std::fs::read_to_string(path).unwrap());
            }
        }
    }
    let mut source = String::new();
    for said_by in ["api", "hub", "office", "papers"] {
        sources(&std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(said_by).join("src"), &mut source);
    }
    for (key, _) in messages(Locale::ENGLISH) {
        let said = ["answer-", "complaint-"].iter().any(|start| key.starts_with(start));
        // Papers name their messages without what they share.
        let on_paper = key.strip_prefix("papers-");
        let name = key.strip_prefix("failure-").or(on_paper).or(said.then_some(key.as_str()));
        let column = name.and_then(|name| name.strip_prefix("column-"));
        let named = |name: &str| source.contains(&format!("\"{name}\""));
        assert!(name.is_none_or(named) || column.is_some_and(named), "nobody says {key}");
    }
}

#[test]
fn every_refusal_has_its_words() {
    use Refusal::{
        ClearFirst, DigitAfterZero, Grouping, Milliohm, NoDigits, NoUnit, NotANumber, NotExact, NothingToClear,
        OpenDot, OverRangeNotSet, PressUnit, SecondDot, SixthDigit, TenthDigit, UnknownUnit,
    };
    let words = Words::new(Locale::ENGLISH);
    let all = [
        NoDigits,
        SecondDot,
        SixthDigit,
        TenthDigit,
        DigitAfterZero,
        OpenDot,
        ClearFirst,
        NothingToClear,
        OverRangeNotSet,
        PressUnit,
        NoUnit,
        Milliohm,
        UnknownUnit,
        Grouping,
        NotExact,
        NotANumber,
    ];
    for refusal in all {
        assert!(words.has(refusal.code()), "{}", refusal.code());
    }
    assert_eq!(words.refusal(ClearFirst, "487"), "Clear 487 first");
    assert_eq!(words.refusal(Milliohm, "487 mΩ"), "Write MΩ or kΩ");
}

#[test]
fn a_failure_without_words_of_its_own_says_what_is_true_of_all() {
    let words = Words::new(Locale::ENGLISH);
    assert_eq!(words.failure("no_tester"), "Choose a tester first");
    assert_eq!(words.failure("never heard of"), words.text("failure-unexpected"));
}
