//! How the error at one known resistance went over the tester's verifications, with a fitted line.

use crate::bench::Series;
use crate::ids::VerificationId;
use crate::moment::When;
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
    /// When it was made.
    pub made: When,
    /// As found, or as left.
    pub series: Series,
    /// When, in days since the first one: worked out with the line.
    pub day: f64,
    /// Error, % of the known resistance.
    pub error_percent: f64,
    /// U of it, %.
    pub expanded_percent: f64,
}

/// A verification at which the tester was adjusted, wherever that was done: a line never goes on beyond it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Adjustment {
    /// The verification.
    pub verification: VerificationId,
    /// When it was made.
    pub made: When,
}

impl Adjustment {
    /// Whether an error was found before it.
    fn is_after(&self, point: &DriftPoint) -> bool {
        if point.verification == self.verification {
            return point.series == Series::AsFound;
        }
        point.counts_from() < self.made.good_counts_from()
    }
}

impl DriftPoint {
    fn counts_from(&self) -> crate::moment::Instant {
        match self.series {
            Series::AsFound => self.made.failure_counts_from(),
            Series::AsLeft => self.made.good_counts_from(),
        }
    }
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
    /// Points, earliest first, in the stretches between adjustments.
    pub stretches: Vec<Vec<DriftPoint>>,
    /// A line for each stretch between adjustments that has three points or more on different days.
    pub lines: Vec<Vec<FittedAt>>,
}

/// Fits a straight line by least squares to each stretch between adjustments; its uncertainty at a day is
/// t·s·√(1/n + (x − x̄)²/Sxx), s from the residuals with n − 2 degrees of freedom (GUM H.3, memory-H).
#[must_use]
pub fn fitted(mut points: Vec<DriftPoint>, adjustments: &[Adjustment]) -> DriftPlot {
    let first = points.iter().map(|one| one.made.date()).min().unwrap_or_default();
    for one in &mut points {
        one.day = f64::from(i32::try_from((one.made.date() - first).num_days()).unwrap_or(i32::MAX));
    }
    points.sort_by_key(|one| (one.counts_from(), one.verification, one.series));
    let between = |one: &DriftPoint| adjustments.iter().filter(|adjustment| !adjustment.is_after(one)).count();
    let stretches: Vec<Vec<DriftPoint>> =
        points.chunk_by(|one, next| between(one) == between(next)).map(<[_]>::to_vec).collect();
    let lines = stretches.iter().filter_map(|stretch| line(stretch)).collect();
    DriftPlot { stretches, lines }
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
