//! How the trade's own types are written in the record. Numbers here never change their meaning: a new field
//! takes a new key, a new choice a new code, and older versions then keep the entry without reading it.

mod bench;
mod circuit;
mod ids;
mod limits;
mod quantity;
mod reading;
mod reference;
mod tester;
mod verification;
