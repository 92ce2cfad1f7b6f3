//! Ids: sixteen bytes each.

use crate::entry::ids::coded_newtype;
use crate::entry::{Coded, Malformed, Value};
use provenohm_assess::ids::{
    BenchId, BoardId, CheckId, CircuitId, DamageId, DeviceId, JobId, MeasuredId, NoteId, PersonId, ReadingId,
    ReferenceId, TesterId, VerificationId,
};

coded_newtype!(
    BenchId,
    BoardId,
    CheckId,
    CircuitId,
    DamageId,
    DeviceId,
    JobId,
    MeasuredId,
    NoteId,
    PersonId,
    ReadingId,
    ReferenceId,
    TesterId,
    VerificationId
);
