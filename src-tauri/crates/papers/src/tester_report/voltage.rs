//! One test voltage in one series.

use super::{LoadLine, Plot, PointLine, Said};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One test voltage in one series: the two answers, what they rest on, and the plots.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct VoltagePart {
    /// Test voltage, with the series where the tester was adjusted.
    pub title: String,
    /// In which intervals indications hold.
    pub holds: Said,
    /// Why each interval ends where it does, or why there is none.
    pub intervals: Vec<String>,
    /// Whether it conforms to the tester standard.
    pub conforms: Said,
    /// Each requirement: found, asked, source and how sure it is, or why it is not tested.
    pub requirements: Vec<Said>,
    /// Indications at known resistances.
    pub points: Vec<PointLine>,
    /// Voltages and currents.
    pub loads: Vec<LoadLine>,
    /// Leads and polarity.
    pub leads: Vec<Said>,
    /// Operating uncertainty, part by part.
    pub operating: Vec<String>,
    /// Error against known resistance; absent: nothing to plot.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub error_plot: Option<Plot>,
    /// Voltage against load; absent: nothing to plot.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load_plot: Option<Plot>,
}
