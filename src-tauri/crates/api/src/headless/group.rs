//! Circuits read together: what they read, and what one of them has by itself.

use super::{Refused, exact, words};
use crate::tell;
use provenohm_assess::group;
use provenohm_assess::quantity::{Comparator, Ohms, Percent, Shown};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What resistances read together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ParallelTold {
    /// The members, as given.
    pub members: Vec<Shown>,
    /// Exact, or open on the side that members are open on.
    pub comparator: Comparator,
    /// 1/R = Σ 1/Rᵢ, to five significant digits, Ω.
    pub together_ohm: Ohms,
    /// Expanded uncertainty of each member, %; absent: not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub uncertainty_percent: Option<Percent>,
    /// That of the whole, %, the members taken as independent; absent where it is open on a side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub together_uncertainty_percent: Option<Percent>,
    /// What a person reads.
    pub lines: Vec<String>,
}

/// What a circuit has by itself.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OwnTold {
    /// The group with it.
    pub with: Shown,
    /// The group without it.
    pub without: Shown,
    /// Expanded uncertainty of each reading, %.
    pub uncertainty_percent: Percent,
    /// At least this, Ω.
    pub at_least_ohm: Ohms,
    /// At most this, Ω; null where the two readings do not differ by more than their uncertainty.
    pub at_most_ohm: Option<Ohms>,
    /// What a person reads.
    pub lines: Vec<String>,
}

/// What resistances read together, each known to that expanded uncertainty where it is given.
///
/// # Errors
/// [`Refused`] for members that leave it open both ways, or figures beyond all arithmetic.
pub fn parallel(members: &[Shown], uncertainty: Option<Percent>) -> Result<ParallelTold, Refused> {
    let words = words();
    let open = || Refused(words.text("answer-parallel-open"));
    let (comparator, together) = group::parallel(members).ok_or_else(open)?;
    let listed: Vec<String> = members.iter().map(|shown| words.reading(shown)).collect();
    let sign = match comparator {
        Comparator::Exact => "exact",
        Comparator::MoreThan => "more",
        Comparator::LessThan => "less",
    };
    let args =
        [("members", listed.join(" ∥ ").into()), ("sign", sign.into()), ("together", words.ohms(together).into())];
    let mut lines = vec![words.text_with("answer-parallel", &args)];
    let known_to = uncertainty.and_then(|each| group::parallel_uncertainty(members, each));
    lines.extend(uncertainty.map(|each| {
        let each = ("each", words.percent(each).into());
        match known_to {
            Some(whole) => {
                words.text_with("answer-parallel-uncertainty", &[("whole", words.percent(whole).into()), each])
            }
            None => words.text("answer-parallel-uncertainty-open"),
        }
    }));
    Ok(ParallelTold {
        members: members.to_vec(),
        comparator,
        together_ohm: exact(together),
        uncertainty_percent: uncertainty,
        together_uncertainty_percent: known_to,
        lines,
    })
}

/// What a circuit has by itself, from its group read with it and without it.
///
/// # Errors
/// [`Refused`] where nothing can be worked out, with the reason.
pub fn own(with: Shown, without: Shown, uncertainty: Percent) -> Result<OwnTold, Refused> {
    let words = words();
    let told = group::own_resistance((with, uncertainty), (without, uncertainty));
    let own = told.map_err(|why| Refused(tell::not_worked_out(&words, why)))?;
    let lines = vec![tell::own_resistance_words(&words, &own)];
    Ok(OwnTold {
        with,
        without,
        uncertainty_percent: uncertainty,
        at_least_ohm: exact(own.at_least_ohm),
        at_most_ohm: own.at_most_ohm.map(exact),
        lines,
    })
}
