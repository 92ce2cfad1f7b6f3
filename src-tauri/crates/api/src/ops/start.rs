//! Words, settings, and where the person was.

use crate::failure::Failure;
use crate::state::State;
use crate::views::{CatalogueAsk, CatalogueView, Choice, Hand, NoInput, Nothing, Place, Settings, SettingsView, Theme};
use provenohm_words::{Locale, Words};

pub(crate) fn catalogue(state: &mut State, asked: CatalogueAsk) -> Result<CatalogueView, Failure> {
    let locale = match asked.locale {
        Some(id) => Locale::named(&id).ok_or_else(|| Failure::of("not_found"))?,
        None => state.words.locale(),
    };
    Ok(CatalogueView { locale: locale.id().to_owned(), ftl: provenohm_words::catalogue(locale) })
}

pub(crate) fn settings(state: &mut State, _: NoInput) -> Result<SettingsView, Failure> {
    let kept = state.setting::<Settings>(&state.own("settings"))?;
    let locale = state.words.locale().id().to_owned();
    let settings = kept.unwrap_or(Settings { theme: Theme::System, hand: Hand::Right, gloves: false, locale });
    let locales = Locale::all().map(|one| Choice { id: one.id().to_owned(), words: one.name().to_owned() }).collect();
    Ok(SettingsView { settings, locales })
}

pub(crate) fn set_settings(state: &mut State, asked: Settings) -> Result<SettingsView, Failure> {
    let locale = Locale::named(&asked.locale).ok_or_else(|| Failure::of("not_found"))?;
    state.keep_setting(&state.own("settings"), &asked)?;
    state.keep_setting(&state.own("locale"), &locale.id())?;
    state.words = Words::new(locale);
    settings(state, NoInput {})
}

pub(crate) fn place(state: &mut State, _: NoInput) -> Result<Place, Failure> {
    Ok(Place { hash: state.setting(&state.own("place"))? })
}

pub(crate) fn set_place(state: &mut State, asked: Place) -> Result<Nothing, Failure> {
    state.keep_setting(&state.own("place"), &asked.hash)?;
    Ok(Nothing {})
}
