//! Migrations: frozen files, run in order, each once. One that was released is never edited; a new one follows it.

use super::connection::OpenError;
use rusqlite::{Connection, TransactionBehavior};

/// The migrations in order. Their hashes are held by a test.
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::Hash;

    #[test]
    fn migrations_are_frozen() {
        let frozen = ["bd300c9c6f48df2ee1cf4ae23818191b1dc5f2728e36cea1f07fa3b5a384a48d"];
        let now: Vec<String> = MIGRATIONS.iter().map(|sql| Hash::of(&[sql.as_bytes()]).to_string()).collect();
        assert_eq!(now, frozen, "a released migration is never edited: add another");
        assert_eq!(MIGRATIONS.len(), SCHEMA as usize);
    }
}
