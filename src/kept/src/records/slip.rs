//! What was really poured, as it is kept while a pail is brought back.

use std::collections::BTreeMap;

use pailwise_calc::field::Field;
use pailwise_calc::quantity::{Time, minutes, unit};
use pailwise_calc::record::VERSION;
use serde::{Deserialize, Serialize};

use super::Record as _;
use crate::entry::{Entry, Invalid, Kind};

/// What was typed about a pail that was poured wrongly.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SlipRecord {
    /// Names the kind of record, here what was poured wrongly; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// Readings by product, way and pour; what is not here came out as planned.
    pub poured: BTreeMap<String, Entry>,
    /// When A met B, if it has.
    pub met: Option<MetRecord>,
    /// It was said that A and B have not met. Unsaid, they are taken to have met now.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub apart: bool,
}

/// When A met B: so many minutes before it was typed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MetRecord {
    /// How many minutes ago, as typed.
    pub ago: Entry,
    /// When that was typed, in milliseconds of the phone's clock.
    pub typed_at_ms: f64,
}

impl MetRecord {
    /// How long ago that is now. A phone's clock that was set back takes nothing away.
    ///
    /// # Errors
    /// [`Invalid`] for what was typed.
    pub fn since(&self, now_ms: f64) -> Result<Time, Invalid> {
        let typed = self.ago.value(Kind::Minutes, Field::MetAgo)?;
        let on = ((now_ms - self.typed_at_ms) / 60_000.0).max(0.0);
        let (_, most) = Field::MetAgo.range();
        // Past a day nothing in a pail is of use; the clock stops there.
        Ok(minutes(typed + on).min(Time::new::<unit::second>(most.si())))
    }
}

impl Default for SlipRecord {
    fn default() -> Self {
        Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
            poured: BTreeMap::new(),
            met: None,
            apart: false,
        }
    }
}
