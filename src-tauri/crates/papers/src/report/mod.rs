//! The report model: everything a schedule says, as plain data.
//!
//! It knows neither the record nor the clock. Whoever fills it has already judged the readings and made the sentences;
//! what is fixed on paper (headings, column heads, the foot) comes from the catalogue when the paper is made.
//! The canonical bytes of the model are what is attached to the PDF. The fingerprint in every foot is that of the record;
//! of a schedule made from a file alone, that of the model.

mod board;
mod canonical;
mod check;
mod head;
mod line;
mod part;
mod shorten;
mod signature;
mod tester;
mod whole;

pub use board::{Board, Circuit};
pub use canonical::{Digest, Fingerprint};
pub use check::{LINES_IN_A_PART, ModelError};
pub use head::{Fact, Finding, FindingPlace, JobHead, LimitSetHead, Schedule};
pub use line::{Accepted, Correction, Fate, Limit, Line, Missing, NotTested, Past, Reading, Sign};
pub use part::{Part, Parts, Totals};
pub(crate) use shorten::{cut, shortened};
pub use signature::Signature;
pub use tester::{Tester, Verification};
pub use whole::whole_of;
