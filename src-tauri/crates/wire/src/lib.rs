//! A device's connection to its hub: HTTP, encrypted unless the hub is on this machine, to the very certificate that was met
//! when the device was enrolled. What is asked and answered is `exchange`'s.

mod answer;
mod dial;
mod pin;

pub use dial::{HttpLine, Wire};
