//! The limit sets that come with the program.

use super::{Refused, words};
use provenohm_assess::limits::{Source, shipped};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One limit set.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SetTold {
    /// Id.
    pub id: String,
    /// Version of its file.
    pub version: u32,
    /// SHA-256 of its file.
    pub sha256: String,
    /// Title.
    pub title: String,
    /// Where it is meant for.
    pub scope: String,
    /// The publication it rests on, and how sure its figures are.
    pub source: Source,
}

/// The limit sets that come with the program, the default one first.
///
/// # Errors
/// [`Refused`] if a set cannot be read.
pub fn sets() -> Result<Vec<SetTold>, Refused> {
    let sets = shipped().map_err(|why| Refused(words().set_complaint(why)))?;
    let told = |loaded: &provenohm_assess::limits::Loaded| SetTold {
        id: loaded.set.id.0.clone(),
        version: loaded.set.version,
        sha256: loaded.name.sha256.clone(),
        title: loaded.set.title.clone(),
        scope: loaded.set.scope.clone(),
        source: loaded.set.source.clone(),
    };
    Ok(sets.iter().map(told).collect())
}
