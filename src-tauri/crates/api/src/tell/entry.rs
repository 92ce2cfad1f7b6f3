//! What an entry is, by its kind.

use provenohm_logbook::entry::Kind;
use provenohm_words::Words;

/// A kind of entry in words. The match has no other arm: a new kind does not compile until it is told.
pub(crate) fn entry_kind(words: &Words, kind: Kind) -> String {
    words.text(match kind {
        Kind::LogOpened => "answer-entry-log-opened",
        Kind::Seal => "answer-entry-seal",
        Kind::Withdrawal => "answer-entry-withdrawal",
        Kind::Settlement => "answer-entry-settlement",
        Kind::Erasure => "answer-entry-erasure",
        Kind::Attachment => "answer-entry-attachment",
        Kind::SignOff => "answer-entry-sign-off",
        Kind::Request => "answer-entry-request",
        Kind::Person => "answer-entry-person",
        Kind::SamePerson => "answer-entry-same-person",
        Kind::SameTester => "answer-entry-same-tester",
        Kind::Note => "answer-entry-note",
        Kind::SameCircuit => "answer-entry-same-circuit",
        Kind::Different => "answer-entry-different",
        Kind::DeviceKnown => "answer-entry-device-known",
        Kind::JobOpened => "answer-entry-job-opened",
        Kind::JobNames => "answer-entry-job-names",
        Kind::JobRules => "answer-entry-job-rules",
        Kind::JobPeople => "answer-entry-job-people",
        Kind::CautionsRead => "answer-entry-cautions-read",
        Kind::BoardOrder => "answer-entry-board-order",
        Kind::BoardNames => "answer-entry-board-names",
        Kind::BoardPresent => "answer-entry-board-present",
        Kind::CircuitOrder => "answer-entry-circuit-order",
        Kind::BoardPeople => "answer-entry-board-people",
        Kind::CircuitLabel => "answer-entry-circuit-label",
        Kind::CircuitElectrical => "answer-entry-circuit-electrical",
        Kind::CircuitPlace => "answer-entry-circuit-place",
        Kind::CircuitPresent => "answer-entry-circuit-present",
        Kind::Reading => "answer-entry-reading",
        Kind::Correction => "answer-entry-correction",
        Kind::NotTested => "answer-entry-not-tested",
        Kind::TesterIdentity => "answer-entry-tester-identity",
        Kind::TesterCard => "answer-entry-tester-card",
        Kind::Verification => "answer-entry-verification",
        Kind::LeadCheck | Kind::QuickCheck => "answer-entry-check",
        Kind::Damage => "answer-entry-damage",
        Kind::ReferenceCard => "answer-entry-reference-card",
        Kind::BenchRun => "answer-entry-bench-run",
        Kind::Measured => "answer-entry-measured",
        Kind::RecallResolved => "answer-entry-recall-resolved",
        Kind::Accepted => "answer-entry-accepted",
    })
}
