//! Checks of a tester between verifications, and damage.

use super::{Choice, Sentence};
use provenohm_assess::ids::TesterId;
use provenohm_assess::judgement::Level;
use provenohm_assess::recall::FailingEntry;

told! {
    /// The thirty-second routine.
    pub struct QuickCheckView {
        /// The tester.
        pub tester: TesterId,
        /// What to connect, step by step.
        pub steps: Vec<String>,
        /// Test voltages of its card.
        pub volts: Vec<Choice>,
        /// The form it starts with: the resistances of the box last used on this device, nothing shown.
        pub form: QuickCheckForm,
        /// When it was last checked, in words.
        pub last: Sentence,
    }

    /// A quick check or a report of damage on record.
    pub struct CheckView {
        /// Which.
        pub entry: FailingEntry,
        /// Date and what it is.
        pub title: String,
        /// What it says.
        pub lines: Vec<String>,
        /// How much attention it asks for.
        pub level: Level,
        /// Why it was withdrawn, if it was.
        pub withdrawn: Option<String>,
    }
}

asked! {
    /// A quick check as typed.
    pub struct QuickCheckForm {
        /// V d.c. the box was read at; empty: the box was not used.
        #[serde(default)]
        pub volts: String,
        /// The resistances of the box.
        #[serde(default)]
        pub points: Vec<QuickPointForm>,
        /// What was shown with the leads open; empty: not done.
        #[serde(default)]
        pub open: String,
        /// What was shown with the leads shorted; empty: not done.
        #[serde(default)]
        pub shorted: String,
    }

    /// One resistance of the box, as typed.
    pub struct QuickPointForm {
        /// The known resistance.
        pub known: String,
        /// Its uncertainty, %; empty: not known.
        #[serde(default)]
        pub uncertainty_percent: String,
        /// What was shown; empty: not read.
        #[serde(default)]
        pub shown: String,
    }

    /// A quick check to record.
    pub struct RecordQuickCheck {
        /// The tester.
        pub tester: TesterId,
        /// What was shown.
        pub form: QuickCheckForm,
    }

    /// A report of damage.
    pub struct ReportDamage {
        /// The tester.
        pub tester: TesterId,
        /// What happened, in words.
        pub what: String,
        /// The day it happened; empty: at some time since its last good proof.
        #[serde(default)]
        pub date: String,
        /// The time of that day.
        #[serde(default)]
        pub time: String,
    }

    /// A quick check or report of damage to withdraw.
    pub struct WithdrawCheck {
        /// The tester.
        pub tester: TesterId,
        /// Which.
        pub entry: FailingEntry,
        /// Why.
        pub reason: String,
    }
}
