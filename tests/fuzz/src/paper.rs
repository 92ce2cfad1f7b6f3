//! Schedules as PDF: whatever is attached is read within its bounds, and a part is only what is written back the same.
use provenohm_papers::attached;
use provenohm_papers::report::{Part, whole_of};

pub(crate) fn holds(bytes: &[u8]) {
    let Ok(found) = attached(bytes) else { return };
    let Ok(part) = serde_json::from_slice::<Part>(&found.model) else { return };
    if part.canonical().is_ok_and(|written| written == found.model)
        && let Some(whole) = whole_of(std::slice::from_ref(&part))
    {
        assert_eq!(whole.digest().ok().as_ref(), Some(&part.whole), "a whole has the digest its part names");
    }
}
