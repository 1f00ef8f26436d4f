//! The units a person reads.

use serde::{Deserialize, Serialize};

/// The units a person reads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// US customary units: feet, pounds, gallons and °F.
    #[default]
    Us,
    /// Metric units: metres, kilograms, litres and °C.
    Metric,
}

impl Units {
    /// Both systems of units, to choose one from.
    pub const ALL: [Self; 2] = [Self::Us, Self::Metric];

    /// Returns the other of the two systems of units.
    #[must_use]
    pub fn other(self) -> Self {
        if self == Self::Us { Self::Metric } else { Self::Us }
    }
}
