//! What waits, with what can be chosen.

use crate::failure::Failure;
use crate::judged::Judged;
use provenohm_assess::ids::{JobId, TesterId};
use provenohm_logbook::entry::body::Correction;
use provenohm_logbook::entry::{Body, EntryRef};
use provenohm_logbook::view::{Circumstance, Question, ReadingOnRecord, Stated, ToSettle, View};
use std::collections::BTreeSet;

/// One thing that waits.
pub(super) struct Waiting {
    /// Names what is asked and everything that is chosen between.
    pub(super) id: String,
    pub(super) question: Question,
    pub(super) choices: Vec<Choosable>,
}

impl Waiting {
    /// Whether every choice is a reading: then they can stand side by side.
    pub(super) fn is_of_readings(&self) -> bool {
        matches!(self.question, Question::Slot { .. }) && self.choices.iter().all(Choosable::is_reading)
    }

    /// Whether a choice is a reading.
    pub(super) fn has_reading(&self) -> bool {
        self.choices.iter().any(Choosable::is_reading)
    }
}

/// What can be chosen.
pub(super) struct Choosable {
    pub(super) id: String,
    pub(super) what: What,
    /// The entries that say so, or that it rests on.
    pub(super) said: Vec<Stated<Body>>,
}

/// What a choice is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum What {
    /// A value stands.
    Value,
    /// What was removed and changed stays.
    Keep,
    /// It is removed all the same.
    Remove,
    /// Two are one.
    Same,
    /// Two are two.
    Different,
}

impl Choosable {
    fn of(what: What, id: &str, said: Vec<Stated<Body>>) -> Self {
        Self { id: id.to_owned(), what, said }
    }

    fn is_reading(&self) -> bool {
        self.said.iter().any(|one| matches!(one.value, Body::Reading(_)))
    }

    /// Whether it says the same as another choice, of another question.
    pub(super) fn says_what(&self, other: &Self) -> bool {
        let said = |one: &Stated<Body>| other.said.iter().any(|it| says_the_same(&it.value, &one.value));
        self.what == other.what && self.said.iter().any(said)
    }

    pub(super) fn entries(&self) -> impl Iterator<Item = EntryRef> {
        self.said.iter().map(|one| one.entry)
    }
}

/// The questions of a job and of the testers it knows, in the one order that holds on every device.
pub(super) fn questions(view: &View<'_>, judged: &Judged) -> Result<Vec<ToSettle>, Failure> {
    questions_of(view, judged.file.job.id, &judged.file.testers.iter().map(|one| one.id).collect())
}

/// The questions of a job and of some testers.
pub(super) fn questions_of(
    view: &View<'_>,
    job: JobId,
    testers: &BTreeSet<TesterId>,
) -> Result<Vec<ToSettle>, Failure> {
    let mut all = view.to_settle(job.into())?;
    all.extend(view.testers_to_settle(testers)?);
    Ok(all)
}

/// One question with what can be chosen.
pub(super) fn waiting(view: &View<'_>, asked: ToSettle) -> Result<Waiting, Failure> {
    let mut said = Vec::new();
    for entry in &asked.entries {
        said.extend(view.said(*entry)?);
    }
    let id = id_of(&asked);
    let choices = match asked.question {
        Question::Removed { .. } => {
            let (removals, changes): (Vec<_>, Vec<_>) = said.into_iter().partition(|one| is_presence(&one.value));
            vec![Choosable::of(What::Keep, "keep", changes), Choosable::of(What::Remove, "remove", removals)]
        }
        Question::Alike { .. } => {
            vec![Choosable::of(What::Same, "same", said), Choosable::of(What::Different, "different", Vec::new())]
        }
        _ => values(view, &asked.question, said)?,
    };
    Ok(Waiting { id, question: asked.question, choices })
}

/// The values side by side, each once.
fn values(view: &View<'_>, question: &Question, all: Vec<Stated<Body>>) -> Result<Vec<Choosable>, Failure> {
    let mut choices: Vec<Choosable> = Vec::new();
    for mut said in all {
        match (question, &mut said.value) {
            (Question::Circumstances { reading }, Body::Correction(correction)) => {
                for one in view.reading(*reading)? {
                    in_dispute(correction, said.entry, &one);
                }
            }
            // Under whatever id it was said: it is said of the one that stands.
            (Question::Facet { of, .. }, value) => *value = value.clone().moved_to(of.id),
            _ => {}
        }
        let same = |one: &&mut Choosable| one.said.iter().any(|it| says_the_same(&it.value, &said.value));
        match choices.iter_mut().find(same) {
            Some(known) => known.said.push(said),
            None => choices.push(Choosable::of(What::Value, &said.entry.to_string(), vec![said])),
        }
    }
    Ok(choices)
}

fn id_of(asked: &ToSettle) -> String {
    let of = match &asked.question {
        Question::Facet { kind, of } => format!("{}.{}", kind.number(), of.id.0),
        Question::Slot { .. } => "pair".to_owned(),
        Question::Circumstances { reading } => reading.to_string(),
        Question::Removed { of } => format!("removed.{}", of.id.0),
        Question::Alike { one, other } => format!("{}.{}", one.id.0, other.id.0),
    };
    let entries: Vec<String> = asked.entries.iter().map(ToString::to_string).collect();
    format!("{of}:{}", entries.join(","))
}

/// Whether it says that something is there or removed.
pub(super) const fn is_presence(body: &Body) -> bool {
    matches!(body, Body::BoardPresent(_) | Body::CircuitPresent(_))
}

/// Two entries that need no choice between them. Two readings are two, whatever they show.
fn says_the_same(one: &Body, other: &Body) -> bool {
    !matches!(one, Body::Reading(_)) && one.says_the_same(other)
}

/// Leaves of a correction what another one says otherwise of the same reading.
fn in_dispute(correction: &mut Correction, entry: EntryRef, one: &ReadingOnRecord) {
    fn open<T: PartialEq>(of: &Circumstance<T>, entry: EntryRef) -> bool {
        of.live().len() > 1 && of.claims.iter().any(|claim| claim.live && claim.entry == entry)
    }
    correction.readings = vec![one.taken.value.reading.id];
    correction.tester = correction.tester.filter(|_| open(&one.tester, entry));
    correction.test_voltage_v = correction.test_voltage_v.filter(|_| open(&one.test_voltage_v, entry));
    correction.at = correction.at.filter(|_| open(&one.at, entry));
    correction.conditions = correction.conditions.filter(|_| open(&one.conditions, entry));
}
