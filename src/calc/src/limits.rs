//! The conditions a product may be laid in, and the surface it may be laid on.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{TemperatureInterval, ThermodynamicTemperature, celsius, unit};
use crate::record::LimitsRecord;
use crate::surface::{Asked, in_order, percent};

/// The least and the most of a temperature, where the sheet says either.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Between {
    /// The lowest temperature allowed; none where the sheet sets no limit.
    pub least: Option<ThermodynamicTemperature>,
    /// The highest temperature allowed; none where the sheet sets no limit.
    pub most: Option<ThermodynamicTemperature>,
}

impl Between {
    fn new(
        (least, of_least): (Option<f64>, Field),
        (most, of_most): (Option<f64>, Field),
    ) -> Result<Self, Error> {
        let check =
            |field: Field, value: Option<f64>| value.map(|c| field.check(celsius(c))).transpose();
        in_order((least, most), of_least, of_most)?;
        Ok(Self { least: check(of_least, least)?, most: check(of_most, most)? })
    }

    /// Whether a temperature is neither below the one nor above the other.
    ///
    /// ```
    /// use pailwise_calc::{limits::Between, quantity::celsius};
    /// let limits = Between { least: Some(celsius(10.0)), most: None };
    /// assert!(limits.holds(celsius(10.0)) && !limits.holds(celsius(9.9)));
    /// ```
    pub fn holds(&self, at: ThermodynamicTemperature) -> bool {
        self.least.is_none_or(|least| at >= least) && self.most.is_none_or(|most| at <= most)
    }
}

/// What a data sheet allows.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Limits {
    /// The lowest and highest slab temperature the product may be laid on.
    pub slab: Between,
    /// The lowest and highest air temperature the product may be laid in.
    pub air: Between,
    /// The most relative humidity of the air, as a share.
    pub humidity: Option<f64>,
    /// How far the slab must be above the dew point, where the sheet says so itself.
    pub spread: Option<TemperatureInterval>,
    /// The limits for the slab's moisture, pH, roughness and drying time.
    pub surface: Asked,
}

impl Limits {
    /// How far the slab must be above the dew point: what the sheet says, else 3 K, as is practice
    /// after ISO 8502-4.
    ///
    /// ```
    /// use pailwise_calc::limits::Limits;
    /// use pailwise_calc::quantity::unit;
    /// assert_eq!(Limits::default().spread().get::<unit::celsius_change>(), 3.0);
    /// ```
    pub fn spread(&self) -> TemperatureInterval {
        self.spread.unwrap_or_else(|| TemperatureInterval::new::<unit::kelvin_change>(3.0))
    }
}

impl Limits {
    /// Whether the sheet limits neither the slab nor the air nor its humidity.
    ///
    /// ```
    /// use pailwise_calc::{demo, limits::Limits};
    /// assert!(Limits::default().are_silent());
    /// assert!(!demo::base().unwrap().limits().are_silent());
    /// ```
    pub fn are_silent(&self) -> bool {
        let Self { slab, air, humidity, spread, .. } = self;
        let none = Between::default();
        *slab == none && *air == none && humidity.is_none() && spread.is_none()
    }
}

impl TryFrom<&LimitsRecord> for Limits {
    type Error = Error;

    /// Checks every limit of a record.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a limit outside its range, [`Error::Contradiction`] for a least
    /// above its most.
    fn try_from(record: &LimitsRecord) -> Result<Self, Error> {
        let spread = record.dew_point_spread_k.map(|kelvin| {
            Field::DewPointSpread.check(TemperatureInterval::new::<unit::kelvin_change>(kelvin))
        });
        Ok(Self {
            slab: Between::new(
                (record.slab_min_c, Field::SlabLeast),
                (record.slab_max_c, Field::SlabMost),
            )?,
            air: Between::new(
                (record.air_min_c, Field::AirLeast),
                (record.air_max_c, Field::AirMost),
            )?,
            humidity: percent(Field::HumidityMost, record.humidity_max_percent)?,
            spread: spread.transpose()?,
            surface: Asked::try_from(record)?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_limit_is_checked() {
        let good = LimitsRecord {
            slab_min_c: Some(10.0),
            slab_max_c: Some(32.0),
            air_min_c: Some(10.0),
            air_max_c: Some(35.0),
            humidity_max_percent: Some(85.0),
            dew_point_spread_k: Some(3.0),
            slab_humidity_max_percent: Some(80.0),
            vapor_emission_max_g_per_m2_day: Some(15.0),
            surface_ph_min: Some(6.0),
            surface_ph_max: Some(10.0),
            profile_min_csp: Some(2),
            profile_max_csp: Some(3),
            dry_after_wash_h: Some(24.0),
        };
        assert!(Limits::try_from(&good).is_ok());
        let wrong: [fn(&mut LimitsRecord); 12] = [
            |l| l.slab_min_c = Some(f64::NAN),
            |l| l.slab_min_c = Some(33.0),
            |l| l.air_max_c = Some(90.0),
            |l| l.air_min_c = Some(36.0),
            |l| l.humidity_max_percent = Some(101.0),
            |l| l.dew_point_spread_k = Some(-1.0),
            |l| l.slab_humidity_max_percent = Some(0.0),
            |l| l.vapor_emission_max_g_per_m2_day = Some(1e9),
            |l| l.surface_ph_min = Some(11.0),
            |l| l.surface_ph_max = Some(15.0),
            |l| l.profile_min_csp = Some(4),
            |l| l.dry_after_wash_h = Some(-2.0),
        ];
        for break_it in wrong {
            let mut limits = good;
            break_it(&mut limits);
            assert!(Limits::try_from(&limits).is_err(), "{limits:?}");
        }
    }
}
