//! A spreadsheet file as the text of a table, to be looked at like a pasted one.

use crate::failure::Failure;
use crate::read::{NoSheet, first_sheet};
use crate::state::State;
use crate::views::*;
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;

pub(crate) fn read_spreadsheet(_: &mut State, asked: SpreadsheetFile) -> Result<SheetText, Failure> {
    let unreadable = |why: String| Failure::of("not_a_spreadsheet").because(why);
    let bytes = BASE64_STANDARD.decode(&asked.base64).map_err(|error| unreadable(error.to_string()))?;
    match first_sheet(&bytes) {
        Ok(text) => Ok(SheetText { text }),
        Err(NoSheet::TooLarge) => Err(Failure::of("spreadsheet_too_large")),
        Err(NoSheet::Unreadable(why)) => Err(unreadable(why)),
    }
}
