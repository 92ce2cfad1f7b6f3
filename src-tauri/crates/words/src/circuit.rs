//! Circuits and the pairs of ends their readings are taken between.

use crate::words::Words;
use provenohm_assess::circuit::{
    Conductor, Conductors, Current, Earthing, Electrical, End, Item, Loads, Location, Measure, Nominal, Pair, Stage,
    Terminal,
};
use provenohm_assess::ids::CircuitId;

/// What naming a pair needs of the circuit in whose row it stands, and of the others.
#[derive(Clone, Copy)]
pub struct PairNames<'a> {
    /// The circuit in whose row the pair stands; its own conductors need no number.
    pub circuit: CircuitId,
    /// What its earth end is called.
    pub earthing: Earthing,
    /// The reference of a circuit, as people number it.
    pub reference: &'a dyn Fn(CircuitId) -> String,
}

impl Words {
    /// Two ends: `L1–PE`, `L+N – PE`, `all lives of 3, 4, 5 – PE`.
    #[must_use]
    pub fn pair(&self, pair: &Pair, names: &PairNames<'_>) -> String {
        let own = |end: &End| end.circuits().contains(&names.circuit);
        let (first, second) = if !own(&pair.a) && own(&pair.b) { (&pair.b, &pair.a) } else { (&pair.a, &pair.b) };
        let (a, b) = (self.end(first, names), self.end(second, names));
        if first.0.len() == 1 && second.0.len() == 1 && !a.contains(' ') && !b.contains(' ') {
            format!("{a}–{b}")
        } else {
            self.text_with("said-pair-joined", &[("a", a.into()), ("b", b.into())])
        }
    }

    fn end(&self, end: &End, names: &PairNames<'_>) -> String {
        let lives = end.circuits();
        if lives.len() > 1 {
            let references = lives.iter().map(|circuit| (names.reference)(*circuit)).collect::<Vec<_>>().join(", ");
            return self.text_with("said-end-all-lives", &[("circuits", references.into())]);
        }
        let parts = end.0.iter().map(|terminal| match terminal {
            Terminal::Live { conductor, .. } => conductor_name(*conductor).to_owned(),
            Terminal::OtherCircuits => self.text("said-end-other-circuits"),
            Terminal::Earth => earth_name(names.earthing).to_owned(),
        });
        // A plus sign between names that carry a sign themselves could not be read.
        let signed = end
            .0
            .iter()
            .any(|terminal| matches!(terminal, Terminal::Live { conductor: Conductor::Plus | Conductor::Minus, .. }));
        let joined = parts.collect::<Vec<_>>().join(if signed { ", " } else { "+" });
        match lives.first() {
            Some(other) if *other != names.circuit => self.text_with(
                "said-end-of-circuit",
                &[("conductors", joined.into()), ("circuit", (names.reference)(*other).into())],
            ),
            _ => joined,
        }
    }

    /// A circuit's electrical facet in one line: `230 V a.c., L, N`.
    #[must_use]
    pub fn electrical(&self, electrical: &Electrical) -> String {
        let nominal = ("nominal", self.nominal(&electrical.nominal).into());
        let conductors = ("conductors", self.conductors(electrical.conductors).into());
        match &electrical.measure {
            Measure::None => self.text_with("said-circuit-plain", &[nominal, conductors]),
            Measure::Selv => self.text_with("said-circuit-selv", &[nominal, conductors]),
            Measure::Pelv => self.text_with("said-circuit-pelv", &[nominal, conductors]),
            Measure::Felv { supply } => {
                self.text_with("said-circuit-felv", &[nominal, ("supply", self.nominal(supply).into()), conductors])
            }
            Measure::Separation => self.text_with("said-circuit-separation", &[nominal, conductors]),
        }
    }

    /// A nominal voltage: `230 V a.c.`, `400 V a.c., 230 V to earth`.
    #[must_use]
    pub fn nominal(&self, nominal: &Nominal) -> String {
        let volts = ("volts", self.volts(nominal.volts).into());
        match (nominal.current, nominal.to_earth.filter(|earth| *earth != nominal.volts)) {
            (Current::Ac, None) => self.text_with("said-nominal-ac", &[volts]),
            (Current::Dc, None) => self.text_with("said-nominal-dc", &[volts]),
            (Current::Ac, Some(earth)) => {
                self.text_with("said-nominal-ac-to-earth", &[volts, ("earth", self.volts(earth).into())])
            }
            (Current::Dc, Some(earth)) => {
                self.text_with("said-nominal-dc-to-earth", &[volts, ("earth", self.volts(earth).into())])
            }
        }
    }

    /// Live conductors by their names: `L1, L2, L3, N`; with PEN where the circuit has one.
    #[must_use]
    pub fn conductors(&self, conductors: Conductors) -> String {
        let lives = conductors.live().iter().map(|live| conductor_name(*live)).collect::<Vec<_>>().join(", ");
        match conductors.earthing() {
            Earthing::Pen => self.text_with("said-conductors-with-pen", &[("lives", lives.into())]),
            Earthing::Pe => lives,
        }
    }

    /// The kind of current: `a.c.`.
    #[must_use]
    pub fn current(&self, current: Current) -> String {
        self.text(match current {
            Current::Ac => "said-current-ac",
            Current::Dc => "said-current-dc",
        })
    }

    /// Loads while testing.
    #[must_use]
    pub fn loads(&self, loads: Loads) -> String {
        self.text(match loads {
            Loads::Out => "said-loads-out",
            Loads::Connected => "said-loads-connected",
            Loads::Electronics => "said-loads-electronics",
        })
    }

    /// A special item.
    #[must_use]
    pub fn item(&self, item: Item) -> String {
        self.text(match item {
            Item::HeatingElement => "said-item-heating-element",
            Item::FunctionalEarth => "said-item-functional-earth",
        })
    }

    /// A special location.
    #[must_use]
    pub fn location(&self, location: Location) -> String {
        self.text(match location {
            Location::Wet => "said-location-wet",
            Location::FireRisk => "said-location-fire-risk",
        })
    }

    /// Before or after equipment is connected.
    #[must_use]
    pub fn stage(&self, stage: Stage) -> String {
        self.text(match stage {
            Stage::Before => "said-stage-before",
            Stage::After => "said-stage-after",
        })
    }
}

/// A conductor's name, the same in every language; the minus is U+2212.
#[must_use]
pub const fn conductor_name(conductor: Conductor) -> &'static str {
    match conductor {
        Conductor::L => "L",
        Conductor::L1 => "L1",
        Conductor::L2 => "L2",
        Conductor::L3 => "L3",
        Conductor::N => "N",
        Conductor::Plus => "L+",
        Conductor::M => "M",
        Conductor::Minus => "L−",
    }
}

const fn earth_name(earthing: Earthing) -> &'static str {
    match earthing {
        Earthing::Pe => "PE",
        Earthing::Pen => "PEN",
    }
}
