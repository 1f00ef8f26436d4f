//! Dew point and relative humidity.
//!
//! Magnus form of WMO-No. 8 (Guide to Instruments and Methods of Observation, Annex 4.B), pressure
//! correction left out: `e_w(t) = 6.112 hPa · exp(17.62 t / (243.12 °C + t))` over water, and
//! `e_i(t) = 6.112 hPa · exp(22.46 t / (272.62 °C + t))` over ice. Relative humidity is over water
//! at any temperature, as the guide has it.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{ThermodynamicTemperature, celsius, unit};

/// Over water: factor and temperature of the Magnus form.
const WATER: (f64, f64) = (17.62, 243.12);
/// Over ice: factor without unit, and temperature in °C, of the Magnus form.
const ICE: (f64, f64) = (22.46, 272.62);

/// The exponent of the Magnus form at a temperature in °C.
fn exponent((factor, over): (f64, f64), celsius: f64) -> f64 {
    factor * celsius / (over + celsius)
}

/// The temperature at which it has that value.
fn inverse((factor, over): (f64, f64), exponent: f64) -> f64 {
    over * exponent / (factor - exponent)
}

/// The temperature of a surface on which this air begins to leave water, or below 0 °C frost,
/// which it leaves sooner.
///
/// Equation: `td = 243.12 γ / (17.62 − γ)` with `γ = ln U + 17.62 t/(243.12 + t)`, below 0 °C with
/// the constants over ice. Units: °C; `U` as a share. Range: [`Field::Air`], [`Field::Humidity`].
///
/// # Errors
/// [`Error::OutOfRange`] or [`Error::NotANumber`], naming the reading.
///
/// Source: WMO-No. 8, Annex 4.B.
///
/// ```
/// use pailwise_calc::dew::dew_point;
/// use pailwise_calc::quantity::{celsius, unit};
/// let at = |air, share| dew_point(celsius(air), share).unwrap().get::<unit::degree_celsius>();
/// assert!((at(20.0, 0.60) - 12.0).abs() < 0.05);
/// assert!((at(25.0, 0.50) - 13.9).abs() < 0.05);
/// ```
pub fn dew_point(
    air: ThermodynamicTemperature,
    humidity: f64,
) -> Result<ThermodynamicTemperature, Error> {
    Field::Air.check(air)?;
    Field::Humidity.check_share(humidity)?;
    Ok(of(air, humidity))
}

/// As [`dew_point`], of readings that have been checked.
pub(crate) fn of(air: ThermodynamicTemperature, humidity: f64) -> ThermodynamicTemperature {
    let gamma = humidity.ln() + exponent(WATER, air.get::<unit::degree_celsius>());
    celsius(inverse(if gamma < 0.0 { ICE } else { WATER }, gamma))
}

/// How much of the air's pressure its water makes, in pascals, by relative humidity as a share.
///
/// ```
/// use pailwise_calc::{dew::vapor_pressure, quantity::celsius};
/// // Saturated at 20 °C: 2339 Pa (any steam table).
/// assert!((vapor_pressure(celsius(20.0), 1.0) - 2339.0).abs() < 10.0);
/// ```
pub fn vapor_pressure(air: ThermodynamicTemperature, humidity: f64) -> f64 {
    611.2 * exponent(WATER, air.get::<unit::degree_celsius>()).exp() * humidity
}

/// The relative humidity of air of this dew point, as a share; 1 where the air is no warmer.
///
/// ```
/// use pailwise_calc::dew::{dew_point, humidity};
/// use pailwise_calc::quantity::celsius;
/// // Air of 20 °C and 60 % that cools to 15 °C has 82 %.
/// let dew = dew_point(celsius(20.0), 0.60).unwrap();
/// assert!((humidity(celsius(15.0), dew) - 0.82).abs() < 0.005);
/// assert_eq!(humidity(celsius(10.0), dew), 1.0);
/// ```
pub fn humidity(air: ThermodynamicTemperature, dew_point: ThermodynamicTemperature) -> f64 {
    let dew = dew_point.get::<unit::degree_celsius>();
    let gamma = exponent(if dew < 0.0 { ICE } else { WATER }, dew);
    (gamma - exponent(WATER, air.get::<unit::degree_celsius>())).exp().min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn humidity_and_dew_point_undo_each_other() {
        for air in [-5.0, 0.0, 3.0, 20.0, 50.0] {
            for share in [0.05, 0.3, 0.6, 0.95] {
                let dew = dew_point(celsius(air), share).unwrap();
                assert!((humidity(celsius(air), dew) - share).abs() < 1e-12, "{air} {share}");
            }
        }
    }

    #[test]
    fn frost_comes_sooner_than_dew_would() {
        // Over ice air of 0 °C and 60 % leaves frost at −6.0 °C; over water it would be −6.8 °C.
        let frost = dew_point(celsius(0.0), 0.6).unwrap().get::<unit::degree_celsius>();
        assert!((frost + 6.05).abs() < 0.05, "{frost}");
    }

    #[test]
    fn readings_that_cannot_be_are_refused() {
        for (air, share) in [(60.0, 0.5), (20.0, 0.0), (20.0, 1.2), (f64::NAN, 0.5)] {
            assert!(dew_point(celsius(air), share).is_err());
        }
    }
}
