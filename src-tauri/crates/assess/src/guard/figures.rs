//! Which figure of a tester's uncertainty a guard rests on, and the guard at one indication.

use super::budget::{Budget, Span};
use super::smallest::{Steps, smallest};
use crate::ids::VerificationId;
use crate::judgement::{Guard, GuardSource};
use crate::policy::ValuePolicy;
use crate::quantity::{Ohms, Percent};
use crate::tester::{Range, VoltageCard};
use rust_decimal::Decimal;

/// Operating uncertainty of a tester that conforms to its standard and states no figures, % of the measured value
/// (IEC 61557-2:2019, 6.2; seen).
const CONFORMING: Percent = Percent(Decimal::from_parts(30, 0, 0, false, 0));

/// What is known of a tester's uncertainty at one test voltage. The first there is counts, in this order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Figures<'a> {
    /// The budget of the good verification relied on.
    pub budget: Option<Budget<'a>>,
    /// Its operating uncertainty B, where none of its parts is untested, % of the reading.
    pub operating: Option<(VerificationId, Percent)>,
    /// That verification has lapsed.
    pub lapsed: bool,
    /// The card at that voltage: the operating uncertainty its maker states, then the accuracy of the range that holds
    /// the indication.
    pub card: Option<&'a VoltageCard>,
    /// Conforms to IEC 61557-2, by its papers or by the verification: 30 % where nothing else is stated.
    pub conforms: bool,
}

impl Figures<'_> {
    /// The guard at an indication. `step` is one step of the last digit shown, for a tester without ranges on a card.
    /// `None`: nothing is known of the tester there, or its figures are beyond all arithmetic.
    #[must_use]
    pub fn guard(&self, minimum: Ohms, indicated: Ohms, step: Ohms) -> Option<Guard> {
        let span = self.spans().into_iter().find(|span| span.holds(indicated))?;
        let source = self.source(self.range(indicated), &span)?;
        let w = source.width(indicated)?;
        let acceptance = minimum.0.checked_add(w.0)?;
        let of_verification = matches!(source, GuardSource::Budget { .. } | GuardSource::OperatingUncertainty { .. });
        Some(Guard {
            source,
            w_ohm: w,
            acceptance_ohm: Ohms(acceptance),
            smallest_ohm: self.smallest(ValuePolicy::Guarded, minimum, step),
            lapsed: self.lapsed && of_verification,
        })
    }

    /// The smallest displayable indication from which every larger one proves the minimum; none: there is none, or
    /// nothing is known of the tester. `step` as for [`Self::guard`].
    #[must_use]
    pub fn smallest(&self, policy: ValuePolicy, minimum: Ohms, step: Ohms) -> Option<Ohms> {
        let guard = |range: Option<&Range>, span: &Span| match policy {
            ValuePolicy::Simple => Some((Decimal::ZERO, Decimal::ZERO)),
            ValuePolicy::Guarded => self.source(range, span)?.parts(),
        };
        let spans = self.spans();
        let from_the_top = || spans.iter().rev();
        match self.card.map(|card| card.ranges.as_slice()) {
            None | Some([]) => {
                let steps = |span: &Span| Steps::without_end(step, guard(None, span))?.within(span.after, span.upto);
                smallest(minimum, from_the_top().map(steps))
            }
            Some(ranges) => {
                let of_range = |i: usize| {
                    let below = ranges[..i].iter().map(|range| range.to_ohm).max();
                    let range = ranges.get(i);
                    from_the_top()
                        .map(move |span| Steps::of(range?, below, guard(range, span))?.within(span.after, span.upto))
                };
                smallest(minimum, (0..ranges.len()).rev().flat_map(of_range))
            }
        }
    }

    /// The indications for which one budget counts; without one all of them.
    fn spans(&self) -> Vec<Span> {
        let whole = || vec![Span { after: None, upto: None, percent: Percent::default() }];
        self.budget.map_or_else(whole, |budget| budget.spans())
    }

    /// The card's range that holds an indication, the lower one where two do.
    fn range(&self, indicated: Ohms) -> Option<&Range> {
        self.card?.ranges.iter().find(|range| range.from_ohm <= indicated && indicated <= range.to_ohm)
    }

    fn source(&self, range: Option<&Range>, span: &Span) -> Option<GuardSource> {
        let of_span =
            |budget: Budget<'_>| GuardSource::Budget { verification: budget.verification, percent: span.percent };
        let budget = self.budget.map(of_span);
        let operating = || {
            self.operating.map(|(verification, percent)| GuardSource::OperatingUncertainty { verification, percent })
        };
        let stated = || {
            let percent = self.card?.operating_uncertainty_percent?;
            Some(GuardSource::StatedOperatingUncertainty { percent })
        };
        let accuracy = || {
            let range = range?;
            let digits = range.accuracy_digits.unwrap_or(0);
            Some(GuardSource::Accuracy {
                percent: range.accuracy_percent?,
                digits,
                resolution_ohm: range.resolution_ohm,
            })
        };
        let conforming = || self.conforms.then_some(GuardSource::Conforming { percent: CONFORMING });
        budget.or_else(operating).or_else(stated).or_else(accuracy).or_else(conforming)
    }
}

impl Guard {
    /// w as a share of the indication it was worked out at, %; `None` at zero or beyond all arithmetic.
    #[must_use]
    pub fn percent_of(&self, indicated: Ohms) -> Option<Percent> {
        self.w_ohm.0.checked_div(indicated.0)?.checked_mul(Decimal::ONE_HUNDRED).map(Percent)
    }
}

impl GuardSource {
    /// w at an indication: p·R + n·resolution, exact. `None` where the figures are beyond all arithmetic.
    #[must_use]
    pub fn width(&self, indicated: Ohms) -> Option<Ohms> {
        let (share, fixed) = self.parts()?;
        indicated.0.checked_mul(share)?.checked_add(fixed).map(Ohms)
    }

    /// p as a share of one, and n·resolution, Ω.
    fn parts(&self) -> Option<(Decimal, Decimal)> {
        let (percent, fixed) = match self {
            Self::Budget { percent, .. }
            | Self::OperatingUncertainty { percent, .. }
            | Self::StatedOperatingUncertainty { percent }
            | Self::Conforming { percent } => (percent, Decimal::ZERO),
            Self::Accuracy { percent, digits, resolution_ohm } => {
                (percent, resolution_ohm.0.checked_mul(Decimal::from(*digits))?)
            }
        };
        Some((percent.0.checked_div(Decimal::ONE_HUNDRED)?, fixed))
    }
}
