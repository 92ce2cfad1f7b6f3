//! The catalogue as a whole.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_words::{Locale, Words};

#[test]
fn every_entry_of_every_language_can_be_read() {
    for locale in Locale::all().chain([Locale::PSEUDO]) {
        assert_eq!(Words::new(locale).unreadable(), [] as [String; 0], "{}", locale.id());
    }
}

#[test]
fn a_missing_message_is_shown_as_its_key() {
    assert_eq!(Words::new(Locale::ENGLISH).text("no-such-message"), "no-such-message");
}

#[test]
fn words_can_be_shared_between_threads() {
    fn shared<T: Send + Sync>() {}
    shared::<Words>();
}
