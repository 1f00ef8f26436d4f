//! How warm it is: slab, air, and the material in its cans; and how damp the air.

mod course;
mod daily;
mod lag;

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{TemperatureInterval, ThermodynamicTemperature, celsius, unit};
use crate::record::ConditionsRecord;

pub use course::Course;

/// Temperatures of slab, air and material, and humidity, each within its range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// The slab, which the film soon shares.
    pub slab: ThermodynamicTemperature,
    /// The air around the pail.
    pub air: ThermodynamicTemperature,
    /// The material as it was read: in its cans, or after mixing.
    pub material: ThermodynamicTemperature,
    /// It was read in the pail, after the drill.
    pub read_after_mixing: bool,
    /// Relative humidity of the air as a share, where it was read.
    pub humidity: Option<f64>,
}

/// What a drill adds to a pail: some 100 W for three minutes into 4 kg are 2.4 K, and a pail is
/// seldom smaller.
pub fn drill_heat() -> TemperatureInterval {
    TemperatureInterval::new::<unit::kelvin_change>(2.0)
}

impl Conditions {
    /// How warm the material is once it is mixed: as it was read, and warmer by [`drill_heat`]
    /// unless it was read after mixing.
    ///
    /// ```
    /// use pailwise_calc::{conditions::Conditions, demo, record::ConditionsRecord};
    /// let mixed = |read_after_mixing| {
    ///     let record = ConditionsRecord { material_c: 21.0, read_after_mixing, ..demo::conditions() };
    ///     Conditions::try_from(&record).unwrap().mixed().value - 273.15
    /// };
    /// assert!((mixed(false) - 23.0).abs() < 1e-9 && (mixed(true) - 21.0).abs() < 1e-9);
    /// ```
    pub fn mixed(&self) -> ThermodynamicTemperature {
        if self.read_after_mixing { self.material } else { self.material + drill_heat() }
    }
}

impl TryFrom<&ConditionsRecord> for Conditions {
    type Error = Error;

    /// Checks each reading.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::NotANumber`], naming the one that is off.
    ///
    /// ```
    /// use pailwise_calc::{conditions::Conditions, demo, record::ConditionsRecord};
    /// let oven = ConditionsRecord { air_c: 80.0, ..demo::conditions() };
    /// let wrong = Conditions::try_from(&oven).unwrap_err();
    /// assert_eq!(wrong.to_string(), "air_c: 80 °C is outside -5 °C to 50 °C");
    /// ```
    fn try_from(record: &ConditionsRecord) -> Result<Self, Error> {
        let share = |percent: f64| Field::Humidity.check_share(percent / 100.0);
        Ok(Self {
            slab: Field::Slab.check(celsius(record.slab_c))?,
            air: Field::Air.check(celsius(record.air_c))?,
            material: Field::Material.check(celsius(record.material_c))?,
            read_after_mixing: record.read_after_mixing,
            humidity: record.humidity_percent.map(share).transpose()?,
        })
    }
}
