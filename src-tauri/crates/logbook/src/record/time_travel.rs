//! The record as it stood: what had been recorded until a moment, by the clocks of those who recorded it.

use super::Record;
use crate::entry::time::unix_ms;
use crate::random::Randomness;
use crate::view::ReadError;
use provenohm_assess::moment::Moment;

impl Record {
    /// A record in memory with the entries recorded until `moment`. Only for reading: nothing written to it is kept.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn as_recorded_until(&self, moment: &Moment, random: &mut dyn Randomness) -> Result<Self, ReadError> {
        let mut past = Self::in_memory(random)?;
        let entries = self.view().entries_where(
            "SELECT envelope, salt, body FROM entry WHERE recorded_ms <= ?1 ORDER BY id",
            [unix_ms(moment)],
        )?;
        past.receive(&entries)?;
        Ok(past)
    }
}
