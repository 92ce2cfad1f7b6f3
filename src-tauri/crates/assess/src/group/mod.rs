//! Circuits read together: what a group reading says of its members, and what a circuit did between visits.
//!
//! A group that *meets* proves each member, since the parallel of all is never above any of them; one that does not
//! leaves its singles open
//! ([`Judgement::members_proved`](crate::judgement::Judgement::members_proved),
//! [`LimitSet::left_open`](crate::limits::LimitSet::left_open)). The other way round nothing follows: ten circuits of 2 MΩ read 0.2 MΩ together.

mod figures;
mod own;
mod parallel;
mod trend;

pub use own::{Alike, NotWorkedOut, OwnResistance, own_resistance};
pub use parallel::{parallel, parallel_uncertainty};
pub use trend::{Ratio, Trend, Visit, trend};
