//! Loading a set from the bytes of its file: read, checked, and named by its hash.

use super::place::Place;
use super::{LimitSet, SetName};
use crate::circuit::{Conductors, Loads, MeasureName, PairKind};
use sha2::{Digest, Sha256};

/// A set file is smaller than this; what is larger is not read.
const MOST_BYTES: usize = 1 << 20;

/// A set that was read and checked, with its exact name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loaded {
    /// The set.
    pub set: LimitSet,
    /// Its id, version and the SHA-256 of the bytes it was read from.
    pub name: SetName,
}

/// Why a set file is refused, and where.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line}, column {column}: {reason}")]
pub struct SetComplaint {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Why.
    pub reason: SetReason,
}

/// Why a set file is refused.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SetReason {
    /// Not JSON, or not the fields of a set.
    #[error("{0}")]
    Unreadable(String),
    /// Too long to be a set.
    #[error("a set is at most {most} bytes long")]
    TooLong {
        /// The most, bytes.
        most: usize,
    },
    /// The id is not lower-case letters, digits and hyphens.
    #[error("an id is lower-case letters, digits and hyphens")]
    Id,
    /// Versions count from 1.
    #[error("versions count from 1")]
    Version,
    /// Nothing to name the set or a source by.
    #[error("a title is missing")]
    Title,
    /// No minimum at all.
    #[error("a set has at least one row")]
    NoRows,
    /// A minimum or a voltage that is not above zero.
    #[error("minima and voltages are above zero")]
    NotAboveZero,
    /// A band no circuit can be in.
    #[error("no circuit can be in this band")]
    EmptyBand,
    /// An earlier row fits every circuit this one is for.
    #[error("never used: row {earlier} comes first for the same circuits")]
    NeverUsed {
        /// The earlier one, from 1.
        earlier: usize,
    },
    /// A reduced voltage that is not below the voltage it stands in for.
    #[error("a reduced voltage is lower than the voltage asked for")]
    NotReduced,
    /// A reduced voltage needs a reason, a pair rule a kind of pair.
    #[error("the list is empty")]
    EmptyList,
    /// One kind both required and forbidden.
    #[error("{kind:?} is required and forbidden")]
    RequiredAndForbidden {
        /// The kind.
        kind: PairKind,
    },
    /// Circuits that have a minimum and no rule for their pairs.
    #[error("no pairs for {measure:?}, {conductors:?}, loads {loads:?}")]
    NoPairs {
        /// Their measure.
        measure: MeasureName,
        /// Their conductors.
        conductors: Conductors,
        /// Their loads.
        loads: Loads,
    },
}

impl LimitSet {
    /// Reads a set from the bytes of its file, checks it, and names it by id, version and hash.
    ///
    /// # Errors
    /// The first [`SetComplaint`], with line and column.
    pub fn load(bytes: &[u8]) -> Result<Loaded, SetComplaint> {
        if bytes.len() > MOST_BYTES {
            return Err(SetComplaint { line: 1, column: 1, reason: SetReason::TooLong { most: MOST_BYTES } });
        }
        let set: Self = serde_json::from_slice(bytes).map_err(|error| {
            let text = error.to_string();
            let reason = text.rsplit_once(" at line ").map_or(text.as_str(), |(reason, _)| reason);
            SetComplaint {
                line: error.line().max(1),
                column: error.column().max(1),
                reason: SetReason::Unreadable(reason.to_owned()),
            }
        })?;
        set.check().map_err(|(place, reason)| {
            let (line, column) = place.in_text(&String::from_utf8_lossy(bytes));
            SetComplaint { line, column, reason }
        })?;
        let sha256 = Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect();
        let name = SetName { id: set.id.clone(), version: set.version, sha256 };
        Ok(Loaded { set, name })
    }
}

/// A fault found in a set that could be read, and where in it.
pub(super) type Fault = (Place, SetReason);
