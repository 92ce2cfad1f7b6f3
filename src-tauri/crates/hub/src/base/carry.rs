//! The tables carried into those of another engine. Sessions, codes and wrong passwords of late stay behind: people log in anew.

use super::{Base, Line, Tables};
use crate::account::AccountError;

/// Each with its columns, after those it refers to.
const TABLES: [(&str, &str); 6] = [
    ("account", "person, name, role, hash"),
    ("invite", "code, person, until"),
    ("phone", "device, name, secret, enrolled, heard, alone, revoked"),
    ("token", "id, secret, name, scope, person, until, used"),
    ("held", "log, seq, hash, device, noun, book, entry"),
    ("audit", "at, what, who, about, role"),
];

impl Base {
    /// Carries everything into a database that holds no account yet, once: again it changes nothing.
    ///
    /// # Errors
    /// [`AccountError::Occupied`] if somebody has an account there already who did not come from here.
    pub(crate) fn carry(&self, to: &Self) -> Result<(), AccountError> {
        let all = self.all()?;
        to.change(|to| {
            if to.line("SELECT one FROM office WHERE carried = 1", &[])?.is_some() {
                return Ok(());
            }
            put(to, &all)?;
            to.run("UPDATE office SET carried = 1", &[])?;
            Ok(())
        })
    }

    /// Copies everything into a file that was just made.
    ///
    /// # Errors
    /// [`AccountError`].
    pub(crate) fn copy(&self, to: &Self) -> Result<(), AccountError> {
        let all = self.all()?;
        to.change(|to| put(to, &all))
    }

    /// The lines of each of the tables, as they stand at one moment.
    fn all(&self) -> Result<Vec<Vec<Line>>, AccountError> {
        self.ask(|from| {
            let lines = |(table, columns): &(&str, &str)| {
                let in_order = if *table == "audit" { " ORDER BY number" } else { "" };
                from.lines(&format!("SELECT {columns} FROM {table}{in_order}"), &[])
            };
            TABLES.iter().map(lines).collect()
        })
    }

    /// Ends every session, and whatever else lasts minutes.
    pub(crate) fn forget_sessions(&self) -> Result<(), AccountError> {
        self.change(|tables| {
            for table in ["session", "enrol_code", "attempt"] {
                tables.run(&format!("DELETE FROM {table}"), &[])?;
            }
            Ok(())
        })
    }

    /// Whether anybody has an account.
    pub(crate) fn is_empty(&self) -> Result<bool, AccountError> {
        Ok(self.ask(|tables| tables.line("SELECT person FROM account LIMIT 1", &[]))?.is_none())
    }
}

fn put(to: &mut dyn Tables, all: &[Vec<Line>]) -> Result<(), AccountError> {
    if to.line("SELECT person FROM account LIMIT 1", &[])?.is_some() {
        return Err(AccountError::Occupied);
    }
    // The link of an office where nobody has an account yet is made anew.
    to.run("DELETE FROM invite", &[])?;
    for ((table, columns), lines) in TABLES.iter().zip(all) {
        let places: Vec<String> = (1..=columns.split(',').count()).map(|at| format!("?{at}")).collect();
        let insert = format!("INSERT INTO {table} ({columns}) VALUES ({})", places.join(", "));
        for line in lines {
            to.run(&insert, line.cells())?;
        }
    }
    Ok(())
}
