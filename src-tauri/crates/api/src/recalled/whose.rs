//! Which tester is meant by an id or a serial number.

use crate::failure::Failure;
use crate::state::State;
use provenohm_assess::ids::TesterId;
use provenohm_logbook::view::Tester;

/// The tester that is meant, or all that might be.
pub(crate) enum Whose {
    One(TesterId),
    Several(Vec<TesterId>),
}

/// By id, else by serial number in any case. Serial numbers are the makers': two testers may have the same one.
pub(crate) fn whose(state: &State, text: &str) -> Result<Whose, Failure> {
    let text = text.trim();
    let testers = state.record.view().testers()?;
    let known_as = |one: &Tester| std::iter::once(&one.tester).chain(&one.same).any(|id| id.to_string() == text);
    if let Some(one) = testers.iter().find(|one| known_as(one)) {
        return Ok(Whose::One(one.tester));
    }
    let serial = text.to_lowercase();
    let same = testers.iter().filter(|one| {
        !serial.is_empty() && one.identity.live.iter().any(|it| it.value.serial.trim().to_lowercase() == serial)
    });
    let found: Vec<TesterId> = same.map(|one| one.tester).collect();
    match found[..] {
        [] => Err(Failure::of("not_found").because(text)),
        [one] => Ok(Whose::One(one)),
        _ => Ok(Whose::Several(found)),
    }
}
