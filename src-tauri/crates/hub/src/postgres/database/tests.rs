//! A database that falls silent in the middle.
#![allow(clippy::unwrap_used, clippy::panic)]

#[path = "../../../tests/postgres/mod.rs"]
mod server;

use super::*;
use crate::account::AccountError;
use server::Postgres;
use std::process::Command;

/// Who of the database answers.
fn who(database: &Database) -> Result<i64, AccountError> {
    let asked = "SELECT pg_backend_pid()::int8";
    database.ask_office(|tables| tables.line(asked, &[])?.ok_or(AccountError::Unreadable)?.number(0))
}

fn who_of_entries(database: &Database) -> Result<i64, StoreError> {
    database.read(async |tx| Ok(tx.query_one("SELECT pg_backend_pid()::int8", &[]).await?.get(0)))
}

fn signal(name: &str, to: i64) {
    assert!(Command::new("kill").args([name, &to.to_string()]).status().unwrap().success());
}

#[test]
fn a_connection_over_which_nobody_answered_in_time_is_not_used_again() {
    let (server, runtime) = (Postgres::start(), tokio::runtime::Runtime::new().unwrap());
    let mut database = Database::of(&server.url, runtime.handle().clone()).unwrap();
    let first = who(&database).unwrap();
    assert_eq!(who_of_entries(&database).unwrap(), first, "else it is used again");
    signal("-STOP", first);
    database.longest = Duration::from_millis(100);
    assert!(matches!(who(&database), Err(AccountError::NotReached(_))));
    signal("-CONT", first);
    database.longest = LONGEST;
    let second = who(&database).unwrap();
    assert_ne!(second, first);
    signal("-STOP", second);
    database.longest = Duration::from_millis(100);
    assert!(who_of_entries(&database).is_err());
    signal("-CONT", second);
    database.longest = LONGEST;
    assert_ne!(who_of_entries(&database).unwrap(), second);
}
