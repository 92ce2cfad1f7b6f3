//! The office that a device is kept in step with.

use provenohm_assess::ids::JobId;

choice! {
    /// How it stands with the office.
    pub enum OfficeStep {
        /// This device is at no office.
        None,
        /// It is being asked.
        Asking,
        /// Both have the same.
        InStep,
        /// It is not reached now: everything is here, and goes there later.
        Waiting,
        /// It does not work, and a person has to do something.
        Refused,
    }
}

told! {
    /// The office, as this device knows it.
    pub struct OfficeView {
        /// Where it is; absent if this device is at none.
        pub address: Option<String>,
        /// How it stands.
        pub step: OfficeStep,
        /// The same in words.
        pub words: String,
        /// What waits here to go there.
        pub waits: Option<String>,
        /// Jobs that are there and not here.
        pub there: Vec<OfficeJob>,
    }

    /// Whether there is something new to show.
    pub struct Pulse {
        /// Another number than before: something came.
        pub at: u32,
        /// When to ask again, in milliseconds: seldom where nothing comes by itself.
        pub again: u32,
    }

    /// A job at the office.
    pub struct OfficeJob {
        /// The job.
        pub job: JobId,
        /// Its name and place.
        pub words: String,
        /// It was asked for and comes.
        pub coming: bool,
    }
}

asked! {
    /// What it takes to be enrolled.
    pub struct Enrol {
        /// Name or address of the hub, with its port.
        pub address: String,
        /// The code that the office shows.
        pub code: String,
        /// What this device is called there.
        pub name: String,
    }
}
