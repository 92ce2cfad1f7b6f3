//! Sentences about the tester of a reading, and the line of the header.

use crate::words::Words;
use chrono::NaiveDate;
use fluent_bundle::FluentValue;
use provenohm_assess::ids::VerificationId;
use provenohm_assess::judgement::{TesterJudgement, TesterReason, TesterRemark, TesterState};
use provenohm_assess::moment::When;
use provenohm_assess::quantity::Ohms;
use provenohm_assess::reading::Reading;
use provenohm_assess::tester::{Interval, ProofEvent, ProofKind, RequirementName, TesterHistory, Verification};

/// What the sentences need of a tester beside the judgement.
#[derive(Clone, Copy, Debug)]
pub struct AboutTester<'a> {
    /// What people call it: `Tester A`.
    pub name: &'a str,
    /// Its history, for certificate numbers.
    pub history: Option<&'a TesterHistory>,
    /// The day on the screen; absent on paper, where "ago" would mean nothing.
    pub today: Option<NaiveDate>,
}

impl AboutTester<'_> {
    fn verification(&self, id: VerificationId) -> Option<&Verification> {
        self.history?.events.iter().find_map(|event| match event {
            ProofEvent::Verification(verification) if verification.id == id => Some(verification),
            _ => None,
        })
    }
}

impl Words {
    /// The state in a word or two: `proved`, `found good afterwards`.
    #[must_use]
    pub fn tester_state(&self, state: TesterState) -> String {
        self.text(match state {
            TesterState::Proved => "said-state-proved",
            TesterState::Lapsed => "said-state-lapsed",
            TesterState::NotProved => "said-state-not-proved",
            TesterState::FoundGoodAfterwards => "said-state-found-good-afterwards",
            TesterState::InDoubt => "said-state-in-doubt",
            TesterState::Barred => "said-state-barred",
            TesterState::NotChosen => "said-state-not-chosen",
        })
    }

    /// The line of the header: the tester and its state now, `Tester A · proved to 3 Mar 2027`.
    #[must_use]
    pub fn tester_header(&self, judgement: &TesterJudgement, about: &AboutTester<'_>) -> String {
        let tester = ("tester", about.name.into());
        match (judgement.state, judgement.reasons.first(), about.today) {
            (TesterState::NotChosen, ..) => self.text("said-header-none"),
            (TesterState::Proved, Some(TesterReason::ProvedBy { valid_until, .. }), _) => {
                self.text_with("said-header-proved", &[tester, ("until", self.date(*valid_until).into())])
            }
            (TesterState::Lapsed, Some(TesterReason::LapsedOn { valid_until: Some(until), .. }), Some(today)) => {
                self.text_of_span("said-header-lapsed", *until, today, &[tester])
            }
            (state, ..) => self.text_with("said-header-state", &[tester, ("state", self.tester_state(state).into())]),
        }
    }

    /// What is said of the tester of a reading: the sentence of the reason that decided.
    #[must_use]
    pub fn tester_sentence(&self, judgement: &TesterJudgement, about: &AboutTester<'_>, reading: &Reading) -> String {
        match judgement.reasons.first() {
            Some(reason) => self.tester_reason(reason, about, reading),
            None => self.tester_header(judgement, about),
        }
    }

    /// The sentence of one reason.
    #[must_use]
    pub fn tester_reason(&self, reason: &TesterReason, about: &AboutTester<'_>, reading: &Reading) -> String {
        let volts = ("volts", self.volts(reading.test_voltage_v).into());
        let said = |key: &str, args: &[(&str, FluentValue<'_>)]| {
            let mut filled = vec![("tester", about.name.into())];
            filled.extend_from_slice(args);
            self.text_with(key, &filled)
        };
        match reason {
            TesterReason::ProvedBy { verification, made, valid_until, recorded_later } => {
                let args = self.proof(about, *verification, *made, *valid_until);
                match recorded_later {
                    Some(recorded) => {
                        let recorded = ("recorded", self.date(recorded.date_naive()).into());
                        said("said-tester-proved-recorded-later", &[&args[..], &[recorded]].concat())
                    }
                    None => said("said-tester-proved", &args),
                }
            }
            TesterReason::LapsedOn { valid_until: Some(until), .. } => {
                let taken = reading.at.date_naive();
                // "Ago" is said on the day of the reading only; later it would no longer be its age then.
                if about.today == Some(taken) {
                    self.text_of_span("said-tester-lapsed", *until, taken, &[("tester", about.name.into())])
                } else {
                    said("said-tester-lapsed-on", &[("until", self.date(*until).into())])
                }
            }
            TesterReason::LapsedOn { valid_until: None, .. } => said("said-tester-lapsed-no-date", &[]),
            TesterReason::NothingOnRecord => said("said-tester-nothing-on-record", &[volts]),
            TesterReason::VoltageNotCovered { test_voltage_v } => {
                said("said-tester-voltage-not-covered", &[("volts", self.volts(*test_voltage_v).into())])
            }
            TesterReason::OutsideProvedRange { holds } if holds.is_empty() => {
                said("said-tester-outside-proved-range-nowhere", &[volts])
            }
            TesterReason::OutsideProvedRange { holds } => {
                said("said-tester-outside-proved-range", &[volts, ("holds", self.intervals(holds).into())])
            }
            TesterReason::AdjustedSince { made } => {
                said("said-tester-adjusted-since", &[("made", self.day(*made).into())])
            }
            TesterReason::NotAllTested { .. } => said("said-tester-not-all-tested", &[]),
            TesterReason::ConditionallyFailed { .. } => said("said-tester-conditionally-failed", &[]),
            TesterReason::NoRangeStated { .. } => said("said-tester-no-range-stated", &[volts]),
            TesterReason::LowEndNotTested { .. } => said("said-tester-low-end-not-tested", &[volts]),
            TesterReason::FailedBefore { made, requirement, point_ohm, .. } => {
                self.not_good("said-tester-not-good-before", about, *made, *requirement, *point_ohm)
            }
            TesterReason::QuickCheckFailedBefore { at, .. } => {
                said("said-tester-quick-check-before", &[("at", self.date_time(*at).into())])
            }
            TesterReason::DamagedBefore { at, .. } => {
                said("said-tester-damaged-before", &[("at", self.date_time(*at).into())])
            }
            TesterReason::FailedAfter { made, requirement, point_ohm, .. } => {
                self.not_good("said-tester-not-good-after", about, *made, *requirement, *point_ohm)
            }
            TesterReason::QuickCheckFailedAfter { at, .. } => {
                said("said-tester-quick-check-after", &[("at", self.date_time(*at).into())])
            }
            TesterReason::DamagedAfter { at, .. } => {
                said("said-tester-damaged-after", &[("at", self.date_time(*at).into())])
            }
            TesterReason::GoodAfter { made, .. } => said("said-tester-good-after", &[("made", self.day(*made).into())]),
            TesterReason::NotConfirmable { .. } => said("said-tester-not-confirmable", &[]),
            TesterReason::NoTester => self.text("said-tester-none"),
            TesterReason::LiveValues => said("said-tester-live-values", &[]),
        }
    }

    /// The sentence of a reason that did not decide, beside the one that did: what held when the reading was taken is said
    /// of that day, so that it does not speak against what was found later.
    #[must_use]
    pub fn tester_reason_beside(&self, reason: &TesterReason, about: &AboutTester<'_>, reading: &Reading) -> String {
        match reason {
            TesterReason::ProvedBy { verification, made, valid_until, .. } => {
                let mut args = self.proof(about, *verification, *made, *valid_until);
                args.push(("taken", self.date(reading.at.date_naive()).into()));
                self.text_with("said-tester-proved-then", &args)
            }
            _ => self.tester_reason(reason, about, reading),
        }
    }

    /// What a sentence says of a proof: its tester, its paper, its dates.
    fn proof<'a>(
        &self,
        about: &AboutTester<'a>,
        verification: VerificationId,
        made: When,
        valid_until: NaiveDate,
    ) -> Vec<(&'static str, FluentValue<'a>)> {
        let proof = about.verification(verification);
        let certificate = proof.and_then(|proof| proof.certificate.clone());
        let paper = match (&certificate, proof.map(|proof| proof.kind)) {
            (Some(_), _) => "certificate",
            (None, Some(ProofKind::Calibration)) => "calibration",
            (None, _) => "bench",
        };
        vec![
            ("tester", about.name.into()),
            ("paper", paper.into()),
            ("certificate", certificate.unwrap_or_default().into()),
            ("made", self.day(made).into()),
            ("until", self.date(valid_until).into()),
        ]
    }

    /// That a requirement of the tester standard is not met, for what a verification says: `rated current not met`.
    #[must_use]
    pub fn requirement_not_met(&self, requirement: RequirementName) -> String {
        self.text_with("said-tester-requirement-not-met", &[("requirement", selector(requirement).into())])
    }

    /// That a verification found it failed: on the whole, in a requirement, or at a known resistance.
    fn not_good(
        &self,
        key: &str,
        about: &AboutTester<'_>,
        made: When,
        requirement: Option<RequirementName>,
        point: Option<Ohms>,
    ) -> String {
        let tester = ("tester", about.name.into());
        let made = ("made", self.day(made).into());
        match (requirement, point) {
            (Some(requirement), _) => self.text_with(
                &format!("{key}-requirement"),
                &[tester, made, ("requirement", selector(requirement).into())],
            ),
            (None, Some(point)) => {
                self.text_with(&format!("{key}-point"), &[tester, made, ("point", self.ohms(point).into())])
            }
            (None, None) => self.text_with(key, &[tester, made]),
        }
    }

    /// The sentence of one remark on the proof.
    #[must_use]
    pub fn tester_remark(&self, remark: &TesterRemark) -> String {
        match remark {
            TesterRemark::HoldsOnCondition => self.text("said-remark-holds-on-condition"),
            TesterRemark::LowEndNotShown => self.text("said-remark-low-end-not-shown"),
            TesterRemark::RequirementNotTested { requirement } => {
                self.text_with("said-remark-not-tested", &[("requirement", selector(*requirement).into())])
            }
            TesterRemark::RequirementFailed { requirement } => {
                self.text_with("said-remark-not-met", &[("requirement", selector(*requirement).into())])
            }
            TesterRemark::CardRangeStandsIn => self.text("said-remark-card-range-stands-in"),
            TesterRemark::NotAllTested => self.text("said-remark-not-all-tested"),
            TesterRemark::DoesNotConform => self.text("said-remark-does-not-conform"),
        }
    }

    /// A tester by name and serial number: `Tester A, serial number 1001`; of one without, that it has none.
    #[must_use]
    pub fn tester_named(&self, name: &str, serial: &str) -> String {
        let key = if serial.trim().is_empty() { "said-tester-without-serial" } else { "said-tester-with-serial" };
        self.text_with(key, &[("tester", name.into()), ("serial", serial.into())])
    }

    /// Intervals of resistance: `0.5 MΩ to 1 GΩ`.
    #[must_use]
    pub fn intervals(&self, intervals: &[Interval]) -> String {
        let each = intervals.iter().map(|interval| {
            self.text_with(
                if interval.conditional { "said-interval-on-condition" } else { "said-interval" },
                &[("from", self.ohms(interval.from_ohm).into()), ("to", self.ohms(interval.to_ohm).into())],
            )
        });
        each.collect::<Vec<_>>().join(", ")
    }
}

/// The variant of a message that speaks of a requirement.
pub(crate) const fn selector(requirement: RequirementName) -> &'static str {
    match requirement {
        RequirementName::OperatingUncertainty => "operating-uncertainty",
        RequirementName::OpenCircuitVoltage => "open-circuit-voltage",
        RequirementName::RatedCurrent => "rated-current",
        RequirementName::ShortCircuitCurrent => "short-circuit-current",
    }
}
