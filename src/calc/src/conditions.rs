//! How warm it is: slab, air, and the material in its cans; and how damp the air.

mod course;
mod daily;
mod lag;

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{ThermodynamicTemperature, celsius};
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
