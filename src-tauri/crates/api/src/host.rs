//! What a host lends: clock, randomness, a folder for files. The only place that reads the wall clock and the
//! operating system's randomness, so that everything else can be run again with the same outcome.

use provenohm_assess::moment::Moment;
use provenohm_logbook::random::{NoRandomness, Randomness};
use std::path::PathBuf;

/// Tells the time.
pub(crate) type Clock = Box<dyn FnMut() -> Moment + Send>;

/// What the surroundings lend.
pub struct Host {
    clock: Clock,
    random: Box<dyn Randomness + Send>,
    papers: Option<PathBuf>,
    last_id_ms: u64,
}

impl Host {
    /// The wall clock and the randomness of the operating system.
    #[must_use]
    #[expect(clippy::disallowed_methods, reason = "the one place that reads the clock and the system's randomness")]
    pub fn system() -> Self {
        Self::new(|| chrono::Local::now().fixed_offset(), |bytes| getrandom::fill(bytes).map_err(|_| NoRandomness))
    }

    /// A clock and a source of randomness of one's own.
    pub fn new(
        clock: impl FnMut() -> Moment + Send + 'static,
        random: impl FnMut(&mut [u8]) -> Result<(), NoRandomness> + Send + 'static,
    ) -> Self {
        Self { clock: Box::new(clock), random: Box::new(random), papers: None, last_id_ms: 0 }
    }

    /// The same, with a folder for schedules and job files; without one they go beside the record.
    #[must_use]
    pub fn with_papers(self, folder: PathBuf) -> Self {
        Self { papers: Some(folder), ..self }
    }

    /// Puts another clock in the place of this one; the old one comes back.
    pub(crate) fn set_clock(&mut self, clock: Clock) -> Clock {
        std::mem::replace(&mut self.clock, clock)
    }

    /// What the clock says.
    pub fn now(&mut self) -> Moment {
        (self.clock)()
    }

    pub(crate) fn papers(&self) -> Option<&PathBuf> {
        self.papers.as_ref()
    }

    /// A new id (UUID version 7): greater than the one before, so that what is made together keeps its order.
    ///
    /// # Errors
    /// [`NoRandomness`] if the source has none.
    pub fn id(&mut self) -> Result<uuid::Uuid, NoRandomness> {
        let mut random = [0; 10];
        self.random.fill(&mut random)?;
        let now = u64::try_from(self.now().timestamp_millis()).unwrap_or(0);
        self.last_id_ms = now.max(self.last_id_ms + 1);
        Ok(uuid::Builder::from_unix_timestamp_millis(self.last_id_ms, &random).into_uuid())
    }
}

impl Randomness for Host {
    fn fill(&mut self, bytes: &mut [u8]) -> Result<(), NoRandomness> {
        self.random.fill(bytes)
    }
}
