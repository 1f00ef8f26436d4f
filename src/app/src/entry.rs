//! What a person typed, kept as typed.
//!
//! An entry is its text and the units it was typed in. Other units are worked out for showing
//! only, so switching back and forth loses nothing, and what cannot be read stays on the screen.

use pailwise_calc::field::Field;
use pailwise_calc::quantity::{
    Area, AvailableEnergy, Figure, Length, Mass, MassDensity, MolarEnergy, Pace,
    TemperatureInterval, ThermodynamicTemperature, Time, Volume, minutes, unit,
};
use serde::{Deserialize, Serialize};

use crate::read;
use crate::show::Units;
use crate::text::{key, tr_with};

/// A text in the units it was typed in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Entry {
    /// As typed.
    pub text: String,
    /// The units it means.
    pub units: Units,
}

/// What kind of quantity a field takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// °F or °C.
    Temperature,
    /// Square feet or square metres.
    Area,
    /// Feet (and inches) or metres.
    Span,
    /// Inches or millimetres.
    Small,
    /// Square feet or square metres a minute.
    Pace,
    /// Feet or metres of crack a minute.
    CrackPace,
    /// Pounds or kilograms.
    Mass,
    /// Quarts or litres.
    Volume,
    /// Fluid ounces or millilitres.
    Dose,
    /// A difference of temperature, °F or °C.
    Change,
    /// Minutes.
    Minutes,
    /// A percentage.
    Percent,
    /// How many.
    Count,
    /// Gallons or litres.
    Bulk,
    /// Hours, or days.
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
    /// A plain number.
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
    fn to_record(self, value: f64, units: Units) -> f64 {
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
    fn typed_from(self, value: f64, units: Units) -> f64 {
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
            Self::CrackPace | Self::Spread | Self::Cover | Self::Emission | Self::Number => {
                Figure::Number(record)
            }
            // Past what a count can be, any count out of range says the same.
            Self::Count => Figure::Count(record.clamp(0.0, 1e6) as u32),
        }
    }

    /// The record's value of a limit of a field.
    fn limit(self, figure: Figure) -> f64 {
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
            (Self::Pace, Figure::Pace(q)) => q.get::<unit::square_meter_per_second>() * 60.0,
            (_, other) => other.si(),
        }
    }

    /// Units that may be typed, with how much each is in the field's own; lower case.
    fn names(self, units: Units) -> &'static [(&'static str, f64)] {
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

    fn read(self, text: &str, units: Units) -> Option<f64> {
        let value = match (self, units) {
            (Self::Span, Units::Us) => read::feet(text)?,
            _ => read::amounts(text, self.names(units))?,
        };
        (self != Self::Count || value.fract() == 0.0).then_some(value)
    }

    /// The shortest text that means a value of the record exactly, if a short one does.
    fn exact(self, record: f64, units: Units) -> Option<String> {
        let value = self.typed_from(record, units);
        (0..=9).map(|places| trimmed(&format!("{value:.places$}"))).find(|text| {
            self.read(text, units).is_some_and(|typed| self.to_record(typed, units) == record)
        })
    }

    /// A value as one would type it.
    fn write(self, value: f64) -> String {
        let places = self.places();
        trimmed(&format!("{value:.places$}"))
    }

    /// How many places after the point one would type at most.
    fn places(self) -> usize {
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
fn trimmed(text: &str) -> String {
    let text =
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// Why an entry has no value.
#[derive(Clone, Debug, PartialEq)]
pub enum Unfit {
    /// It cannot be read as a number.
    Unreadable,
    /// It is outside what the field takes.
    OutOfRange,
}

impl Entry {
    /// An entry as if it had been typed.
    pub fn typed(text: impl Into<String>, units: Units) -> Self {
        Self { text: text.into(), units }
    }

    /// A record's value as it was most likely printed: in those units, the person's own or the
    /// other, that give it back exactly with the fewest digits.
    ///
    /// ```
    /// use pailwise_app::{entry::{Entry, Kind}, show::Units};
    /// let kept = 11.5 * 0.453_592_37 / 3.785_411_784; // typed as 11.5 lb/gal
    /// assert_eq!(Entry::printed(Kind::Density, kept, Units::Metric), Entry::typed("11.5", Units::Us));
    /// assert_eq!(Entry::printed(Kind::Density, 1.38, Units::Us), Entry::typed("1.38", Units::Metric));
    /// assert_eq!(Entry::printed(Kind::Percent, 5.0, Units::Us), Entry::typed("5", Units::Us));
    /// ```
    pub fn printed(kind: Kind, record: f64, units: Units) -> Self {
        let other = if units == Units::Us { Units::Metric } else { Units::Us };
        let own = kind.exact(record, units);
        let texts = if kind.unit(units) == kind.unit(other) {
            [own, None]
        } else {
            [own, kind.exact(record, other)]
        };
        match texts {
            [Some(own), Some(else_)] if else_.len() < own.len() => Self::typed(else_, other),
            [Some(own), _] => Self::typed(own, units),
            [None, Some(else_)] => Self::typed(else_, other),
            // Metric units are the record's own, and a number written in full is itself.
            [None, None] => Self::typed(format!("{record}"), Units::Metric),
        }
    }

    /// A value in the record's units as one would type it.
    pub fn of(kind: Kind, record: f64, units: Units) -> Self {
        Self::typed(kind.write(kind.typed_from(record, units)), units)
    }

    /// Its value in the record's units, when it can be read and the field takes it.
    ///
    /// # Errors
    /// [`Unfit`], saying which of the two it is.
    pub fn value(&self, kind: Kind, field: Field) -> Result<f64, Unfit> {
        let typed = kind.read(&self.text, self.units).ok_or(Unfit::Unreadable)?;
        let record = kind.to_record(typed, self.units);
        if kind == Kind::CrackPace {
            // Not a field of its own: judged as the pace it becomes.
            return if record > 0.0 && record <= 100.0 {
                Ok(record)
            } else {
                Err(Unfit::OutOfRange)
            };
        }
        let given = match field.range().0 {
            Figure::MolarEnergy(_) => MolarEnergy::new::<unit::kilojoule_per_mole>(record).into(),
            Figure::Heat(_) => AvailableEnergy::new::<unit::joule_per_gram>(record).into(),
            _ => kind.figure(record),
        };
        // A negative count has no figure.
        if record < 0.0 && kind == Kind::Count {
            return Err(Unfit::OutOfRange);
        }
        field.check(given).map_err(|_| Unfit::OutOfRange)?;
        Ok(record)
    }

    /// What to show in some units: the text itself in its own, else worked out from it.
    pub fn shown(&self, kind: Kind, units: Units) -> String {
        if units == self.units || kind.unit(units) == kind.unit(self.units) {
            return self.text.clone();
        }
        match kind.read(&self.text, self.units) {
            Some(typed) => {
                let record = kind.to_record(typed, self.units);
                kind.write(kind.typed_from(record, units))
            }
            None => self.text.clone(),
        }
    }

    /// What to show, with its unit, unless it names one itself as `7'6"` and `70 in` do.
    pub fn said(&self, kind: Kind, units: Units) -> String {
        let text = self.shown(kind, units);
        let names = |c: char| c.is_alphabetic() || matches!(c, '\'' | '"' | '°' | '%');
        if text.contains(names) {
            return text;
        }
        tr_with(kind.unit(units), &[("n", text.trim())])
    }

    /// One tap up or down in some units, onto a whole step and within the field's range.
    #[must_use]
    pub fn stepped(&self, kind: Kind, field: Field, units: Units, up: bool) -> Self {
        let shown = self.shown(kind, units);
        // From nothing the first tap goes as from none of it.
        let nothing = if shown.trim().is_empty() { Some(0.0) } else { None };
        let Some(now) = nothing.or_else(|| kind.read(&shown, units)) else { return self.clone() };
        let step = kind.step(units);
        let steps = now / step;
        // From between two steps a tap goes to the next whole one.
        let next = if up { (steps + 1e-6).floor() + 1.0 } else { (steps - 1e-6).ceil() - 1.0 };
        let (low, high) = range(kind, field, units);
        // The ends of the range, rounded into it.
        let unit = 10_f64.powf(kind.places() as f64);
        let least = (low * unit - 1e-6).ceil() / unit;
        let most = (high * unit + 1e-6).floor() / unit;
        Self::typed(kind.write((next * step).max(least).min(most)), units)
    }
}

/// What a field takes, in some units.
pub fn range(kind: Kind, field: Field, units: Units) -> (f64, f64) {
    if kind == Kind::CrackPace {
        return (0.0, kind.typed_from(100.0, units));
    }
    let (low, high) = field.range();
    (kind.typed_from(kind.limit(low), units), kind.typed_from(kind.limit(high), units))
}

/// The limits of a field as one would say them: three figures, and none that it does not take.
pub fn limits(kind: Kind, field: Field, units: Units) -> (String, String) {
    let (low, high) = range(kind, field, units);
    (said_limit(low, f64::ceil), said_limit(high, f64::floor))
}

fn said_limit(limit: f64, inward: fn(f64) -> f64) -> String {
    if limit == 0.0 {
        return "0".to_owned();
    }
    let places = 2 - limit.abs().log10().floor() as i32;
    let unit = 10_f64.powi(-places);
    // A limit that is such a figure already may stand a rounding error beside it.
    let (steps, nearest) = (limit / unit, (limit / unit).round());
    let steps = if (steps - nearest).abs() < 1e-6 { nearest } else { inward(steps) };
    trimmed(&format!("{:.*}", places.max(0) as usize, steps * unit))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_as_sheets_print_them() {
        let read = |text: &str, kind, field| Entry::typed(text, Units::Us).value(kind, field);
        for text in ["12", "12 h", "12 hr", "12 hours", "1/2 day", "720 min"] {
            assert_eq!(read(text, Kind::Hours, Field::AfterTime), Ok(12.0), "{text}");
        }
        assert_eq!(read("7 days", Kind::Hours, Field::AfterTime), Ok(168.0));
        assert_eq!(read("1 h 30 min", Kind::Minutes, Field::PotLife), Ok(90.0));
        assert_eq!(read("1 hour", Kind::Minutes, Field::PotLife), Ok(60.0));
        assert_eq!(read("35-40", Kind::Minutes, Field::PotLife), Err(Unfit::Unreadable));
    }

    #[test]
    fn units_switched_there_and_back_lose_nothing() {
        let typed = Entry::typed("73.3", Units::Us);
        assert_eq!(typed.shown(Kind::Temperature, Units::Metric), "22.9");
        assert_eq!(typed.shown(Kind::Temperature, Units::Us), "73.3");
        let odd = Entry::typed("7'6\"", Units::Us);
        assert_eq!(odd.shown(Kind::Span, Units::Metric), "2.29");
        assert_eq!(odd.shown(Kind::Span, Units::Us), "7'6\"");
    }

    #[test]
    fn what_cannot_be_read_stays() {
        let typed = Entry::typed("abc", Units::Us);
        assert_eq!(typed.value(Kind::Area, Field::AreaLeft), Err(Unfit::Unreadable));
        assert_eq!(typed.shown(Kind::Area, Units::Metric), "abc");
        assert_eq!(typed.stepped(Kind::Area, Field::AreaLeft, Units::Us, true), typed);
    }

    #[test]
    fn out_of_range_is_told_from_unreadable() {
        for (text, kind, field) in [
            ("200", Kind::Temperature, Field::Slab),
            ("-3", Kind::Area, Field::AreaLeft),
            ("0", Kind::Count, Field::Rollers),
            ("-1", Kind::Count, Field::Flakers),
            ("99999999999", Kind::Count, Field::Flakers),
        ] {
            let entry = Entry::typed(text, Units::Us);
            assert_eq!(entry.value(kind, field), Err(Unfit::OutOfRange), "{text}");
        }
        assert_eq!(
            Entry::typed("1.5", Units::Us).value(Kind::Count, Field::Rollers),
            Err(Unfit::Unreadable)
        );
    }

    #[test]
    fn limits_are_short_and_taken() {
        for (limit, low, high) in [
            (422.675, "423", "422"),
            (0.049_212_6, "0.0493", "0.0492"),
            (122.000_000_000_01, "122", "122"),
            (-22.0, "-22", "-22"),
            (10_763.9, "10800", "10700"),
            (0.0, "0", "0"),
        ] {
            assert_eq!(said_limit(limit, f64::ceil), low, "{limit}");
            assert_eq!(said_limit(limit, f64::floor), high, "{limit}");
        }
        for units in [Units::Us, Units::Metric] {
            for (kind, field) in [
                (Kind::Area, Field::AreaLeft),
                (Kind::Span, Field::Width),
                (Kind::Small, Field::CrackDepth),
                (Kind::Volume, Field::PouredVolume),
                (Kind::Mass, Field::PouredMass),
                (Kind::Temperature, Field::Slab),
                (Kind::Density, Field::Density),
            ] {
                let (low, high) = limits(kind, field, units);
                let (least, most) = range(kind, field, units);
                for text in [low, high] {
                    let said: f64 = text.parse().unwrap();
                    let slack = 1e-8 * said.abs();
                    assert!(least - slack <= said && said <= most + slack, "{field:?} {said}");
                }
            }
        }
    }

    #[test]
    fn a_tap_lands_on_whole_steps_within_the_range() {
        let tap = |text: &str, up| {
            Entry::typed(text, Units::Us)
                .stepped(Kind::Temperature, Field::Slab, Units::Us, up)
                .text
        };
        assert_eq!(tap("74", true), "75");
        assert_eq!(tap("73.4", false), "73");
        assert_eq!(tap("73.4", true), "74");
        assert_eq!(tap("122", true), "122");
        assert_eq!(tap("23", false), "23");
        // The end is at 19.685 ft: a tap does not round it out of the range.
        let wall = Entry::typed("19", Units::Us);
        let (kind, field) = (Kind::Span, Field::Throw);
        let tapped =
            wall.stepped(kind, field, Units::Us, true).stepped(kind, field, Units::Us, true);
        assert_eq!((tapped.text.as_str(), tapped.value(kind, field).is_ok()), ("19.68", true));
    }

    #[test]
    fn values_reach_the_record_s_units() {
        let at =
            |text: &str, kind, field| Entry::typed(text, Units::Us).value(kind, field).unwrap();
        assert!((at("77", Kind::Temperature, Field::Slab) - 25.0).abs() < 1e-9);
        assert!((at("100", Kind::Area, Field::AreaLeft) - 9.290_304).abs() < 1e-9);
        assert!((at("20'", Kind::Span, Field::Width) - 6.096).abs() < 1e-9);
        assert!(
            (at("74 °F", Kind::Temperature, Field::Slab)
                - at("74", Kind::Temperature, Field::Slab))
            .abs()
                < 1e-9
        );
        assert!((at("1 gal 2 qt", Kind::Volume, Field::PouredVolume) - 5.678_117_676).abs() < 1e-9);
        assert!((at("9 lb 8 oz", Kind::Mass, Field::PouredMass) - 4.309_127_515).abs() < 1e-9);
        assert!((at("1/4", Kind::Small, Field::CrackDepth) - 6.35).abs() < 1e-9);
    }
}
