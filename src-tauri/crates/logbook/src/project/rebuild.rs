//! The projected tables made anew from the entries, and both shown byte for byte.

use super::arrival::project;
use super::head;
use crate::store::{WRITTEN, as_written};
use rusqlite::Connection;
use rusqlite::types::ValueRef;

/// Version of the projection. A record projected by another is rebuilt when it is opened, so that kinds an older
/// version could only keep take effect.
pub(crate) const VERSION: i64 = 3;

/// The projected tables; each row named by its entry's place and hash, so that the order of arrival leaves no trace.
const TABLES: [(&str, &str); 5] = [
    ("head", "SELECT log, seq, hash FROM head ORDER BY log, seq, hash"),
    (
        "opened",
        "SELECT e.log, e.seq, e.hash, o.noun, o.book, o.device, o.key FROM opened o JOIN entry e ON e.id = o.entry
         ORDER BY e.log, e.seq, e.hash",
    ),
    (
        "about",
        "SELECT e.log, e.seq, e.hash, a.noun, a.object, a.kind, a.subject FROM about a JOIN entry e ON e.id = a.entry
         ORDER BY e.log, e.seq, e.hash, a.noun, a.object",
    ),
    (
        "naming",
        "SELECT e.log, e.seq, e.hash, n.role, n.log, n.seq, n.short FROM naming n JOIN entry e ON e.id = n.entry
         ORDER BY e.log, e.seq, e.hash, n.role, n.log, n.seq, n.short",
    ),
    (
        "standing",
        "SELECT e.log, e.seq, e.hash, s.readable, s.withdrawn, s.replaced, s.set_aside
         FROM standing s JOIN entry e ON e.id = s.entry ORDER BY e.log, e.seq, e.hash",
    ),
];

/// Makes the projected tables anew, inside the caller's transaction.
pub(crate) fn rebuild(tx: &Connection) -> rusqlite::Result<()> {
    clear(tx)?;
    let ids: Vec<i64> =
        tx.prepare("SELECT id FROM entry ORDER BY id")?.query_map([], |row| row.get(0))?.collect::<Result<_, _>>()?;
    for id in ids {
        let entry = tx
            .prepare_cached(&format!("SELECT {WRITTEN} FROM entry WHERE id = ?1"))?
            .query_row([id], |row| Ok(as_written(row)))?;
        // One that is not as it was written says nothing; a good copy that arrives puts it right.
        let Ok(entry) = entry else { continue };
        head::follow(tx, &entry)?;
        let envelope = entry.envelope();
        project(tx, id, envelope.kind, envelope.kind_version, &entry, entry.body().map(|(_, bytes)| bytes))?;
    }
    tx.execute("UPDATE file SET number = ?1 WHERE name = 'projection'", [VERSION])?;
    Ok(())
}

/// Empties the projected tables, inside the caller's transaction.
pub(crate) fn clear(tx: &Connection) -> rusqlite::Result<()> {
    TABLES.iter().try_for_each(|(table, _)| tx.execute(&format!("DELETE FROM {table}"), []).map(drop))
}

/// Every projected row as text, in an order that does not depend on arrival.
pub(crate) fn dump(connection: &Connection) -> rusqlite::Result<String> {
    let mut text = String::new();
    for (table, sql) in TABLES {
        text.push_str(table);
        text.push('\n');
        let mut statement = connection.prepare(sql)?;
        let columns = statement.column_count();
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            for column in 0..columns {
                match row.get_ref(column)? {
                    ValueRef::Integer(number) => text.push_str(&number.to_string()),
                    ValueRef::Blob(bytes) => bytes.iter().for_each(|byte| text.push_str(&format!("{byte:02x}"))),
                    ValueRef::Text(bytes) => text.push_str(&String::from_utf8_lossy(bytes)),
                    ValueRef::Null => text.push('-'),
                    ValueRef::Real(_) => text.push('?'),
                }
                text.push(' ');
            }
            text.push('\n');
        }
    }
    Ok(text)
}
