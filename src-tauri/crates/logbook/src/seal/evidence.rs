//! What bears a sign-off out by itself, without the record it comes from.

use super::holds;
use crate::entry::body::{Book, SignOff};
use crate::entry::{Body, Entry, Fact};
use provenohm_assess::ids::DeviceId;
use provenohm_assess::moment::Moment;

/// A sign-off that its seal bears out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BorneOut {
    /// What was signed.
    pub said: SignOff,
    /// When, by the clock of the device.
    pub at: Moment,
    /// The device.
    pub device: DeviceId,
    /// Its key.
    pub key: [u8; 32],
}

/// A sign-off from the first entry of its log, itself, and the seal right after it; nothing where they do not hold
/// together. Whether the device is known, only a record can tell.
#[must_use]
pub fn borne_out(entries: &[Entry]) -> Option<BorneOut> {
    let [first, signed, seal] = entries else { return None };
    let log = first.envelope().log;
    let (Body::LogOpened(opened), Body::SignOff(said), Body::Seal(sealed)) = (body(first)?, body(signed)?, body(seal)?)
    else {
        return None;
    };
    let follows = seal.envelope().prev == signed.hash() && seal.envelope().seq.0 == signed.envelope().seq.0 + 1;
    let covers = sealed.head == signed.hash() && sealed.seq == signed.envelope().seq;
    let one_log = first.envelope().seq.0 == 0 && [signed, seal].iter().all(|entry| entry.envelope().log == log);
    let own_book = opened.book == Book::from(said.job);
    let good = follows && covers && one_log && own_book && holds(&opened.key, log, &sealed);
    good.then(|| BorneOut { at: signed.envelope().recorded, device: opened.device, key: opened.key, said })
}

fn body(entry: &Entry) -> Option<Body> {
    let (_, bytes) = entry.body()?;
    Some(Fact::decode(entry.envelope().kind, entry.envelope().kind_version, bytes).ok()?.body)
}
