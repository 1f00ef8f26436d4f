//! The quantities this crate speaks in, and one type that can hold any of them.
//!
//! Inside, everything is SI; which unit a person reads is the app's business. Conversions are
//! `uom`'s, checked in `tests/` against NIST SP 811 appendix B.
//!
//! ```
//! use pailwise_calc::quantity::{Volume, unit};
//! let gallon = Volume::new::<unit::gallon>(1.0);
//! // NIST Handbook 44, appendix C: 1 US gal = 3.785 411 784 L.
//! assert!((gallon.get::<unit::liter>() - 3.785_411_784).abs() < 1e-12);
//! ```

use std::fmt;

pub use uom::si::f64::{
    Area, AvailableEnergy, Frequency, HeatTransfer, Length, Mass, MassDensity, MolarEnergy,
    SpecificHeatCapacity, TemperatureInterval, ThermodynamicTemperature, Time, Velocity, Volume,
    VolumeRate,
};

/// Area laid in a time: how fast a person rolls, or throws flake. SI unit m²/s.
pub type Pace = uom::si::f64::DiffusionCoefficient;

pub mod unit;

/// A pace from an area laid in a time.
///
/// ```
/// use pailwise_calc::quantity::{pace, Area, Time, unit};
/// let roller = pace(Area::new::<unit::square_foot>(12.0), Time::new::<unit::minute>(1.0));
/// // 12 sq ft a minute is 12 × 0.092 903 04 m² in 60 s (NIST SP 811, appendix B).
/// assert!((roller.get::<unit::square_meter_per_second>() - 12.0 * 0.092_903_04 / 60.0).abs() < 1e-15);
/// ```
pub fn pace(area: Area, time: Time) -> Pace {
    area / time
}

/// Degrees Celsius as a temperature.
pub fn celsius(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<unit::degree_celsius>(value)
}

/// Minutes as a time.
pub fn minutes(value: f64) -> Time {
    Time::new::<unit::minute>(value)
}

/// How far one temperature is above another.
///
/// ```
/// use pailwise_calc::quantity::{above, celsius, unit};
/// let spread = above(celsius(23.0), celsius(12.0));
/// assert!((spread.get::<unit::celsius_change>() - 11.0).abs() < 1e-9);
/// ```
pub fn above(
    temperature: ThermodynamicTemperature,
    other: ThermodynamicTemperature,
) -> TemperatureInterval {
    TemperatureInterval::new::<unit::kelvin_change>(temperature.value - other.value)
}

/// Any quantity a person may be shown: in an error, in the working, in a readout.
///
/// `Display` writes it in metric with four significant figures, for logs and the command line;
/// the app writes it in the reader's own units and language.
///
/// ```
/// use pailwise_calc::quantity::{celsius, Figure};
/// assert_eq!(Figure::Temperature(celsius(25.0)).to_string(), "25 °C");
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Figure {
    /// A length: distance along the floor.
    Length(Length),
    /// A small length: how high a mark stands in a pail, how wide a crack is.
    Small(Length),
    /// A film thickness, shown in mils or micrometres.
    Thickness(Length),
    /// An area of floor, shown in square feet or square metres.
    Area(Area),
    /// A volume of material.
    Volume(Volume),
    /// A volume of material that is bought and kept, in plain numbers that can be added up.
    Stock(Volume),
    /// A mass of material.
    Mass(Mass),
    /// Mass of a material for each unit of its volume.
    Density(MassDensity),
    /// A span of time.
    Time(Time),
    /// How warm slab, air or material is, shown in °F or °C.
    Temperature(ThermodynamicTemperature),
    /// A difference of temperature.
    Change(TemperatureInterval),
    /// Area laid in a time.
    Pace(Pace),
    /// Length done in a time: cracks filled.
    Speed(Velocity),
    /// Volume poured in a time.
    PourRate(VolumeRate),
    /// Energy a mole: an activation energy.
    MolarEnergy(MolarEnergy),
    /// Energy a kilogram: a heat of reaction.
    Heat(AvailableEnergy),
    /// A share of a whole, 1 = all of it.
    Share(f64),
    /// A plain number, such as parts in a ratio.
    Number(f64),
    /// A whole number of things, such as people, batches or bays.
    Count(u32),
    /// Kilograms of flake a square metre.
    Cover(f64),
    /// Square metres a litre: how far material goes.
    SpreadRate(f64),
}

impl Figure {
    /// The value in its SI unit, for comparing figures of one kind.
    pub fn si(self) -> f64 {
        match self {
            Self::Length(q) | Self::Small(q) | Self::Thickness(q) => q.value,
            Self::Area(q) => q.value,
            Self::Volume(q) | Self::Stock(q) => q.value,
            Self::Mass(q) => q.value,
            Self::Density(q) => q.value,
            Self::Time(q) => q.value,
            Self::Temperature(q) => q.value,
            Self::Change(q) => q.value,
            Self::Pace(q) => q.value,
            Self::Speed(q) => q.value,
            Self::PourRate(q) => q.value,
            Self::MolarEnergy(q) => q.value,
            Self::Heat(q) => q.value,
            Self::Share(x) | Self::Number(x) | Self::Cover(x) | Self::SpreadRate(x) => x,
            Self::Count(n) => f64::from(n),
        }
    }
}

macro_rules! figure_from {
    ($($quantity:ty => $kind:ident),* $(,)?) => {$(
        impl From<$quantity> for Figure {
            fn from(quantity: $quantity) -> Self { Self::$kind(quantity) }
        }
    )*};
}
figure_from!(
    Length => Length, Area => Area, Volume => Volume, Mass => Mass, MassDensity => Density,
    Time => Time, ThermodynamicTemperature => Temperature, TemperatureInterval => Change,
    Pace => Pace, Velocity => Speed, VolumeRate => PourRate, MolarEnergy => MolarEnergy, AvailableEnergy => Heat,
    f64 => Number, u32 => Count,
);

impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (value, unit) = match *self {
            Self::Length(q) => (q.get::<unit::meter>(), " m"),
            Self::Small(q) => (q.get::<unit::millimeter>(), " mm"),
            Self::Thickness(q) => (q.get::<unit::micrometer>(), " µm"),
            Self::Area(q) => (q.get::<unit::square_meter>(), " m²"),
            Self::Volume(q) | Self::Stock(q) => (q.get::<unit::liter>(), " L"),
            Self::Mass(q) => (q.get::<unit::kilogram>(), " kg"),
            Self::Density(q) => (q.get::<unit::kilogram_per_cubic_meter>() / 1000.0, " kg/L"),
            Self::Time(q) => (q.get::<unit::minute>(), " min"),
            Self::Temperature(q) => (q.get::<unit::degree_celsius>(), " °C"),
            Self::Change(q) => (q.get::<unit::celsius_change>(), " K"),
            Self::Pace(q) => (q.get::<unit::square_meter_per_second>() * 60.0, " m²/min"),
            Self::Speed(q) => (q.get::<unit::meter_per_second>() * 60.0, " m/min"),
            Self::PourRate(q) => (q.get::<unit::liter_per_minute>(), " L/min"),
            Self::MolarEnergy(q) => (q.get::<unit::kilojoule_per_mole>(), " kJ/mol"),
            Self::Heat(q) => (q.get::<unit::joule_per_gram>(), " J/g"),
            Self::Share(x) => (x * 100.0, " %"),
            Self::Number(x) => (x, ""),
            Self::Count(n) => (f64::from(n), ""),
            Self::Cover(x) => (x, " kg/m²"),
            Self::SpreadRate(x) => (x, " m²/L"),
        };
        write!(f, "{}{unit}", significant(value))
    }
}

/// Four significant figures, trailing zeros dropped; what cannot be shown so is shown as it is.
fn significant(value: f64) -> f64 {
    format!("{value:.3e}").parse().unwrap_or(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_is_written_with_four_significant_figures_and_its_unit() {
        let cases = [
            (Figure::from(Length::new::<unit::meter>(2.260_6)), "2.261 m"),
            (Figure::Thickness(Length::new::<unit::mil>(16.0)), "406.4 µm"),
            (Figure::from(Volume::new::<unit::liter>(5.0)), "5 L"),
            (Figure::Share(0.8), "80 %"),
            (Figure::from(f64::NAN), "NaN"),
        ];
        for (figure, text) in cases {
            assert_eq!(figure.to_string(), text);
        }
    }
}
