//! Signing off, and what is said of files that were signed.

use super::{ReadyLine, Sentence};
use provenohm_assess::ids::JobId;

told! {
    /// What would be signed, what stops it, and what was signed before.
    pub struct SignOffView {
        /// The job.
        pub job: JobId,
        /// Its name.
        pub title: String,
        /// What there is, counted in words.
        pub counts: Vec<String>,
        /// Why it cannot be signed now; absent: it can.
        pub blocked: Option<Sentence>,
        /// The testers used, each with the verifications on record.
        pub testers: Vec<SignOffTester>,
        /// What is open: looked at and signed with.
        pub open: Vec<ReadyLine>,
        /// Which sign-off it would be, and over what.
        pub covers: String,
        /// What the one button says.
        pub button: String,
        /// Sign-offs of the job, the newest first.
        pub signed: Vec<SignedLine>,
    }

    /// A tester used on the job.
    pub struct SignOffTester {
        /// Its name and serial number.
        pub words: String,
        /// Its state for the readings taken with it.
        pub state: Sentence,
        /// Its verifications, a sentence each.
        pub verifications: Vec<String>,
    }

    /// One sign-off.
    pub struct SignedLine {
        /// Sent back to withdraw it.
        pub entry: String,
        /// Who signed, when, under which number.
        pub words: String,
        /// What has come since, or why it was withdrawn.
        pub since: Vec<Sentence>,
        /// What has come since, one line an entry; the first ones.
        pub later: Vec<String>,
        /// How many more there are.
        pub more: u32,
        /// Not withdrawn.
        pub stands: bool,
    }

    /// Everything that came after a sign-off.
    pub struct AfterSignOffView {
        /// One line an entry.
        pub lines: Vec<String>,
    }

    /// Whether a file is what was signed.
    pub struct VerifyView {
        /// Nothing was found that is not as it was written or signed.
        pub holds: bool,
        /// The first thing that is not; or that all is.
        pub words: String,
        /// Who signed what and when, and everything else found.
        pub lines: Vec<Sentence>,
    }
}

asked! {
    /// A sign-off.
    pub struct SignOffAsk {
        /// The job.
        pub job: JobId,
        /// The name of who signs, as typed.
        pub name: String,
    }

    /// A sign-off that stands.
    pub struct AfterSignOff {
        /// The job.
        pub job: JobId,
        /// Which sign-off.
        pub entry: String,
    }

    /// Files to look at: one, or the parts of one schedule.
    pub struct VerifyAsk {
        /// Each file's bytes, as Base64.
        pub files: Vec<String>,
    }

    /// A sign-off to take back.
    pub struct WithdrawSignOff {
        /// The job.
        pub job: JobId,
        /// Which sign-off.
        pub entry: String,
        /// The name of who withdraws it, as typed.
        pub name: String,
        /// Why.
        pub reason: String,
    }
}
