//! The tables in a file beside the record, which no bundle carries.

use super::{Cell, Line, Tables, steps};
use crate::account::AccountError;
use provenohm_api::Host;
use rusqlite::types::{ToSql, ToSqlOutput, Value, ValueRef};
use rusqlite::{Connection, Row, Transaction, TransactionBehavior, params_from_iter};
use std::path::Path;
use std::time::Duration;

pub(super) fn open(file: &Path, host: &mut Host) -> Result<Connection, AccountError> {
    let mut tables = Connection::open(file)?;
    tables.busy_timeout(Duration::from_secs(30))?;
    tables.pragma_update(None, "journal_mode", "wal")?;
    tables.pragma_update(None, "synchronous", "full")?;
    tables.pragma_update(None, "secure_delete", true)?;
    tables.pragma_update(None, "foreign_keys", true)?;
    steps::bring_up(&mut tables, host)?;
    Ok(tables)
}

pub(super) fn change<T>(
    file: &mut Connection,
    behavior: TransactionBehavior,
    change: impl Fn(&mut dyn Tables) -> Result<T, AccountError>,
) -> Result<T, AccountError> {
    let mut tx = file.transaction_with_behavior(behavior)?;
    let done = change(&mut tx)?;
    tx.commit()?;
    Ok(done)
}

impl Tables for Transaction<'_> {
    fn run(&mut self, statement: &str, cells: &[Cell]) -> Result<u64, AccountError> {
        Ok(self.prepare_cached(statement)?.execute(params_from_iter(cells))? as u64)
    }

    fn lines(&mut self, question: &str, cells: &[Cell]) -> Result<Vec<Line>, AccountError> {
        let mut asked = self.prepare_cached(question)?;
        let lines = asked.query_map(params_from_iter(cells), line)?.collect::<Result<_, _>>()?;
        Ok(lines)
    }
}

fn line(row: &Row<'_>) -> rusqlite::Result<Line> {
    let cells = (0..row.as_ref().column_count()).map(|column| {
        Ok(match row.get(column)? {
            Value::Null => Cell::Nothing,
            Value::Integer(number) => Cell::Number(number),
            Value::Text(text) => Cell::Text(text),
            Value::Blob(bytes) => Cell::Bytes(bytes),
            // No table of ours has one.
            Value::Real(_) => return Err(rusqlite::Error::IntegralValueOutOfRange(column, 0)),
        })
    });
    cells.collect::<rusqlite::Result<_>>().map(Line::of)
}

impl ToSql for Cell {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(ToSqlOutput::Borrowed(match self {
            Self::Nothing => ValueRef::Null,
            Self::Number(number) => ValueRef::Integer(*number),
            Self::Text(text) => ValueRef::Text(text.as_bytes()),
            Self::Bytes(bytes) => ValueRef::Blob(bytes),
        }))
    }
}
