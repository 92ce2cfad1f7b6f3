//! Plots of the report: the geometry and labels of the screens, for paper.

use crate::ops::bench::plot;
use crate::views::{PlotAxis, PlotView};
use provenohm_assess::bench::VoltageResult;
use provenohm_assess::bench::plot::{error_plot, load_plot};
use provenohm_assess::standard::Edition;
use provenohm_assess::tester::Card;
use provenohm_papers::report::Sign;
use provenohm_papers::tester_report::{Axis, Band, Bound, Corner, Mark, Plot, Sample, Tick};
use provenohm_words::Words;

/// Error against known resistance; nothing where nothing was shown at one.
pub(super) fn errors(words: &Words, tester: &str, voltage: &VoltageResult, card: Option<&Card>) -> Option<Plot> {
    let volts = voltage.test_voltage_v;
    let card = card.and_then(|card| card.voltages.iter().find(|one| one.test_voltage_v == volts));
    let geometry = error_plot(voltage, card, &[]);
    if geometry.points.is_empty() {
        return None;
    }
    let title = plot::title(words, "answer-plot-error-title", volts);
    plot::errors(words, title, &[(tester.to_owned(), geometry)], 1).map(on_paper)
}

/// Output voltage against load; nothing where none was measured.
pub(super) fn loads(words: &Words, voltage: &VoltageResult, edition: &Edition) -> Option<Plot> {
    let title = plot::title(words, "answer-plot-load-title", voltage.test_voltage_v);
    plot::loads(words, title, &[(words.volts(voltage.test_voltage_v), load_plot(voltage, edition))]).map(on_paper)
}

/// A plot of the screens as paper takes it.
pub(super) fn on_paper(view: PlotView) -> Plot {
    let axis = |axis: PlotAxis| Axis {
        label: axis.words,
        from: axis.from,
        to: axis.to,
        ticks: axis.ticks.into_iter().map(|tick| Tick { at: tick.at, label: tick.words }).collect(),
    };
    let samples = |band: crate::views::PlotBand| Band {
        samples: band.samples.into_iter().map(|at| Sample { x: at.x, low: at.low, high: at.high }).collect(),
    };
    let bound = |line: crate::views::PlotLine| Bound {
        label: line.words,
        corners: line.corners.into_iter().map(|corner| Corner { x: corner.x, y: corner.y }).collect(),
    };
    let marks = view.series.into_iter().flat_map(|series| series.points).map(|point| Mark {
        x: point.x,
        y: point.y,
        half: point.half,
        beyond: point.beyond,
        sign: Sign::from(point.level),
        text: point.words,
    });
    Plot {
        title: view.title,
        x: axis(view.x),
        y: axis(view.y),
        bands: view.bands.into_iter().map(samples).collect(),
        bounds: view.lines.into_iter().map(bound).collect(),
        marks: marks.collect(),
    }
}
