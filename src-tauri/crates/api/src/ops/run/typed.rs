//! Typed digits: kept at each key, shown, and refused in words where they cannot be a reading.

use super::hand::Kept;
use crate::failure::Failure;
use crate::state::State;
use crate::views::{Draft, DraftView, Notch, RulerMark, SlotId, UnitKey};
use provenohm_assess::ids::PersonId;
use provenohm_assess::quantity::{Comparator, Display, Ohms, RULER_NOTCHES, Refusal, Shown, Typed, Unit, ruler_place};
use provenohm_words::Words;

/// The unit of a key.
pub(crate) const fn unit_of(key: UnitKey) -> Unit {
    match key {
        UnitKey::K => Unit::KiloOhm,
        UnitKey::M => Unit::MegaOhm,
        UnitKey::G => Unit::GigaOhm,
    }
}

const KEYS: [UnitKey; 3] = [UnitKey::K, UnitKey::M, UnitKey::G];

pub(crate) fn draft(state: &mut State, asked: Draft) -> Result<DraftView, Failure> {
    let job = state.job_of_board(asked.board)?;
    let person = state.person(job)?;
    // Digits that could not have been typed are refused before they are kept.
    let typed = Typed::kept(Display::Tester, asked.comparator, &asked.text)
        .map_err(|why| refused(&state.words, why, &asked.text))?;
    let kept = Kept { text: asked.text, comparator: asked.comparator };
    keep(state, person, &asked.slot, Some(&kept))?;
    Ok(draft_view(&state.words, &typed))
}

/// Keeps half-typed digits of a slot, or drops them.
pub(crate) fn keep(state: &mut State, person: PersonId, slot: &SlotId, kept: Option<&Kept>) -> Result<(), Failure> {
    let empty = |kept: &&Kept| kept.text.is_empty() && kept.comparator == Comparator::Exact;
    let text = match kept.filter(|kept| !empty(kept)) {
        Some(kept) => serde_json::to_string(kept).map_err(|error| Failure::of("unexpected").because(error))?,
        None => String::new(),
    };
    Ok(state.record.keep_draft(person, &slot.0, &text)?)
}

/// The half-typed digits of a slot.
pub(crate) fn kept(state: &State, person: PersonId, slot: &SlotId) -> Result<Typed, Failure> {
    let text = state.record.draft(person, &slot.0)?;
    let kept: Kept = text.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default();
    Ok(Typed::kept(Display::Tester, kept.comparator, &kept.text).unwrap_or_default())
}

/// The entry line.
pub(crate) fn draft_view(words: &Words, typed: &Typed) -> DraftView {
    let ohms = |key: UnitKey| typed.shown(unit_of(key)).ok().map(|shown| (key, shown.ohms()));
    DraftView {
        text: typed.text().to_owned(),
        comparator: typed.comparator(),
        shown: Typed::kept(typed.display(), Comparator::Exact, typed.text())
            .map(|bare| words.typed(&bare))
            .unwrap_or_default(),
        refused: typed.number().err().map(|why| words.refusal(why, typed.text())),
        ruler: KEYS
            .into_iter()
            .filter_map(ohms)
            .map(|(unit, ohms)| RulerMark { unit, at: ruler_place(ohms) })
            .collect(),
    }
}

/// The notches of the ruler.
pub(crate) fn notches() -> Vec<Notch> {
    let notch = |(number, unit): (u32, Unit)| {
        let ohms = Ohms(unit.ohms() * rust_decimal::Decimal::from(number));
        Notch { at: ruler_place(ohms), label: format!("{number}\u{a0}{}", unit.symbol()) }
    };
    RULER_NOTCHES.into_iter().map(notch).collect()
}

/// What was typed with the unit key that ends it.
pub(crate) fn read(words: &Words, typed: &crate::views::Typed) -> Result<Shown, Failure> {
    line(words, typed.comparator, &typed.text, unit_of(typed.unit)).map_err(|why| Failure::of("refused").saying(why))
}

/// What an entry line with these digits comes to, or why it cannot be a reading, in words.
pub(crate) fn line(words: &Words, comparator: Comparator, text: &str, unit: Unit) -> Result<Shown, String> {
    let line = Typed::kept(Display::Tester, comparator, text);
    line.and_then(|line| line.shown(unit)).map_err(|why| words.refusal(why, text))
}

/// A refusal in words.
pub(crate) fn refused(words: &Words, why: Refusal, typed: &str) -> Failure {
    Failure::of("refused").saying(words.refusal(why, typed))
}
