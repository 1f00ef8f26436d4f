//! The units a person reads.

use serde::{Deserialize, Serialize};

/// The units a person reads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// US customary.
    #[default]
    Us,
    /// Metric.
    Metric,
}

impl Units {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Us, Self::Metric];

    /// The other.
    #[must_use]
    pub fn other(self) -> Self {
        if self == Self::Us { Self::Metric } else { Self::Us }
    }
}
