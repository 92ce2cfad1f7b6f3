//! Sentences about a reading's value: predicates that follow the reading they stand beside.

use crate::words::Words;
use provenohm_assess::judgement::{Judgement, MethodReason, Value, ValueJudgement, ValueReason};
use provenohm_assess::limits::Limit;
use provenohm_assess::quantity::Volts;
use provenohm_assess::reading::Reading;

impl Words {
    /// The value in a word or two: `meets`, `below`, `too close to call`, `cannot be judged`.
    #[must_use]
    pub fn value(&self, value: Value) -> String {
        self.text(match value {
            Value::Meets => "said-value-meets",
            Value::TooClose => "said-value-too-close",
            Value::CannotBeJudged => "said-value-cannot-be-judged",
            Value::Below => "said-value-below",
        })
    }

    /// What is said of the value, naming the limit and always the test voltage the reading was taken at:
    /// `meets 1.0 MΩ at 500 V`.
    #[must_use]
    pub fn value_sentence(&self, judgement: &Judgement, reading: &Reading) -> String {
        let said = &judgement.value;
        match (said.value, &said.limit) {
            (Value::CannotBeJudged, limit) => self.cannot_be_judged(&said.reason, limit.as_ref(), reading),
            (_, None) => self.text_with("said-judged-without-limit", &[("volts", self.taken(reading).into())]),
            (Value::Meets, Some(limit)) => self.compared("said-meets-limit", limit, reading),
            (Value::Below, Some(limit)) => match higher_voltage(judgement) {
                Some(asked) => self.text_with(
                    "said-below-limit-higher-voltage",
                    &[
                        ("limit", self.ohms(limit.minimum_ohm).into()),
                        ("volts", self.taken(reading).into()),
                        ("asked", self.volts(asked).into()),
                    ],
                ),
                None => self.compared("said-below-limit", limit, reading),
            },
            (Value::TooClose, Some(limit)) => self.too_close(said, limit, reading),
        }
    }

    fn taken(&self, reading: &Reading) -> String {
        self.volts(reading.test_voltage_v)
    }

    fn compared(&self, key: &str, limit: &Limit, reading: &Reading) -> String {
        self.text_with(key, &[("limit", self.ohms(limit.minimum_ohm).into()), ("volts", self.taken(reading).into())])
    }

    fn too_close(&self, said: &ValueJudgement, limit: &Limit, reading: &Reading) -> String {
        if let ValueReason::ClaimCut { top_ohm } = said.reason {
            return self.text_with(
                "said-too-close-claim-cut",
                &[("volts", self.taken(reading).into()), ("top", self.ohms(top_ohm).into())],
            );
        }
        let acceptance = match &said.guard {
            Some(guard) => guard.smallest_ohm.map_or_else(
                || self.ohms_worked_out(guard.acceptance_ohm, reading.shown.unit),
                |smallest| self.ohms_in(smallest, reading.shown.unit),
            ),
            None => self.ohms(limit.minimum_ohm),
        };
        self.text_with(
            "said-too-close",
            &[
                ("reading", self.reading(&reading.shown).into()),
                ("volts", self.taken(reading).into()),
                ("acceptance", acceptance.into()),
            ],
        )
    }

    fn cannot_be_judged(&self, reason: &ValueReason, limit: Option<&Limit>, reading: &Reading) -> String {
        let volts = ("volts", self.taken(reading).into());
        match (reason, limit) {
            (ValueReason::OpenTowardsLimit | ValueReason::Compared, Some(limit)) => self.text_with(
                "said-open-towards-limit",
                &[
                    ("reading", self.reading(&reading.shown).into()),
                    ("limit", self.ohms(limit.minimum_ohm).into()),
                    volts,
                ],
            ),
            (ValueReason::OpenTowardsLimit | ValueReason::Compared | ValueReason::NoLimit, _) => {
                self.text_with("said-no-limit", &[volts])
            }
            (ValueReason::NoUncertainty, _) => self.text_with("said-no-uncertainty", &[volts]),
            (ValueReason::LowerVoltage { asked_v }, _) => {
                self.text_with("said-lower-voltage", &[volts, ("asked", self.volts(*asked_v).into())])
            }
            (ValueReason::ClaimCut { top_ohm }, _) => {
                self.text_with("said-claim-cut", &[volts, ("top", self.ohms(*top_ohm).into())])
            }
            (ValueReason::MembersDiffer, _) => self.text_with("said-members-differ", &[volts]),
            (ValueReason::TooManyLiveValues, _) => self.text_with("said-too-many-live-values", &[volts]),
        }
    }
}

/// What the set asks for, where the reading was taken at more.
fn higher_voltage(judgement: &Judgement) -> Option<Volts> {
    judgement.method.iter().find_map(|reason| match reason {
        MethodReason::HigherVoltage { asked_v, .. } => Some(*asked_v),
        _ => None,
    })
}
