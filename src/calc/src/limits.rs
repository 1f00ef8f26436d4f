//! The conditions a product may be laid in, and what breaks them.

use crate::conditions::Conditions;
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{ThermodynamicTemperature, celsius};
use crate::record::LimitsRecord;

/// The least and the most of something, where the sheet says either.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Between {
    /// The least.
    pub least: Option<ThermodynamicTemperature>,
    /// The most.
    pub most: Option<ThermodynamicTemperature>,
}

/// The temperatures a product may be laid at.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Limits {
    /// Of the slab.
    pub slab: Between,
    /// Of the air.
    pub air: Between,
}

/// A reading outside what the data sheet allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Breach {
    /// Which reading.
    pub reading: Field,
    /// What it is.
    pub given: ThermodynamicTemperature,
    /// What the sheet allows: the least where it is below, the most where it is above.
    pub allowed: ThermodynamicTemperature,
}

impl Limits {
    /// What of these conditions the sheet does not allow.
    ///
    /// ```
    /// use pailwise_calc::{conditions::Conditions, demo, field::Field, limits::Limits};
    /// use pailwise_calc::record::LimitsRecord;
    /// let sheet = LimitsRecord { slab_min_c: Some(25.0), ..LimitsRecord::default() };
    /// let conditions = Conditions::try_from(&demo::conditions()).unwrap();
    /// let breaches = Limits::try_from(&sheet).unwrap().broken_by(&conditions);
    /// assert_eq!(breaches.len(), 1);
    /// assert_eq!(breaches[0].reading, Field::Slab);
    /// ```
    pub fn broken_by(&self, conditions: &Conditions) -> Vec<Breach> {
        let readings =
            [(Field::Slab, conditions.slab, self.slab), (Field::Air, conditions.air, self.air)];
        let breach = |(reading, given, between): (Field, ThermodynamicTemperature, Between)| {
            let below = between.least.filter(|least| given < *least);
            let allowed = below.or(between.most.filter(|most| given > *most))?;
            Some(Breach { reading, given, allowed })
        };
        readings.into_iter().filter_map(breach).collect()
    }
}

impl TryFrom<&LimitsRecord> for Limits {
    type Error = Error;

    /// Checks every limit of a record, those of the surface too.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a limit outside its range, [`Error::Contradiction`] for a least
    /// above its most.
    fn try_from(record: &LimitsRecord) -> Result<Self, Error> {
        use crate::quantity::{Figure, TemperatureInterval, Time, unit};
        let temperature =
            |field: Field, value: Option<f64>| value.map(|c| field.check(celsius(c))).transpose();
        let share = |field: Field, value: Option<f64>| match value {
            Some(percent) => field.check_share(percent / 100.0).map(drop),
            None => Ok(()),
        };
        let number = |field: Field, value: Option<f64>| match value {
            Some(number) => field.check(Figure::Number(number)).map(drop),
            None => Ok(()),
        };
        let (slab_min, slab_max) = (
            temperature(Field::SlabLeast, record.slab_min_c)?,
            temperature(Field::SlabMost, record.slab_max_c)?,
        );
        let (air_min, air_max) = (
            temperature(Field::AirLeast, record.air_min_c)?,
            temperature(Field::AirMost, record.air_max_c)?,
        );
        share(Field::HumidityMost, record.humidity_max_percent)?;
        if let Some(kelvin) = record.dew_point_spread_k {
            let spread = TemperatureInterval::new::<unit::kelvin_change>(kelvin);
            Field::DewPointSpread.check(spread)?;
        }
        share(Field::SlabHumidityMost, record.slab_humidity_max_percent)?;
        number(Field::VaporEmissionMost, record.vapor_emission_max_g_per_m2_day)?;
        number(Field::SurfacePhLeast, record.surface_ph_min)?;
        number(Field::SurfacePhMost, record.surface_ph_max)?;
        for (field, profile) in [
            (Field::ProfileLeast, record.profile_min_csp),
            (Field::ProfileMost, record.profile_max_csp),
        ] {
            profile.map(|csp| field.check(Figure::Count(csp))).transpose()?;
        }
        if let Some(hours) = record.dry_after_wash_h {
            Field::DryAfterWash.check(Time::new::<unit::hour>(hours))?;
        }
        let profile = |csp: Option<u32>| csp.map(f64::from);
        for (least, most, field, other) in [
            (record.slab_min_c, record.slab_max_c, Field::SlabLeast, Field::SlabMost),
            (record.air_min_c, record.air_max_c, Field::AirLeast, Field::AirMost),
            (
                record.surface_ph_min,
                record.surface_ph_max,
                Field::SurfacePhLeast,
                Field::SurfacePhMost,
            ),
            (
                profile(record.profile_min_csp),
                profile(record.profile_max_csp),
                Field::ProfileLeast,
                Field::ProfileMost,
            ),
        ] {
            if least.zip(most).is_some_and(|(least, most)| least > most) {
                return Err(Error::Contradiction { field, other });
            }
        }
        Ok(Self {
            slab: Between { least: slab_min, most: slab_max },
            air: Between { least: air_min, most: air_max },
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
