//! Limit sets: refused with line and column, or every limit they give is above zero.
use provenohm_assess::circuit::{Conductors, Current, Electrical, Loads, Measure, Nominal, Stage};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::limits::{LimitSet, Under};
use provenohm_assess::quantity::Volts;

const VOLTS: [u32; 5] = [24, 50, 230, 690, 1500];
const CONDUCTORS: [Conductors; 4] =
    [Conductors::SinglePhase, Conductors::ThreePhaseN, Conductors::ThreePhasePen, Conductors::DcMidpoint];

pub(crate) fn holds(bytes: &[u8]) {
    match LimitSet::load(bytes) {
        Err(complaint) => {
            let lines = bytes.split(|byte| *byte == b'\n').count();
            assert!((1..=lines).contains(&complaint.line), "{complaint} is not in a text of {lines} lines");
        }
        Ok(loaded) => circuits().for_each(|electrical| gives_limits(&loaded.set, &electrical)),
    }
}

fn gives_limits(set: &LimitSet, electrical: &Electrical) {
    let id = CircuitId(uuid::Uuid::nil());
    let Ok(demand) = set.demand(id, electrical, Stage::Before) else { return };
    for required in &demand.pairs {
        let under = Under { stage: Stage::Before, loads: electrical.loads };
        if let Ok(limit) = set.limit_for(&required.pair, under, |_| Some(electrical)) {
            let reduced = limit.reduced.map_or(limit.minimum, |(_, minimum)| minimum);
            assert!(limit.minimum.0.is_sign_positive() && !limit.minimum.0.is_zero(), "{limit:?}");
            assert!(reduced.0.is_sign_positive() && !reduced.0.is_zero(), "{limit:?}");
        }
    }
}

fn circuits() -> impl Iterator<Item = Electrical> {
    let nominal = |volts: u32| Nominal { volts: Volts(volts.into()), current: Current::Ac, to_earth: None };
    let measures = move |volts| {
        [Measure::None, Measure::Selv, Measure::Pelv, Measure::Felv { supply: nominal(volts) }, Measure::Separation]
    };
    VOLTS.into_iter().flat_map(move |volts| {
        measures(volts).into_iter().flat_map(move |measure| {
            CONDUCTORS.into_iter().flat_map(move |conductors| {
                [Loads::Out, Loads::Electronics]
                    .map(|loads| Electrical { loads, ..Electrical::new(nominal(volts), measure, conductors) })
            })
        })
    })
}
