//! Whether a paper is what somebody signed, in a sentence.

use crate::fixed::Fixed;
use crate::report::{Digest, Schedule, Signature, cut};

/// Characters of a name in the foot.
const NAME_MOST: usize = 60;

/// One sentence a sign-off that stands, or that nobody signed. A paper is signed only if it is the model that was.
pub(crate) fn signed(schedule: &Schedule, whole: &Digest, fixed: &Fixed<'_>) -> Vec<String> {
    if schedule.signatures.is_empty() {
        return vec![fixed.text("not-signed")];
    }
    schedule.signatures.iter().map(|one| sentence(one, whole, fixed)).collect()
}

/// That readings have come into doubt since, one sentence a sign-off.
pub(crate) fn doubts(schedule: &Schedule, fixed: &Fixed<'_>) -> Vec<String> {
    let doubted = schedule.signatures.iter().filter(|one| one.in_doubt > 0);
    doubted
        .map(|one| {
            let count = usize::try_from(one.in_doubt).unwrap_or(usize::MAX);
            fixed.counted("signed-in-doubt", count, &[("number", &one.number.to_string())])
        })
        .collect()
}

fn sentence(one: &Signature, whole: &Digest, fixed: &Fixed<'_>) -> String {
    let (number, name, time) = (one.number.to_string(), cut(&one.name, NAME_MOST), fixed.date_time(one.at));
    let said = [("number", number.as_str()), ("name", &name), ("time", &time)];
    match one.after {
        _ if one.model == *whole => fixed.with("signed", &said),
        0 => fixed.with("signed-otherwise", &said),
        after => fixed.counted("signed-after", usize::try_from(after).unwrap_or(usize::MAX), &said),
    }
}
