//! Ids: sixteen bytes each.

use crate::entry::ids::coded_newtype;
use crate::entry::{Coded, Malformed, Value};
use provenohm_assess::ids::{
    BoardId, CheckId, CircuitId, DamageId, DeviceId, JobId, NoteId, PersonId, ReadingId, TesterId, VerificationId,
};

coded_newtype!(
    BoardId,
    CheckId,
    CircuitId,
    DamageId,
    DeviceId,
    JobId,
    NoteId,
    PersonId,
    ReadingId,
    TesterId,
    VerificationId
);
