//! How warm it is: slab, air, and the material in its cans.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{ThermodynamicTemperature, celsius};
use crate::record::ConditionsRecord;

/// Checked temperatures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// The slab, which the film soon shares.
    pub slab: ThermodynamicTemperature,
    /// The air around the pail.
    pub air: ThermodynamicTemperature,
    /// The material when A meets B.
    pub material: ThermodynamicTemperature,
}

impl TryFrom<&ConditionsRecord> for Conditions {
    type Error = Error;

    /// Checks each temperature.
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
        Ok(Self {
            slab: Field::Slab.check(celsius(record.slab_c))?,
            air: Field::Air.check(celsius(record.air_c))?,
            material: Field::Material.check(celsius(record.material_c))?,
        })
    }
}
