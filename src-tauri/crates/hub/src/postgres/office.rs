//! The office's own tables in a database that several instances share.

use super::database::{AGAIN, Database, TRIES, is_passing};
use crate::account::AccountError;
use crate::base::{Cell, Line, Tables};
use deadpool_postgres::Object;
use tokio_postgres::types::private::BytesMut;
use tokio_postgres::types::{IsNull, ToSql, Type, to_sql_checked};
use tokio_postgres::{IsolationLevel, Row, Transaction};

type NotWritten = Box<dyn std::error::Error + Sync + Send>;

impl Database {
    /// Makes the tables that are not there yet.
    pub(crate) fn make_office(&self) -> Result<(), AccountError> {
        Ok(self.make(include_str!("office.sql"))?)
    }

    /// Asks, all of it at one and the same moment.
    pub(crate) fn ask_office<T>(
        &self,
        ask: impl Fn(&mut dyn Tables) -> Result<T, AccountError>,
    ) -> Result<T, AccountError> {
        self.as_often_as_it_takes(IsolationLevel::RepeatableRead, ask)
    }

    /// Does all of it or nothing. Whoever changes something takes the office's row first, so that one comes after the other.
    pub(crate) fn change_office<T>(
        &self,
        change: impl Fn(&mut dyn Tables) -> Result<T, AccountError>,
    ) -> Result<T, AccountError> {
        self.as_often_as_it_takes(IsolationLevel::ReadCommitted, |tables| {
            tables.line("SELECT one FROM office WHERE one = 1 FOR UPDATE", &[])?;
            change(tables)
        })
    }

    fn as_often_as_it_takes<T>(
        &self,
        level: IsolationLevel,
        work: impl Fn(&mut dyn Tables) -> Result<T, AccountError>,
    ) -> Result<T, AccountError> {
        let mut tried = 0;
        loop {
            tried += 1;
            match self.once(level, &work) {
                Err(AccountError::Database(error)) if is_passing(&error) && tried < TRIES => {
                    std::thread::sleep(AGAIN * tried);
                }
                done => return done,
            }
        }
    }

    fn once<T>(
        &self,
        level: IsolationLevel,
        work: &impl Fn(&mut dyn Tables) -> Result<T, AccountError>,
    ) -> Result<T, AccountError> {
        let mut client = self.wait(self.connection())?;
        let done = self.over(&mut client, level, work);
        if matches!(done, Err(AccountError::NotReached(_))) {
            // As for entries: what it was asked may still be done.
            drop(Object::take(client));
        }
        done
    }

    fn over<T>(
        &self,
        client: &mut Object,
        level: IsolationLevel,
        work: &impl Fn(&mut dyn Tables) -> Result<T, AccountError>,
    ) -> Result<T, AccountError> {
        let tx = self.asked(client.build_transaction().isolation_level(level).start())?;
        let done = work(&mut Shared { tx: &tx, database: self })?;
        self.asked(tx.commit())?;
        Ok(done)
    }

    /// Waits for an answer, and keeps what the engine says of it.
    fn asked<T>(&self, work: impl Future<Output = Result<T, tokio_postgres::Error>>) -> Result<T, AccountError> {
        Ok(self.wait(self.in_time(work))??)
    }
}

struct Shared<'t> {
    tx: &'t Transaction<'t>,
    database: &'t Database,
}

impl Tables for Shared<'_> {
    fn run(&mut self, statement: &str, cells: &[Cell]) -> Result<u64, AccountError> {
        let statement = numbered(statement);
        self.database.asked(self.tx.execute(&statement, &given(cells)))
    }

    fn lines(&mut self, question: &str, cells: &[Cell]) -> Result<Vec<Line>, AccountError> {
        let question = numbered(question);
        let rows = self.database.asked(self.tx.query(&question, &given(cells)))?;
        rows.iter().map(line).collect()
    }
}

/// Places as this engine has them; no statement of ours has the sign elsewhere.
fn numbered(statement: &str) -> String {
    statement.replace('?', "$")
}

fn given(cells: &[Cell]) -> Vec<&(dyn ToSql + Sync)> {
    cells.iter().map(|cell| cell as &(dyn ToSql + Sync)).collect()
}

fn line(row: &Row) -> Result<Line, AccountError> {
    let cell = |(at, column): (usize, &tokio_postgres::Column)| {
        Ok(match *column.type_() {
            Type::INT8 => row.try_get::<_, Option<i64>>(at)?.into(),
            Type::TEXT => row.try_get::<_, Option<String>>(at)?.into(),
            Type::BYTEA => row.try_get::<_, Option<&[u8]>>(at)?.into(),
            _ => return Err(AccountError::Unreadable),
        })
    };
    Ok(Line::of(row.columns().iter().enumerate().map(cell).collect::<Result<_, _>>()?))
}

impl ToSql for Cell {
    fn to_sql(&self, kind: &Type, out: &mut BytesMut) -> Result<IsNull, NotWritten> {
        match self {
            Self::Nothing => Ok(IsNull::Yes),
            Self::Number(number) => number.to_sql_checked(kind, out),
            Self::Text(text) => text.to_sql_checked(kind, out),
            Self::Bytes(bytes) => bytes.to_sql_checked(kind, out),
        }
    }

    fn accepts(_: &Type) -> bool {
        // Each kind is held against the column's when it is written.
        true
    }

    to_sql_checked!();
}
