//! What stands in a row, whichever engine keeps it.

use crate::account::AccountError;
use provenohm_api::Moment;

/// One value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Cell {
    Nothing,
    Number(i64),
    Text(String),
    Bytes(Vec<u8>),
}

impl From<i64> for Cell {
    fn from(number: i64) -> Self {
        Self::Number(number)
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<&[u8]> for Cell {
    fn from(bytes: &[u8]) -> Self {
        Self::Bytes(bytes.to_owned())
    }
}

impl<const N: usize> From<&[u8; N]> for Cell {
    fn from(bytes: &[u8; N]) -> Self {
        Self::Bytes(bytes.to_vec())
    }
}

/// An instant, with the offset it was said in.
impl From<Moment> for Cell {
    fn from(at: Moment) -> Self {
        Self::Text(at.to_rfc3339())
    }
}

impl<T: Into<Self>> From<Option<T>> for Cell {
    fn from(value: Option<T>) -> Self {
        value.map_or(Self::Nothing, Into::into)
    }
}

/// One row. What stands in it must be of the kind it is asked for as.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Line(Vec<Cell>);

impl Line {
    /// A row of these values.
    pub(crate) fn of(cells: Vec<Cell>) -> Self {
        Self(cells)
    }

    /// All of them.
    pub(crate) fn cells(&self) -> &[Cell] {
        &self.0
    }

    pub(crate) fn number(&self, column: usize) -> Result<i64, AccountError> {
        match self.0.get(column) {
            Some(Cell::Number(number)) => Ok(*number),
            _ => Err(AccountError::Unreadable),
        }
    }

    pub(crate) fn text(&self, column: usize) -> Result<String, AccountError> {
        self.text_if(column)?.ok_or(AccountError::Unreadable)
    }

    pub(crate) fn text_if(&self, column: usize) -> Result<Option<String>, AccountError> {
        match self.0.get(column) {
            Some(Cell::Text(text)) => Ok(Some(text.clone())),
            Some(Cell::Nothing) => Ok(None),
            _ => Err(AccountError::Unreadable),
        }
    }

    pub(crate) fn bytes(&self, column: usize) -> Result<Vec<u8>, AccountError> {
        match self.0.get(column) {
            Some(Cell::Bytes(bytes)) => Ok(bytes.clone()),
            _ => Err(AccountError::Unreadable),
        }
    }

    pub(crate) fn array<const N: usize>(&self, column: usize) -> Result<[u8; N], AccountError> {
        self.bytes(column)?.try_into().map_err(|_| AccountError::Unreadable)
    }

    pub(crate) fn array_if<const N: usize>(&self, column: usize) -> Result<Option<[u8; N]>, AccountError> {
        if self.0.get(column) == Some(&Cell::Nothing) { Ok(None) } else { self.array(column).map(Some) }
    }

    pub(crate) fn moment_if(&self, column: usize) -> Result<Option<Moment>, AccountError> {
        let text = self.text_if(column)?;
        text.map(|text| Moment::parse_from_rfc3339(&text).map_err(|_| AccountError::Unreadable)).transpose()
    }

    pub(crate) fn moment(&self, column: usize) -> Result<Moment, AccountError> {
        self.moment_if(column)?.ok_or(AccountError::Unreadable)
    }
}
