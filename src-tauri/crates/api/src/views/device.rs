//! The devices a job is recorded on.

use super::{Sentence, UndoToken};
use provenohm_assess::ids::JobId;

told! {
    /// The devices that recorded a job.
    pub struct DevicesView {
        /// One line a device.
        pub lines: Vec<DeviceLine>,
        /// Takes back what was just vouched for.
        pub undo: Option<UndoToken>,
    }

    /// One device.
    pub struct DeviceLine {
        /// Its id.
        pub device: String,
        /// Its public key, hexadecimal. Another key under the same id is another device.
        pub key: String,
        /// Its short name, who recorded on it, how much.
        pub words: String,
        /// Whether it is known to this job, and by whose word.
        pub said: Sentence,
        /// It is.
        pub known: bool,
    }
}

asked! {
    /// A device to vouch for.
    pub struct VouchForDevice {
        /// The job.
        pub job: JobId,
        /// The device.
        pub device: String,
        /// Its key.
        pub key: String,
        /// Why, where this device is not known to the job itself.
        #[serde(default)]
        pub reason: String,
    }
}
