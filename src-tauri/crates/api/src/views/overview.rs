//! Many jobs at a glance, the testers that are due, and the readings whose tester was not proved.

use super::Sentence;
use provenohm_assess::ids::{BoardId, CircuitId, JobId, TesterId};
use provenohm_assess::judgement::TesterState;

told! {
    /// Every job on this device with what it lacks, the testers by when they are due, and the recalls.
    #[derive(schemars::JsonSchema)]
    pub struct OverviewView {
        /// In a sentence.
        pub words: String,
        /// Jobs, newest first.
        pub jobs: Vec<OverviewJob>,
        /// Testers, those that are due first.
        pub testers: Vec<TesterDue>,
        /// Testers that put readings in doubt, those with readings that nobody has resolved first.
        pub recalls: Vec<RecallProgress>,
    }

    /// One job at a glance. Figures are those of its own screens.
    #[derive(schemars::JsonSchema)]
    pub struct OverviewJob {
        /// The job.
        pub id: JobId,
        /// Name.
        pub name: String,
        /// Place.
        pub place: String,
        /// Invented, and says so.
        pub demo: bool,
        /// Circuits.
        pub circuits: u32,
        /// Slots that hold something.
        pub done: u32,
        /// Slots in all.
        pub of: u32,
        /// Both in words: `120 of 160`.
        pub progress: String,
        /// Things that block a sign-off.
        pub stop: u32,
        /// Things to look at.
        pub look: u32,
        /// New readings that are asked for.
        pub asked: u32,
        /// Things that wait to be settled.
        pub to_settle: u32,
        /// Required pairs without a reading, on boards that were begun.
        pub missing: u32,
        /// What it lacks, the gravest first; empty: nothing.
        pub lacks: Vec<Sentence>,
        /// Readings that stand and whose tester was not proved.
        pub unproved: u32,
        /// How many of them by the state of the tester, the gravest first.
        pub unproved_words: Vec<Sentence>,
        /// Readings in doubt.
        pub in_doubt: u32,
        /// Those of them that were resolved.
        pub resolved: u32,
        /// How far its recall is; absent: no reading of it is in doubt.
        pub recall: Option<Sentence>,
        /// A sign-off of it stands.
        pub is_signed: bool,
        /// Who signed it and what has come since, or that nobody did.
        pub signed: Vec<Sentence>,
    }

    /// When a tester is due.
    #[derive(schemars::JsonSchema)]
    pub struct TesterDue {
        /// The tester.
        pub id: TesterId,
        /// What people call it.
        pub name: String,
        /// Serial number.
        pub serial: String,
        /// Invented, and says so.
        pub invented: bool,
        /// Its state today.
        pub state: Sentence,
        /// The last day of the verification relied on; absent: nothing sets one.
        pub last_day: Option<String>,
        /// The same in ISO 8601.
        pub day: Option<String>,
        /// When the next verification is due.
        pub due: Sentence,
    }

    /// How far the recall of one tester is.
    #[derive(schemars::JsonSchema)]
    pub struct RecallProgress {
        /// The tester.
        pub tester: TesterId,
        /// What people call it.
        pub name: String,
        /// Serial number.
        pub serial: String,
        /// Jobs with readings in doubt.
        pub jobs: u32,
        /// Readings in doubt.
        pub all: u32,
        /// Those of them that were resolved.
        pub resolved: u32,
        /// All of that in words.
        pub said: Sentence,
    }

    /// Jobs with readings whose tester was not proved.
    #[derive(schemars::JsonSchema)]
    pub struct UnprovedView {
        /// In a sentence.
        pub words: String,
        /// Jobs, newest first.
        pub jobs: Vec<UnprovedJob>,
    }

    /// One job with such readings.
    #[derive(schemars::JsonSchema)]
    pub struct UnprovedJob {
        /// The job.
        pub job: JobId,
        /// Its name.
        pub name: String,
        /// Its place.
        pub place: String,
        /// How many.
        pub count: u32,
        /// That in words.
        pub words: String,
        /// Its readings by tester and reason, the gravest first.
        pub groups: Vec<UnprovedGroup>,
    }

    /// Readings of one tester that are not proved for one reason.
    #[derive(schemars::JsonSchema)]
    pub struct UnprovedGroup {
        /// The tester; absent: none was chosen.
        pub tester: Option<TesterId>,
        /// What people call it, with its serial number.
        pub name: String,
        /// The state it was in.
        pub state: TesterState,
        /// How many readings.
        pub count: u32,
        /// That in words.
        pub words: String,
        /// Why it was not proved.
        pub said: Sentence,
        /// What to do.
        pub todo: String,
        /// Where they are, a line a circuit, as one walks.
        pub places: Vec<UnprovedPlace>,
    }

    /// Readings of one circuit.
    #[derive(schemars::JsonSchema)]
    pub struct UnprovedPlace {
        /// Its board; absent where the circuit is on none.
        pub board: Option<BoardId>,
        /// The circuit.
        pub circuit: Option<CircuitId>,
        /// `DB-2 · 7 Sockets · L1–PE, L2–PE`.
        pub words: String,
    }
}

asked! {
    /// Which readings without a proved tester.
    pub struct UnprovedAsk {
        /// Of one job; absent: of every one.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub job: Option<JobId>,
    }
}
