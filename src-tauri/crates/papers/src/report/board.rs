//! Boards and circuits: how the readings are grouped on paper.

use provenohm_assess::ids::{BoardId, CircuitId};
use serde::{Deserialize, Serialize};

use super::{Line, Past, Reading};

/// One distribution board.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Board {
    /// Its id in the record.
    pub id: BoardId,
    /// Its name ("DB-2").
    pub name: String,
    /// Where it is, if recorded.
    pub place: Option<String>,
    /// Circuits in the order of the board. A group measured together is a circuit of its own, named by its members.
    pub circuits: Vec<Circuit>,
}

impl Board {
    /// Lines of the schedule this board takes: current ones, and readings withdrawn, replaced or not chosen.
    #[must_use]
    pub fn lines(&self) -> usize {
        self.circuits.iter().map(Circuit::lines_and_past).sum()
    }
}

/// One circuit, with all that was measured on it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Circuit {
    /// Its id in the record; of a group, the ids of all its members.
    pub ids: Vec<CircuitId>,
    /// Reference on the board ("7"; "3, 4, 5" for a group).
    pub reference: String,
    /// Description ("Sockets, east wall"); may be empty.
    pub description: String,
    /// Nominal voltage in words ("230 V a.c.").
    pub nominal: String,
    /// Protective measure in words ("SELV").
    pub measure: String,
    /// Nominal voltage of its supply in words, where that decides its limit (FELV).
    pub supply: Option<String>,
    /// Conductors in words ("L, N, PE").
    pub conductors: String,
    /// Conditions of the circuit in words: loads, surge protectors, N isolated or not, reduced voltage and why.
    pub conditions: Vec<String>,
    /// Notes of the recorders, each may be long.
    pub notes: Vec<String>,
    /// Current readings, pairs not tested and pairs missing, in the order of the circuit's pairs.
    pub lines: Vec<Line>,
    /// Readings withdrawn, replaced or not chosen; they stay on paper, in a section of their own.
    pub past: Vec<Past>,
}

impl Circuit {
    /// Lines this circuit takes, current and past.
    #[must_use]
    pub fn lines_and_past(&self) -> usize {
        self.lines.len() + self.past.len()
    }

    /// Every reading, current ones first.
    pub fn readings(&self) -> impl Iterator<Item = &Reading> {
        self.lines.iter().filter_map(Line::reading).chain(self.past.iter().map(|past| &past.reading))
    }
}
