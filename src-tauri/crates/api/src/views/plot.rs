//! Plots in data units: where everything lies, with every label ready. Pixels are the screen's.

use provenohm_assess::ids::MeasuredId;
use provenohm_assess::judgement::Level;

told! {
    /// A plot. Its table stands beneath it.
    pub struct PlotView {
        /// What it shows, in a sentence.
        pub title: String,
        /// The horizontal axis.
        pub x: PlotAxis,
        /// The vertical axis.
        pub y: PlotAxis,
        /// What is permitted: areas between two lines.
        pub bands: Vec<PlotBand>,
        /// Bounds of the standard and fitted lines.
        pub lines: Vec<PlotLine>,
        /// What was measured, one series a tester.
        pub series: Vec<PlotSeries>,
    }

    /// An axis.
    pub struct PlotAxis {
        /// What it is, with its unit.
        pub words: String,
        /// Its lower end.
        pub from: f64,
        /// Its upper end.
        pub to: f64,
        /// Its ticks.
        pub ticks: Vec<PlotTick>,
    }

    /// A tick.
    pub struct PlotTick {
        /// Where.
        pub at: f64,
        /// Its label.
        pub words: String,
    }

    /// An area, by its upper and lower edge at each sample.
    pub struct PlotBand {
        /// The series it belongs to.
        pub series: u32,
        /// Samples in the order of x.
        pub samples: Vec<BandAt>,
    }

    /// One sample of a band.
    pub struct BandAt {
        /// x.
        pub x: f64,
        /// Lower edge.
        pub low: f64,
        /// Upper edge.
        pub high: f64,
    }

    /// A line.
    pub struct PlotLine {
        /// What it is; empty: it needs no label.
        pub words: String,
        /// Its corners.
        pub corners: Vec<PlotCorner>,
    }

    /// A corner of a line.
    pub struct PlotCorner {
        /// x.
        pub x: f64,
        /// y.
        pub y: f64,
    }

    /// What was measured on one tester.
    pub struct PlotSeries {
        /// `A`, `B` …: beside the shape, so that no colour is needed.
        pub letter: String,
        /// Whose it is.
        pub words: String,
        /// Points in the order of x.
        pub points: Vec<PlotPoint>,
    }

    /// One point.
    pub struct PlotPoint {
        /// The facts it rests on.
        pub measured: Vec<MeasuredId>,
        /// x.
        pub x: f64,
        /// y.
        pub y: f64,
        /// Half the uncertainty bar.
        pub half: f64,
        /// Over-range or under-range: an arrow with this word; absent: an exact figure.
        pub beyond: Option<String>,
        /// How much attention it asks for.
        pub level: Level,
        /// It in a sentence.
        pub words: String,
    }
}
