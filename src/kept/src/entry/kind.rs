//! The kinds of quantities that are typed: their units, what the record has them in, how they are
//! read and written.

use pailwise_calc::quantity::{
    Area, Figure, Length, Mass, MassDensity, Pace, TemperatureInterval, ThermodynamicTemperature,
    Time, Velocity, Volume, minutes, unit,
};

use crate::read;
use crate::text::key;
use crate::units::Units;

/// What kind of quantity a field takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A temperature that was read, in °F or °C.
    Temperature,
    /// Square feet or square metres.
    Area,
    /// Feet (and inches) or metres.
    Span,
    /// A short length such as a crack's width, in inches or millimetres.
    Small,
    /// Square feet or square metres a minute.
    Pace,
    /// Feet or metres of crack a minute.
    CrackPace,
    /// A weight in pounds or kilograms, such as a box of flake.
    Mass,
    /// A volume of mix, in quarts or litres.
    Volume,
    /// Fluid ounces or millilitres.
    Dose,
    /// A difference of temperature, °F or °C.
    Change,
    /// A short time such as a pot life, in minutes.
    Minutes,
    /// A share of a whole in per cent, such as relative humidity.
    Percent,
    /// A whole number, such as how many people roll.
    Count,
    /// A large volume such as the size of a kit, in gallons or litres.
    Bulk,
    /// A longer time, typed in hours or days and kept in hours.
    Hours,
    /// Pounds a gallon or kilograms a litre.
    Density,
    /// Mils or micrometres of film.
    Film,
    /// Square feet a gallon or square metres a litre.
    Spread,
    /// Pounds a square foot or kilograms a square metre of flake.
    Cover,
    /// Moisture given off: pounds a thousand square feet, or grams a square metre, a day.
    Emission,
    /// What goes into a kit, by volume: fluid ounces or millilitres.
    KitVolume,
    /// What goes into a kit, by weight: ounces or grams.
    KitMass,
    /// A figure with no unit shown beside it, such as a pH.
    Number,
}

/// A US gallon in litres, a pound in kilograms, a square foot in square metres (NIST Handbook 44,
/// appendix C).
const GALLON_L: f64 = 3.785_411_784;
const POUND_KG: f64 = 0.453_592_37;
const SQUARE_FOOT_M2: f64 = 0.092_903_04;

impl Kind {
    /// The text of its unit, with the number left out.
    pub fn unit(self, units: Units) -> &'static str {
        match (self, units) {
            (Self::Temperature | Self::Change, Units::Us) => key::UNIT_F,
            (Self::Temperature | Self::Change, Units::Metric) => key::UNIT_C,
            (Self::Area, Units::Us) => key::UNIT_SQ_FT,
            (Self::Area, Units::Metric) => key::UNIT_SQ_M,
            (Self::Span, Units::Us) => key::UNIT_FT,
            (Self::Span, Units::Metric) => key::UNIT_M,
            (Self::Small, Units::Us) => key::UNIT_IN,
            (Self::Small, Units::Metric) => key::UNIT_MM,
            (Self::Pace, Units::Us) => key::UNIT_SQ_FT_MIN,
            (Self::Pace, Units::Metric) => key::UNIT_SQ_M_MIN,
            (Self::CrackPace, Units::Us) => key::UNIT_FT_MIN,
            (Self::CrackPace, Units::Metric) => key::UNIT_M_MIN,
            (Self::Mass, Units::Us) => key::UNIT_LB,
            (Self::Mass, Units::Metric) => key::UNIT_KG,
            (Self::Volume, Units::Us) => key::UNIT_QT,
            (Self::Bulk, Units::Us) => key::UNIT_GAL,
            (Self::Volume | Self::Bulk, Units::Metric) => key::UNIT_L,
            (Self::Dose | Self::KitVolume, Units::Us) => key::UNIT_FL_OZ,
            (Self::Dose | Self::KitVolume, Units::Metric) => key::UNIT_ML,
            (Self::Minutes, _) => key::UNIT_MIN,
            (Self::Percent, _) => key::UNIT_PERCENT,
            (Self::Count | Self::Number, _) => key::UNIT_NONE,
            (Self::Hours, _) => key::UNIT_H,
            (Self::Density, Units::Us) => key::UNIT_LB_GAL,
            (Self::Density, Units::Metric) => key::UNIT_KG_L,
            (Self::Film, Units::Us) => key::UNIT_MIL,
            (Self::Film, Units::Metric) => key::UNIT_UM,
            (Self::Spread, Units::Us) => key::UNIT_SQ_FT_GAL,
            (Self::Spread, Units::Metric) => key::UNIT_SQ_M_L,
            (Self::Cover, Units::Us) => key::UNIT_LB_SQ_FT,
            (Self::Cover, Units::Metric) => key::UNIT_KG_SQ_M,
            (Self::Emission, Units::Us) => key::UNIT_LB_THOUSAND_SQ_FT,
            (Self::Emission, Units::Metric) => key::UNIT_G_SQ_M,
            (Self::KitMass, Units::Us) => key::UNIT_OZ,
            (Self::KitMass, Units::Metric) => key::UNIT_G,
        }
    }

    /// How much a tap on the stepper moves it, in the person's units.
    pub fn step(self, units: Units) -> f64 {
        match (self, units) {
            (Self::Area, Units::Us) => 10.0,
            (Self::Small, Units::Us) => 0.125,
            (Self::Volume, Units::Us) => 0.25,
            (Self::Dose, Units::Us) => 0.5,
            (Self::Small, Units::Metric) | (Self::Percent, _) => 5.0,
            (Self::Pace | Self::CrackPace | Self::Span | Self::Volume, Units::Metric) => 0.1,
            _ => 1.0,
        }
    }

    /// From the person's units to the record's: °C, m², m, mm, m²/min, m/min, kg, L, min, %, h,
    /// kg/L, µm, m²/L, kg/m², g/m²; what goes into a kit in mL or g.
    pub(super) fn to_record(self, value: f64, units: Units) -> f64 {
        if units == Units::Metric {
            return if self == Self::Dose { value / 1000.0 } else { value };
        }
        match self {
            Self::Dose => Volume::new::<unit::fluid_ounce>(value).get::<unit::liter>(),
            Self::Temperature => ThermodynamicTemperature::new::<unit::degree_fahrenheit>(value)
                .get::<unit::degree_celsius>(),
            Self::Change => value / 1.8,
            Self::Area | Self::Pace => {
                Area::new::<unit::square_foot>(value).get::<unit::square_meter>()
            }
            Self::Span | Self::CrackPace => Length::new::<unit::foot>(value).get::<unit::meter>(),
            Self::Small => Length::new::<unit::inch>(value).get::<unit::millimeter>(),
            Self::Mass => Mass::new::<unit::pound>(value).get::<unit::kilogram>(),
            Self::Volume => Volume::new::<unit::quart_liquid>(value).get::<unit::liter>(),
            Self::Bulk => value * GALLON_L,
            Self::Density => value * POUND_KG / GALLON_L,
            Self::Film => Length::new::<unit::mil>(value).get::<unit::micrometer>(),
            Self::Spread => value * SQUARE_FOOT_M2 / GALLON_L,
            // A pound a thousand square feet is a thousandth of a pound a square foot, in grams.
            Self::Cover | Self::Emission => value * POUND_KG / SQUARE_FOOT_M2,
            Self::KitVolume => Volume::new::<unit::fluid_ounce>(value).get::<unit::milliliter>(),
            Self::KitMass => Mass::new::<unit::ounce>(value).get::<unit::gram>(),
            Self::Minutes | Self::Hours | Self::Percent | Self::Count | Self::Number => value,
        }
    }

    /// From the record's units to the person's.
    pub fn typed_from(self, value: f64, units: Units) -> f64 {
        match (self, units) {
            (Self::Temperature, Units::Us) => {
                ThermodynamicTemperature::new::<unit::degree_celsius>(value)
                    .get::<unit::degree_fahrenheit>()
            }
            // All others are proportional.
            _ => value / self.to_record(1.0, units),
        }
    }

    /// A value in the record's units as a figure.
    pub fn figure(self, record: f64) -> Figure {
        match self {
            Self::Temperature => {
                ThermodynamicTemperature::new::<unit::degree_celsius>(record).into()
            }
            Self::Change => TemperatureInterval::new::<unit::celsius_change>(record).into(),
            Self::Area => Area::new::<unit::square_meter>(record).into(),
            Self::Span => Length::new::<unit::meter>(record).into(),
            Self::Small => Figure::Small(Length::new::<unit::millimeter>(record)),
            Self::Pace => Pace::new::<unit::square_meter_per_second>(record / 60.0).into(),
            Self::Mass => Mass::new::<unit::kilogram>(record).into(),
            Self::Volume | Self::Bulk | Self::Dose => Volume::new::<unit::liter>(record).into(),
            Self::Minutes => minutes(record).into(),
            Self::Percent => Figure::Share(record / 100.0),
            Self::Hours => Time::new::<unit::hour>(record).into(),
            Self::Density => {
                MassDensity::new::<unit::kilogram_per_cubic_meter>(record * 1000.0).into()
            }
            Self::Film => Figure::Thickness(Length::new::<unit::micrometer>(record)),
            Self::KitVolume => Volume::new::<unit::milliliter>(record).into(),
            Self::KitMass => Mass::new::<unit::gram>(record).into(),
            Self::CrackPace => Velocity::new::<unit::meter_per_second>(record / 60.0).into(),
            Self::Spread | Self::Cover | Self::Emission | Self::Number => Figure::Number(record),
            // Past what a count can be, any count out of range says the same.
            Self::Count => Figure::Count(record.clamp(0.0, 1e6) as u32),
        }
    }

    /// The record's value of a limit of a field.
    pub(super) fn limit(self, figure: Figure) -> f64 {
        match (self, figure) {
            (Self::Temperature, Figure::Temperature(t)) => t.get::<unit::degree_celsius>(),
            (Self::Small, Figure::Length(q) | Figure::Small(q)) => q.get::<unit::millimeter>(),
            (Self::Volume | Self::Bulk | Self::Dose, Figure::Volume(q)) => q.get::<unit::liter>(),
            (Self::Minutes, Figure::Time(q)) => q.get::<unit::minute>(),
            (Self::Hours, Figure::Time(q)) => q.get::<unit::hour>(),
            (Self::Density, Figure::Density(q)) => {
                q.get::<unit::kilogram_per_cubic_meter>() / 1000.0
            }
            (Self::Film, Figure::Thickness(q)) => q.get::<unit::micrometer>(),
            (Self::KitVolume, Figure::Volume(q)) => q.get::<unit::milliliter>(),
            (Self::KitMass, Figure::Mass(q)) => q.get::<unit::gram>(),
            (Self::Number, Figure::MolarEnergy(q)) => q.get::<unit::kilojoule_per_mole>(),
            (Self::Number, Figure::Heat(q)) => q.get::<unit::joule_per_gram>(),
            (Self::Percent, Figure::Share(x)) => x * 100.0,
            (Self::CrackPace, Figure::Speed(q)) => q.get::<unit::meter_per_second>() * 60.0,
            (Self::Pace, Figure::Pace(q)) => q.get::<unit::square_meter_per_second>() * 60.0,
            (_, other) => other.si(),
        }
    }

    /// Units that may be typed, with how much each is in the field's own; lower case.
    #[expect(clippy::too_many_lines, reason = "a table")]
    pub(super) fn names(self, units: Units) -> &'static [(&'static str, f64)] {
        match (self, units) {
            (Self::Temperature | Self::Change, Units::Us) => &[("°f", 1.0), ("°", 1.0), ("f", 1.0)],
            (Self::Temperature | Self::Change, Units::Metric) => {
                &[("°c", 1.0), ("°", 1.0), ("c", 1.0)]
            }
            (Self::Area, Units::Us) => {
                &[("sq ft", 1.0), ("ft²", 1.0), ("ft2", 1.0), ("pies²", 1.0), ("pies2", 1.0)]
            }
            (Self::Area, Units::Metric) => &[("m²", 1.0), ("m2", 1.0)],
            (Self::Span, Units::Metric) => &[("m", 1.0), ("cm", 0.01), ("mm", 0.001)],
            (Self::Small, Units::Us) => &[
                ("in", 1.0),
                ("\"", 1.0),
                ("pulg", 1.0),
                ("ft", 12.0),
                ("'", 12.0),
                ("pies", 12.0),
            ],
            (Self::Small, Units::Metric) => &[("mm", 1.0), ("cm", 10.0), ("m", 1000.0)],
            (Self::Mass, Units::Us) => &[("lb", 1.0), ("lbs", 1.0), ("oz", 1.0 / 16.0)],
            (Self::Mass, Units::Metric) => &[("kg", 1.0), ("g", 0.001)],
            (Self::Volume, Units::Us) => &[
                ("qt", 1.0),
                ("gal", 4.0),
                ("pt", 0.5),
                ("fl oz", 1.0 / 32.0),
                ("oz líq", 1.0 / 32.0),
                ("oz", 1.0 / 32.0),
            ],
            (Self::Bulk, Units::Us) => &[("gal", 1.0), ("qt", 0.25)],
            (Self::Volume | Self::Bulk, Units::Metric) => &[("l", 1.0), ("ml", 0.001)],
            (Self::Dose, Units::Us) => {
                &[("fl oz", 1.0), ("oz líq", 1.0), ("oz", 1.0), ("qt", 32.0), ("pt", 16.0)]
            }
            (Self::Dose | Self::KitVolume, Units::Metric) => &[("ml", 1.0), ("l", 1000.0)],
            (Self::Percent, _) => &[("%", 1.0)],
            (Self::Minutes, _) => &[
                ("min", 1.0),
                ("mins", 1.0),
                ("minutes", 1.0),
                ("minutos", 1.0),
                ("h", 60.0),
                ("hr", 60.0),
                ("hrs", 60.0),
                ("hour", 60.0),
                ("hours", 60.0),
                ("hora", 60.0),
                ("horas", 60.0),
                ("s", 1.0 / 60.0),
            ],
            (Self::Hours, _) => &[
                ("h", 1.0),
                ("hr", 1.0),
                ("hrs", 1.0),
                ("hour", 1.0),
                ("hours", 1.0),
                ("hora", 1.0),
                ("horas", 1.0),
                ("d", 24.0),
                ("day", 24.0),
                ("days", 24.0),
                ("día", 24.0),
                ("días", 24.0),
                ("dia", 24.0),
                ("dias", 24.0),
                ("min", 1.0 / 60.0),
            ],
            (Self::Density, Units::Us) => &[("lb/gal", 1.0)],
            (Self::Density, Units::Metric) => {
                &[("kg/l", 1.0), ("g/cm³", 1.0), ("g/cm3", 1.0), ("g/ml", 1.0), ("kg/m³", 0.001)]
            }
            (Self::Film, Units::Us) => &[("mil", 1.0), ("mils", 1.0)],
            (Self::Film, Units::Metric) => &[("µm", 1.0), ("um", 1.0), ("mm", 1000.0)],
            (Self::KitVolume, Units::Us) => {
                &[("fl oz", 1.0), ("oz", 1.0), ("pt", 16.0), ("qt", 32.0)]
            }
            (Self::KitMass, Units::Us) => &[("oz", 1.0), ("lb", 16.0)],
            (Self::KitMass, Units::Metric) => &[("g", 1.0), ("kg", 1000.0)],
            _ => &[],
        }
    }

    pub(super) fn read(self, text: &str, units: Units) -> Option<f64> {
        let value = match (self, units) {
            (Self::Span, Units::Us) => read::feet(text)?,
            _ => read::amounts(text, self.names(units))?,
        };
        (self != Self::Count || value.fract() == 0.0).then_some(value)
    }

    /// The shortest text that means a value of the record exactly, if a short one does.
    pub(super) fn exact(self, record: f64, units: Units) -> Option<String> {
        let value = self.typed_from(record, units);
        (0..=9).map(|places| trimmed(&format!("{value:.places$}"))).find(|text| {
            self.read(text, units).is_some_and(|typed| self.to_record(typed, units) == record)
        })
    }

    /// A value as one would type it.
    pub(super) fn write(self, value: f64) -> String {
        let places = self.places();
        trimmed(&format!("{value:.places$}"))
    }

    /// How many places after the point one would type at most.
    pub(super) fn places(self) -> usize {
        match self {
            Self::Count => 0,
            Self::Temperature
            | Self::Change
            | Self::Percent
            | Self::Minutes
            | Self::Dose
            | Self::KitVolume
            | Self::KitMass
            | Self::Film => 1,
            Self::Small
            | Self::CrackPace
            | Self::Volume
            | Self::Bulk
            | Self::Mass
            | Self::Density
            | Self::Cover
            | Self::Number => 3,
            Self::Area | Self::Span | Self::Pace | Self::Hours | Self::Spread | Self::Emission => 2,
        }
    }
}

/// A decimal number without zeros that say nothing.
pub(super) fn trimmed(text: &str) -> String {
    let text =
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
