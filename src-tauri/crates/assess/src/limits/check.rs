//! What a set that can be read may still get wrong.

use super::band::Asked;
use super::load::Fault;
use super::place::Place;
use super::{Band, LimitSet, Minimum, SetReason, Under};
use crate::circuit::{Conductors, Current, Electrical, Loads, Measure, Nominal, Stage};
use crate::quantity::Volts;
use rust_decimal::Decimal;

impl LimitSet {
    pub(super) fn check(&self) -> Result<(), Fault> {
        let id = &self.id.0;
        let plain = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
        fault_if(id.is_empty() || !id.bytes().all(plain), Place::Key("id"), SetReason::Id)?;
        fault_if(self.version == 0, Place::Key("version"), SetReason::Version)?;
        fault_if(self.title.trim().is_empty(), Place::Key("title"), SetReason::Title)?;
        fault_if(self.source.title.trim().is_empty(), Place::Key("source"), SetReason::Title)?;
        fault_if(self.rows.is_empty(), Place::Key("rows"), SetReason::NoRows)?;
        self.check_rows()?;
        self.check_reduced()?;
        self.check_pairs()
    }

    fn check_rows(&self) -> Result<(), Fault> {
        for (i, row) in self.rows.iter().enumerate() {
            let place = Place::Element("rows", i);
            check_band(&row.band, place)?;
            let figures = row.minimum.is_above_zero() && row.test_voltage_v.is_none_or(is_above_zero);
            fault_if(!figures, place, SetReason::NotAboveZero)?;
            fault_if(row.source.title.trim().is_empty(), place, SetReason::Title)?;
            check_used(&row.band, self.rows[..i].iter().map(|earlier| &earlier.band), place)?;
        }
        Ok(())
    }

    fn check_reduced(&self) -> Result<(), Fault> {
        for (i, rule) in self.reduced.iter().enumerate() {
            let place = Place::Element("reduced", i);
            rule.bands.iter().try_for_each(|band| check_band(band, place))?;
            fault_if(!rule.minimum.is_above_zero() || !is_above_zero(rule.volts), place, SetReason::NotAboveZero)?;
            fault_if(rule.bands.is_empty() || rule.reasons.is_empty(), place, SetReason::EmptyList)?;
            fault_if(rule.source.title.trim().is_empty(), place, SetReason::Title)?;
            let highest = self.rows.iter().filter_map(|row| row.test_voltage_v).max();
            fault_if(highest.is_none_or(|volts| rule.volts >= volts), place, SetReason::NotReduced)?;
        }
        Ok(())
    }

    fn check_pairs(&self) -> Result<(), Fault> {
        for (i, rule) in self.pairs.iter().enumerate() {
            let place = Place::Element("pairs", i);
            check_band(&rule.band, place)?;
            fault_if(rule.kinds.is_empty(), place, SetReason::EmptyList)?;
            fault_if(rule.source.title.trim().is_empty(), place, SetReason::Title)?;
            check_used(&rule.band, self.pairs[..i].iter().map(|earlier| &earlier.band), place)?;
            if let Some(kind) = rule.kinds.iter().find(|kind| rule.forbidden.contains(kind)) {
                return Err((place, SetReason::RequiredAndForbidden { kind: *kind }));
            }
        }
        samples().try_for_each(|(electrical, under)| {
            let asked = Asked::of(&electrical, under);
            let missing = self.row(&asked).is_some() && self.pair_rule(&asked).is_none();
            let reason = SetReason::NoPairs {
                measure: electrical.measure.name(),
                conductors: electrical.conductors,
                loads: electrical.loads,
            };
            fault_if(missing, Place::Key("pairs"), reason)
        })
    }
}

impl Minimum {
    fn is_above_zero(self) -> bool {
        let (Self::Ohm(ohms) | Self::OhmPerVolt(ohms)) = self;
        ohms.0 > Decimal::ZERO
    }
}

fn is_above_zero(volts: Volts) -> bool {
    volts.0 > Decimal::ZERO
}

fn fault_if(wrong: bool, place: Place, reason: SetReason) -> Result<(), Fault> {
    if wrong { Err((place, reason)) } else { Ok(()) }
}

fn check_band(band: &Band, place: Place) -> Result<(), Fault> {
    let figures = [band.above_v, band.up_to_v, band.to_earth_up_to_v];
    let above_zero = figures.into_iter().flatten().all(|volts| volts.0 >= Decimal::ZERO);
    let turned = band.above_v.zip(band.up_to_v).is_some_and(|(above, up_to)| above >= up_to);
    let none_listed = band.measures.as_ref().is_some_and(Vec::is_empty)
        || band.loads.as_ref().is_some_and(Vec::is_empty)
        || band.conductors.as_ref().is_some_and(Vec::is_empty);
    fault_if(!above_zero, place, SetReason::NotAboveZero)?;
    fault_if(turned || none_listed, place, SetReason::EmptyBand)
}

fn check_used<'a>(band: &Band, mut earlier: impl Iterator<Item = &'a Band>, place: Place) -> Result<(), Fault> {
    earlier
        .position(|before| before.covers(band))
        .map_or(Ok(()), |i| Err((place, SetReason::NeverUsed { earlier: i + 1 })))
}

/// One circuit of every measure, arrangement, current, loads and stage that can be, at usual voltages.
fn samples() -> impl Iterator<Item = (Electrical, Under)> {
    use Conductors::{
        Dc, DcMidpoint, SinglePhase, SinglePhasePen, ThreePhase, ThreePhaseN, ThreePhasePen, TwoPhase, TwoPhaseN,
    };
    let volts = [24, 50, 100, 230, 400, 690].map(|volts| Volts(Decimal::from(volts)));
    let nominals = volts
        .into_iter()
        .flat_map(|volts| [Current::Ac, Current::Dc].map(|current| Nominal { volts, current, to_earth: None }));
    nominals
        .flat_map(|nominal| {
            let supply = nominal;
            [Measure::None, Measure::Selv, Measure::Pelv, Measure::Felv { supply }, Measure::Separation]
                .map(|m| (nominal, m))
        })
        .flat_map(|(nominal, measure)| {
            let all = [
                SinglePhase,
                SinglePhasePen,
                TwoPhase,
                TwoPhaseN,
                ThreePhase,
                ThreePhaseN,
                ThreePhasePen,
                Dc,
                DcMidpoint,
            ];
            let nominal = if matches!(measure, Measure::Felv { .. }) { extra_low(nominal.current) } else { nominal };
            all.map(|conductors| Electrical::new(nominal, measure, conductors))
        })
        .filter(|electrical| electrical.complaints().is_empty())
        .flat_map(|electrical| {
            [Loads::Out, Loads::Connected, Loads::Electronics].map(|loads| Electrical { loads, ..electrical.clone() })
        })
        .flat_map(|electrical| {
            [Stage::Before, Stage::After].map(|stage| (electrical.clone(), Under { stage, loads: electrical.loads }))
        })
}

fn extra_low(current: Current) -> Nominal {
    Nominal { volts: Volts(Decimal::from(24)), current, to_earth: None }
}
