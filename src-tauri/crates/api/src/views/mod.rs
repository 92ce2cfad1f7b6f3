//! What is asked and what is told: the input and output types of every operation.
//!
//! Sentences and quantities arrive ready to show; beside them stand stable codes (`level`, `sign`) for shape and colour.

/// A type an operation takes: unknown fields are refused, so that a misspelt one is not ignored in silence.
macro_rules! asked {
    ($($item:item)+) => {$(
        #[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize, ts_rs::TS)]
        #[serde(deny_unknown_fields)]
        $item
    )+};
}

/// A type an operation answers with.
macro_rules! told {
    ($($item:item)+) => {$(
        #[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize, ts_rs::TS)]
        $item
    )+};
}

/// A choice written as a word.
macro_rules! choice {
    ($($item:item)+) => {$(
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize, ts_rs::TS)]
        #[serde(rename_all = "snake_case")]
        $item
    )+};
}

mod bench;
mod bench_result;
mod check;
mod circuit;
mod common;
mod device;
mod form;
mod job;
mod look;
mod office;
mod overview;
mod papers;
mod plot;
mod readings_table;
mod recall;
mod reference;
mod review;
mod run;
mod settle;
mod sign_off;
mod start;
mod tester;
mod verification;

pub use bench::*;
pub use bench_result::*;
pub use check::*;
pub use circuit::*;
pub use common::*;
pub use device::*;
pub use form::*;
pub use job::*;
pub use look::*;
pub use office::*;
pub use overview::*;
pub use papers::*;
pub use plot::*;
pub use readings_table::*;
pub use recall::*;
pub use reference::*;
pub use review::*;
pub use run::*;
pub use settle::*;
pub use sign_off::*;
pub use start::*;
pub use tester::*;
pub use verification::*;
