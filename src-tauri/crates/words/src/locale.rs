//! The languages there are. Another one is a folder beside `catalogue/en` and one entry here.

/// One language of the catalogue: its files, whole, compiled in.
#[derive(Debug)]
pub(crate) struct Language {
    /// BCP 47 tag; plural rules and the decimal sign follow it.
    pub(crate) tag: &'static str,
    /// What its speakers call it.
    pub(crate) name: &'static str,
    /// Every file of its folder: name and text.
    pub(crate) files: &'static [(&'static str, &'static str)],
}

macro_rules! files {
    ($folder:literal: $($file:literal),+ $(,)?) => {
        &[$(($file, include_str!(concat!("../catalogue/", $folder, "/", $file, ".ftl")))),+]
    };
}

static ENGLISH: Language = Language {
    tag: "en",
    name: "English",
    files: files!(
        "en": "judgement", "tester", "bench", "reference", "at-bench", "bench-result", "method", "limits", "refused", "failure", "cautions", "units", "ui", "bench-ui", "papers", "demo", "answers", "recall", "tester-report", "people",
    ),
};

/// Every language, the default one first.
static LANGUAGES: &[&Language] = &[&ENGLISH];

/// A language people can choose, or the pseudo-locale made from the first of them.
#[derive(Clone, Copy, Debug)]
pub struct Locale {
    pub(crate) language: &'static Language,
    pub(crate) pseudo: bool,
}

impl Locale {
    /// English.
    pub const ENGLISH: Self = Self { language: &ENGLISH, pseudo: false };

    /// English made 40 % longer, accented and bracketed, so that a test sees every word that is not from the
    /// catalogue and every place that is too narrow.
    pub const PSEUDO: Self = Self { language: &ENGLISH, pseudo: true };

    /// The locale of that id (a language's tag, or `en-XA` for the pseudo-locale), if there is one.
    #[must_use]
    pub fn named(id: &str) -> Option<Self> {
        if id == Self::PSEUDO.id() {
            return Some(Self::PSEUDO);
        }
        Self::all().find(|locale| locale.id() == id)
    }

    /// Every language a person can choose, the default one first. The pseudo-locale is not among them.
    pub fn all() -> impl Iterator<Item = Self> {
        LANGUAGES.iter().map(|language| Self { language, pseudo: false })
    }

    /// Its id: `en`, or `en-XA` for the pseudo-locale.
    #[must_use]
    pub const fn id(self) -> &'static str {
        if self.pseudo { "en-XA" } else { self.language.tag }
    }

    /// What its speakers call it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        if self.pseudo { "Pseudo-locale" } else { self.language.name }
    }
}
