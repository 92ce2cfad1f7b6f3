//! Enrolling: how a phone and its hub come to know each other by a code that a person carries from one to the other.
//!
//! The code itself is not sent. Each side says what only one that has it can say, and says it of the certificate of this
//! very connection: somebody in between has another certificate, and cannot.

use provenohm_assess::ids::DeviceId;
use provenohm_logbook::entry::Hash;

/// The letters and digits of a code: none that is taken for another (Crockford's Base32).
const LETTERS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
/// Letters of a code: 60 bits, for a quarter of an hour.
const LENGTH: usize = 12;

/// A code that works once.
#[derive(Clone, PartialEq, Eq)]
pub struct EnrolCode(String);

impl EnrolCode {
    /// Of random bytes.
    #[must_use]
    pub fn of(random: [u8; LENGTH]) -> Self {
        Self(random.iter().map(|byte| char::from(LETTERS[usize::from(byte % 32)])).collect())
    }

    /// Of what somebody typed, in groups or not; nothing if it is no code.
    #[must_use]
    pub fn typed(text: &str) -> Option<Self> {
        let read = |letter: char| match letter.to_ascii_uppercase() {
            'O' => '0',
            'I' | 'L' => '1',
            other => other,
        };
        let letters: String = text.chars().filter(|one| !one.is_whitespace() && *one != '-').map(read).collect();
        let all_known = letters.bytes().all(|letter| LETTERS.contains(&letter));
        (letters.len() == LENGTH && all_known).then_some(Self(letters))
    }

    /// In groups of four, to be read and typed.
    #[must_use]
    pub fn told(&self) -> String {
        let groups = self.0.as_bytes().chunks(4).map(|group| String::from_utf8_lossy(group).into_owned());
        groups.collect::<Vec<_>>().join("-")
    }

    /// What the phone says of the certificate it met; no certificate on this machine's own address.
    #[must_use]
    pub fn by_phone(&self, certificate: Option<[u8; 32]>, device: DeviceId) -> Hash {
        self.said("phone", certificate, device)
    }

    /// What the hub answers of the certificate it has.
    #[must_use]
    pub fn by_hub(&self, certificate: Option<[u8; 32]>, device: DeviceId) -> Hash {
        self.said("hub", certificate, device)
    }

    fn said(&self, by: &str, certificate: Option<[u8; 32]>, device: DeviceId) -> Hash {
        let purpose = format!("provenohm enrol 1 {by} {} ", self.0);
        Hash::of(&[purpose.as_bytes(), device.0.as_bytes(), &certificate.unwrap_or_default()])
    }
}

impl std::fmt::Debug for EnrolCode {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("EnrolCode(kept)")
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_code_is_read_as_it_is_told_and_as_people_type_it() {
        let code = EnrolCode::of([0, 31, 1, 2, 3, 4, 5, 6, 200, 8, 9, 10]);
        assert_eq!(code.told(), "0Z12-3456-889A");
        for typed in ["0Z12-3456-889A", " oz l2 3456 889a", "0z1234 56889A"] {
            assert_eq!(EnrolCode::typed(typed), Some(code.clone()), "{typed}");
        }
        for wrong in ["", "0Z12-3456-889", "0Z12-3456-889AA", "0Z12-3456-889U", "0Z12-3456-889ä"] {
            assert_eq!(EnrolCode::typed(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn what_is_said_differs_by_side_certificate_and_device() {
        let code = EnrolCode::typed("0Z12-3456-889A").unwrap();
        let (device, other) = (DeviceId(uuid::Uuid::from_u128(1)), DeviceId(uuid::Uuid::from_u128(2)));
        let said = [
            code.by_phone(Some([1; 32]), device),
            code.by_hub(Some([1; 32]), device),
            code.by_phone(Some([2; 32]), device),
            code.by_phone(None, device),
            code.by_phone(Some([1; 32]), other),
        ];
        assert_eq!(said.iter().collect::<std::collections::BTreeSet<_>>().len(), said.len());
    }
}
