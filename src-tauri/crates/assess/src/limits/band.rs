//! Which circuits a band is for.

use super::{Band, NoLimit, Under};
use crate::circuit::{Conductors, Current, Electrical, Item, Loads, Location, MeasureName, Stage};
use crate::quantity::Volts;

/// What decides which row or rule fits.
#[derive(Clone, Copy, Debug)]
pub(super) struct Asked {
    measure: MeasureName,
    volts: Volts,
    to_earth: Volts,
    current: Current,
    loads: Loads,
    item: Option<Item>,
    location: Option<Location>,
    conductors: Conductors,
    stage: Stage,
}

impl Asked {
    pub(super) fn of(electrical: &Electrical, under: Under) -> Self {
        let nominal = electrical.deciding();
        Self {
            measure: electrical.measure.name(),
            volts: nominal.volts,
            to_earth: nominal.earth(),
            current: nominal.current,
            loads: under.loads,
            item: electrical.item,
            location: electrical.location,
            conductors: electrical.conductors,
            stage: under.stage,
        }
    }

    pub(super) const fn no_row(&self) -> NoLimit {
        NoLimit::NoRow { measure: self.measure, volts: self.volts }
    }

    pub(super) const fn no_pairs(&self) -> NoLimit {
        NoLimit::NoPairs { measure: self.measure }
    }
}

impl Band {
    pub(super) fn fits(&self, asked: &Asked) -> bool {
        self.measures.as_ref().is_none_or(|measures| measures.contains(&asked.measure))
            && self.above_v.is_none_or(|volts| asked.volts > volts)
            && self.up_to_v.is_none_or(|volts| asked.volts <= volts)
            && self.to_earth_up_to_v.is_none_or(|volts| asked.to_earth <= volts)
            && self.current.is_none_or(|current| asked.current == current)
            && self.loads.as_ref().is_none_or(|loads| loads.contains(&asked.loads))
            && self.item.is_none_or(|item| asked.item == Some(item))
            && self.location.is_none_or(|location| asked.location == Some(location))
            && self.conductors.as_ref().is_none_or(|conductors| conductors.contains(&asked.conductors))
            && self.stage.is_none_or(|stage| asked.stage == stage)
    }

    /// Whether every circuit the other band fits is fitted by this one.
    pub(super) fn covers(&self, other: &Self) -> bool {
        fn list<T: PartialEq>(wide: Option<&Vec<T>>, narrow: Option<&Vec<T>>) -> bool {
            wide.is_none_or(|wide| narrow.is_some_and(|narrow| narrow.iter().all(|one| wide.contains(one))))
        }
        fn same<T: PartialEq>(wide: Option<T>, narrow: Option<T>) -> bool {
            wide.is_none() || wide == narrow
        }
        list(self.measures.as_ref(), other.measures.as_ref())
            && list(self.loads.as_ref(), other.loads.as_ref())
            && list(self.conductors.as_ref(), other.conductors.as_ref())
            && self.above_v.is_none_or(|wide| other.above_v.is_some_and(|narrow| narrow >= wide))
            && self.up_to_v.is_none_or(|wide| other.up_to_v.is_some_and(|narrow| narrow <= wide))
            && self.to_earth_up_to_v.is_none_or(|wide| other.to_earth_up_to_v.is_some_and(|narrow| narrow <= wide))
            && same(self.current, other.current)
            && same(self.item, other.item)
            && same(self.location, other.location)
            && same(self.stage, other.stage)
    }
}
