//! What waits for a person to settle, one thing after the other.

use super::{Done, UndoToken};
use provenohm_assess::ids::JobId;

told! {
    /// What waits to be settled in a job.
    pub struct SettlingView {
        /// The job.
        pub job: JobId,
        /// Its name.
        pub name: String,
        /// How many things wait, in words.
        pub words: String,
        /// One thing after the other, in the one order that holds on every device.
        pub questions: Vec<SettleQuestion>,
        /// What was settled and not taken back, the newest first.
        pub made: Vec<SettledLine>,
    }

    /// A choice somebody made.
    pub struct SettledLine {
        /// Where, and what was chosen.
        pub words: String,
        /// By whom, on which device, when.
        pub by: String,
        /// What takes it back; absent: it was made elsewhere or by somebody else.
        pub undo: Option<UndoToken>,
    }

    /// One thing to settle. Nothing is chosen beforehand.
    pub struct SettleQuestion {
        /// Sent back to `settle`. It names what was shown: once that is another, it is refused.
        pub id: String,
        /// What is asked, for example `Two readings of one pair`.
        pub asks: String,
        /// Whose it is, in words.
        pub place: String,
        /// What a choice does.
        pub says: String,
        /// What can be chosen, in the order of their keys 1, 2, …
        pub choices: Vec<SettleChoice>,
        /// Keeping all of them side by side, where that can be chosen: what it does.
        pub both: Option<String>,
    }

    /// One of what can be chosen.
    pub struct SettleChoice {
        /// Sent back to `settle`.
        pub id: String,
        /// The value.
        pub words: String,
        /// Who recorded it, on which device, when, and with which tester.
        pub lines: Vec<String>,
    }

    /// Something was settled.
    pub struct Settled {
        /// What now stands, and what takes the choice back.
        pub done: Done,
        /// What still waits.
        pub view: SettlingView,
    }
}

asked! {
    /// A choice. Everything chosen between stays in the record.
    pub struct Settle {
        /// The job it is in.
        pub job: JobId,
        /// The question's id.
        pub question: String,
        /// The id of a choice, or `both`.
        pub choice: String,
    }
}
