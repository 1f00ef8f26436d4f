//! Every text a person reads, from the language files.
//!
//! `lang/*.ftl` hold the texts (Fluent syntax); `build.rs` checks them against each other and
//! makes [`key`] and [`Language`] of them. Adding a language is one file there.

use std::cell::OnceCell;

use fluent_bundle::{FluentArgs, FluentBundle, FluentResource};
use serde::{Deserialize, Serialize};
use unic_langid::LanguageIdentifier;

/// The names of all texts.
pub mod key {
    include!(concat!(env!("OUT_DIR"), "/keys.rs"));
}

include!(concat!(env!("OUT_DIR"), "/languages.rs"));

impl Language {
    /// The first of a phone's preferred languages that the app speaks.
    pub fn preferred<'a>(tags: impl IntoIterator<Item = &'a str>) -> Self {
        let spoken = |tag: &str| {
            Self::ALL.into_iter().find(|language| {
                tag.split('-').next().is_some_and(|main| main.eq_ignore_ascii_case(language.tag()))
            })
        };
        tags.into_iter().find_map(spoken).unwrap_or_default()
    }

    /// The one after it, and the first after the last.
    #[must_use]
    pub fn next(self) -> Self {
        let mut after = Self::ALL.into_iter().skip_while(|language| *language != self).skip(1);
        after.next().unwrap_or_default()
    }

    /// Reads its texts now, not when the first of them is said.
    pub fn read(self) {
        BUNDLES.with(|bundles| {
            bundles[self as usize].get_or_init(|| self.bundle());
        });
    }

    /// A text with its figures filled in.
    ///
    /// ```
    /// use pailwise_kept::text::{Language, key};
    /// assert_eq!(Language::Es.say(key::PART, &[("label", "A")]), "Parte A");
    /// ```
    pub fn say(self, key: &str, figures: &[(&str, &str)]) -> String {
        BUNDLES.with(|bundles| {
            let bundle = bundles[self as usize].get_or_init(|| self.bundle());
            let Some(pattern) = bundle.get_message(key).and_then(|message| message.value()) else {
                return key.to_owned();
            };
            let mut args = FluentArgs::new();
            for (name, figure) in figures {
                args.set(*name, *figure);
            }
            let mut problems = Vec::new();
            bundle.format_pattern(pattern, Some(&args), &mut problems).into_owned()
        })
    }

    fn bundle(self) -> FluentBundle<FluentResource> {
        let tag: LanguageIdentifier = self.tag().parse().unwrap_or_default();
        let mut bundle = FluentBundle::new(vec![tag]);
        // Bidirectional marks around figures would show as boxes on some phones; both languages
        // run left to right.
        bundle.set_use_isolating(false);
        // The build has parsed these files already; what parses is used.
        let resource = match FluentResource::try_new(self.source().to_owned()) {
            Ok(resource) | Err((resource, _)) => resource,
        };
        bundle.add_resource_overriding(resource);
        bundle
    }
}

thread_local! {
    /// The texts of each language, read when it is first wanted.
    static BUNDLES: [OnceCell<FluentBundle<FluentResource>>; Language::ALL.len()] =
        const { [const { OnceCell::new() }; Language::ALL.len()] };
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::working::Sentence;

    /// The page that stands there until the app does says what the app says.
    #[test]
    fn the_page_gives_the_cautions_in_the_app_s_own_words() {
        let page = include_str!("../../../index.html");
        for language in Language::ALL {
            for text in
                [key::CAUTION_SKIN, key::CAUTION_HOT, key::CAUTION_LEFTOVERS, key::DATA_SHEET_FIRST]
            {
                let said = language.say(text, &[]);
                assert!(page.contains(&said), "the page does not say: {said}");
            }
        }
    }

    #[test]
    fn every_text_can_be_said_in_every_language() {
        for language in Language::ALL {
            for key in key::ALL {
                let said = language.say(key, &[]);
                assert!(!said.is_empty() && said != *key, "{key} in {}", language.tag());
            }
        }
    }

    #[test]
    fn every_sentence_of_the_working_shows_all_its_figures() {
        for language in Language::ALL {
            for sentence in Sentence::ALL {
                let marks: Vec<(&str, String)> =
                    sentence.figures().iter().map(|name| (*name, format!("<{name}>"))).collect();
                let figures: Vec<_> = marks.iter().map(|(n, m)| (*n, m.as_str())).collect();
                let said = language.say(sentence.key(), &figures);
                for (name, mark) in &marks {
                    assert!(said.contains(mark.as_str()), "{}: {name} in {said:?}", sentence.key());
                }
            }
        }
    }

    #[test]
    fn the_phone_s_languages_choose() {
        assert_eq!(Language::preferred(["fr-CA", "es-MX", "en"]), Language::Es);
        assert_eq!(Language::preferred(["de"]), Language::En);
        assert_eq!(Language::preferred([]), Language::En);
    }
}
