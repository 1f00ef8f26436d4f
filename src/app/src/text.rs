//! Texts in the language now chosen, as signals and for views.

use leptos::prelude::*;

pub(crate) use pailwise_kept::text::{Language, key};

/// The language now chosen, as a signal in the app's context.
pub fn language() -> Language {
    use_context::<Signal<Language>>().map_or_else(Language::default, |signal| signal.get())
}

/// A text in the language now chosen.
pub fn tr(key: &str) -> String {
    language().say(key, &[])
}

/// A text with figures in the language now chosen.
pub fn tr_with(key: &str, figures: &[(&str, &str)]) -> String {
    language().say(key, figures)
}

/// A text that follows the chosen language, to put into a view.
pub fn live(key: &'static str) -> impl Fn() -> String + Copy + Send + Sync + 'static {
    move || tr(key)
}
