//! The schedule, job files and the cautions.

use super::{Choice, Done, Sentence};
use provenohm_assess::ids::{BenchId, BoardId, JobId, TesterId};

told! {
    /// Whether the schedule is ready, as a list of what it will say.
    pub struct ScheduleView {
        /// The job.
        pub job: JobId,
        /// Title of the paper.
        pub title: String,
        /// What is missing, to look at, unproved or unsigned. Never blocks a draft.
        pub ready: Vec<ReadyLine>,
        /// The sign-offs whose paper is another than that of now; none: there is one paper only.
        pub as_signed: Vec<Choice>,
        /// Formats to choose from.
        pub formats: Vec<Choice>,
    }

    /// One line of the list; it leads to its place.
    pub struct ReadyLine {
        /// What it says.
        pub said: Sentence,
        /// Where to go.
        pub to: Option<ReadyPlace>,
    }

    /// A page of the preview.
    pub struct PageView {
        /// Page, from 1.
        pub page: u32,
        /// Pages in all.
        pub pages: u32,
        /// PNG, base64.
        pub png_base64: String,
        /// What the picture shows, in words.
        pub alt: String,
    }

    /// A file was written, or a paper too long for one in several.
    pub struct Written {
        /// The path of each.
        pub files: Vec<String>,
        /// In words.
        pub words: String,
    }

    /// Where files go.
    pub struct FilesFolder {
        /// The folder's path.
        pub folder: String,
        /// It is the usual one, not one that a person chose.
        pub usual: bool,
    }

    /// A written file, to be sent on.
    pub struct WrittenFile {
        /// Its name, without a folder.
        pub name: String,
        /// Media type.
        pub media_type: String,
        /// The bytes, base64.
        pub base64: String,
    }

    /// What a job file holds, before it is taken.
    pub struct JobFilePreview {
        /// In a sentence.
        pub words: String,
        /// What it holds.
        pub lines: Vec<String>,
    }

    /// A damaged record was set aside, and what of it is as it was written is here again.
    pub struct SetAside {
        /// Where it lies now, in a sentence.
        pub words: String,
        /// What came back, what did not, and what to do next.
        pub lines: Vec<String>,
        /// The paths of the files set aside.
        pub files: Vec<String>,
    }

    /// A job was made from a file.
    pub struct Imported {
        /// The new job.
        pub job: JobId,
        /// What came, and how to take it back while nobody has worked on it.
        pub done: Done,
    }

    /// A bundle: what it holds, and what taking it in does or did. In = joined + same + to settle.
    pub struct BundleView {
        /// The job it carries.
        pub job: Option<JobId>,
        /// The sum in a sentence.
        pub words: String,
        /// What it holds, what is missing, and what needs attention.
        pub lines: Vec<String>,
        /// Entries that came.
        pub came: u32,
        /// New ones.
        pub joined: u32,
        /// Ones that were here already.
        pub same: u32,
        /// New ones that stand beside another value.
        pub to_settle: u32,
    }

    /// Where a job's readings are, as far as this device knows.
    pub struct HandedView {
        /// When it was handed over, how many readings of this device were not, when something was received.
        pub lines: Vec<String>,
    }

    /// How far long work is.
    pub struct LongWorkView {
        /// Entries done.
        pub done: u32,
        /// Entries in all; zero while that is not known.
        pub of: u32,
    }

    /// The cautions.
    pub struct CautionsView {
        /// Title.
        pub title: String,
        /// One sentence or two each.
        pub points: Vec<String>,
        /// Who confirmed them and when, if this person has for this job.
        pub confirmed: Option<String>,
    }
}

/// Where a line of the list leads.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize, ts_rs::TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum ReadyPlace {
    /// Things to look at.
    Look,
    /// The run of a board.
    Run {
        /// The board.
        board: BoardId,
    },
    /// The testers.
    Testers,
    /// The job's people, rules and names.
    Job,
    /// Signing off.
    SignOff,
}

choice! {
    /// Format of a schedule.
    pub enum ScheduleFormat {
        /// PDF/A-3.
        Pdf,
        /// Spreadsheet.
        Xlsx,
        /// Comma-separated values.
        Csv,
    }

    /// Format of a tester report.
    pub enum TesterReportFormat {
        /// PDF/A-3.
        Pdf,
        /// Spreadsheet.
        Xlsx,
        /// JSON, with every input and the result unrounded.
        Json,
    }
}

asked! {
    /// A job to hand over.
    pub struct HandOverAsk {
        /// The job.
        pub job: JobId,
        /// Testers that go with it beside those its readings rely on.
        pub testers: Vec<TesterId>,
    }

    /// A bundle.
    pub struct BundleFile {
        /// Its bytes, base64.
        pub base64: String,
    }

    /// Another folder for files.
    pub struct SetFilesFolder {
        /// Its whole path; absent: the usual one.
        pub folder: Option<String>,
    }

    /// A written file to be sent on.
    pub struct WrittenFileAsk {
        /// Its path, as it was told.
        pub path: String,
    }

    /// Written files to be had together.
    pub struct WrittenFilesAsk {
        /// Their paths, as they were told.
        pub paths: Vec<String>,
    }

    /// A page of the schedule as a picture.
    pub struct PageAsk {
        /// The job.
        pub job: JobId,
        /// Page, from 1.
        pub page: u32,
        /// As it was signed by this sign-off; absent: as it is now.
        pub as_signed: Option<String>,
    }

    /// A schedule to make.
    pub struct MakeSchedule {
        /// The job.
        pub job: JobId,
        /// Format.
        pub format: ScheduleFormat,
        /// As it was signed by this sign-off; absent: as it is now.
        pub as_signed: Option<String>,
    }

    /// A tester report to make.
    pub struct MakeTesterReport {
        /// The bench run.
        pub bench: BenchId,
        /// Format.
        pub format: TesterReportFormat,
    }

    /// A job file's text.
    pub struct JobFileText {
        /// JSON.
        pub text: String,
    }
}
