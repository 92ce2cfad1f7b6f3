//! What a host lends to reach a hub. `api` knows no protocol of a network; where nothing is lent, nothing is reached.

use provenohm_assess::ids::DeviceId;
use provenohm_exchange::hub::{EnrolCode, Line, NoAnswer};
use serde::{Deserialize, Serialize};

/// Reaches hubs.
pub trait Network: Send + Sync {
    /// Enrols this device at a hub.
    ///
    /// # Errors
    /// [`NoAnswer`].
    fn enrol(&self, asked: &Enrolling) -> Result<Enrolled, NoAnswer>;

    /// A line to a hub that this device is enrolled at. Nothing is asked yet.
    ///
    /// # Errors
    /// [`NoAnswer`].
    fn line(&self, hub: &HubAt) -> Result<Box<dyn Line + Send>, NoAnswer>;
}

/// What enrolling takes.
#[derive(Clone, Debug)]
pub struct Enrolling {
    /// Name or address of the hub, with its port.
    pub address: String,
    /// The code that the office gave.
    pub code: EnrolCode,
    /// This device.
    pub device: DeviceId,
    /// What its person calls it.
    pub name: String,
}

/// A hub, as this device knows it: kept beside its key, and in no bundle.
#[derive(Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HubAt {
    /// Name or address, with its port.
    pub address: String,
    /// SHA-256 of its certificate; none on this machine's own address.
    pub pin: Option<[u8; 32]>,
    /// What this device shows.
    pub secret: String,
}

/// What came of enrolling.
pub type Enrolled = HubAt;
