//! Secrets that a browser is told and the hub only recognises: random, and kept as their hash.

use provenohm_logbook::random::{self, NoRandomness, Randomness};
use sha2::{Digest, Sha256};

/// A secret as it is told, 256 random bits in hexadecimal.
pub(crate) struct Secret(String);

/// What is kept of a secret. Looking a hash up tells nothing about the secret by how long it takes.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(crate) struct Kept([u8; 32]);

impl Secret {
    pub(crate) fn make(random: &mut dyn Randomness) -> Result<Self, NoRandomness> {
        Ok(Self(hexadecimal(&random::bytes::<32>(random)?)))
    }

    /// What the pages of a session say with every request, so that no other page can make one: its own pages are told it,
    /// and it is worked out from the cookie, which they cannot read.
    pub(crate) fn of_pages(cookie: &str) -> Self {
        Self(hexadecimal(&Sha256::digest(format!("pages of {cookie}").as_bytes())))
    }

    pub(crate) fn told(&self) -> &str {
        &self.0
    }

    pub(crate) fn kept(&self) -> Kept {
        Kept::of(&self.0)
    }
}

impl Kept {
    /// Of what somebody says the secret is.
    pub(crate) fn of(said: &str) -> Self {
        Self(Sha256::digest(said.as_bytes()).into())
    }

    /// As it is kept on the disk.
    pub(crate) fn bytes(&self) -> &[u8] {
        &self.0
    }
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
