//! What people chose between values that stood side by side, and what they said to be one or two.

use super::facet::Stated;
use super::query::{ReadError, View};
use super::to_settle::FACETS;
use crate::entry::body::{Book, Correction};
use crate::entry::{Body, Kind, Object, ObjectId, Role};
use crate::store::blob;
use rusqlite::params;
use uuid::Uuid;

/// What says a choice by its kind.
const CHOICES: [Kind; 5] = [Kind::Settlement, Kind::SameCircuit, Kind::SameTester, Kind::SamePerson, Kind::Different];

impl View<'_> {
    /// The choices of some books that nobody took back, book by book in the one order that holds on every device.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn settled<'b>(&self, books: impl IntoIterator<Item = &'b Book>) -> Result<Vec<Stated<Body>>, ReadError> {
        let listed = |kinds: &[Kind]| kinds.iter().map(|kind| kind.number().to_string()).collect::<Vec<_>>().join(", ");
        // Values are a choice where they stand in the place of several that differed.
        let values: Vec<Kind> = FACETS.into_iter().chain([Kind::Correction]).collect();
        let clause = format!(
            "WHERE e.log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2) AND (e.kind IN ({})
             OR e.kind IN ({}) AND EXISTS (SELECT 1 FROM naming n WHERE n.entry = e.id))",
            listed(&CHOICES),
            listed(&values)
        );
        let mut all = Vec::new();
        for book in books {
            let Object { noun, id } = book.object();
            for one in self.bodies_where(&clause, params![noun.number(), blob(&id.0)])? {
                let overruled = || -> Result<bool, ReadError> {
                    let named = one.named && one.value.kind() == Kind::Correction;
                    Ok(named && self.acting_on(one.entry)?.iter().any(|acting| acting.role == Role::Overrules))
                };
                if one.is_live()
                    && !overruled()?
                    && (CHOICES.contains(&one.value.kind()) || self.ends_a_difference(&one)?)
                {
                    all.push(one);
                }
            }
        }
        Ok(all)
    }

    /// Whether a value stands in the place of values that were not one. So does a word that what was removed is gone once
    /// more, or is there after all; bringing back what nobody worked on is listed with it.
    fn ends_a_difference(&self, one: &Stated<Body>) -> Result<bool, ReadError> {
        let mut before = Vec::new();
        for named in one.names.iter().filter(|it| matches!(it.role, Role::Replaces | Role::Overrules)) {
            before.extend(self.said(named.entry)?);
        }
        Ok(match (presence(&one.value), &before[..]) {
            (Some(_), [_, ..]) if before.iter().all(|it| presence(&it.value) == Some(false)) => true,
            _ => before.iter().enumerate().any(|(at, it)| before.iter().skip(at + 1).any(|other| differ(it, other))),
        })
    }
}

/// Whether what says that a thing is there, or gone, says that it is there.
fn presence(body: &Body) -> Option<bool> {
    match body {
        Body::BoardPresent(it) => Some(it.present),
        Body::CircuitPresent(it) => Some(it.present),
        _ => None,
    }
}

/// Whether two values of one thing are not one, whichever of its ids they are of.
fn differ(one: &Stated<Body>, other: &Stated<Body>) -> bool {
    match (&one.value, &other.value) {
        (Body::Correction(this), Body::Correction(that)) => {
            // The later one took the earlier's place already.
            let overrules = |one: &Stated<Body>, other: &Stated<Body>| {
                one.names.iter().any(|it| it.role == Role::Overrules && it.entry == other.entry)
            };
            let apart = !overrules(one, other) && !overrules(other, one);
            apart && this.readings.iter().any(|id| that.readings.contains(id)) && contradict(this, that)
        }
        (one, other) if presence(one).is_some() => presence(one) != presence(other),
        (one, other) => {
            let of_one_thing = |body: &Body| body.clone().moved_to(ObjectId(Uuid::nil()));
            of_one_thing(one) != of_one_thing(other)
        }
    }
}

/// Whether two corrections say otherwise of one circumstance.
fn contradict(one: &Correction, other: &Correction) -> bool {
    fn otherwise<T: PartialEq>(one: Option<&T>, other: Option<&T>) -> bool {
        matches!((one, other), (Some(one), Some(other)) if one != other)
    }
    otherwise(one.tester.as_ref(), other.tester.as_ref())
        || otherwise(one.test_voltage_v.as_ref(), other.test_voltage_v.as_ref())
        || otherwise(one.at.as_ref(), other.at.as_ref())
        || otherwise(one.conditions.as_ref(), other.conditions.as_ref())
}
