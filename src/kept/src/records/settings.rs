//! How this phone likes things: language, units, theme, favourites.

use pailwise_calc::record::VERSION;
use serde::{Deserialize, Serialize};

use super::Record;
use crate::text::Language;
use crate::units::Units;

/// Whether the app is shown in light or dark colours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Theme {
    /// As the phone has it.
    #[default]
    Phone,
    /// Light colours, to be read in bright sun.
    Light,
    /// Dark colours, to be read where there is little light.
    Dark,
}

impl Theme {
    /// Every theme, in the order the settings offer them.
    pub const ALL: [Self; 3] = [Self::Phone, Self::Light, Self::Dark];

    /// Its name in the page's `data-theme`.
    pub fn name(self) -> &'static str {
        match self {
            Self::Phone => "phone",
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }
}

/// The settings as they are kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SettingsRecord {
    /// Names the kind of record, here the phone's settings; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// The language that the app speaks on this phone.
    pub language: Language,
    /// The units in which figures are shown and typed.
    pub units: Units,
    /// Whether the app is shown light, dark or as the phone has it.
    #[serde(default)]
    pub theme: Theme,
    /// Favourite products, by id.
    #[serde(default)]
    pub favourites: Vec<String>,
    /// Products put away, by id.
    #[serde(default)]
    pub archived: Vec<String>,
    /// What the phone cannot do to call for attention has been told.
    #[serde(default)]
    pub lacks_told: bool,
}

impl Record for SettingsRecord {
    const FORMAT: &'static str = "pailwise-settings";
}

impl SettingsRecord {
    /// Settings for a phone that prefers these languages: US units for people in the United
    /// States, metric for all others.
    pub fn first(languages: &[String]) -> Self {
        let american = languages.first().is_none_or(|tag| tag.ends_with("-US") || tag == "en");
        Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
            language: Language::preferred(languages.iter().map(String::as_str)),
            units: if american { Units::Us } else { Units::Metric },
            theme: Theme::default(),
            favourites: Vec::new(),
            archived: Vec::new(),
            lacks_told: false,
        }
    }
}

/// Puts a name into a list, or takes it out.
pub fn turn(names: &mut Vec<String>, name: &str) {
    match names.iter().position(|n| n == name) {
        Some(at) => {
            names.remove(at);
        }
        None => names.push(name.to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_phone_starts_in_its_own_language_and_units() {
        let first = |tag: &str| SettingsRecord::first(&[tag.to_owned()]);
        assert_eq!((first("es-US").language, first("es-US").units), (Language::Es, Units::Us));
        assert_eq!((first("es-MX").language, first("es-MX").units), (Language::Es, Units::Metric));
        assert_eq!(first("en-US").units, Units::Us);
        assert_eq!(SettingsRecord::first(&[]).units, Units::Us);
    }
}
