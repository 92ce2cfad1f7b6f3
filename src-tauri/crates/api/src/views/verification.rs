//! Verifications of a tester, as entered by hand.

use provenohm_assess::ids::{TesterId, VerificationId};
use provenohm_assess::judgement::Level;
use provenohm_assess::tester::{Conforms, Outcome, ProofKind};

told! {
    /// What a verification form offers, with words.
    pub struct VerificationChoices {
        /// Laboratory or bench.
        pub kinds: Vec<super::Choice>,
        /// Results as found and as left.
        pub outcomes: Vec<super::Choice>,
        /// Against the tester standard.
        pub conforms: Vec<super::Choice>,
    }

    /// A last day, to be taken or not.
    pub struct LastDay {
        /// As it would be typed.
        pub date: String,
        /// Where it comes from.
        pub words: String,
    }

    /// One verification on record.
    pub struct VerificationView {
        /// Its id.
        pub id: VerificationId,
        /// Date, kind and who.
        pub title: String,
        /// What it says, a line a test voltage.
        pub lines: Vec<String>,
        /// How much attention it asks for.
        pub level: Level,
        /// When it was entered, in words.
        pub recorded: String,
        /// Why it was withdrawn, if it was.
        pub withdrawn: Option<String>,
        /// What can be edited, as typed, to replace it.
        pub form: VerificationForm,
    }
}

asked! {
    /// A verification as typed.
    pub struct VerificationForm {
        /// The day it was made.
        pub date: String,
        /// The time, if the paper gives one.
        #[serde(default)]
        pub time: String,
        /// Its last day; empty: none was set.
        #[serde(default)]
        pub valid_until: String,
        /// Laboratory or bench.
        pub kind: ProofKind,
        /// Who made it.
        #[serde(default)]
        pub by: String,
        /// Certificate number.
        #[serde(default)]
        pub certificate: String,
        /// Whether the tester was adjusted.
        #[serde(default)]
        pub adjusted: bool,
        /// The paper says *failed* without saying where.
        #[serde(default)]
        pub failed_on_the_whole: bool,
        /// Per test voltage.
        #[serde(default)]
        pub findings: Vec<FindingForm>,
    }

    /// What it says of one test voltage, as typed.
    pub struct FindingForm {
        /// V d.c.
        pub volts: String,
        /// Before any adjustment.
        #[serde(default)]
        pub as_found: Outcome,
        /// After the adjustment, or the one result where nothing was adjusted.
        #[serde(default)]
        pub as_left: Outcome,
        /// Against the tester standard.
        #[serde(default)]
        pub conforms: Conforms,
        /// Edition of the tester standard.
        #[serde(default)]
        pub edition: String,
        /// Where indications hold; empty: the certificate does not say.
        #[serde(default)]
        pub holds: Vec<HoldsForm>,
        /// Operating uncertainty, %; empty: not known.
        #[serde(default)]
        pub operating_percent: String,
    }

    /// An interval where indications hold, as typed.
    pub struct HoldsForm {
        /// Lower end, for example `0.1 MΩ`.
        pub from: String,
        /// Upper end.
        pub to: String,
    }

    /// A verification to record.
    pub struct RecordVerification {
        /// The tester.
        pub tester: TesterId,
        /// What the paper says.
        pub form: VerificationForm,
        /// The verification it replaces, if it corrects one.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub replaces: Option<VerificationId>,
        /// Why it is replaced.
        #[serde(default)]
        pub reason: String,
    }

    /// Asks for the last day that the tester's interval gives a verification.
    pub struct SuggestLastDay {
        /// The tester.
        pub tester: TesterId,
        /// The day it was made, as typed.
        pub date: String,
    }

    /// A verification to withdraw.
    pub struct WithdrawVerification {
        /// Its tester.
        pub tester: TesterId,
        /// The verification.
        pub verification: VerificationId,
        /// Why.
        pub reason: String,
    }
}
