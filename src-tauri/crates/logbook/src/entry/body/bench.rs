//! Bodies about the bench. A run carries its references as they were, so that the tester's book can travel alone.

use crate::entry::coded::coded_map;
use provenohm_assess::bench::{BenchRun, Measured};
use provenohm_assess::ids::TesterId;
use provenohm_assess::reference::Reference;

/// Facet: what a reference is, with its certificate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReferenceCard {
    /// The reference.
    pub reference: Reference,
}

coded_map!(ReferenceCard { 0: reference });

/// Facet: a bench run, with the references it uses as their certificates stood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchOpened {
    /// The run.
    pub run: BenchRun,
    /// Its references.
    pub references: Vec<Reference>,
}

coded_map!(BenchOpened { 0: run, 1: references });

/// One thing measured, in the book of the tester it was measured on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MeasuredAt {
    /// The tester.
    pub tester: TesterId,
    /// What was measured.
    pub measured: Measured,
}

coded_map!(MeasuredAt { 0: tester, 1: measured });
