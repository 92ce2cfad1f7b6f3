//! The reader of one catalogue.

use crate::catalogue::catalogue;
use crate::locale::Locale;
use chrono::FixedOffset;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use provenohm_assess::quantity::{DecimalSign, NumberStyle};
use std::sync::Arc;
use unic_langid::LanguageIdentifier;

/// The words of one locale.
#[derive(Clone)]
pub struct Words {
    locale: Locale,
    numbers: NumberStyle,
    /// Times of this offset need not say so; without one no time does.
    usual_offset: Option<FixedOffset>,
    bundle: Arc<FluentBundle<FluentResource>>,
    unreadable: Vec<String>,
}

/// A message that cannot be shown as it was meant.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MissingWords {
    /// The catalogue has no such message.
    #[error("{0}")]
    NoMessage(String),
    /// The message asks for something that was not filled in.
    #[error("{key}: {complaints}")]
    NotFilled {
        /// The message.
        key: String,
        /// What Fluent says is missing.
        complaints: String,
    },
}

impl Words {
    /// The words of a locale. Entries of the catalogue that cannot be read are left out and named by
    /// [`Words::unreadable`]; a test holds that there are none.
    #[must_use]
    pub fn new(locale: Locale) -> Self {
        let language: LanguageIdentifier = locale.language.tag.parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![language]);
        // Isolation marks would end up in files and on paper; all languages so far run left to right.
        bundle.set_use_isolating(false);
        bundle.set_formatter(Some(grouped_count));
        let (resource, mut unreadable) = match FluentResource::try_new(catalogue(locale)) {
            Ok(resource) => (resource, Vec::new()),
            Err((readable, errors)) => (readable, errors.iter().map(ToString::to_string).collect()),
        };
        if let Err(errors) = bundle.add_resource(resource) {
            unreadable.extend(errors.iter().map(ToString::to_string));
        }
        let numbers = NumberStyle::shown(DecimalSign::of_language(locale.language.tag));
        Self { locale, numbers, usual_offset: None, bundle: Arc::new(bundle), unreadable }
    }

    /// Whose words these are.
    #[must_use]
    pub const fn locale(&self) -> Locale {
        self.locale
    }

    /// The same words with the decimal sign of another region.
    #[must_use]
    pub fn with_decimal_sign(self, sign: DecimalSign) -> Self {
        Self { numbers: NumberStyle::shown(sign), ..self }
    }

    /// The same words for a paper that says once that its times are of this offset: a time of another one says so itself.
    #[must_use]
    pub fn with_usual_offset(&self, usual: FixedOffset) -> Self {
        Self { usual_offset: Some(usual), ..self.clone() }
    }

    /// The offset from UTC that times need not state.
    pub(crate) const fn usual_offset(&self) -> Option<FixedOffset> {
        self.usual_offset
    }

    /// How numbers are written.
    #[must_use]
    pub const fn numbers(&self) -> NumberStyle {
        self.numbers
    }

    /// What could not be read of the catalogue: entries with faults, and keys that stand in it twice.
    #[must_use]
    pub fn unreadable(&self) -> &[String] {
        &self.unreadable
    }

    /// Whether the catalogue has that message.
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.bundle.has_message(key)
    }

    /// The message of that key. A missing one is shown as its key, never as nothing.
    #[must_use]
    pub fn text(&self, key: &str) -> String {
        self.text_with(key, &[])
    }

    /// The message of that key with its places filled in. A missing message is shown as its key, one that lacks
    /// something as its key and what it lacks.
    #[must_use]
    pub fn text_with(&self, key: &str, args: &[(&str, FluentValue<'_>)]) -> String {
        self.try_text_with(key, args).unwrap_or_else(|missing| missing.to_string())
    }

    /// The message of that key with its places filled in.
    ///
    /// # Errors
    /// [`MissingWords`] if there is no such message or it asks for something that is not in `args`.
    pub fn try_text_with(&self, key: &str, args: &[(&str, FluentValue<'_>)]) -> Result<String, MissingWords> {
        let pattern = self
            .bundle
            .get_message(key)
            .and_then(|message| message.value())
            .ok_or_else(|| MissingWords::NoMessage(key.to_owned()))?;
        let filled: FluentArgs<'_> = args.iter().map(|(name, value)| (*name, value.clone())).collect();
        let mut errors = Vec::new();
        let text = self.bundle.format_pattern(pattern, Some(&filled), &mut errors).into_owned();
        if errors.is_empty() {
            Ok(text)
        } else {
            let complaints = errors.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ");
            Err(MissingWords::NotFilled { key: key.to_owned(), complaints })
        }
    }
}

/// Numbers in sentences are counts: grouped like every other number.
fn grouped_count<M>(value: &FluentValue<'_>, _: &M) -> Option<String> {
    match value {
        FluentValue::Number(number) => Some(NumberStyle::shown(DecimalSign::Point).number(&number.value.to_string())),
        _ => None,
    }
}
