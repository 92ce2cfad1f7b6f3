//! The bench: where a verification is made. What a run is made of, what was measured, and what follows from it.

mod complaint;
mod compute;
mod measured;
mod plan;
pub mod plot;
mod run;
mod usual;
mod warmth;

pub use complaint::MeasuredComplaint;
pub use compute::{
    BenchFacts, BenchResult, Budgeted, CurrentResult, Decision, HeldInterval, Influence, IntervalEnd, Issued,
    LeadsFound, LoadKind, LoadResult, NoInterval, OperatingAt, OperatingPart, Permitted, PointRemark, PointResult,
    RelativeError, RequirementFound, Untold, VoltageResult, WhyNotTested, WhyUndecided, compute,
};
pub use measured::{
    Conditions, LoadReading, LoadRole, Measured, MeasuredWhat, MeterReading, Polarity, Resistor, Series, Supply,
    TesterPosition,
};
pub use plan::{PlannedPoint, PlannedWhat};
pub use run::{BenchRun, DecisionRule, EditionId, LookedAt, TesterLook};
pub use usual::{
    DecisionPoint, ReadTooSeldom, decision_points, least_open_circuit_load, read_too_seldom, reads_open_circuit,
    usual_points,
};
pub use warmth::Warmth;
