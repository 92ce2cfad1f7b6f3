//! The tables carried into those of another engine. Sessions, codes and wrong passwords of late stay behind: people log in anew.

use super::{Base, Line};
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
    /// Carries everything into tables that hold nothing yet; where somebody has an account already, that was done before.
    pub(crate) fn carry(&self, to: &Self) -> Result<(), AccountError> {
        let all: Vec<Vec<Line>> = self.ask(|from| {
            let lines = |(table, columns): &(&str, &str)| {
                let in_order = if *table == "audit" { " ORDER BY number" } else { "" };
                from.lines(&format!("SELECT {columns} FROM {table}{in_order}"), &[])
            };
            TABLES.iter().map(lines).collect()
        })?;
        to.change(|to| {
            if to.line("SELECT person FROM account LIMIT 1", &[])?.is_some() {
                return Ok(());
            }
            // The link of an office where nobody has an account yet is made anew.
            to.run("DELETE FROM invite", &[])?;
            for ((table, columns), lines) in TABLES.iter().zip(&all) {
                let places: Vec<String> = (1..=columns.split(',').count()).map(|at| format!("?{at}")).collect();
                let insert = format!("INSERT INTO {table} ({columns}) VALUES ({})", places.join(", "));
                for line in lines {
                    to.run(&insert, line.cells())?;
                }
            }
            Ok(())
        })
    }
}
