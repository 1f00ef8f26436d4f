//! Numbers that people meet: whole quarts and litres, pounds and kilograms, degrees.

use fastrand::Rng;

use super::Counting;
use crate::quantity::{Mass, ThermodynamicTemperature, Time, Volume, celsius, minutes, unit};

/// A whole number of steps between two.
fn steps(rng: &mut Rng, low: u32, high: u32) -> f64 {
    f64::from(rng.u32(low..=high))
}

/// An amount of mix: half quarts up to three gallons, or half litres up to twelve.
pub(super) fn mix(counting: Counting, rng: &mut Rng) -> Volume {
    match counting {
        Counting::Us => Volume::new::<unit::quart_liquid>(0.5 * steps(rng, 4, 24)),
        Counting::Metric => Volume::new::<unit::liter>(0.5 * steps(rng, 4, 24)),
    }
}

/// A weight of mix: half pounds, or hundreds of grams.
pub(super) fn weight(counting: Counting, rng: &mut Rng) -> Mass {
    match counting {
        Counting::Us => Mass::new::<unit::pound>(0.5 * steps(rng, 8, 50)),
        Counting::Metric => Mass::new::<unit::kilogram>(0.1 * steps(rng, 20, 120)),
    }
}

/// A temperature people work in, by whole degrees: 50 to 95 °F, or 10 to 35 °C.
pub(super) fn temperature(counting: Counting, rng: &mut Rng) -> ThermodynamicTemperature {
    match counting {
        Counting::Us => {
            ThermodynamicTemperature::new::<unit::degree_fahrenheit>(steps(rng, 50, 95))
        }
        Counting::Metric => celsius(steps(rng, 10, 35)),
    }
}

/// Whole minutes between two.
pub(super) fn whole_minutes(rng: &mut Rng, low: u32, high: u32) -> Time {
    minutes(steps(rng, low, high))
}

/// Relative humidity in steps of five points, as a share.
pub(super) fn humidity(rng: &mut Rng) -> f64 {
    0.05 * steps(rng, 6, 19)
}
