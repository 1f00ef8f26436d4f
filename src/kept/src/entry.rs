//! What a person typed, kept as typed.
//!
//! An entry is its text and the units it was typed in. Other units are worked out for showing
//! only, so switching back and forth loses nothing, and what cannot be read stays on the screen.

mod kind;

use pailwise_calc::field::Field;
use pailwise_calc::quantity::{AvailableEnergy, Figure, MolarEnergy, unit};
use serde::{Deserialize, Serialize};

pub use kind::Kind;
use kind::trimmed;

use crate::text::Language;
use crate::units::Units;

/// A text in the units it was typed in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Entry {
    /// The characters exactly as the person typed them.
    pub text: String,
    /// The units it means.
    pub units: Units,
}

/// Why an entry has no value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Invalid {
    /// Nothing has been typed.
    Empty,
    /// It cannot be read as a number.
    Unreadable,
    /// It is outside what the field takes.
    OutOfRange {
        /// The kind of quantity.
        kind: Kind,
        /// What it was to be.
        field: Field,
    },
}

impl Entry {
    /// An entry as if it had been typed.
    pub fn as_typed(text: impl Into<String>, units: Units) -> Self {
        Self { text: text.into(), units }
    }

    /// A record's value as it was most likely printed: in those units, the person's own or the
    /// other, that give it back exactly with the fewest digits.
    ///
    /// ```
    /// use pailwise_kept::{entry::{Entry, Kind}, units::Units};
    /// let kept = 11.5 * 0.453_592_37 / 3.785_411_784; // typed as 11.5 lb/gal
    /// assert_eq!(Entry::as_printed(Kind::Density, kept, Units::Metric), Entry::as_typed("11.5", Units::Us));
    /// assert_eq!(Entry::as_printed(Kind::Density, 1.38, Units::Us), Entry::as_typed("1.38", Units::Metric));
    /// assert_eq!(Entry::as_printed(Kind::Percent, 5.0, Units::Us), Entry::as_typed("5", Units::Us));
    /// ```
    pub fn as_printed(kind: Kind, record: f64, units: Units) -> Self {
        let other = units.other();
        let own = kind.exact(record, units);
        let texts = if kind.unit(units) == kind.unit(other) {
            [own, None]
        } else {
            [own, kind.exact(record, other)]
        };
        match texts {
            [Some(own), Some(else_)] if else_.len() < own.len() => Self::as_typed(else_, other),
            [Some(own), _] => Self::as_typed(own, units),
            [None, Some(else_)] => Self::as_typed(else_, other),
            // Metric units are the record's own, and a number written in full is itself.
            [None, None] => Self::as_typed(format!("{record}"), Units::Metric),
        }
    }

    /// A value in the record's units as one would type it.
    pub fn from_value(kind: Kind, record: f64, units: Units) -> Self {
        Self::as_typed(kind.write(kind.typed_from(record, units)), units)
    }

    /// Its value in the record's units, when it can be read and the field takes it.
    ///
    /// # Errors
    /// [`Invalid`], saying what it is.
    pub fn value(&self, kind: Kind, field: Field) -> Result<f64, Invalid> {
        if self.text.trim().is_empty() {
            return Err(Invalid::Empty);
        }
        let record = self.record(kind).ok_or(Invalid::Unreadable)?;
        let given = match field.range().0 {
            Figure::MolarEnergy(_) => MolarEnergy::new::<unit::kilojoule_per_mole>(record).into(),
            Figure::Heat(_) => AvailableEnergy::new::<unit::joule_per_gram>(record).into(),
            _ => kind.figure(record),
        };
        // A negative count has no figure.
        if record < 0.0 && kind == Kind::Count {
            return Err(Invalid::OutOfRange { kind, field });
        }
        field.check(given).map_err(|_| Invalid::OutOfRange { kind, field })?;
        Ok(record)
    }

    /// Its value in the record's units, whatever the field takes: read in its own units, or by a
    /// unit of the others that is named.
    fn record(&self, kind: Kind) -> Option<f64> {
        let units = [self.units, self.units.other()];
        units.into_iter().find_map(|units| {
            let typed = kind.read(&self.text, units)?;
            Some(kind.to_record(typed, units))
        })
    }

    /// What to show in some units: the text itself in its own, else worked out from it.
    pub fn text_in(&self, kind: Kind, units: Units) -> String {
        if units == self.units || kind.unit(units) == kind.unit(self.units) {
            return self.text.clone();
        }
        match self.record(kind) {
            Some(record) => kind.write(kind.typed_from(record, units)),
            None => self.text.clone(),
        }
    }

    /// What to show, with its unit, unless it names one itself as `7'6"` and `70 in` do.
    pub fn text_with_unit(&self, kind: Kind, units: Units, language: Language) -> String {
        let text = self.text_in(kind, units);
        let names = |c: char| c.is_alphabetic() || matches!(c, '\'' | '"' | '°' | '%');
        if text.contains(names) {
            return text;
        }
        language.say(kind.unit(units), &[("n", text.trim())])
    }

    /// One tap up or down in some units, onto a whole step and within the field's range.
    #[must_use]
    pub fn stepped(&self, kind: Kind, field: Field, units: Units, up: bool) -> Self {
        let shown = self.text_in(kind, units);
        // From nothing the first tap goes as from none of it.
        let nothing = if shown.trim().is_empty() { Some(0.0) } else { None };
        let read = || kind.read(&shown, units);
        let now = nothing.or_else(read).or_else(|| {
            let record = self.record(kind)?;
            Some(kind.typed_from(record, units))
        });
        let Some(now) = now else { return self.clone() };
        let step = kind.step(units);
        let steps = now / step;
        // From between two steps a tap goes to the next whole one.
        let next = if up { (steps + 1e-6).floor() + 1.0 } else { (steps - 1e-6).ceil() - 1.0 };
        let (low, high) = range(kind, field, units);
        // The ends of the range, rounded into it.
        let unit = 10_f64.powf(kind.places() as f64);
        let least = (low * unit - 1e-6).ceil() / unit;
        let most = (high * unit + 1e-6).floor() / unit;
        Self::as_typed(kind.write((next * step).max(least).min(most)), units)
    }
}

/// What a field takes, in some units.
pub fn range(kind: Kind, field: Field, units: Units) -> (f64, f64) {
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
        let read = |text: &str, kind, field| Entry::as_typed(text, Units::Us).value(kind, field);
        for text in ["12", "12 h", "12 hr", "12 hours", "1/2 day", "720 min"] {
            assert_eq!(read(text, Kind::Hours, Field::AfterTime), Ok(12.0), "{text}");
        }
        assert_eq!(read("7 days", Kind::Hours, Field::AfterTime), Ok(168.0));
        assert_eq!(read("1 h 30 min", Kind::Minutes, Field::PotLife), Ok(90.0));
        assert_eq!(read("1 hour", Kind::Minutes, Field::PotLife), Ok(60.0));
        assert_eq!(read("35-40", Kind::Minutes, Field::PotLife), Err(Invalid::Unreadable));
    }

    #[test]
    fn units_switched_there_and_back_lose_nothing() {
        let typed = Entry::as_typed("73.3", Units::Us);
        assert_eq!(typed.text_in(Kind::Temperature, Units::Metric), "22.9");
        assert_eq!(typed.text_in(Kind::Temperature, Units::Us), "73.3");
        let odd = Entry::as_typed("7'6\"", Units::Us);
        assert_eq!(odd.text_in(Kind::Span, Units::Metric), "2.29");
        assert_eq!(odd.text_in(Kind::Span, Units::Us), "7'6\"");
    }

    #[test]
    fn what_cannot_be_read_stays() {
        let typed = Entry::as_typed("abc", Units::Us);
        assert_eq!(typed.value(Kind::Area, Field::AreaLeft), Err(Invalid::Unreadable));
        assert_eq!(typed.text_in(Kind::Area, Units::Metric), "abc");
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
            let entry = Entry::as_typed(text, Units::Us);
            assert_eq!(
                entry.value(kind, field),
                Err(Invalid::OutOfRange { kind, field }),
                "{text}"
            );
        }
        assert_eq!(
            Entry::as_typed("1.5", Units::Us).value(Kind::Count, Field::Rollers),
            Err(Invalid::Unreadable)
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
            Entry::as_typed(text, Units::Us)
                .stepped(Kind::Temperature, Field::Slab, Units::Us, up)
                .text
        };
        assert_eq!(tap("74", true), "75");
        assert_eq!(tap("73.4", false), "73");
        assert_eq!(tap("73.4", true), "74");
        assert_eq!(tap("122", true), "122");
        assert_eq!(tap("23", false), "23");
        // The end is at 19.685 ft: a tap does not round it out of the range.
        let wall = Entry::as_typed("19", Units::Us);
        let (kind, field) = (Kind::Span, Field::Throw);
        let tapped =
            wall.stepped(kind, field, Units::Us, true).stepped(kind, field, Units::Us, true);
        assert_eq!((tapped.text.as_str(), tapped.value(kind, field).is_ok()), ("19.68", true));
    }

    #[test]
    fn values_reach_the_record_s_units() {
        let at =
            |text: &str, kind, field| Entry::as_typed(text, Units::Us).value(kind, field).unwrap();
        assert!((at("77", Kind::Temperature, Field::Slab) - 25.0).abs() < 1e-9);
        // The other unit where it is named.
        assert!((at("25°C", Kind::Temperature, Field::Slab) - 25.0).abs() < 1e-9);
        assert!((at("6.5 m", Kind::Span, Field::Width) - 6.5).abs() < 1e-9);
        assert!((at("2 L", Kind::Volume, Field::PouredVolume) - 2.0).abs() < 1e-9);
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
