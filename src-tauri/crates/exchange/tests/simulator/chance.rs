//! Chance that repeats: everything a schedule does follows from its seed.

use crate::support::Counted;

pub(crate) struct Chance(Counted);

impl Chance {
    pub(crate) fn from(seed: u64) -> Self {
        // Neighbouring seeds start far apart.
        Self(Counted::from(seed.wrapping_mul(0x2545_f491_4f6c_dd1d) ^ 0x5eed))
    }

    pub(crate) fn number(&mut self) -> u64 {
        let mut bytes = [0; 8];
        self.0.fill(&mut bytes).unwrap();
        u64::from_le_bytes(bytes)
    }

    /// From 0 to just below `bound`.
    pub(crate) fn below(&mut self, bound: usize) -> usize {
        usize::try_from(self.number() % bound.max(1) as u64).unwrap()
    }

    pub(crate) fn one_in(&mut self, many: usize) -> bool {
        self.below(many) == 0
    }
}
