//! What is said of a limit set that cannot be taken, and of a circuit a set has nothing for.

use crate::words::Words;
use provenohm_assess::circuit::{MeasureName, PairKind};
use provenohm_assess::limits::{NoLimit, SetComplaint, SetReason};

impl Words {
    /// Why a limit set's file is refused: line, column and reason.
    #[must_use]
    pub fn set_complaint(&self, complaint: &SetComplaint) -> String {
        let mut args = vec![("line", complaint.line.into()), ("column", complaint.column.into())];
        let key = match &complaint.reason {
            SetReason::Unreadable(detail) => {
                args.push(("detail", self.json_complaint(detail).into()));
                "said-set-unreadable"
            }
            SetReason::TooLong { most } => {
                args.push(("most", (*most).into()));
                "said-set-too-long"
            }
            SetReason::Id => "said-set-id",
            SetReason::Version => "said-set-version",
            SetReason::Title => "said-set-title",
            SetReason::NoRows => "said-set-no-rows",
            SetReason::NotAboveZero => "said-set-not-above-zero",
            SetReason::EmptyBand => "said-set-empty-band",
            SetReason::NeverUsed { earlier } => {
                args.push(("earlier", (*earlier).into()));
                "said-set-never-used"
            }
            SetReason::NotReduced => "said-set-not-reduced",
            SetReason::EmptyList => "said-set-empty-list",
            SetReason::RequiredAndForbidden { kind } => {
                args.push(("kind", self.pair_kind(*kind).into()));
                "said-set-required-and-excluded"
            }
            SetReason::NoPairs { measure, conductors, loads } => {
                args.push(("measure", self.measure_name(*measure).into()));
                args.push(("conductors", self.conductors(*conductors).into()));
                args.push(("loads", self.loads(*loads).into()));
                "said-set-no-pairs"
            }
        };
        self.text_with(key, &args)
    }

    /// Why a set gives no limit.
    #[must_use]
    pub fn no_limit(&self, why: &NoLimit) -> String {
        match why {
            NoLimit::NoRow { measure, volts } => self.text_with(
                "said-no-row",
                &[("measure", self.measure_name(*measure).into()), ("volts", self.volts(*volts).into())],
            ),
            NoLimit::NoPairs { measure } => {
                self.text_with("said-no-pairs", &[("measure", self.measure_name(*measure).into())])
            }
            NoLimit::MembersDiffer => self.text("said-pair-members-differ"),
            NoLimit::NoCircuit => self.text("said-pair-of-no-circuit"),
        }
    }

    /// A kind of pair.
    #[must_use]
    pub fn pair_kind(&self, kind: PairKind) -> String {
        self.text(match kind {
            PairKind::LiveLive => "said-kind-live-live",
            PairKind::LiveEarth => "said-kind-live-earth",
            PairKind::JoinedEarth => "said-kind-joined-earth",
            PairKind::JoinedOthers => "said-kind-joined-others",
            PairKind::GroupEarth => "said-kind-group-earth",
        })
    }

    /// A protective measure by name: `SELV`.
    #[must_use]
    pub fn measure_name(&self, measure: MeasureName) -> String {
        self.text(match measure {
            MeasureName::None => "said-measure-none",
            MeasureName::Selv => "said-measure-selv",
            MeasureName::Pelv => "said-measure-pelv",
            MeasureName::Felv => "said-measure-felv",
            MeasureName::Separation => "said-measure-separation",
        })
    }
}
