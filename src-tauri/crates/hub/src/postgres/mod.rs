//! PostgreSQL, or what speaks its protocol: plain SQL, transactions that are tried again where the engine asks for it, and no
//! lock that only one engine has.

mod database;
mod encrypted;
mod office;
mod store;

pub(crate) use database::Database;
pub use store::PostgresStore;
