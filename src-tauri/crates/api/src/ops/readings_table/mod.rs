//! Readings from a pasted or imported table: seen first, taken whole or not at all, each an entry of its own by the same
//! way as one from the pad. A reading that stands is never overwritten; a line that says what stands already is the same.

mod copied;
mod places;
mod who;

pub(crate) use copied::copied;

use crate::failure::Failure;
use crate::judged::Judged;
use crate::ops::run::{Ready, Seat, Told, conditions_of};
use crate::ops::undo::token;
use crate::read::{ReadingLine, ReadingLines, read_readings};
use crate::state::State;
use crate::tell;
use crate::views::*;
use places::{Found, Places};
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{JobId, PersonId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Shown, Unit};
use provenohm_assess::reading::{Conditions, Reading};
use std::collections::HashMap;
use std::sync::Arc;
use who::{People, Testers};

pub(crate) fn preview_readings(state: &mut State, asked: ReadingTable) -> Result<ReadingsPreview, Failure> {
    Ok(Seen::of(state, &asked)?.preview(state))
}

pub(crate) fn import_readings(state: &mut State, asked: ReadingTable) -> Result<Done, Failure> {
    let seen = Seen::of(state, &asked)?;
    if !seen.complaints.is_empty() {
        let complaint = |it: LineComplaint| Complaint { field: format!("line.{}", it.line), words: it.words };
        return Err(Failure::form(seen.complaints.into_iter().map(complaint).collect()));
    }
    let Seen { job, judged, taken, .. } = seen;
    let mut ready = Vec::new();
    for one in taken.into_iter().filter(|one| !one.same) {
        let Taken { shown, tester, person, at, conditions, volts, .. } = one;
        let told = Told { shown, volts, tester, person, at, conditions };
        ready.push(Ready::of(state, &judged, (one.stage, &one.pair), told, Vec::new())?);
    }
    if ready.is_empty() {
        return Ok(Done { words: state.words.text("answer-readings-none-new"), undo: None });
    }
    let (person, count) = (state.person(job)?, ready.len());
    let reason = state.words.text("answer-tested-after-all");
    let receipt =
        state.write(person, |writer| ready.into_iter().try_for_each(|one| one.append(writer, job, &reason)))?;
    let words = state.words.text_with("answer-readings-taken", &[("count", count.into())]);
    Ok(Done { words, undo: token(&receipt) })
}

/// A line with everything it means on this board.
struct Taken {
    line: u32,
    place: String,
    stage: Stage,
    pair: Pair,
    shown: Shown,
    volts: provenohm_assess::quantity::Volts,
    tester: Option<TesterId>,
    person: PersonId,
    at: Moment,
    conditions: Conditions,
    /// It stands there already, as the line says.
    same: bool,
}

/// A table as seen on a board.
struct Seen {
    job: JobId,
    judged: Arc<Judged>,
    count: usize,
    taken: Vec<Taken>,
    complaints: Vec<LineComplaint>,
    testers: Testers,
    people: People,
}

impl Seen {
    fn of(state: &mut State, asked: &ReadingTable) -> Result<Self, Failure> {
        let job = state.job_of_board(asked.board)?;
        let judged = state.judged(job)?;
        let board = judged.board(asked.board)?;
        let me = state.person(job)?;
        let people = People::of(&judged, state.seat.as_ref(), me);
        let testers = Testers::of(state)?;
        let now = state.host.now();
        let places = Places::of(&state.words, &judged, board);
        let mut read = read_readings(&state.words, &asked.text, asked.format, now);
        let mut taken: Vec<Taken> = Vec::new();
        // The first line that reads each pair anew.
        let mut first: HashMap<(Stage, Pair), u32> = HashMap::new();
        for line in std::mem::take(&mut read.lines) {
            let on = On { judged: &judged, places: &places, testers: &testers, people: &people, now };
            let one = on.taken(&state.words, &line).and_then(|one| {
                if one.same {
                    return Ok(one);
                }
                match first.insert((one.stage, one.pair.clone()), one.line) {
                    None => Ok(one),
                    Some(earlier) => Err(state.words.text_with("complaint-pair-twice", &[("line", earlier.into())])),
                }
            });
            match one {
                Ok(one) => taken.push(one),
                Err(words) => read.complain(line.line, words),
            }
        }
        let ReadingLines { complaints, count, .. } = read;
        Ok(Self { job, judged, count, taken, complaints, testers, people })
    }

    fn preview(self, state: &State) -> ReadingsPreview {
        let words = &state.words;
        let count = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        let same = self.taken.iter().filter(|one| one.same).count();
        let new = self.taken.len() - same;
        let not_taken = self.count - self.taken.len();
        let sum = [("lines", self.count.into()), ("new", new.into()), ("same", same.into()), ("not", not_taken.into())];
        let row = |one: &Taken| ReadingPreviewRow {
            line: one.line,
            place: one.place.clone(),
            shown: words.reading(&one.shown),
            volts: words.volts(one.volts),
            tester: self.testers.named(words, one.tester),
            time: words.date_time(one.at),
            person: self.people.named(one.person),
            what: words.text(if one.same { "answer-reading-same" } else { "answer-reading-new" }),
        };
        ReadingsPreview {
            rows: self.taken.iter().map(row).collect(),
            sum: words.text_with("answer-readings-sum", &sum),
            complaints: self.complaints,
            lines: count(self.count),
            new: count(new),
            same: count(same),
            not_taken: count(not_taken),
        }
    }
}

/// What lines are held against.
struct On<'a> {
    judged: &'a Judged,
    places: &'a Places<'a>,
    testers: &'a Testers,
    people: &'a People,
    now: Moment,
}

impl On<'_> {
    /// The line on this board, or why it cannot be taken. Whether it is here already comes first: what stands is no
    /// longer asked about.
    fn taken(&self, words: &provenohm_words::Words, line: &ReadingLine) -> Result<Taken, String> {
        let found = self.places.find(words, line)?;
        let testers = self.testers.called(&line.tester, &line.serial);
        let one = |found: &Found<'_>, tester, person, conditions, same| Taken {
            line: line.line,
            place: tell::place(words, self.judged, &self.places.board.name, &found.circuit.circuit, &found.pair),
            stage: line.stage,
            pair: found.pair.clone(),
            shown: line.shown,
            volts: line.volts,
            tester,
            person,
            at: line.at,
            conditions,
            same,
        };
        for place in &found {
            let standing = || self.judged.standing(line.stage, &place.pair);
            if let Some(it) = standing().find(|it| self.says_the_same(line, it, &testers)) {
                return Ok(one(place, it.tester, it.person, it.conditions, true));
            }
        }
        let [place] = &found[..] else {
            return Err(self.places.alike(words, line));
        };
        if self.judged.standing(line.stage, &place.pair).next().is_some() {
            return Err(words.text("complaint-reading-stands"));
        }
        if line.shown.unit == Unit::Ohm {
            return Err(words.text("complaint-unit-needed"));
        }
        let tester = Testers::one(words, &testers, line)?;
        let person = self.people.one(words, &line.read_by)?;
        if line.at > self.now {
            return Err(words.text("complaint-in-the-future"));
        }
        let own = conditions_of(self.judged, place.circuit, &place.slot, &Seat::default());
        let conditions = Conditions {
            loads: line.loads.unwrap_or(own.loads),
            n_isolated: line.n_isolated,
            reduced: line.reduced.unwrap_or(own.reduced),
        };
        Ok(one(place, tester, person, conditions, false))
    }

    /// Whether a reading that stands is what a line says, in all that it says.
    fn says_the_same(&self, line: &ReadingLine, it: &Reading, testers: &[Option<TesterId>]) -> bool {
        let Conditions { loads, n_isolated, reduced } = it.conditions;
        it.shown == line.shown
            && it.at == line.at
            && it.test_voltage_v == line.volts
            && testers.contains(&it.tester)
            && (line.read_by.is_empty() || self.judged.person(it.person).trim() == line.read_by)
            && line.loads.is_none_or(|said| said == loads)
            && line.n_isolated.is_none_or(|said| Some(said) == n_isolated)
            && line.reduced.is_none_or(|said| said == reduced)
    }
}
