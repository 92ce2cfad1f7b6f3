//! Uncertainty of measurement (GUM, JCGM 100:2008): inputs with their distribution, degrees of freedom and
//! sensitivity; the combined and the expanded uncertainty, line by line. The one place of this crate that computes in
//! floating point.

mod budget;
mod input;

pub use budget::{Budget, COVERAGE, Line};
pub use input::{Input, Shape};
pub(crate) use input::{count, spread};
