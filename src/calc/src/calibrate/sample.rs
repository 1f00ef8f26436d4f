//! The sample that a pot life was measured on: its shape, and what heat it lost.

use serde::{Deserialize, Serialize};

use super::PotLifePoint;
use crate::cure::Kinetics;
use crate::error::Error;
use crate::pail::{Pail, Thermal, heat_rise};
use crate::quantity::{Frequency, HeatTransfer, Volume, unit};
use crate::vessel::Vessel;

/// How a pot life was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Sample {
    /// A whole kit in its pail.
    Kit,
    /// In an insulated cup: ISO 9514.
    Insulated,
    /// In a cup on the bench: ASTM D2471, ASTM C881.
    Cup,
    /// In such a cup until it gelled, which is later than it can be rolled.
    Gel,
}

impl Sample {
    /// Every way in which a pot life can have been measured.
    pub const ALL: [Self; 4] = [Self::Kit, Self::Insulated, Self::Cup, Self::Gel];

    /// Whether it lost its heat as a cup on the bench does; a sheet that does not say is taken to
    /// have used one.
    pub fn is_cup(sample: Option<Self>) -> bool {
        matches!(sample, None | Some(Self::Cup | Self::Gel))
    }
}

/// Heat lost from all of a cup on a bench, its open top included, W/(m²·K).
///
/// By the joint fit over published figures (`tests/reference/FIT.md`). A wall in still air loses 9
/// to 11; bench, stand and the stirring stick take more.
pub fn bench_cup() -> HeatTransfer {
    HeatTransfer::new::<unit::watt_per_square_meter_kelvin>(25.0)
}

/// The sample of ISO 9514, where a sheet that goes by it names no other (from memory).
pub fn iso_9514_sample() -> Volume {
    Volume::new::<unit::milliliter>(300.0)
}

impl PotLifePoint {
    /// The conversion at which its time is over.
    pub(crate) fn ends_at(&self, end: f64, gel: f64) -> f64 {
        if self.sample == Some(Sample::Gel) { gel.max(end) } else { end }
    }

    /// The sample as a pail that starts at the sheet's temperature in air as warm.
    ///
    /// It stands as high as it is wide. A cup loses heat from all of its surface, at `cup_loss`;
    /// what was insulated, was a kit, or is to be taken for one (`cup_loss` not given) loses it as
    /// a pail does.
    pub(crate) fn stands(
        &self,
        kinetics: &Kinetics,
        thermal: &Thermal,
        cup_loss: Option<HeatTransfer>,
    ) -> Result<Pail, Error> {
        let volume = self.mass / thermal.density;
        let vessel = Vessel::compact(volume);
        let outside = vessel.outside_surface(volume)?;
        let (loss, surface) = match cup_loss {
            Some(loss) if Sample::is_cup(self.sample) => (loss, outside + vessel.mouth()),
            _ => (thermal.heat_loss, outside),
        };
        let cooling: Frequency = loss * surface / (self.mass * thermal.heat_capacity);
        Ok(Pail {
            kinetics: *kinetics,
            rise: heat_rise(thermal),
            cooling,
            warming: cooling,
            material: self.temperature,
            air: self.temperature,
            cold: None,
        })
    }
}
