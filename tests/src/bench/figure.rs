//! Timed figures of one run, in pairs: what is measured, and what it is compared with, by turns.
use std::time::{Duration, Instant};

/// How long something took.
pub(crate) fn timed<E>(work: impl FnOnce() -> Result<(), E>) -> Result<Duration, E> {
    let started = Instant::now();
    work()?;
    Ok(started.elapsed())
}

/// What was measured by turns.
#[derive(Default)]
pub(crate) struct Pairs {
    took: Vec<Duration>,
    other: Vec<Duration>,
}

/// The middle of some figures, and what all but one in a hundred keep within.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Spread {
    pub(crate) p50: f64,
    pub(crate) p99: f64,
}

/// One line of the table.
#[derive(Debug, Clone)]
pub(crate) struct Row {
    pub(crate) what: String,
    /// What both are told in: ms or B.
    pub(crate) unit: &'static str,
    pub(crate) took: Spread,
    pub(crate) beside: String,
    pub(crate) other: Spread,
    /// The median of the ratios within each pair.
    pub(crate) ratio: f64,
    pub(crate) pairs: usize,
}

impl Row {
    /// A size beside another, both in bytes. Neither varies.
    pub(crate) fn of_bytes(what: impl Into<String>, bytes: f64, beside: impl Into<String>, other: f64) -> Self {
        let spread = |one: f64| Spread { p50: one, p99: one };
        Self {
            what: what.into(),
            unit: "B",
            took: spread(bytes),
            beside: beside.into(),
            other: spread(other),
            ratio: bytes / other,
            pairs: 1,
        }
    }
}

impl Pairs {
    /// Times the two, by turns first and second.
    pub(crate) fn measure<E>(
        &mut self,
        what: impl FnOnce() -> Result<(), E>,
        beside: impl FnOnce() -> Result<(), E>,
    ) -> Result<(), E> {
        let (took, other);
        if self.took.len().is_multiple_of(2) {
            took = timed(what)?;
            other = timed(beside)?;
        } else {
            other = timed(beside)?;
            took = timed(what)?;
        }
        self.add(took, other);
        Ok(())
    }

    /// Notes two times that belong together.
    pub(crate) fn add(&mut self, took: Duration, other: Duration) {
        self.took.push(took);
        self.other.push(other);
    }

    pub(crate) fn row(self, what: impl Into<String>, beside: impl Into<String>) -> Row {
        let pairs = self.took.len();
        let ratios = self.took.iter().zip(&self.other).map(|(took, other)| took.as_secs_f64() / other.as_secs_f64());
        let ratio = at(ratios.collect(), 50);
        let spread = |times: Vec<Duration>| {
            let times: Vec<f64> = times.into_iter().map(|time| time.as_secs_f64() * 1000.0).collect();
            Spread { p50: at(times.clone(), 50), p99: at(times, 99) }
        };
        let (took, other) = (spread(self.took), spread(self.other));
        Row { what: what.into(), unit: "ms", took, beside: beside.into(), other, ratio, pairs }
    }
}

/// The figure that this share of all, in hundredths, does not exceed.
fn at(mut figures: Vec<f64>, share: usize) -> f64 {
    figures.sort_by(f64::total_cmp);
    let place = (figures.len() * share / 100).min(figures.len().saturating_sub(1));
    figures.get(place).copied().unwrap_or_default()
}
