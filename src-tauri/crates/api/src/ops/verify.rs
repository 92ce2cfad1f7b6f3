//! A file looked at on the screen, or the parts of one schedule: whether it is what was signed.

use crate::failure::Failure;
use crate::state::State;
use crate::verify;
use crate::views::*;
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use std::sync::Arc;

pub(crate) fn verify_file(state: &mut State, asked: VerifyAsk) -> Result<VerifyView, Failure> {
    let decoded = |file: &String| BASE64_STANDARD.decode(file);
    let files: Vec<Vec<u8>> = asked
        .files
        .iter()
        .map(decoded)
        .collect::<Result<_, _>>()
        .map_err(|error| Failure::of("verify_nothing").because(error))?;
    let work = Arc::clone(&state.long_work);
    match &files[..] {
        [one] => verify::bytes(&state.words, &mut state.host, one, &work),
        several => verify::several(&state.words, several, &work),
    }
}
