//! How the error at one known resistance went over the tester's verifications, with a fitted line.

use crate::ids::VerificationId;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use statrs::distribution::{ContinuousCDF, StudentsT};
use ts_rs::TS;

use crate::uncertainty::COVERAGE;

/// Samples of the fitted line and its uncertainty.
const SAMPLES: u32 = 64;

/// The error found in one verification.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct DriftPoint {
    /// The verification.
    pub verification: VerificationId,
    /// When, in days since the first one shown.
    pub day: f64,
    /// Error, % of the known resistance.
    pub error_percent: f64,
    /// U of it, %.
    pub expanded_percent: f64,
    /// The tester was adjusted after it was found so: a line never goes on beyond it.
    pub adjusted_after: bool,
}

/// The fitted line at one day.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct FittedAt {
    /// Day.
    pub day: f64,
    /// The line, %.
    pub percent: f64,
    /// Half-width of its uncertainty (95.45 %), %.
    pub expanded_percent: f64,
}

/// One resistance over time.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct DriftPlot {
    /// Points, earliest first.
    pub points: Vec<DriftPoint>,
    /// A line for each stretch between adjustments that has three points or more on different days.
    pub lines: Vec<Vec<FittedAt>>,
}

/// Fits a straight line by least squares to each stretch between adjustments; its uncertainty at a day is
/// t·s·√(1/n + (x − x̄)²/Sxx), s from the residuals with n − 2 degrees of freedom (GUM H.3, memory-H).
#[must_use]
pub fn fitted(mut points: Vec<DriftPoint>) -> DriftPlot {
    points.sort_by(|a, b| a.day.total_cmp(&b.day).then(a.verification.cmp(&b.verification)));
    let lines = points.split_inclusive(|p| p.adjusted_after).filter_map(line).collect();
    DriftPlot { points, lines }
}

fn line(points: &[DriftPoint]) -> Option<Vec<FittedAt>> {
    let n = f64::from(u32::try_from(points.len()).ok()?);
    let (first, last) = (points.first()?.day, points.last()?.day);
    let mean = |of: fn(&DriftPoint) -> f64| points.iter().map(of).sum::<f64>() / n;
    let (x, y) = (mean(|p| p.day), mean(|p| p.error_percent));
    let sxx: f64 = points.iter().map(|p| (p.day - x).powi(2)).sum();
    if n < 3.0 || sxx <= 0.0 {
        return None;
    }
    let sxy: f64 = points.iter().map(|p| (p.day - x) * (p.error_percent - y)).sum();
    let slope = sxy / sxx;
    let at = |day: f64| slope.mul_add(day - x, y);
    let squares: f64 = points.iter().map(|p| (p.error_percent - at(p.day)).powi(2)).sum();
    let s = (squares / (n - 2.0)).sqrt();
    let t = StudentsT::new(0.0, 1.0, n - 2.0).ok()?.inverse_cdf(f64::midpoint(1.0, COVERAGE));
    let step = (last - first) / f64::from(SAMPLES - 1);
    let sample = |i: u32| {
        let day = f64::from(i).mul_add(step, first);
        let half = t * s * (1.0 / n + (day - x).powi(2) / sxx).sqrt();
        FittedAt { day, percent: at(day), expanded_percent: half }
    };
    Some((0..SAMPLES).map(sample).collect())
}
