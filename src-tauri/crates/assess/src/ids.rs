//! Ids: each its own type over a UUID, made outside and passed in.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;
use uuid::Uuid;

macro_rules! id {
    ($($(#[$doc:meta])* $name:ident),+ $(,)?) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
        #[serde(transparent)]
        #[ts(as = "String")]
        pub struct $name(pub Uuid);

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                self.0.fmt(f)
            }
        }
    )+};
}

id! {
    /// One installation visit.
    JobId,
    /// One distribution board of a job.
    BoardId,
    /// One circuit of a board.
    CircuitId,
    /// One reading.
    ReadingId,
    /// One insulation tester.
    TesterId,
    /// One dated proof of a tester.
    VerificationId,
    /// One check of the leads, or one quick check of a tester.
    CheckId,
    /// One report of damage to a tester.
    DamageId,
    /// One person.
    PersonId,
    /// One device that keeps a record.
    DeviceId,
    /// One note.
    NoteId,
    /// One known resistor, box of resistors or meter that testers are proved with.
    ReferenceId,
    /// One bench run.
    BenchId,
    /// One thing measured at a bench.
    MeasuredId,
}
