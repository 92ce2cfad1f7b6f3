//! How the trade's own types are written in the record. Numbers here never change their meaning: a new field
//! takes a new key, a new choice a new code, and older versions then keep the entry without reading it.

mod circuit;
mod ids;
mod limits;
mod quantity;
mod reading;
mod tester;
mod verification;
