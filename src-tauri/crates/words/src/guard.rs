//! How a guard came about, figure by figure.

use crate::words::Words;
use provenohm_assess::judgement::{Guard, GuardSource};
use provenohm_assess::limits::Limit;
use provenohm_assess::quantity::{Comparator, Ohms, Percent, Shown};

impl Words {
    /// Every figure of a guard: w, the acceptance limit L + w, the smallest indication that proves L. Figures
    /// stand in the unit of the reading.
    #[must_use]
    pub fn guard_lines(&self, guard: &Guard, limit: &Limit, shown: &Shown) -> Vec<String> {
        let w = self.ohms_worked_out(guard.w_ohm, shown.unit);
        let bare_limit = self.ohms_in(limit.minimum_ohm, shown.unit);
        let mut lines = vec![
            self.guard_source(&guard.source, &w, shown),
            self.text_with(
                "said-guard-acceptance",
                &[
                    ("limit", bare_limit.as_str().into()),
                    ("w", w.as_str().into()),
                    ("acceptance", self.ohms_worked_out(guard.acceptance_ohm, shown.unit).into()),
                ],
            ),
            match guard.smallest_ohm {
                Some(smallest) => self.text_with(
                    "said-guard-smallest",
                    &[("limit", bare_limit.as_str().into()), ("smallest", self.ohms_in(smallest, shown.unit).into())],
                ),
                None => self.text_with("said-guard-smallest-unknown", &[("limit", bare_limit.as_str().into())]),
            },
        ];
        if guard.lapsed {
            lines.push(self.text("said-guard-lapsed"));
        }
        lines
    }

    /// From which indication on this tester proves the limit, and from what that was made, for the entry line:
    /// `Proves 1.0 MΩ from 1.06 MΩ, by ±(3 % + 2 digits)`.
    #[must_use]
    pub fn proves_from(&self, limit: &Limit, smallest: Ohms, source: Option<&GuardSource>) -> String {
        let [limit, smallest] =
            [("limit", self.ohms(limit.minimum_ohm).into()), ("smallest", self.ohms(smallest).into())];
        let Some(source) = source else { return self.text_with("said-hint-smallest", &[limit, smallest]) };
        self.text_with("said-hint-smallest-by", &[limit, smallest, ("by", self.made_from(source).into())])
    }

    /// From which figure of a tester something was made: `by ±(3 % + 2 digits)`.
    #[must_use]
    pub fn made_from(&self, source: &GuardSource) -> String {
        let (by, percent, digits) = match source {
            GuardSource::Budget { percent, .. } => ("budget", percent, 0),
            GuardSource::OperatingUncertainty { percent, .. } => ("operating", percent, 0),
            GuardSource::StatedOperatingUncertainty { percent } => ("stated", percent, 0),
            GuardSource::Accuracy { percent, digits, .. } => ("accuracy", percent, *digits),
            GuardSource::Conforming { percent } => ("conforming", percent, 0),
        };
        let args = [("by", by.into()), ("percent", self.percent(*percent).into()), ("digits", digits.into())];
        self.text_with("said-made-by", &args)
    }

    fn guard_source(&self, source: &GuardSource, w: &str, shown: &Shown) -> String {
        // The share is taken of the figure shown, whatever stands before it.
        let shown = &Shown { comparator: Comparator::Exact, ..*shown };
        let share = |key: &str, percent: Percent| {
            self.text_with(
                key,
                &[("percent", self.percent(percent).into()), ("reading", self.reading(shown).into()), ("w", w.into())],
            )
        };
        match source {
            GuardSource::Budget { percent, .. } => share("said-guard-budget", *percent),
            GuardSource::OperatingUncertainty { percent, .. } => share("said-guard-operating", *percent),
            GuardSource::StatedOperatingUncertainty { percent } => share("said-guard-stated-operating", *percent),
            GuardSource::Conforming { percent } => share("said-guard-conforming", *percent),
            GuardSource::Accuracy { percent, digits, resolution_ohm } => self.text_with(
                "said-guard-accuracy",
                &[
                    ("percent", self.percent(*percent).into()),
                    ("reading", self.reading(shown).into()),
                    ("digits", self.count(u64::from(*digits)).into()),
                    ("resolution", self.step(*resolution_ohm, shown.unit).into()),
                    ("w", w.into()),
                ],
            ),
        }
    }
}
