//! The tester: its card, what proves it, and what its history says of one reading.

mod card;
mod check;
mod history;
mod verification;

pub use card::{Card, Range, VoltageCard};
pub use check::{Damage, LeadCheck, LeadEnd, QuickCheck};
pub use history::{ProofEvent, TesterHistory};
pub use verification::{
    Conforms, Holds, Interval, Outcome, Point, ProofKind, Requirement, RequirementName, RequirementResult, Statement,
    Verification, VoltageFinding,
};
