//! The report model out of a PDF: what is attached to it, and by which version it says it was made.

use flate2::read::ZlibDecoder;
use hayro_syntax::Pdf;
use hayro_syntax::object::{Dict, Object, Stream, String as Text};
use std::io::Read;
use thiserror::Error;

/// No schedule of ours is larger: a part ends at 1,500 lines.
pub const MOST_PDF_BYTES: usize = 64 << 20;
/// Nor is the model of a part.
const MOST_MODEL_BYTES: u64 = 64 << 20;

/// What a PDF of this program carries.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Attached {
    /// The bytes of the report model.
    pub model: Vec<u8>,
    /// The program it names as its maker.
    pub maker: String,
}

/// Why a PDF's data cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum NotAttached {
    /// It is no PDF, or one that this program does not write.
    #[error("this is no PDF of this program")]
    Other,
    /// No report model is attached.
    #[error("no report model is attached to this PDF")]
    Nothing,
    /// It is larger than any of this program.
    #[error("this PDF is larger than any this program writes")]
    TooLarge,
}

/// What this program names as the maker of its PDFs.
#[must_use]
pub fn maker() -> &'static str {
    concat!("Provenohm ", env!("CARGO_PKG_VERSION"))
}

/// Reads the report model attached to a PDF.
///
/// # Errors
/// [`NotAttached`] says why there is none.
pub fn attached(pdf: &[u8]) -> Result<Attached, NotAttached> {
    if pdf.len() > MOST_PDF_BYTES {
        return Err(NotAttached::TooLarge);
    }
    // This program packs no objects together: a file that does could unpack to more than memory holds.
    let packs = |name: &[u8]| pdf.windows(name.len()).any(|bytes| bytes == name);
    if !pdf.starts_with(b"%PDF-") || packs(b"/ObjStm") || packs(b"/XRef") || packs(b"/Encrypt") {
        return Err(NotAttached::Other);
    }
    let file = Pdf::new(pdf.to_vec()).map_err(|_| NotAttached::Other)?;
    let maker = file.metadata().creator.as_deref().map(String::from_utf8_lossy).unwrap_or_default().into_owned();
    let mut named = file.objects().into_iter().filter_map(|object| match object {
        Object::Dict(dict) => model_of(&dict),
        _ => None,
    });
    let stream = named.next().ok_or(NotAttached::Nothing)?;
    let mut model = Vec::new();
    let unpacked = ZlibDecoder::new(stream.raw_data().as_ref()).take(MOST_MODEL_BYTES + 1).read_to_end(&mut model);
    match unpacked {
        Ok(_) if model.len() as u64 > MOST_MODEL_BYTES => Err(NotAttached::TooLarge),
        Ok(_) => Ok(Attached { model, maker }),
        Err(_) => Err(NotAttached::Nothing),
    }
}

/// The stream of the file that is named as the report model.
fn model_of<'a>(dict: &Dict<'a>) -> Option<Stream<'a>> {
    let name: Text<'a> = dict.get("UF").or_else(|| dict.get("F"))?;
    let is_model = name.as_bytes() == b"model.json";
    is_model.then(|| dict.get::<Dict<'a>>("EF"))??.get::<Stream<'a>>("F")
}
