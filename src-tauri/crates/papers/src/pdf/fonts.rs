//! The typeface of the papers, complete faces embedded in the program: a page looks the same on every machine.

use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::layout::Abs;
use typst::text::{Font, FontInstance, FontVariant, FontVariations};

use crate::PaperError;

/// IBM Plex Sans (SIL Open Font License, `fonts/OFL.txt`): its figures all have one width, and it holds Ω ≥ ≤ and the
/// narrow no-break space.
const FACES: [&[u8]; 2] =
    [include_bytes!("../../fonts/IBMPlexSans-Regular.ttf"), include_bytes!("../../fonts/IBMPlexSans-SemiBold.ttf")];

static FONTS: LazyLock<Vec<Font>> =
    LazyLock::new(|| FACES.into_iter().flat_map(|face| Font::iter(Bytes::new(face))).collect());

/// The regular face, to measure text with.
static MEASURED: LazyLock<Option<FontInstance>> = LazyLock::new(|| {
    let regular = FONTS.first()?.clone();
    Some(regular.instantiate(FontVariant::default(), Abs::pt(9.0), &FontVariations::default()))
});

/// All faces, the regular one first.
pub(super) fn all() -> &'static [Font] {
    &FONTS
}

/// The regular face; the others cover the same characters.
pub(super) fn regular() -> Result<&'static Font, PaperError> {
    FONTS.first().ok_or(PaperError::Fonts)
}

/// The width of a text in the regular face, in ems; none if one of its characters is not in it.
pub(crate) fn ems(text: &str) -> Option<f64> {
    let font = MEASURED.as_ref()?;
    text.chars().map(|character| Some(font.x_advance(font.ttf().glyph_index(character)?.0)?.get())).sum()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

    use super::{FACES, all};

    #[test]
    fn every_face_is_read_and_covers_the_same_characters() {
        let fonts = all();
        assert_eq!(fonts.len(), FACES.len());
        let covered: Vec<Vec<u32>> = fonts.iter().map(|font| font.info().coverage.iter().collect()).collect();
        assert_eq!(covered[0], covered[1]);
        let named: Vec<_> =
            fonts.iter().map(|f| (f.info().family.as_str(), f.info().variant.weight.to_number())).collect();
        assert_eq!(named, [("IBM Plex Sans", 400), ("IBM Plex Sans SmBld", 600)], "the names the template asks for");
    }
}
