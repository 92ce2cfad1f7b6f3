//! A plot in data units, as the screens draw it: where everything lies, with every label ready.

use crate::report::Sign;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A plot. Its table stands beneath it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Plot {
    /// What it shows, in a sentence.
    pub title: String,
    /// The horizontal axis.
    pub x: Axis,
    /// The vertical axis.
    pub y: Axis,
    /// Areas between two lines: what is permitted, or the uncertainty of a line.
    pub bands: Vec<Band>,
    /// Bounds of the standard and fitted lines.
    pub bounds: Vec<Bound>,
    /// What was measured, in the order of x.
    pub marks: Vec<Mark>,
}

/// An axis.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Axis {
    /// What it is, with its unit.
    pub label: String,
    /// Its lower end.
    pub from: f64,
    /// Its upper end.
    pub to: f64,
    /// Its ticks.
    pub ticks: Vec<Tick>,
}

/// A tick.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Tick {
    /// Where.
    pub at: f64,
    /// Its label.
    pub label: String,
}

/// An area, by its edges at each sample.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Band {
    /// Samples in the order of x.
    pub samples: Vec<Sample>,
}

/// One sample of a band.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Sample {
    /// x.
    pub x: f64,
    /// Lower edge.
    pub low: f64,
    /// Upper edge.
    pub high: f64,
}

/// A line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Bound {
    /// What it is; empty: it needs no label.
    pub label: String,
    /// Its corners.
    pub corners: Vec<Corner>,
}

/// A corner of a line.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Corner {
    /// x.
    pub x: f64,
    /// y.
    pub y: f64,
}

/// One thing measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Mark {
    /// x.
    pub x: f64,
    /// y.
    pub y: f64,
    /// Half the uncertainty bar.
    pub half: f64,
    /// Over-range or under-range: an arrow with this word; absent: an exact figure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub beyond: Option<String>,
    /// How it was decided, as a sign.
    pub sign: Sign,
    /// It in a sentence.
    pub text: String,
}
