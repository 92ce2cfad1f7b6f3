//! Plots of a verification in data units: where points, bands, ticks and lines lie. Pixels are the screen's and the
//! paper's; both draw the same geometry.

mod axis;
mod drift;
mod error;
mod load;

pub use axis::{Tick, decades};
pub use drift::{Adjustment, DriftPlot, DriftPoint, FittedAt, fitted};
pub use error::{ErrorPlot, ErrorPoint, PermittedAt, error_plot};
pub use load::{LoadPlot, LoadPoint, load_plot};

/// Samples of a band, evenly spaced in log x: the band widens where the digits dominate and is no box.
const SAMPLES: u32 = 64;

/// `count` values from one to another, evenly spaced in log.
fn log_spaced(from: f64, to: f64, count: u32) -> impl Iterator<Item = f64> {
    let (low, high) = (from.log10(), to.log10());
    let step = (high - low) / f64::from(count.max(2) - 1);
    (0..count).map(move |i| 10_f64.powf(f64::from(i).mul_add(step, low)))
}
