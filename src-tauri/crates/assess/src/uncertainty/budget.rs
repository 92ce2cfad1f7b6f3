//! The budget: what each input adds, and what follows for the result.

use super::{Input, Shape};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use statrs::distribution::{ContinuousCDF, StudentsT};
use ts_rs::TS;

/// Coverage probability of every expanded uncertainty here: 95.45 %, at which k is 2 for a normal distribution
/// (EA-4/02, memory-H), and not 95 %, at which it would be 1.96.
pub const COVERAGE: f64 = 0.954_499_736_103_642;

/// A rectangular input dominates when the rest together is at most this share of it (EA-4/02 S9, memory-H).
const DOMINATED: f64 = 0.3;

/// Share of the degrees of freedom that the arithmetic may have lost.
const WHOLE_WITHIN: f64 = 1e-12;

/// Degrees of freedom from which t is its series about 2: the library's inverse comes out below 2 for many of them.
const SERIES_FROM: f64 = 1_000.0;

/// One line of a budget.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Line<N> {
    /// The input.
    pub input: Input<N>,
    /// What it adds, |c|·u, in the unit of the result.
    pub contribution: f64,
    /// Its share of the variance, 0 to 1.
    pub share: f64,
}

/// A budget of uncorrelated inputs, first order (GUM 5.1.2), in the unit of the result.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Budget<N> {
    /// Line by line, in the order given.
    pub lines: Vec<Line<N>>,
    /// Combined standard uncertainty u = √Σ(c·u)².
    pub standard: f64,
    /// Effective degrees of freedom (Welch–Satterthwaite, GUM G.4.1); absent: without end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub dof: Option<f64>,
    /// Coverage factor.
    pub k: f64,
    /// One rectangular input dominates, and k is that of a rectangle (1.65).
    pub dominated: bool,
    /// Expanded uncertainty U = k·u for 95.45 %.
    pub expanded: f64,
}

impl<N> Budget<N> {
    /// Combines inputs.
    #[must_use]
    pub fn combine(inputs: Vec<Input<N>>) -> Self {
        let contributions: Vec<f64> = inputs.iter().map(|i| (i.sensitivity * i.standard).abs()).collect();
        let variance: f64 = contributions.iter().map(|c| c * c).sum();
        let standard = variance.sqrt();
        let dof = effective_dof(&inputs, &contributions, variance);
        // What the rest is known by few repeats for is not negligible, however small it came out.
        let dominated = dof.is_none() && is_dominated(&inputs, &contributions, variance);
        let k = if dominated { COVERAGE * 3_f64.sqrt() } else { student(dof) };
        let lines = inputs
            .into_iter()
            .zip(contributions)
            .map(|(input, contribution)| {
                let share = if variance > 0.0 { contribution * contribution / variance } else { 0.0 };
                Line { input, contribution, share }
            })
            .collect();
        Self { lines, standard, dof, k, dominated, expanded: k * standard }
    }
}

/// ν = u⁴ / Σ(cᵢuᵢ)⁴/νᵢ; `None` where every input has degrees of freedom without end.
fn effective_dof<N>(inputs: &[Input<N>], contributions: &[f64], variance: f64) -> Option<f64> {
    let limited = inputs.iter().zip(contributions).filter_map(|(input, c)| input.dof.map(|dof| (dof, c)));
    let sum: f64 = limited.filter(|(dof, _)| *dof > 0.0).map(|(dof, c)| c.powi(4) / dof).sum();
    (sum > 0.0).then(|| variance * variance / sum)
}

/// Whether one rectangular input outweighs all the rest.
fn is_dominated<N>(inputs: &[Input<N>], contributions: &[f64], variance: f64) -> bool {
    let rectangular = inputs.iter().zip(contributions).filter(|(input, _)| input.shape == Shape::Rectangular);
    let largest = rectangular.map(|(_, c)| *c).fold(0.0, f64::max);
    let rest = (variance - largest * largest).max(0.0).sqrt();
    largest > 0.0 && rest <= DOMINATED * largest
}

/// Student's t for [`COVERAGE`], degrees of freedom rounded down (GUM G.6.4), at least one.
fn student(dof: Option<f64>) -> f64 {
    // What is whole but for the last bits of the arithmetic is whole: 3.9999999999999996 is 4, not 3.
    let whole = dof.map(|dof| (dof * (1.0 + WHOLE_WITHIN)).floor().max(1.0));
    let Some(dof) = whole else { return 2.0 };
    if dof >= SERIES_FROM {
        // Its series about 2 (Abramowitz and Stegun 26.7.5, memory-H; checked against another library).
        return 2.0 + 2.5 / dof + 3.0625 / (dof * dof);
    }
    StudentsT::new(0.0, 1.0, dof).map_or(2.0, |t| t.inverse_cdf(f64::midpoint(1.0, COVERAGE)))
}
