//! A paper says that it is signed only if it is exactly what was signed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod invented;
mod told;

use invented::{signed, small};
use provenohm_papers::Pages;
use provenohm_papers::report::{Parts, Schedule};
use provenohm_words::{Locale, Words};
use told::text_of;

fn pdf(schedule: &Schedule) -> Vec<u8> {
    let parts = Parts::of(schedule).unwrap();
    Pages::typeset(&parts.parts[0], &Words::new(Locale::ENGLISH)).unwrap().pdf().unwrap()
}

#[test]
fn every_page_says_by_whom_and_when_and_the_fingerprint_is_the_records() {
    let text = text_of(&pdf(&signed()));
    for page in text.split_terminator('\u{c}') {
        assert!(page.matches("Signed as No. 1 by A. Reviewer, ").count() >= 2, "head and foot: {page}");
        assert!(!page.contains("Not signed") && !page.contains("after sign-off"), "{page}");
        assert!(page.contains("Fingerprint 3f3f 3f3f 3f3f 3f3f"), "{page}");
    }
    assert!(!text.contains("Nobody has signed this paper"), "{text}");
    assert!(!text.contains("shortened"), "what bears the sign-off out is on no page");
}

#[test]
fn a_paper_of_anything_else_says_that_more_came_after() {
    let mut schedule = signed();
    schedule.job.name.push('x');
    assert!(text_of(&pdf(&schedule)).contains("but not as it stands here"));
    schedule.signatures[0].after = 3;
    schedule.signatures[0].in_doubt = 6;
    let text = text_of(&pdf(&schedule));
    assert!(text.contains("3 entries after sign-off"), "{text}");
    assert!(text.contains("Since sign-off No. 1, 6 readings have come into doubt"), "{text}");
}

#[test]
fn what_a_paper_says_of_sign_offs_is_not_what_is_signed() {
    let bare = Schedule { signatures: Vec::new(), ..signed() };
    assert_eq!(Parts::of(&signed()).unwrap().whole, Parts::of(&bare).unwrap().whole);
    assert_ne!(Parts::of(&small()).unwrap().whole, Parts::of(&bare).unwrap().whole, "the record's digest is");
    let part = Parts::of(&signed()).unwrap().parts.remove(0);
    let bytes = part.canonical().unwrap();
    assert_eq!(serde_json::from_slice::<provenohm_papers::report::Part>(&bytes).unwrap(), part);
}
