//! Migrations: frozen files, run in order, each once. One that was released is never edited; a new one follows it.

use super::connection::OpenError;
use rusqlite::{Connection, TransactionBehavior};

/// The migrations in order; `tests/released.rs` holds their hashes.
pub(crate) const MIGRATIONS: [&str; 1] = [include_str!("migrations/0001_record.sql")];

/// Version of the schema this program writes: how many migrations there are.
pub const SCHEMA: u32 = 1;

/// Brings a record file to [`SCHEMA`]. Two programs that start at once do it once.
pub(super) fn run(connection: &mut Connection, application: i32) -> Result<(), OpenError> {
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let found: u32 = transaction.pragma_query_value(None, "user_version", |row| row.get(0))?;
    for (version, sql) in (1..=SCHEMA).zip(MIGRATIONS) {
        if version > found {
            transaction.execute_batch(sql)?;
        }
    }
    transaction.pragma_update(None, "application_id", application)?;
    transaction.pragma_update(None, "user_version", SCHEMA)?;
    transaction.commit()?;
    Ok(())
}
