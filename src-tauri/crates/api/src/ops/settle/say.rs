//! A question and its choices in words.

use super::waiting::{Choosable, Waiting, What};
use crate::failure::Failure;
use crate::judged::{Judged, JudgedReading};
use crate::ops::jobs::rules_said;
use crate::ops::origin::tester;
use crate::state::State;
use crate::tell;
use crate::views::{SettleChoice, SettleQuestion};
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{BoardId, CircuitId, DeviceId, PersonId, ReadingId, ReferenceId, TesterId};
use provenohm_assess::limits::LimitSet;
use provenohm_assess::reading::Reading;
use provenohm_exchange::job_file::{Board, Circuit};
use provenohm_logbook::entry::body::{Correction, ReferenceCard};
use provenohm_logbook::entry::{Body, Kind, Noun, Object, Role};
use provenohm_logbook::view::{Question, Stated, View};
use provenohm_words::Words;
use std::collections::BTreeSet;

/// More entries than this are not told one by one.
const MOST_LINES: usize = 6;

/// What sentences are made from.
pub(super) struct Say<'a> {
    words: &'a Words,
    judged: &'a Judged,
    view: View<'a>,
    here: DeviceId,
}

impl<'a> Say<'a> {
    pub(super) fn new(state: &'a State, judged: &'a Judged) -> Self {
        Self { words: &state.words, judged, view: state.record.view(), here: state.record.device().id() }
    }

    /// A question as it is shown.
    pub(super) fn question(&self, one: &Waiting) -> Result<SettleQuestion, Failure> {
        let count = [("count", one.choices.len().into())];
        let says = match one.question {
            Question::Slot { .. } if one.is_of_readings() => "answer-settle-reading",
            Question::Removed { .. } => "answer-settle-removed-says",
            Question::Alike { .. } => "answer-settle-alike-says",
            _ => "answer-settle-value",
        };
        let choice = |choice: &Choosable| self.choice(&one.question, choice);
        Ok(SettleQuestion {
            id: one.id.clone(),
            asks: self.words.text_with(asks(one), &count),
            place: self.place(&one.question)?,
            says: self.words.text_with(says, &count),
            choices: one.choices.iter().map(choice).collect::<Result<_, _>>()?,
            both: one.is_of_readings().then(|| self.words.text("answer-settle-both")),
        })
    }

    /// What now stands.
    pub(super) fn settled(&self, question: &Question, one: &Choosable) -> Result<String, Failure> {
        let choice = match one.what {
            What::Value => self.choice(question, one)?.words,
            _ => format!("{}: {}", self.place(question)?, self.words.text(answer(one.what))),
        };
        Ok(self.words.text_with("answer-settled", &[("choice", choice.into())]))
    }

    /// What somebody chose before.
    pub(super) fn made(&self, said: &Stated<Body>) -> Result<String, Failure> {
        let (of, chosen) = match &said.value {
            Body::SameCircuit(it) => {
                // One of the two stands for both.
                let place = [it.one, it.other].map(|id| self.circuit_place(id)).into_iter().find(|it| !it.is_empty());
                (place.unwrap_or_default(), self.words.text(answer(What::Same)))
            }
            Body::SameTester(it) => (self.tester(Some(it.one))?, self.words.text(answer(What::Same))),
            Body::SamePerson(it) => (self.person(Some(it.one)), self.words.text(answer(What::Same))),
            Body::Different(it) => (self.object(it.one)?, self.words.text(answer(What::Different))),
            Body::Settlement(_) => self.kept(said)?,
            Body::Correction(it) => {
                let of = it.readings.first().map(|id| self.reading(*id)).unwrap_or_default();
                (of, self.value(&said.value)?)
            }
            value => (value.subject().map(|of| self.object(of)).transpose()?.unwrap_or_default(), self.value(value)?),
        };
        let of = if of.is_empty() { of } else { format!("{of}: ") };
        Ok(format!("{of}{chosen}"))
    }

    /// What a settlement let stand: where, and which values.
    fn kept(&self, said: &Stated<Body>) -> Result<(String, String), Failure> {
        let (mut place, mut values) = (String::new(), Vec::new());
        for kept in said.names.iter().filter(|one| one.role == Role::Keeps) {
            let Some(kept) = self.view.said(kept.entry)? else { continue };
            place = match &kept.value {
                Body::Reading(it) => {
                    let now = self.judged.reading(it.reading.id).map_or(&it.reading, |one| &one.reading);
                    self.slot(&now.pair, now.stage)
                }
                Body::NotTested(it) => self.slot(&it.pair, it.stage),
                other => other.subject().map(|of| self.object(of)).transpose()?.unwrap_or_default(),
            };
            let value = self.value(&kept.value)?;
            if !values.contains(&value) {
                values.push(value);
            }
        }
        Ok((place, list(values)))
    }

    fn choice(&self, question: &Question, one: &Choosable) -> Result<SettleChoice, Failure> {
        let (words, lines) = match (one.what, &one.said[..]) {
            (What::Value, [said, ..]) => (self.value(&said.value)?, self.lines(said)?),
            (what, said) => {
                let with_value = what != What::Remove;
                let line = |said: &Stated<Body>| {
                    let value = if with_value { self.value(&said.value)? } else { String::new() };
                    let value = if value.is_empty() { value } else { format!("{value}: ") };
                    Ok(format!("{value}{}", self.lines(said)?.join(", ")))
                };
                let lines = said.iter().take(MOST_LINES).map(line).collect::<Result<Vec<_>, Failure>>()?;
                (self.words.text(answer(what)), lines)
            }
        };
        let lines = match (one.what, question) {
            (What::Same, Question::Alike { one, other }) => {
                let differ = self.differences([*one, *other]);
                lines.into_iter().chain(differ).chain(self.counts([*one, *other])?).collect()
            }
            _ => lines,
        };
        Ok(SettleChoice { id: one.id.clone(), words, lines })
    }

    /// What two circuits that look like one say otherwise of themselves: it is settled once they are one.
    fn differences(&self, both: [Object; 2]) -> Vec<String> {
        if both.iter().any(|of| of.noun != Noun::Circuit) {
            return Vec::new();
        }
        let [Some(one), Some(other)] = both.map(|of| self.circuit(CircuitId(of.id.0))) else { return Vec::new() };
        let told = [one, other].map(|(board, circuit)| {
            let place = [board.name.as_str(), board.place.as_str()];
            let place = place.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ");
            // Two boards of one name are two all the same.
            let id: String = if one.0.id == other.0.id { String::new() } else { board.id.to_string() };
            [(place, id), (tell::electrical(self.words, &circuit.electrical), String::new())]
        });
        let [of_one, of_other] = told;
        let keys = ["answer-settle-differ-board", "answer-settle-differ-electrical"];
        let lines = keys.into_iter().zip(of_one.into_iter().zip(of_other)).filter(|(_, (one, other))| one != other);
        lines
            .map(|(key, (one, other))| self.words.text_with(key, &[("one", one.0.into()), ("other", other.0.into())]))
            .collect()
    }

    /// What counts for the one that two things would be, under whatever id it was read.
    fn counts(&self, both: [Object; 2]) -> Result<Vec<String>, Failure> {
        let mut testers = BTreeSet::new();
        for id in both.iter().filter(|of| of.noun == Noun::Tester).map(|of| TesterId(of.id.0)) {
            testers.extend(std::iter::once(id).chain(self.view.tester(id)?.same));
        }
        let is_of = |of: &Object, one: &JudgedReading| match of.noun {
            Noun::Circuit => one.reading.pair.circuits().contains(&CircuitId(of.id.0)),
            Noun::Person => one.reading.person == PersonId(of.id.0),
            _ => one.reading.tester.is_some_and(|tester| testers.contains(&tester)),
        };
        let standing = self.judged.readings.iter().filter(|one| one.taken.stands());
        let all = standing.filter(|one| both.iter().any(|of| is_of(of, one))).count();
        Ok(vec![self.words.text_with("answer-settle-counts", &[("readings", all.into())])])
    }

    /// Who, on which device, when; of a reading with which tester.
    pub(super) fn lines(&self, said: &Stated<Body>) -> Result<Vec<String>, Failure> {
        let person = self.person(said.by);
        let by = match said.device {
            Some(device) if device == self.here => {
                self.words.text_with("answer-settle-by-here", &[("person", person.into())])
            }
            Some(device) => {
                let short: String = device.to_string().chars().take(8).collect();
                let args = [("person", person.into()), ("device", short.into())];
                self.words.text_with("answer-settle-by", &args)
            }
            None => person,
        };
        let Body::Reading(taken) = &said.value else {
            return Ok(vec![by, self.words.date_time(said.recorded)]);
        };
        let now = self.judged.reading(taken.reading.id).map_or(&taken.reading, |one| &one.reading);
        let with = [self.tester(now.tester)?, self.words.volts(now.test_voltage_v)];
        Ok(vec![by, self.words.date_time(now.at), with.join(", ")])
    }

    /// A name, or that there is none here: an erased one, or one whose card has not come yet.
    fn person(&self, id: Option<PersonId>) -> String {
        match id.map_or("", |id| self.judged.person(id)) {
            "" => self.words.text("answer-settle-unnamed"),
            name => name.to_owned(),
        }
    }

    /// A value in words.
    fn value(&self, body: &Body) -> Result<String, Failure> {
        let words = self.words;
        let joined = |parts: &[&str]| {
            let said: Vec<&str> = parts.iter().copied().filter(|part| !part.is_empty()).collect();
            said.join(" · ")
        };
        Ok(match body {
            Body::JobNames(it) => joined(&[&it.name, &it.place]),
            Body::JobRules(it) => {
                let set = LimitSet::load(&it.bytes.0);
                rules_said(words, set.as_ref().map_or(&it.set.id.0, |set| &set.set.title), it.policies)
            }
            Body::JobPeople(it) => list(it.people.iter().map(|one| self.person(Some(one.person)))),
            Body::BoardOrder(it) => list(it.boards.iter().filter_map(|id| Some(self.board(*id)?.name.clone()))),
            Body::BoardNames(it) => joined(&[&it.name, &it.place]),
            Body::BoardPeople(it) if it.people.is_empty() => words.text("answer-settle-nobody"),
            Body::BoardPeople(it) => list(it.people.iter().map(|id| self.person(Some(*id)))),
            Body::BoardPresent(it) => self.there(it.present),
            Body::CircuitOrder(it) => {
                list(it.circuits.iter().filter_map(|id| Some(self.circuit(*id)?.1.reference.clone())))
            }
            Body::CircuitLabel(it) => tell::named(words, &it.reference, &it.description),
            Body::CircuitElectrical(it) => tell::electrical(words, &it.electrical),
            Body::CircuitPlace(it) => self.board(it.board).map(|board| board.name.clone()).unwrap_or_default(),
            Body::CircuitPresent(it) => self.there(it.present),
            Body::Reading(it) => words.reading(&it.reading.shown),
            Body::Correction(it) => self.corrected(it)?,
            Body::TesterIdentity(it) => joined(&[&it.name, &it.model, &it.serial]),
            Body::TesterCard(it) => tell::card_lines(words, &it.card).join("; "),
            Body::NotTested(it) => words.not_tested(it.reason, it.words.as_deref()),
            Body::SameCircuit(_) => words.text("answer-settle-same"),
            Body::Person(it) => joined(&[&it.name, &it.role]),
            Body::ReferenceCard(ReferenceCard { reference: it }) => {
                let certificate = it.certificate.as_deref().unwrap_or_default();
                let until = it.valid_until.map(|day| words.date(day)).unwrap_or_default();
                joined(&[&it.name, &it.serial, certificate, &until])
            }
            Body::Note(it) => it.text.clone(),
            // What has no value of its own to choose is told by its kind.
            other => tell::entry_kind(words, other.kind()),
        })
    }

    fn there(&self, present: bool) -> String {
        self.words.text(if present { "answer-settle-there" } else { "answer-settle-removed" })
    }

    fn corrected(&self, it: &Correction) -> Result<String, Failure> {
        let phrase = |label: &str, value: String| {
            let args = [("what", self.words.text(label).into()), ("value", value.into())];
            self.words.text_with("answer-circumstance", &args)
        };
        let by = it.tester.map(|id| self.tester(Some(id))).transpose()?;
        let by = by.map(|tester| phrase("answer-origin-tester", tester));
        let volts = it.test_voltage_v.map(|volts| phrase("answer-origin-voltage", self.words.volts(volts)));
        let at = it.at.map(|at| phrase("answer-origin-when", self.words.date_time(at)));
        let under = it.conditions.as_ref().map(|one| self.words.conditions(one).join(", "));
        let under = under.map(|under| phrase("answer-origin-conditions", under));
        Ok(list([by, volts, at, under].into_iter().flatten()))
    }

    /// A tester, used in this job or not.
    fn tester(&self, id: Option<TesterId>) -> Result<String, Failure> {
        let Some(unlisted) = id.filter(|id| self.judged.tester(*id).is_none()) else {
            return Ok(tester(self.words, self.judged, id));
        };
        let on_record = self.view.tester(unlisted)?;
        Ok(match on_record.identity.first() {
            Some(it) => self.words.tester_named(&it.name, &it.serial),
            None => self.words.text("answer-settle-unnamed-tester"),
        })
    }

    /// Whose question it is.
    fn place(&self, question: &Question) -> Result<String, Failure> {
        Ok(match question {
            Question::Slot { pair, stage } => self.slot(pair, *stage),
            Question::Circumstances { reading } => self.reading(*reading),
            Question::Facet { of, .. } | Question::Removed { of } | Question::Alike { one: of, .. } => {
                self.object(*of)?
            }
        })
    }

    fn object(&self, of: Object) -> Result<String, Failure> {
        Ok(match of.noun {
            Noun::Board => self.board(BoardId(of.id.0)).map(|board| board.name.clone()).unwrap_or_default(),
            Noun::Circuit => self.circuit_place(CircuitId(of.id.0)),
            Noun::Tester => self.tester(Some(TesterId(of.id.0)))?,
            Noun::Person => self.person(Some(PersonId(of.id.0))),
            Noun::Reference => {
                let known = self.view.known_reference(ReferenceId(of.id.0))?;
                known.card.first().map(|card| card.reference.name.clone()).unwrap_or_default()
            }
            _ => self.judged.file.job.name.clone(),
        })
    }

    fn circuit_place(&self, id: CircuitId) -> String {
        let Some((board, circuit)) = self.circuit(id) else { return String::new() };
        format!("{} · {}", board.name, tell::circuit_name(self.words, circuit))
    }

    fn slot(&self, pair: &Pair, stage: Stage) -> String {
        let found = pair.circuits().first().and_then(|id| self.circuit(*id));
        let Some((board, circuit)) = found else { return String::new() };
        let place = tell::place(self.words, self.judged, &board.name, circuit, pair);
        match stage {
            Stage::Before => place,
            Stage::After => format!("{place} · {}", self.words.stage(stage)),
        }
    }

    fn reading(&self, id: ReadingId) -> String {
        let Some(one) = self.judged.reading(id) else { return String::new() };
        let Reading { pair, stage, shown, .. } = &one.reading;
        format!("{} · {}", self.slot(pair, *stage), self.words.reading(shown))
    }

    fn board(&self, id: BoardId) -> Option<&Board> {
        self.judged.file.boards.iter().find(|board| board.id == id)
    }

    fn circuit(&self, id: CircuitId) -> Option<(&Board, &Circuit)> {
        let on = |board: &'a Board| board.circuits.iter().chain(&board.removed).find(|one| one.id == id);
        self.judged.file.boards.iter().find_map(|board| Some((board, on(board)?)))
    }
}

fn list(all: impl IntoIterator<Item = String>) -> String {
    all.into_iter().collect::<Vec<_>>().join(", ")
}

/// What is answered: the key of the words.
const fn answer(what: What) -> &'static str {
    match what {
        What::Value | What::Keep => "answer-settle-keep",
        What::Remove => "answer-settle-remove",
        What::Same => "answer-settle-same",
        What::Different => "answer-settle-different",
    }
}

/// What is asked: the key of the sentence.
fn asks(one: &Waiting) -> &'static str {
    match &one.question {
        Question::Facet { kind, .. } => match kind {
            Kind::JobNames => "answer-settle-job-names",
            Kind::JobRules => "answer-settle-job-rules",
            Kind::JobPeople => "answer-settle-job-people",
            Kind::BoardOrder => "answer-settle-board-order",
            Kind::BoardNames => "answer-settle-board-names",
            Kind::BoardPeople => "answer-settle-board-people",
            Kind::CircuitOrder => "answer-settle-circuit-order",
            Kind::CircuitLabel => "answer-settle-circuit-label",
            Kind::CircuitElectrical => "answer-settle-circuit-electrical",
            Kind::CircuitPlace => "answer-settle-circuit-place",
            Kind::BoardPresent | Kind::CircuitPresent => "answer-settle-present",
            Kind::TesterIdentity => "answer-settle-tester-identity",
            Kind::ReferenceCard => "answer-settle-reference-card",
            Kind::Person => "answer-settle-person",
            _ => "answer-settle-tester-card",
        },
        Question::Slot { .. } if one.is_of_readings() => "answer-settle-readings",
        Question::Slot { .. } if one.has_reading() => "answer-settle-tested-or-not",
        Question::Slot { .. } => "answer-settle-not-tested",
        Question::Circumstances { .. } => "answer-settle-corrections",
        Question::Removed { .. } => "answer-settle-removed-or-not",
        Question::Alike { one, .. } => match one.noun {
            Noun::Tester => "answer-settle-testers-alike",
            Noun::Person => "answer-settle-people-alike",
            _ => "answer-settle-circuits-alike",
        },
    }
}
