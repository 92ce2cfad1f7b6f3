//! What was signed: a job put together from exactly the entries a sign-off covers, and what has come since.

mod model;
mod standing;

pub(crate) use model::{AsSigned, Said, model_of, put_together};
pub(crate) use standing::{Signed, Since, Standing, latest, signatures, standing, standing_of};
