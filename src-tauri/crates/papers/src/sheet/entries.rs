//! The lines of a schedule one after the other, as every table lists them.

use std::collections::{BTreeMap, BTreeSet};
use std::iter;

use provenohm_assess::ids::ReadingId;
use provenohm_assess::moment::Moment;

use crate::report::{Accepted, Board, Circuit, Fate, Limit, Line, Part, Past, Reading, Sign, Tester};

/// One row of a table: a current line, or a reading withdrawn, replaced or not chosen.
pub(super) struct Entry<'a> {
    /// Its number in the schedule.
    pub(super) number: u32,
    /// The part it stands in.
    pub(super) part: &'a Part,
    /// Its board.
    pub(super) board: &'a Board,
    /// Its circuit.
    pub(super) circuit: &'a Circuit,
    /// Number of the reading that took its place.
    pub(super) replaced_by: Option<u32>,
    /// The readings it took the place of.
    replaces: Vec<&'a Past>,
    line: What<'a>,
}

#[derive(Clone, Copy)]
enum What<'a> {
    Current(&'a Line),
    Past(&'a Past),
}

/// What a row is.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Status {
    Current,
    NotTested,
    Missing,
    Withdrawn,
    Replaced,
    NotChosen,
}

impl<'a> Entry<'a> {
    pub(super) fn status(&self) -> Status {
        match self.line {
            What::Current(Line::Reading(_)) => Status::Current,
            What::Current(Line::NotTested(_)) => Status::NotTested,
            What::Current(Line::Missing(_)) => Status::Missing,
            What::Past(past) => match past.fate {
                Fate::Withdrawn => Status::Withdrawn,
                Fate::NotChosen => Status::NotChosen,
                Fate::Replaced { .. } => Status::Replaced,
            },
        }
    }

    pub(super) fn sign(&self) -> Sign {
        match self.line {
            What::Current(line) => line.sign(),
            What::Past(past) => past.reading.sign,
        }
    }

    pub(super) fn pair(&self) -> &'a str {
        match self.line {
            What::Current(line) => line.pair(),
            What::Past(past) => &past.reading.pair,
        }
    }

    pub(super) fn reading(&self) -> Option<&'a Reading> {
        match self.line {
            What::Current(line) => line.reading(),
            What::Past(past) => Some(&past.reading),
        }
    }

    /// What is said of the reading; nothing where there is none.
    pub(super) fn said(&self, what: impl FnOnce(&Reading) -> String) -> String {
        self.reading().map(what).unwrap_or_default()
    }

    pub(super) fn limit(&self) -> Option<&'a Limit> {
        self.reading()?.limit.as_ref()
    }

    pub(super) fn past(&self) -> Option<&'a Past> {
        match self.line {
            What::Current(_) => None,
            What::Past(past) => Some(past),
        }
    }

    /// That it asks for a look and was accepted.
    pub(super) fn accepted(&self) -> Option<&'a Accepted> {
        match self.line {
            What::Current(line) => line.accepted(),
            What::Past(_) => None,
        }
    }

    pub(super) fn tester(&self) -> Option<&'a Tester> {
        let id = self.reading()?.tester?;
        self.part.schedule.testers.iter().find(|tester| tester.id == id)
    }

    /// Why a pair was not tested, why a reading was withdrawn, replaced or not chosen, or why it took the place of another.
    pub(super) fn reason(&self) -> String {
        match self.line {
            What::Current(Line::NotTested(said)) => said.reason.clone(),
            What::Current(_) => {
                let reasons: BTreeSet<&str> = self.replaces.iter().map(|past| past.reason.as_str()).collect();
                reasons.into_iter().collect::<Vec<_>>().join("; ")
            }
            What::Past(past) => past.reason.clone(),
        }
    }

    /// Who took the reading, or said that the pair was not tested.
    pub(super) fn person(&self) -> &'a str {
        match self.line {
            What::Current(Line::Reading(reading)) => &reading.person,
            What::Current(Line::NotTested(said)) => &said.person,
            What::Current(Line::Missing(_)) => "",
            What::Past(past) => &past.reading.person,
        }
    }

    /// When the reading was taken, or was said not to be.
    pub(super) fn at(&self) -> Option<Moment> {
        match self.line {
            What::Current(Line::Reading(reading)) => Some(reading.taken_at),
            What::Current(Line::NotTested(said)) => Some(said.said_at),
            What::Current(Line::Missing(_)) => None,
            What::Past(past) => Some(past.reading.taken_at),
        }
    }
}

/// Every line of the parts in the order of the paper, then the readings withdrawn, replaced or not chosen.
pub(super) fn entries(parts: &[Part]) -> Vec<Entry<'_>> {
    let (mut current, mut past) = (Vec::new(), Vec::new());
    for part in parts {
        let rows = Rows { part, numbers: part.numbers(), replaced: part.replaced() };
        let lines = circuits(part).flat_map(|at| iter::repeat(at).zip(at.1.lines.iter().map(What::Current)));
        current.extend(lines.zip(part.first_line..).map(|((at, line), number)| rows.entry(at, number, line)));
        let gone = circuits(part).flat_map(|at| iter::repeat(at).zip(at.1.past.iter().map(What::Past)));
        past.extend(gone.zip(part.first_past..).map(|((at, line), number)| rows.entry(at, number, line)));
    }
    current.append(&mut past);
    current
}

fn circuits(part: &Part) -> impl Iterator<Item = (&Board, &Circuit)> {
    part.schedule.boards.iter().flat_map(|board| board.circuits.iter().map(move |circuit| (board, circuit)))
}

/// What the rows of a part are made from.
struct Rows<'a> {
    part: &'a Part,
    numbers: BTreeMap<ReadingId, u32>,
    replaced: BTreeMap<ReadingId, Vec<(u32, &'a Past)>>,
}

impl<'a> Rows<'a> {
    fn entry(&self, (board, circuit): (&'a Board, &'a Circuit), number: u32, line: What<'a>) -> Entry<'a> {
        let replaced_by = match line {
            What::Past(Past { fate: Fate::Replaced { by }, .. }) => self.numbers.get(by).copied(),
            _ => None,
        };
        let replaces = match line {
            What::Current(Line::Reading(reading)) => self.replaced.get(&reading.id),
            _ => None,
        };
        let replaces = replaces.into_iter().flatten().map(|(_, past)| *past).collect();
        Entry { number, part: self.part, board, circuit, replaced_by, replaces, line }
    }
}
