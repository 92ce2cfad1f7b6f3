//! Who tries passwords too often, whichever instance they ask. A try counts as wrong from its start, so that many at once are no
//! way around.

use crate::account::AccountError;
use crate::base::Base;
use crate::secret::Kept;
use provenohm_api::Moment;
use std::net::{IpAddr, Ipv6Addr};
use std::sync::Arc;
use uuid::Uuid;

/// Wrong passwords of one name within [`WHILE`] after which no other is heard.
const MOST: i64 = 10;
/// The same from one address, whatever the names, so that guessing at many names ends too.
const MOST_OF_ADDRESS: i64 = 50;
/// The same from everywhere together: no more are kept than this, and a flood from many addresses ends as well.
const MOST_OF_ALL: i64 = 1000;
/// s
const WHILE: i64 = 15 * 60;

/// One password that is tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Try(Uuid);

/// The wrong passwords of late, and those being tried.
pub(crate) struct Tries(pub(crate) Arc<Base>);

impl Tries {
    /// Begins to try a password for a name. Nothing if that was done too often.
    pub(crate) fn begin(
        &self,
        (name, from): (&str, IpAddr),
        now: Moment,
        id: Uuid,
    ) -> Result<Option<Try>, AccountError> {
        // A name of any length takes the same room.
        let (of, address) = (Kept::of(name), Kept::of(&network(from).to_string()));
        let count = "SELECT count(*), coalesce(sum(CASE WHEN of = ?1 THEN 1 ELSE 0 END), 0),
                            coalesce(sum(CASE WHEN address = ?2 THEN 1 ELSE 0 END), 0) FROM attempt";
        let keep = "INSERT INTO attempt (id, of, address, at) VALUES (?1, ?2, ?3, ?4)";
        let (of, address) = (of.bytes(), address.bytes());
        self.0.change(|tables| {
            tables.run("DELETE FROM attempt WHERE at <= ?1", &[(now.timestamp() - WHILE).into()])?;
            let counts = tables.line(count, &[of.into(), address.into()])?.ok_or(AccountError::Unreadable)?;
            let (all, of_name, of_address) = (counts.number(0)?, counts.number(1)?, counts.number(2)?);
            if of_name >= MOST || of_address >= MOST_OF_ADDRESS || all >= MOST_OF_ALL {
                return Ok(None);
            }
            tables.run(keep, &[id.as_bytes().into(), of.into(), address.into(), now.timestamp().into()])?;
            Ok(Some(Try(id)))
        })
    }

    /// The password was right: this try no longer counts. Wrong ones before it do.
    pub(crate) fn was_right(&self, right: Try) -> Result<(), AccountError> {
        let cells = [right.0.as_bytes().into()];
        self.0.change(|tables| tables.run("DELETE FROM attempt WHERE id = ?1", &cells))?;
        Ok(())
    }
}

/// Of IPv6 the network: one machine has all addresses in it (RFC 4291, 2.5.1).
fn network(from: IpAddr) -> IpAddr {
    match from {
        IpAddr::V4(_) => from,
        IpAddr::V6(address) => Ipv6Addr::from_bits(address.to_bits() & !u128::from(u64::MAX)).into(),
    }
}
