//! How warm it is: slab, air, and the material in its cans; and how damp the air.

mod course;

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{TemperatureInterval, ThermodynamicTemperature, Time, celsius, unit};
use crate::record::ConditionsRecord;

pub use course::Course;

/// Checked readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// The slab, which the film soon shares.
    pub slab: ThermodynamicTemperature,
    /// The air around the pail.
    pub air: ThermodynamicTemperature,
    /// The material when A meets B.
    pub material: ThermodynamicTemperature,
    /// Relative humidity of the air as a share, where it was read.
    pub humidity: Option<f64>,
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
            humidity: record.humidity_percent.map(share).transpose()?,
        })
    }
}

/// A temperature that rises or falls steadily, as a slab does through part of a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drift {
    /// The temperature now.
    pub start: ThermodynamicTemperature,
    /// How much it changes in an hour.
    pub per_hour: TemperatureInterval,
}

impl Drift {
    /// A temperature that stays as it is.
    pub fn none(start: ThermodynamicTemperature) -> Self {
        Self { start, per_hour: TemperatureInterval::default() }
    }

    /// The temperature after a time, kept within what the tool is good for
    /// ([`Field::Slab`]), so that no drift leads to an absurd one.
    ///
    /// ```
    /// use pailwise_calc::conditions::Drift;
    /// use pailwise_calc::quantity::{celsius, minutes, TemperatureInterval, unit};
    /// let per_hour = TemperatureInterval::new::<unit::celsius_change>(3.0);
    /// let morning = Drift { start: celsius(18.0), per_hour };
    /// assert!((morning.after(minutes(90.0)).value - celsius(22.5).value).abs() < 1e-9);
    /// ```
    pub fn after(&self, time: Time) -> ThermodynamicTemperature {
        let (low, high) = Field::Slab.range();
        let kelvin = self.start.value + self.per_hour.value * time.get::<unit::hour>();
        ThermodynamicTemperature::new::<unit::kelvin>(kelvin.clamp(low.si(), high.si()))
    }
}
