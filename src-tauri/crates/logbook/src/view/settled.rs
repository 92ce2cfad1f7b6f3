//! What people chose between values that stood side by side, and what they said to be one or two.

use super::facet::Stated;
use super::query::{ReadError, View};
use crate::entry::body::Book;
use crate::entry::{Body, Kind, Object};
use crate::store::blob;
use rusqlite::params;

impl View<'_> {
    /// The choices of some books that nobody took back, book by book in the one order that holds on every device.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn settled<'b>(&self, books: impl IntoIterator<Item = &'b Book>) -> Result<Vec<Stated<Body>>, ReadError> {
        let kinds = [Kind::Settlement, Kind::SameCircuit, Kind::SameTester, Kind::SamePerson, Kind::Different]
            .map(Kind::number);
        let clause = format!(
            "WHERE e.kind IN ({}) AND e.log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2)",
            kinds.map(|kind| kind.to_string()).join(", ")
        );
        let mut all = Vec::new();
        for book in books {
            let Object { noun, id } = book.object();
            all.extend(self.bodies_where(&clause, params![noun.number(), blob(&id.0)])?);
        }
        all.retain(Stated::is_live);
        Ok(all)
    }
}
