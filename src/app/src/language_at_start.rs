//! The language in which the app starts on this phone: the one kept, else the first of the phone's own
//! that the app speaks (`Language::preferred` in `kept/src/text.rs`), else English.

use leptos::prelude::window;
use pailwise_kept::envelope;
use pailwise_kept::records::settings::SettingsRecord;
use pailwise_kept::text::Language;

use crate::store;

/// The languages the phone prefers, best first.
pub(crate) fn phone_languages() -> Vec<String> {
    let navigator = window().navigator();
    navigator.languages().iter().filter_map(|tag| tag.as_string()).collect()
}

/// The language the app will speak: the one kept on this phone, or else one the phone prefers.
pub fn language_at_start() -> Language {
    let kept = store::raw(store::SETTINGS).and_then(|text| envelope::read(&text).ok());
    kept.unwrap_or_else(|| SettingsRecord::first(&phone_languages())).language
}
