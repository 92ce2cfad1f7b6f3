//! Entries and their parts: what is read is exactly what would be written.
use provenohm_logbook::entry::{Entry, Fact, Kind, Value};

/// The first byte chooses what the rest is read as.
pub(crate) fn holds(bytes: &[u8]) {
    let Some((choice, bytes)) = bytes.split_first() else { return };
    match usize::from(*choice).checked_sub(2).and_then(|at| Kind::ALL.into_iter().nth(at)) {
        Some(kind) => {
            if let Ok(fact) = Fact::decode(kind.number(), 1, bytes) {
                assert_eq!(fact.encode(), bytes, "{kind:?}");
            }
        }
        None if *choice == 0 => {
            if let Ok(value) = Value::decode(bytes) {
                assert_eq!(value.encode(), bytes);
            }
        }
        None => {
            if let Ok(entry) = Entry::from_wire(bytes) {
                assert_eq!(entry.to_wire(), bytes);
                assert_eq!(entry.clone().erased().hash(), entry.hash(), "an erased body leaves the chain whole");
            }
        }
    }
}
