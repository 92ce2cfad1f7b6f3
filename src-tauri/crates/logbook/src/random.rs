//! Randomness is passed in, so that a run can be repeated.

/// The source of random bytes failed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("this device gives no random numbers")]
pub struct NoRandomness;

/// A source of random bytes: the operating system's in the product, a counted one in tests.
pub trait Randomness {
    /// Fills `bytes`.
    ///
    /// # Errors
    /// [`NoRandomness`] if the source failed.
    fn fill(&mut self, bytes: &mut [u8]) -> Result<(), NoRandomness>;
}

impl<F: FnMut(&mut [u8]) -> Result<(), NoRandomness>> Randomness for F {
    fn fill(&mut self, bytes: &mut [u8]) -> Result<(), NoRandomness> {
        self(bytes)
    }
}

/// `N` random bytes.
///
/// # Errors
/// [`NoRandomness`] if the source failed.
pub fn bytes<const N: usize>(random: &mut dyn Randomness) -> Result<[u8; N], NoRandomness> {
    let mut bytes = [0; N];
    random.fill(&mut bytes)?;
    Ok(bytes)
}
