//! Reading and writing the file's text.

use super::JobFile;
use std::collections::{BTreeMap, BTreeSet};

/// What stands in `format`.
const FORMAT: &str = "provenohm-job";

/// The version written; no other is read.
pub const VERSION: u32 = 1;

/// More bytes than any job needs; beyond it nothing is read.
const MOST_BYTES: usize = 64 << 20;

/// Why text is no job file. Place and reason are for a person to find it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAJobFile {
    /// Larger than a job file can be.
    #[error("it is larger than {} MiB", MOST_BYTES >> 20)]
    TooLarge,
    /// Not the JSON of a job file.
    #[error("line {line}, column {column}: {reason}")]
    Malformed {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What is wrong there.
        reason: String,
    },
    /// JSON of something else.
    #[error("`format` is not `{FORMAT}`")]
    OtherFormat,
    /// Made by a newer version.
    #[error("version {0} is newer than version {VERSION}, which this program reads")]
    Newer(u32),
    /// Something is named that is not in the file, or is in it twice.
    #[error("{place}: {reason}")]
    Broken {
        /// Where.
        place: String,
        /// What is wrong there.
        reason: String,
    },
}

impl JobFile {
    /// Reads a job file and checks that what it names is in it.
    ///
    /// # Errors
    /// [`NotAJobFile`] with place and reason.
    pub fn read(text: &str) -> Result<Self, NotAJobFile> {
        if text.len() > MOST_BYTES {
            return Err(NotAJobFile::TooLarge);
        }
        /// The two fields that say whether the rest can be read.
        #[derive(serde::Deserialize)]
        struct Head {
            format: Option<String>,
            version: Option<u32>,
        }
        let head: Head = serde_json::from_str(text).map_err(|error| malformed(&error))?;
        if head.format.as_deref() != Some(FORMAT) {
            return Err(NotAJobFile::OtherFormat);
        }
        if let Some(newer) = head.version.filter(|version| *version > VERSION) {
            return Err(NotAJobFile::Newer(newer));
        }
        let file: Self = serde_json::from_str(text).map_err(|error| malformed(&error))?;
        file.check()?;
        Ok(file)
    }

    /// The file's text: JSON with the fields in their declared order.
    ///
    /// # Errors
    /// What JSON refuses; nothing in a job file is.
    pub fn write(&self) -> Result<String, serde_json::Error> {
        serde_json::to_string_pretty(self).map(|text| text + "\n")
    }

    /// A file of this version, still to be filled.
    #[must_use]
    pub fn format() -> (String, u32) {
        (FORMAT.to_owned(), VERSION)
    }

    fn check(&self) -> Result<(), NotAJobFile> {
        let people: BTreeSet<_> = self.people.iter().map(|person| person.id).collect();
        let testers = once("testers", self.testers.iter().map(|tester| tester.id))?;
        once("boards", self.boards.iter().map(|board| board.id))?;
        let circuits = self.boards.iter().flat_map(|board| board.circuits.iter().chain(&board.removed));
        let circuits = once("circuits", circuits.map(|circuit| circuit.id))?;
        let readings = once("readings", self.readings.iter().map(|taken| taken.reading.id))?;
        for (index, taken) in self.readings.iter().enumerate() {
            let place = || format!("readings[{index}]");
            let current = taken.current();
            let broken = |reason: &str| Err(NotAJobFile::Broken { place: place(), reason: reason.to_owned() });
            if !people.contains(&current.person) {
                return broken("its person is not among the people");
            }
            let every = taken.live.iter().map(|it| it.tester).chain([taken.reading.tester, current.tester]);
            if every.flatten().any(|tester| !testers.contains(&tester)) {
                return broken("its tester is not among the testers");
            }
            if lives(&current.pair).any(|circuit| !circuits.contains(&circuit)) {
                return broken("one of its circuits is not on a board");
            }
            if current.pair.a == current.pair.b || current.pair.a.0.is_empty() || current.pair.b.0.is_empty() {
                return broken("its two ends are not two ends");
            }
            if taken.replaced_by().is_some_and(|by| !readings.contains(&by)) {
                return broken("the reading that replaced it is not in the file");
            }
            if let Some(at) = taken.corrections.iter().position(|it| it.reason.trim().is_empty()) {
                let place = format!("{}.corrections[{at}]", place());
                return Err(NotAJobFile::Broken { place, reason: "it gives no reason".to_owned() });
            }
        }
        if let Some(index) = self.replaced_in_a_circle() {
            let reason = "what replaced it was replaced by it".to_owned();
            return Err(NotAJobFile::Broken { place: format!("readings[{index}]"), reason });
        }
        for (index, said) in self.not_tested.iter().enumerate() {
            if lives(&said.pair).any(|circuit| !circuits.contains(&circuit)) {
                let reason = "one of its circuits is not on a board".to_owned();
                return Err(NotAJobFile::Broken { place: format!("not_tested[{index}]"), reason });
            }
        }
        for (index, said) in self.recall_resolved.iter().enumerate() {
            let reason = match said {
                said if !readings.contains(&said.reading) => "its reading is not in the file",
                said if !people.contains(&said.person) => "its person is not among the people",
                said if said.reason.trim().is_empty() => "it gives no reason",
                _ => continue,
            };
            let place = format!("recall_resolved[{index}]");
            return Err(NotAJobFile::Broken { place, reason: reason.to_owned() });
        }
        Ok(())
    }
}

/// A reading was replaced by at most one other, so following that leads to an end or around.
impl JobFile {
    fn replaced_in_a_circle(&self) -> Option<usize> {
        let by: BTreeMap<_, _> =
            self.readings.iter().filter_map(|taken| Some((taken.reading.id, taken.replaced_by()?))).collect();
        let mut ends = BTreeSet::new();
        for (index, taken) in self.readings.iter().enumerate() {
            let mut way = BTreeSet::new();
            let mut at = taken.reading.id;
            while !ends.contains(&at) {
                if !way.insert(at) {
                    return Some(index);
                }
                match by.get(&at) {
                    Some(next) => at = *next,
                    None => break,
                }
            }
            ends.extend(way);
        }
        None
    }
}

fn lives(pair: &provenohm_assess::circuit::Pair) -> impl Iterator<Item = provenohm_assess::ids::CircuitId> + '_ {
    use provenohm_assess::circuit::Terminal;
    pair.a.0.iter().chain(&pair.b.0).filter_map(|terminal| match terminal {
        Terminal::Live { circuit, .. } => Some(*circuit),
        Terminal::OtherCircuits | Terminal::Earth => None,
    })
}

fn once<T: Ord + Copy + std::fmt::Display>(
    list: &str,
    ids: impl Iterator<Item = T>,
) -> Result<BTreeSet<T>, NotAJobFile> {
    let mut seen = BTreeSet::new();
    for id in ids {
        if !seen.insert(id) {
            return Err(NotAJobFile::Broken { place: list.to_owned(), reason: format!("{id} stands in it twice") });
        }
    }
    Ok(seen)
}

fn malformed(error: &serde_json::Error) -> NotAJobFile {
    let reason = error.to_string();
    let at = format!(" at line {} column {}", error.line(), error.column());
    let reason = reason.strip_suffix(&at).map_or(reason.clone(), str::to_owned);
    NotAJobFile::Malformed { line: error.line(), column: error.column(), reason }
}
