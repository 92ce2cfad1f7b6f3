//! What an entry says: the frame all bodies share, and one content per kind.

mod bench;
mod content;
mod frame;
mod job;
mod log;
mod people;
mod reading;
mod recall;
mod review;
mod sign_off;
mod tester;

pub use bench::{BenchOpened, MeasuredAt, ReferenceCard};
pub use content::{Body, Content};
pub(crate) use frame::CONTENT_VERSION;
pub use frame::{Fact, Naming, Noun, Object, Role, touched};
pub use job::{
    BoardNames, BoardOrder, BoardPeople, BoardPresent, CautionsRead, CircuitElectrical, CircuitLabel, CircuitOrder,
    CircuitPlace, CircuitPresent, JobNames, JobOpened, JobPeople, JobPerson, JobRules, Origin,
};
pub use log::{Attachment, Book, Erasure, LogOpened, OpenedWhy, Sealed, Settlement, Withdrawal};
pub use people::{DeviceKnown, Different, Note, Person, SameCircuit, SamePerson, SameTester};
pub use reading::{Correction, NotTested, ReadingTaken, ReplacedWhy};
pub use recall::RecallResolved;
pub use review::{Accepted, AcceptedOf, Request, is_unanswered};
pub use sign_off::{CutEnd, SignOff};
pub use tester::{TesterCard, TesterIdentity, VerificationMade};
