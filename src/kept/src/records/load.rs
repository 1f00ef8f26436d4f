//! What there is to load, as it is kept.

use pailwise_calc::flake::Cover;
use serde::{Deserialize, Serialize};

use crate::text::key;

/// What there is to load, as it is kept.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct LoadRecord {
    /// How thickly flake is thrown.
    pub cover: CoverPick,
    /// What was ticked, taken off and put on the list.
    pub list: CheckRecord,
}

/// What became of the list, as it is kept; items of the tool's own by the name of their text.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct CheckRecord {
    /// Items that are ticked off as loaded.
    pub done: Vec<String>,
    /// Items of the tool's own that the crew took off the list.
    pub gone: Vec<String>,
    /// Put on by the crew.
    pub own: Vec<String>,
}

/// How thickly flake is thrown, as it was chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CoverPick {
    /// As the product says, else as typed.
    #[default]
    Sheet,
    /// A scatter that leaves much of the base coat showing.
    Light,
    /// A thicker scatter that leaves only a little of the base showing.
    Medium,
    /// As much as the film takes.
    Full,
}

impl CoverPick {
    /// All of them, the least first.
    pub const ALL: [Self; 4] = [Self::Sheet, Self::Light, Self::Medium, Self::Full];

    /// Its name, as a text key.
    pub fn name(self) -> &'static str {
        match self {
            Self::Sheet => key::COVER_SHEET,
            Self::Light => key::COVER_LIGHT,
            Self::Medium => key::COVER_MEDIUM,
            Self::Full => key::COVER_FULL,
        }
    }

    /// What it usually takes; nothing where the data sheet is asked.
    pub fn usual(self) -> Option<Cover> {
        match self {
            Self::Sheet => None,
            Self::Light => Some(Cover::Light),
            Self::Medium => Some(Cover::Medium),
            Self::Full => Some(Cover::Full),
        }
    }
}
