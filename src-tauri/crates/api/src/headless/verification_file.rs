//! What a verification file that can be read may still get wrong. Nothing in it is passed over in silence.

use super::bench::VerificationFile;
use super::{Refused, words};
use crate::tell;
use provenohm_assess::bench::MeasuredComplaint;
use provenohm_assess::reference::ReferenceComplaint;
use std::collections::BTreeSet;

impl VerificationFile {
    /// # Errors
    /// [`Refused`] with the place of what is wrong first, and why.
    pub(super) fn check(&self) -> Result<(), Refused> {
        let words = words();
        if let Some(complaint) = self.card.complaint() {
            return refused("card", tell::not_a_card(&words, complaint));
        }
        let mut seen = BTreeSet::new();
        for (index, reference) in self.references.iter().enumerate() {
            let place = format!("references[{index}]");
            if !seen.insert(reference.id) {
                return refused(&place, twice(&reference.id.to_string()));
            }
            if let Some(complaint) = reference.complaint() {
                return refused(&place, words.text(said(complaint)));
            }
        }
        let mut seen = BTreeSet::new();
        for (index, one) in self.measured.iter().enumerate() {
            let place = format!("measured[{index}]");
            if !seen.insert(one.id) {
                return refused(&place, twice(&one.id.to_string()));
            }
            if let Some(complaint) = one.complaint(&self.run) {
                return refused(&place, words.text(not_measured(complaint)));
            }
        }
        Ok(())
    }
}

const fn not_measured(complaint: MeasuredComplaint) -> &'static str {
    match complaint {
        MeasuredComplaint::OtherRun => "file-other-run",
        MeasuredComplaint::TestVoltage => "complaint-above-zero",
        MeasuredComplaint::NotAdjusted => "file-not-adjusted",
        MeasuredComplaint::BelowZero => "complaint-below-zero",
        MeasuredComplaint::Temperature => "complaint-temperature",
        MeasuredComplaint::BeforeTheRun => "file-before-the-run",
    }
}

const fn said(complaint: ReferenceComplaint) -> &'static str {
    match complaint {
        ReferenceComplaint::NotAboveZero => "complaint-above-zero",
        ReferenceComplaint::BelowZero => "complaint-below-zero",
        ReferenceComplaint::CoverageFactor => "complaint-coverage-factor",
        ReferenceComplaint::FarFromMarked => "complaint-far-from-marked",
        ReferenceComplaint::ValueTwice => "complaint-value-twice",
    }
}

fn twice(id: &str) -> String {
    words().text_with("file-twice", &[("id", id.into())])
}

fn refused(place: &str, reason: String) -> Result<(), Refused> {
    Err(Refused(words().text_with("file-place", &[("place", place.into()), ("reason", reason.into())])))
}
