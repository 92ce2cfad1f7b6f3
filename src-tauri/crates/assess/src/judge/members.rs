//! What a joined reading says of its members.

use crate::circuit::Pair;
use crate::judgement::{Judgement, Value};

impl Judgement {
    /// The single pairs to which a joined or group reading gives this judgement: each member against the same other
    /// end where it *meets*, since the parallel of all is never above any of them; none otherwise, and never the pairs
    /// between members.
    #[must_use]
    pub fn members_proved(&self, joined: &Pair) -> Vec<Pair> {
        if self.value.value == Value::Meets { joined.stands_for() } else { Vec::new() }
    }
}
