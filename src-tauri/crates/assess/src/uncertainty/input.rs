//! One input of a budget.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// What is known of how an input scatters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Shape {
    /// Normal: a certificate's U, or the mean of repeats.
    Normal,
    /// Anywhere between two bounds with equal chance (GUM 4.3.7).
    Rectangular,
    /// Between two bounds, more likely in the middle (GUM 4.3.9).
    Triangular,
    /// Between two bounds, more likely near them (GUM H.1.3.4): a temperature that cycles.
    Arcsine,
}

/// One input: `what` names it, all figures in the input's own unit but the sensitivity, which is the unit of the result
/// for each unit of the input.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Input<N> {
    /// What it is.
    pub what: N,
    /// Its estimate.
    pub estimate: f64,
    /// Its standard uncertainty u, at least 0.
    pub standard: f64,
    /// How it scatters.
    pub shape: Shape,
    /// Degrees of freedom of u; absent: without end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub dof: Option<f64>,
    /// Sensitivity c: how much the result changes for each unit of it.
    pub sensitivity: f64,
}

impl<N> Input<N> {
    /// Stated with an expanded uncertainty U and its k: u = U / k (GUM 4.3.3). A k that is not above zero counts as 1.
    #[must_use]
    pub fn normal(what: N, estimate: f64, expanded: f64, k: f64) -> Self {
        Self::new(what, estimate, expanded.abs() / if k > 0.0 { k } else { 1.0 }, Shape::Normal)
    }

    /// Bounds ±a, nothing known between them: u = a / √3 (GUM 4.3.7).
    #[must_use]
    pub fn rectangular(what: N, estimate: f64, half_width: f64) -> Self {
        Self::new(what, estimate, half_width.abs() / 3_f64.sqrt(), Shape::Rectangular)
    }

    /// Bounds ±a, triangular between them: u = a / √6 (GUM 4.3.9).
    #[must_use]
    pub fn triangular(what: N, estimate: f64, half_width: f64) -> Self {
        Self::new(what, estimate, half_width.abs() / 6_f64.sqrt(), Shape::Triangular)
    }

    /// Bounds ±a, arcsine between them: u = a / √2 (GUM H.1.3.4).
    #[must_use]
    pub fn arcsine(what: N, estimate: f64, half_width: f64) -> Self {
        Self::new(what, estimate, half_width.abs() / 2_f64.sqrt(), Shape::Arcsine)
    }

    /// The mean of repeats: u = s / √n with n − 1 degrees of freedom (GUM 4.2.3). `None` for fewer than two.
    #[must_use]
    pub fn repeated(what: N, values: &[f64]) -> Option<Self> {
        let n = count(values.len());
        let (mean, s) = spread(values)?;
        Some(Self::new(what, mean, s / n.sqrt(), Shape::Normal).with_dof(n - 1.0))
    }

    /// With a sensitivity; without, it is 1.
    #[must_use]
    pub fn with_sensitivity(mut self, sensitivity: f64) -> Self {
        self.sensitivity = sensitivity;
        self
    }

    /// With degrees of freedom; without, they have no end.
    #[must_use]
    pub fn with_dof(mut self, dof: f64) -> Self {
        self.dof = Some(dof);
        self
    }

    const fn new(what: N, estimate: f64, standard: f64, shape: Shape) -> Self {
        Self { what, estimate, standard, shape, dof: None, sensitivity: 1.0 }
    }
}

/// Mean and experimental standard deviation s (GUM 4.2.2); `None` for fewer than two values.
pub(crate) fn spread(values: &[f64]) -> Option<(f64, f64)> {
    if values.len() < 2 {
        return None;
    }
    let n = count(values.len());
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|v| (v - mean).powi(2)).sum();
    Some((mean, (squares / (n - 1.0)).sqrt()))
}

/// A count as a number to reckon with; exact for every count that fits in memory here.
pub(crate) fn count(n: usize) -> f64 {
    u32::try_from(n).map_or(f64::MAX, f64::from)
}
