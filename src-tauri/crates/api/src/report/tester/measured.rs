//! Everything that was measured, as it was read.

use super::Telling;
use crate::ops::bench::figures::detail;
use crate::ops::bench::say;
use crate::ops::bench::step::Key;
use provenohm_assess::bench::{LoadReading, Measured, MeasuredWhat};
use provenohm_assess::ids::ReferenceId;
use provenohm_papers::tester_report::MeasuredLine;

impl Telling<'_> {
    /// One line a figure: at a load, voltage and current are two.
    pub(super) fn measured(&self, one: &Measured) -> Vec<MeasuredLine> {
        let words = self.words;
        let name = |id: ReferenceId| self.about.references.iter().find(|it| it.id == id).map(|it| it.name.clone());
        let meters: Vec<Option<ReferenceId>> = match one.item {
            MeasuredWhat::Indication { across, .. } => vec![across],
            MeasuredWhat::OpenCircuit { voltage, .. } => vec![Some(voltage.reference)],
            MeasuredWhat::AtLoad(LoadReading { voltage, current, .. }) => {
                let read = [voltage.map(|it| it.reference), current.map(|it| it.reference)];
                read.into_iter().flatten().map(Some).collect()
            }
            MeasuredWhat::ShortCircuit { current } | MeasuredWhat::Ripple { current } => vec![Some(current.reference)],
            MeasuredWhat::LeadsOpen { .. } | MeasuredWhat::LeadsShorted { .. } | MeasuredWhat::Polarity { .. } => {
                vec![None]
            }
        };
        let keys = Key::measured(one, self.made.edition).into_iter().zip(meters);
        let line = |(key, meter): (Key, Option<ReferenceId>)| MeasuredLine {
            at: words.date_time(one.at),
            volts: self.volts_title(one.test_voltage_v, one.series, self.made.run.adjusted),
            what: say::step(words, &key, self.about.references),
            meter: meter.and_then(name).unwrap_or_default(),
            conditions: detail(words, &one.conditions),
            shown: say::shown(words, one, key.figure),
        };
        keys.map(line).collect()
    }
}
