//! Testers and their cards.

use super::{CheckView, Sentence, TesterLine, VerificationChoices, VerificationForm, VerificationView};
use provenohm_assess::ids::TesterId;
use provenohm_assess::tester::Ranging;

told! {
    /// The testers on this device.
    pub struct TestersView {
        /// By name.
        pub testers: Vec<TesterLine>,
    }

    /// One tester.
    pub struct TesterView {
        /// The tester.
        pub id: TesterId,
        /// Who it is.
        pub identity: TesterIdentity,
        /// Its card, as typed.
        pub card: CardForm,
        /// The card in words, a line a test voltage.
        pub card_words: Vec<String>,
        /// Its state today, a line a test voltage.
        pub state: Vec<Sentence>,
        /// Verifications, newest first.
        pub verifications: Vec<VerificationView>,
        /// Quick checks and damage, newest first.
        pub checks: Vec<CheckView>,
        /// When it is due, in words; absent where nothing sets a last day.
        pub due: Option<Sentence>,
        /// What its own history proposes for its interval, with every figure; none: nothing was found yet.
        pub proposal: Vec<String>,
        /// From one verification to the next, in words.
        pub interval: String,
        /// How many readings it puts in doubt; none: nothing of it failed.
        pub in_doubt: Option<Sentence>,
        /// Invented, to try the program with.
        pub invented: bool,
        /// The form a new verification starts with: the card's test voltages, nothing stated.
        pub fresh: VerificationForm,
        /// What a verification form offers.
        pub choices: VerificationChoices,
        /// What the last act changed, in words.
        pub words: Option<String>,
    }
}

asked! {
    /// Who a tester is.
    pub struct TesterIdentity {
        /// What people call it.
        pub name: String,
        /// Serial number.
        pub serial: String,
        /// Its type as marked.
        #[serde(default)]
        pub model: String,
    }

    /// A card as typed.
    pub struct CardForm {
        /// Per test voltage.
        pub voltages: Vec<VoltageForm>,
        /// Its papers say it conforms to IEC 61557-2.
        #[serde(default)]
        pub conforms: bool,
        /// The most it shows with the leads shorted, for example `0.05 MΩ`; empty: near zero.
        #[serde(default)]
        pub shorted_up_to: String,
        /// Months from one verification to the next; empty: 12.
        #[serde(default)]
        pub interval_months: String,
        /// Who chooses its ranges; absent: not stated.
        #[serde(default)]
        pub ranging: Option<Ranging>,
    }

    /// One test voltage of a card, as typed.
    pub struct VoltageForm {
        /// V d.c.
        pub volts: String,
        /// `999 MΩ`; empty: not set.
        #[serde(default)]
        pub over_range: String,
        /// Stated operating uncertainty, %; empty: not stated.
        #[serde(default)]
        pub operating_percent: String,
        /// Ranges, lowest first.
        #[serde(default)]
        pub ranges: Vec<RangeForm>,
    }

    /// One range, as typed.
    pub struct RangeForm {
        /// Lower end, for example `0.05 MΩ`.
        pub from: String,
        /// Upper end.
        pub to: String,
        /// Step of the display.
        pub resolution: String,
        /// Accuracy, % of the reading; empty: not stated.
        #[serde(default)]
        pub percent: String,
        /// Accuracy, digits; empty: none.
        #[serde(default)]
        pub digits: String,
    }

    /// A new tester, or a change to one.
    pub struct SaveTester {
        /// The tester; absent: a new one.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub tester: Option<TesterId>,
        /// Who it is.
        pub identity: TesterIdentity,
        /// Its card.
        pub card: CardForm,
    }
}
