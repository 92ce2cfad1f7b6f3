//! Why a file is no job file, in words: the place and what is wrong there.

use crate::read::circuit_complaint;
use provenohm_assess::tester::CardComplaint;
use provenohm_exchange::job_file::{Fault, JobFile, NotAJobFile};
use provenohm_exchange::json::NotThat;
use provenohm_words::Words;

/// One sentence for whoever has the file in hand.
pub(crate) fn not_a_job_file(words: &Words, why: &NotAJobFile) -> String {
    match why {
        NotAJobFile::TooLarge => words.text("file-too-large"),
        NotAJobFile::Empty => words.text("file-empty"),
        NotAJobFile::Malformed(what) => not_that_json(words, what),
        NotAJobFile::OtherFormat => words.text_with("file-other", &[("format", JobFile::format().0.as_str().into())]),
        NotAJobFile::Newer(version) => words.text_with("file-newer", &[("version", (*version).into())]),
        NotAJobFile::Broken { place, reason } => {
            let args = [("place", place.as_str().into()), ("reason", fault(words, reason).into())];
            words.text_with("file-place", &args)
        }
    }
}

/// Where JSON is not what it should be, and why.
pub(crate) fn not_that_json(words: &Words, what: &NotThat) -> String {
    let reason = words.json_complaint(&what.reason);
    if what.place.is_empty() {
        return words.text_with("complaint-file-line", &[("line", what.line.into()), ("reason", reason.into())]);
    }
    let place = ("place", what.place.as_str().into());
    words.text_with("file-line-place", &[("line", what.line.into()), place, ("reason", reason.into())])
}

fn fault(words: &Words, fault: &Fault) -> String {
    let because = |key: &str, reason: String| words.text_with(key, &[("reason", reason.into())]);
    match fault {
        Fault::Twice(id) => words.text_with("file-twice", &[("id", id.as_str().into())]),
        Fault::NoPerson => words.text("file-no-person"),
        Fault::NoTester => words.text("file-no-tester"),
        Fault::NoCircuit => words.text("file-no-circuit"),
        Fault::NoReading => words.text("file-no-reading"),
        Fault::Circle => words.text("file-circle"),
        Fault::NoReason => words.text("file-no-reason"),
        Fault::SetUnreadable(complaint) => because("file-set-unreadable", words.set_complaint(complaint)),
        Fault::OtherSet => words.text("file-other-set"),
        Fault::NotTheShipped => words.text("file-not-shipped"),
        Fault::Circuit(complaint) => because("file-circuit", circuit_complaint(words, *complaint).1),
        Fault::Card(complaint) => not_a_card(words, *complaint),
        Fault::OtherTester => words.text("file-other-tester"),
        Fault::LastDay => words.text("complaint-last-day-before"),
        Fault::Interval => words.text("complaint-ends-turned"),
        Fault::TestVoltage => words.text("complaint-above-zero"),
    }
}

/// Why something cannot be a tester's card.
pub(crate) fn not_a_card(words: &Words, complaint: CardComplaint) -> String {
    words.text_with("file-card", &[("reason", card(words, complaint).into())])
}

fn card(words: &Words, complaint: CardComplaint) -> String {
    match complaint {
        CardComplaint::Voltage | CardComplaint::Step | CardComplaint::Accuracy => words.text("complaint-above-zero"),
        CardComplaint::StepTooLarge => words.text("complaint-step-too-large"),
        CardComplaint::VoltageTwice(volts) => {
            words.text_with("complaint-voltage-twice", &[("volts", words.volts(volts).into())])
        }
        CardComplaint::EndsTurned => words.text("complaint-ends-turned"),
        CardComplaint::Overlap => words.text("complaint-ranges-overlap"),
    }
}
