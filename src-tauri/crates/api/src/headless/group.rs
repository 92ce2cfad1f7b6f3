//! Circuits read together: what they read, and what one of them has by itself.

use super::{Refused, exact, words};
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

/// What resistances read together.
///
/// # Errors
/// [`Refused`] for members that leave it open both ways, or figures beyond all arithmetic.
pub fn parallel(members: &[Shown]) -> Result<ParallelTold, Refused> {
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
    let lines = vec![words.text_with("answer-parallel", &args)];
    Ok(ParallelTold { members: members.to_vec(), comparator, together_ohm: exact(together), lines })
}

/// What a circuit has by itself, from its group read with it and without it.
///
/// # Errors
/// [`Refused`] where nothing can be worked out, with the reason.
pub fn own(with: Shown, without: Shown, uncertainty: Percent) -> Result<OwnTold, Refused> {
    let words = words();
    let told = group::own_resistance((with, uncertainty), (without, uncertainty));
    let own = told.map_err(|why| {
        Refused(words.text(match why {
            group::NotWorkedOut::NoLowerEnd => "answer-own-no-lower-end",
            group::NotWorkedOut::Contradictory => "answer-own-contradictory",
            group::NotWorkedOut::BeyondArithmetic => "answer-own-beyond",
        }))
    })?;
    let least = ("least", words.ohms(own.at_least_ohm).into());
    let lines = vec![match own.at_most_ohm {
        Some(most) => words.text_with("answer-own-between", &[least, ("most", words.ohms(most).into())]),
        None => words.text_with("answer-own-at-least", &[least]),
    }];
    Ok(OwnTold {
        with,
        without,
        uncertainty_percent: uncertainty,
        at_least_ohm: exact(own.at_least_ohm),
        at_most_ohm: own.at_most_ohm.map(exact),
        lines,
    })
}
