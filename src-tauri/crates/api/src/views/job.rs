//! Jobs, their rules, people and boards.

use super::{PersonView, Sentence, Sign};
use provenohm_assess::ids::{BoardId, JobId, PersonId, TesterId};
use provenohm_assess::limits::SetName;
use provenohm_assess::policy::{TesterPolicy, ValuePolicy};

told! {
    /// The jobs on this device.
    pub struct JobsView {
        /// Newest first.
        pub jobs: Vec<JobLine>,
    }

    /// One job in the list.
    pub struct JobLine {
        /// The job.
        pub id: JobId,
        /// Name.
        pub name: String,
        /// Place.
        pub place: String,
        /// Invented: screens and papers say so.
        pub demo: bool,
        /// For example `3 boards, 61 circuits, 120 of 160 readings`.
        pub summary: String,
        /// Things to look at.
        pub look: u32,
        /// Things that block a sign-off.
        pub stop: u32,
        /// How many of its readings are in doubt, whatever tester they were taken with; absent: none is.
        pub in_doubt: Option<Sentence>,
    }

    /// One job.
    pub struct JobView {
        /// The job.
        pub id: JobId,
        /// Name.
        pub name: String,
        /// Place.
        pub place: String,
        /// Invented: screens and papers say so.
        pub demo: bool,
        /// Made from a job file.
        pub from_file: bool,
        /// The set it is judged by.
        pub limit_set: SetLine,
        /// How values are compared.
        pub value_policy: ValuePolicy,
        /// What proves a tester.
        pub tester_policy: TesterPolicy,
        /// A quick check of the tester is asked for within so many days before a reading; absent: none is.
        pub quick_check_days: Option<u32>,
        /// Set and policies in a sentence.
        pub rules_words: String,
        /// People.
        pub people: Vec<PersonView>,
        /// Who records on this device; absent: not said yet.
        pub me: Option<PersonId>,
        /// Whether that person has read and confirmed the cautions for this job.
        pub cautions_confirmed: bool,
        /// Boards in order.
        pub boards: Vec<BoardLine>,
        /// Testers this job's readings rely on.
        pub testers: Vec<TesterLine>,
        /// What failed testers put in doubt here, a line a tester.
        pub in_doubt: Vec<DoubtLine>,
        /// Who signed it and what has come since; empty: nobody.
        pub signed: Vec<Sentence>,
        /// Things to look at.
        pub look: u32,
        /// Things that block a sign-off.
        pub stop: u32,
        /// Both in words.
        pub look_words: String,
        /// Where the record is, in words.
        pub whereabouts: String,
        /// How many things wait for a person to settle them.
        pub to_settle: u32,
        /// The same in words.
        pub to_settle_words: String,
    }

    /// What one tester puts in doubt in a job.
    pub struct DoubtLine {
        /// The tester, whose recall list has them.
        pub tester: TesterId,
        /// How many readings, in words.
        pub said: Sentence,
    }

    /// One board in a job.
    pub struct BoardLine {
        /// The board.
        pub id: BoardId,
        /// Name.
        pub name: String,
        /// For example `12 circuits, 30 of 54 readings`.
        pub summary: String,
        /// Its sign.
        pub sign: Sign,
        /// Things to look at.
        pub look: u32,
        /// Things that block a sign-off.
        pub stop: u32,
        /// Slots with a reading or a reason.
        pub done: u32,
        /// Slots in all.
        pub of: u32,
        /// Who does it.
        pub people: Vec<PersonId>,
        /// The same in words: `for A. Recorder`; absent: left open.
        pub people_words: Option<String>,
    }

    /// One tester in a list.
    #[derive(schemars::JsonSchema)]
    pub struct TesterLine {
        /// The tester.
        pub id: TesterId,
        /// What people call it.
        pub name: String,
        /// Serial number.
        pub serial: String,
        /// Its state today.
        pub state: Sentence,
        /// Invented, to try the program with; told where the testers of this device are listed.
        pub invented: bool,
    }

    /// One limit set in a list.
    pub struct SetLine {
        /// Sent back to choose it.
        pub name: SetName,
        /// Title.
        pub title: String,
        /// Where it is meant for.
        pub scope: String,
        /// The publication and how sure its figures are, in words.
        pub source: String,
        /// First digits of its hash, as papers print it.
        pub hash_short: String,
        /// Entered by the user.
        pub own: bool,
    }

    /// The limit sets there are.
    pub struct SetsView {
        /// Shipped ones first.
        pub sets: Vec<SetLine>,
    }
}

asked! {
    /// A new job.
    pub struct StartJob {
        /// Name.
        pub name: String,
        /// Place.
        #[serde(default)]
        pub place: String,
        /// Name of the person who records on this device.
        pub person: String,
        /// Their role.
        #[serde(default)]
        pub role: String,
    }

    /// New name and place of a job.
    pub struct SetJobNames {
        /// The job.
        pub job: JobId,
        /// Name.
        pub name: String,
        /// Place.
        pub place: String,
    }

    /// Another set or other policies; the change is an entry with a reason.
    pub struct SetJobRules {
        /// The job.
        pub job: JobId,
        /// The set.
        pub limit_set: SetName,
        /// How values are compared.
        pub value_policy: ValuePolicy,
        /// What proves a tester.
        pub tester_policy: TesterPolicy,
        /// A quick check of the tester is asked for within so many days; 0: none is; absent: as before.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub quick_check_days: Option<u32>,
        /// Why. Needed once the job has readings.
        #[serde(default)]
        pub reason: String,
    }

    /// A person more.
    pub struct AddPerson {
        /// The job.
        pub job: JobId,
        /// Name.
        pub name: String,
        /// Role.
        #[serde(default)]
        pub role: String,
    }

    /// Who records on this device from now on.
    pub struct BePerson {
        /// The job.
        pub job: JobId,
        /// The person.
        pub person: PersonId,
    }

    /// A board more.
    pub struct AddBoard {
        /// The job.
        pub job: JobId,
        /// Name.
        pub name: String,
    }

    /// Another name for a board.
    pub struct RenameBoard {
        /// The board.
        pub board: BoardId,
        /// Name.
        pub name: String,
    }

    /// Who does a board: a note, not a lock.
    pub struct SetBoardPeople {
        /// The board.
        pub board: BoardId,
        /// People of the job; empty leaves it open.
        pub people: Vec<PersonId>,
    }

    /// A set of one's own, as the text of its file.
    pub struct LoadSet {
        /// JSON.
        pub text: String,
    }
}
