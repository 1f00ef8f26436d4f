//! What the sheet for the client says beyond the times, as it is kept.

use serde::{Deserialize, Serialize};

use crate::text::Language;

/// What the sheet says beyond the times, as it is kept.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct HandOverRecord {
    /// For whom: a name, a place.
    pub client: String,
    /// By whom, and how to reach them.
    pub crew: String,
    /// What else is to be said.
    pub notes: String,
    /// The language of the sheet, where it is not the person's own.
    pub language: Option<Language>,
    /// The date of a visit afterwards: "2026-12-25".
    pub visit: String,
    /// The name of its calendar entries in the world, from when they were first saved.
    pub id: String,
}
