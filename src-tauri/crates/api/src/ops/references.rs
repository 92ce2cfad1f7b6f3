//! References: kept with their certificates, each in a book of its own.

use super::undo::token;
use crate::failure::Failure;
use crate::read::{Fields, read_reference, reference_form};
use crate::state::State;
use crate::views::*;
use chrono::NaiveDate;
use provenohm_assess::ids::ReferenceId;
use provenohm_assess::judgement::Level;
use provenohm_assess::reference::Reference;
use provenohm_logbook::entry::body::ReferenceCard;
use provenohm_logbook::entry::{Fact, Role};
use provenohm_words::Words;

pub(crate) fn references(state: &mut State, _: NoInput) -> Result<ReferencesView, Failure> {
    view(state, None)
}

pub(crate) fn save_reference(state: &mut State, asked: SaveReference) -> Result<ReferencesView, Failure> {
    let id = match asked.reference {
        Some(id) => id,
        None => ReferenceId(state.host.id()?),
    };
    let mut fields = Fields::new(&state.words);
    let reference = read_reference(&mut fields, &asked.form, id);
    let reference = fields.settle(reference)?;
    let known = state.record.view().known_reference(id)?;
    if asked.reference.is_some() && known.card.live.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let said = state.words.text_with("answer-reference-saved", &[("name", reference.name.as_str().into())]);
    let card = ReferenceCard { reference };
    if known.card.one() == Some(&card) {
        return view(state, Some(Done { words: said, undo: None }));
    }
    let person = state.anyone()?;
    let receipt =
        state.write(person, |writer| Ok(writer.append(Fact::naming(card, Role::Replaces, known.card.current()))?))?;
    view(state, Some(Done { words: said, undo: token(&receipt) }))
}

/// Takes a reference away. What it proved stays proved: a run carries its references as they stood.
pub(crate) fn remove_reference(state: &mut State, asked: OfReference) -> Result<ReferencesView, Failure> {
    let known = state.record.view().known_reference(asked.reference)?;
    let name = known.card.first().map(|card| card.reference.name.clone()).ok_or_else(|| Failure::of("not_found"))?;
    // Every certificate it ever had: withdrawing the present one alone would bring an earlier one back.
    let stated = known.card.live.iter().chain(&known.card.earlier);
    let entries: Vec<_> = stated.filter(|one| !one.standing.withdrawn).map(|one| one.entry).collect();
    let person = state.anyone()?;
    let reason = state.words.text("answer-reference-taken-away");
    let receipt = state.write(person, |writer| Ok(writer.withdraw(&entries, &reason)?))?;
    let words = state.words.text_with("answer-reference-removed", &[("name", name.into())]);
    let undo = receipt.value.first().map(|_| super::undo::token_of(&receipt.value));
    view(state, Some(Done { words, undo }))
}

/// The references that stand, by name.
pub(crate) fn standing(state: &State) -> Result<Vec<Reference>, Failure> {
    let known = state.record.view().references()?;
    let mut all: Vec<Reference> =
        known.iter().filter_map(|one| one.card.first()).map(|card| card.reference.clone()).collect();
    all.sort_by(|one, other| one.name.cmp(&other.name).then_with(|| one.serial.cmp(&other.serial)));
    Ok(all)
}

fn view(state: &mut State, done: Option<Done>) -> Result<ReferencesView, Failure> {
    let today = state.host.now().date_naive();
    let words = &state.words;
    let choice = |id: &str, key: &str| Choice { id: id.to_owned(), words: words.text(key) };
    let kind = |id: &str, kind: &str| Choice {
        id: id.to_owned(),
        words: words.text_with("said-reference-kind", &[("kind", kind.into())]),
    };
    Ok(ReferencesView {
        references: standing(state)?.iter().map(|one| line(words, one, today)).collect(),
        kinds: vec![
            kind("resistor", "resistor"),
            kind("decade_box", "decade-box"),
            kind("voltmeter", "voltmeter"),
            kind("high_voltage_probe", "high-voltage-probe"),
            kind("current_meter", "current-meter"),
        ],
        stated_as: vec![choice("expanded", "answer-stated-expanded"), choice("tolerance", "answer-stated-tolerance")],
        fresh: ReferenceForm::fresh(),
        done,
    })
}

/// One reference in words.
pub(crate) fn line(words: &Words, reference: &Reference, today: NaiveDate) -> ReferenceLine {
    ReferenceLine {
        id: reference.id,
        title: title(words, reference),
        lines: words.reference_lines(reference),
        state: in_date(words, reference, today),
        form: reference_form(words, reference),
    }
}

/// Name, kind and serial number.
pub(crate) fn title(words: &Words, reference: &Reference) -> String {
    words.text_with(
        "answer-reference-title",
        &[
            ("name", reference.name.as_str().into()),
            ("kind", words.reference_kind(&reference.what).into()),
            ("serial", reference.serial.as_str().into()),
        ],
    )
}

fn in_date(words: &Words, reference: &Reference, today: NaiveDate) -> Sentence {
    match reference.valid_until {
        None => Sentence { level: Level::Look, words: words.text("answer-reference-no-last-day") },
        Some(until) => {
            let lapsed = until < today;
            let key = if lapsed { "answer-reference-lapsed" } else { "answer-reference-in-date" };
            Sentence {
                level: if lapsed { Level::Look } else { Level::Done },
                words: words.text_with(key, &[("until", words.date(until).into())]),
            }
        }
    }
}
