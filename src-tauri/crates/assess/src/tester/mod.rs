//! The tester: its card, what proves it, and what its history says of one reading.

mod card;
mod card_complaint;
mod check;
mod coverage;
mod failed;
mod history;
mod leads;
mod prepared;
mod proof;
mod requirement;
mod standing;
mod statement;
mod timeline;
mod verification;

pub use card::{Card, Range, Ranging, VoltageCard};
pub use card_complaint::CardComplaint;
pub use check::{Damage, LeadCheck, LeadEnd, QuickCheck, check_uncertainty};
pub(crate) use coverage::Claim;
pub use history::{ProofEvent, TesterHistory};
pub use prepared::Prepared;
pub(crate) use standing::{Relied, Standing};
pub(crate) use statement::Question;
pub use verification::{
    Conforms, Holds, Interval, Outcome, Point, ProofKind, Requirement, RequirementName, RequirementResult, Statement,
    Verification, VoltageAtLoad, VoltageFinding,
};
