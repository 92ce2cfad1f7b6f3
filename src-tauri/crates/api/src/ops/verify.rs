//! A file looked at on the screen: whether it is what was signed.

use crate::failure::Failure;
use crate::state::State;
use crate::verify;
use crate::views::*;
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use std::sync::Arc;

pub(crate) fn verify_file(state: &mut State, asked: BundleFile) -> Result<VerifyView, Failure> {
    let bytes = BASE64_STANDARD.decode(&asked.base64).map_err(|error| Failure::of("verify_nothing").because(error))?;
    let work = Arc::clone(&state.long_work);
    verify::bytes(&state.words, &mut state.host, &bytes, &work)
}
