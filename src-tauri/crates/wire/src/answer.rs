//! An answer, or why there is none that helps.

use provenohm_exchange::hub::NoAnswer;
use reqwest::blocking::Response;
use serde::Deserialize;
use std::io::Read as _;

/// More than any answer of a hub holds, bytes.
const MOST: u64 = 96 << 20;

/// A hub's refusal, in the shape of an operation's failure.
#[derive(Deserialize)]
struct Refusal {
    code: String,
    words: String,
}

/// The bytes of an answer; a refusal with the hub's own words.
pub(crate) fn bytes_of(answer: Result<Response, reqwest::Error>) -> Result<Vec<u8>, NoAnswer> {
    let mut answer = answer.map_err(|_| NoAnswer::NotReached)?;
    let fine = answer.status().is_success();
    let mut bytes = Vec::new();
    answer.by_ref().take(MOST).read_to_end(&mut bytes).map_err(|_| NoAnswer::NotReached)?;
    if fine {
        return Ok(bytes);
    }
    // Something else answers there, or something in between: it was not the hub that was reached.
    let refusal: Refusal = serde_json::from_slice(&bytes).map_err(|_| NoAnswer::NotReached)?;
    Err(NoAnswer::Refused { code: refusal.code, words: refusal.words })
}
