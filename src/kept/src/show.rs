//! Writing figures for a person: in their units, in their language, rounded to the safe side.

mod number;
mod time;
mod typed;

use pailwise_calc::measure::steps::{JugMark, Mark, ScaleMark, StickMark};
use pailwise_calc::quantity::{
    Area, Figure, Length, Mass, MassDensity, Pace, TemperatureInterval, ThermodynamicTemperature,
    Time, Velocity, Volume, unit,
};

use crate::entry::Kind;
use crate::text::{Language, key};
use crate::units::Units;
use number::{NOISE, Rounding, decimal, mixed, tenths};

/// The units that a measure's step belongs to, whatever else the person reads.
pub fn mark_units(mark: Mark) -> Units {
    let us = match mark {
        Mark::Jug(mark) => mark <= JugMark::Quart,
        Mark::Stick(mark) => mark <= StickMark::QuarterInch,
        Mark::Scale(mark) => mark <= ScaleMark::TwentiethPound,
    };
    if us { Units::Us } else { Units::Metric }
}

/// A reader: language and units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reader {
    /// The language that texts and numbers are written in.
    pub language: Language,
    /// The units that figures are written in.
    pub units: Units,
}

impl Reader {
    /// A number and its unit.
    fn with(self, key: &str, number: &str) -> String {
        self.language.say(key, &[("n", number)])
    }

    fn us(self) -> bool {
        self.units == Units::Us
    }

    /// An amount of mix: on the jug's own marks where it stands on one, else rounded down.
    pub fn volume(self, volume: Volume) -> String {
        if !self.us() {
            let liters = volume.get::<unit::liter>();
            return if liters < 0.1 {
                self.with(key::UNIT_ML, &decimal(liters * 1000.0, 0, Rounding::Nearest))
            } else {
                self.with(key::UNIT_L, &decimal(liters, 2, Rounding::Down))
            };
        }
        let ounces = volume.get::<unit::fluid_ounce>();
        let whole = ounces.round();
        if ounces < 7.5 {
            return self.with(key::UNIT_FL_OZ, &decimal(ounces, 1, Rounding::Nearest));
        }
        if (ounces - whole).abs() > NOISE * whole {
            let gallons = volume.get::<unit::gallon>();
            return self.with(key::UNIT_GAL, &decimal(gallons, 2, Rounding::Down));
        }
        // Gallons, then quarts in quarters; what stands between two quarters in ounces.
        let (gallons, rest) = ((whole / 128.0).floor(), whole.rem_euclid(128.0));
        let quarters = rest.rem_euclid(8.0) == 0.0;
        let quarts =
            if quarters { mixed(rest / 8.0, 4) } else { mixed((rest / 32.0).floor() * 4.0, 4) };
        let ounces = if quarters { 0.0 } else { rest.rem_euclid(32.0) };
        let parts = [
            (key::UNIT_GAL, decimal(gallons, 0, Rounding::Nearest)),
            (key::UNIT_QT, quarts),
            (key::UNIT_FL_OZ, decimal(ounces, 0, Rounding::Nearest)),
        ];
        let said: Vec<String> =
            parts.iter().filter(|(_, n)| n != "0").map(|(unit, n)| self.with(unit, n)).collect();
        said.join(" ")
    }

    /// A weight, to the hundredth of a pound or the gram.
    pub fn mass(self, mass: Mass) -> String {
        if self.us() {
            self.with(key::UNIT_LB, &decimal(mass.get::<unit::pound>(), 2, Rounding::Nearest))
        } else {
            self.with(key::UNIT_KG, &decimal(mass.get::<unit::kilogram>(), 3, Rounding::Nearest))
        }
    }

    /// A floor area, rounded down.
    pub fn area(self, area: Area) -> String {
        if self.us() {
            let feet = area.get::<unit::square_foot>();
            self.with(key::UNIT_SQ_FT, &decimal(feet, u8::from(feet < 10.0), Rounding::Down))
        } else {
            let meters = area.get::<unit::square_meter>();
            let places = if meters < 10.0 { 2 } else { 1 };
            self.with(key::UNIT_SQ_M, &decimal(meters, places, Rounding::Down))
        }
    }

    /// A distance along the floor, rounded down to the inch or the centimetre.
    pub fn distance(self, length: Length) -> String {
        if !self.us() {
            return self
                .with(key::UNIT_M, &decimal(length.get::<unit::meter>(), 2, Rounding::Down));
        }
        let inches = (length.get::<unit::inch>() + NOISE).floor();
        let (feet, inches) = ((inches / 12.0).floor(), inches.rem_euclid(12.0));
        let feet = self.with(key::UNIT_FT, &decimal(feet, 0, Rounding::Nearest));
        if inches == 0.0 {
            return feet;
        }
        let inches = self.with(key::UNIT_IN, &decimal(inches, 0, Rounding::Nearest));
        format!("{feet} {inches}")
    }

    /// A small length, such as a mark on a stick: sixteenths of an inch, or millimetres.
    pub fn small(self, length: Length) -> String {
        if self.us() {
            let sixteenths = (length.get::<unit::inch>() * 16.0).round();
            self.with(key::UNIT_IN, &mixed(sixteenths, 16))
        } else {
            let mm = length.get::<unit::millimeter>();
            self.with(key::UNIT_MM, &decimal(mm, 0, Rounding::Nearest))
        }
    }

    /// The step of a measure, as one would ask for it.
    pub fn step(self, mark: Mark) -> String {
        match mark {
            Mark::Scale(scale) if mark_units(mark) == Units::Metric => {
                let grams = scale.step().get::<unit::gram>();
                self.with(key::UNIT_G, &decimal(grams, 0, Rounding::Nearest))
            }
            Mark::Scale(scale) => self.shown_by(mark, scale.step().into()),
            Mark::Jug(jug) => self.shown_by(mark, jug.step().into()),
            Mark::Stick(stick) => self.shown_by(mark, Figure::Small(stick.step())),
        }
    }

    /// What a measure with this step shows, in the units of the step.
    pub fn shown_by(self, mark: Mark, figure: Figure) -> String {
        let reader = Self { units: mark_units(mark), ..self };
        match (mark, figure) {
            (Mark::Scale(ScaleMark::TenthOunce | ScaleMark::HalfOunce), Figure::Mass(mass)) => {
                let tenths = (mass.get::<unit::ounce>() * 10.0).round();
                let (pounds, tenths) = ((tenths / 160.0).floor(), tenths.rem_euclid(160.0));
                let ounces =
                    reader.with(key::UNIT_OZ, &decimal(tenths / 10.0, 1, Rounding::Nearest));
                if pounds == 0.0 {
                    return ounces;
                }
                let pounds = reader.with(key::UNIT_LB, &decimal(pounds, 0, Rounding::Nearest));
                format!("{pounds} {ounces}")
            }
            // By its own marks: whole quarts and fluid ounces, and no fraction that it has not.
            (Mark::Jug(JugMark::FluidOunce), Figure::Volume(volume)) => {
                let ounces = volume.get::<unit::fluid_ounce>();
                if (ounces - ounces.round()).abs() > 0.01 {
                    return reader.figure(figure);
                }
                let (quarts, ounces) = ((ounces.round() / 32.0).floor(), ounces.round() % 32.0);
                let parts = [(quarts, key::UNIT_QT), (ounces, key::UNIT_FL_OZ)];
                let parts = parts.into_iter().filter(|(n, _)| *n > 0.0);
                let said: Vec<String> = parts
                    .map(|(n, unit)| self.with(unit, &decimal(n, 0, Rounding::Nearest)))
                    .collect();
                if said.is_empty() { reader.figure(figure) } else { said.join(" ") }
            }
            _ => reader.figure(figure),
        }
    }

    /// Returns a temperature as text, in whole °F or in °C to a tenth.
    pub fn temperature(self, temperature: ThermodynamicTemperature) -> String {
        if self.us() {
            let degrees = temperature.get::<unit::degree_fahrenheit>();
            self.with(key::UNIT_F, &decimal(degrees, 0, Rounding::Nearest))
        } else {
            let degrees = temperature.get::<unit::degree_celsius>();
            self.with(key::UNIT_C, &tenths(degrees))
        }
    }

    /// A temperature in degrees of the person's, for an axis.
    pub fn degrees(self, temperature: ThermodynamicTemperature) -> f64 {
        if self.us() {
            temperature.get::<unit::degree_fahrenheit>()
        } else {
            temperature.get::<unit::degree_celsius>()
        }
    }

    /// The unit of [`Reader::degrees`].
    pub fn degree_unit(self) -> String {
        let key = if self.us() { key::UNIT_F } else { key::UNIT_C };
        self.with(key, "").trim().to_owned()
    }

    /// A temperature to be acted at, rounded down to whole degrees.
    pub fn temperature_down(self, temperature: ThermodynamicTemperature) -> String {
        let (degrees, key) = if self.us() {
            (temperature.get::<unit::degree_fahrenheit>(), key::UNIT_F)
        } else {
            (temperature.get::<unit::degree_celsius>(), key::UNIT_C)
        };
        self.with(key, &decimal(degrees, 0, Rounding::Down))
    }

    /// So many times as fast or as long, to the tenth, rounded up.
    pub fn times_up(self, times: f64) -> String {
        decimal(times, 1, Rounding::Up)
    }

    /// The same, rounded down.
    pub fn times_down(self, times: f64) -> String {
        decimal(times, 1, Rounding::Down)
    }

    /// A temperature that warns, rounded up to whole degrees.
    pub fn temperature_up(self, temperature: ThermodynamicTemperature) -> String {
        let (degrees, key) = if self.us() {
            (temperature.get::<unit::degree_fahrenheit>(), key::UNIT_F)
        } else {
            (temperature.get::<unit::degree_celsius>(), key::UNIT_C)
        };
        self.with(key, &decimal(degrees.ceil(), 0, Rounding::Nearest))
    }

    /// A reading beside its limit, to a tenth: rounded to the side on which it is worse, so that
    /// one that fails never reads as one that passes.
    pub fn beside_limit(self, figure: Figure, most: bool) -> String {
        let rounding = if most { Rounding::Up } else { Rounding::Down };
        let tenth = |value: f64| decimal(value, 1, rounding);
        let degrees = if self.us() { key::UNIT_F } else { key::UNIT_C };
        match figure {
            Figure::Temperature(t) => self.with(degrees, &tenth(self.degrees(t))),
            Figure::Change(q) if self.us() => {
                self.with(degrees, &tenth(q.get::<unit::fahrenheit_change>()))
            }
            Figure::Change(q) => self.with(degrees, &tenth(q.get::<unit::celsius_change>())),
            Figure::Share(x) => self.with(key::UNIT_PERCENT, &tenth(x * 100.0)),
            other => self.figure(other),
        }
    }

    /// A weight of material bought by the box, rounded up.
    pub fn mass_up(self, mass: Mass) -> String {
        if self.us() {
            self.with(key::UNIT_LB, &decimal(mass.get::<unit::pound>(), 0, Rounding::Up))
        } else {
            self.with(key::UNIT_KG, &decimal(mass.get::<unit::kilogram>(), 1, Rounding::Up))
        }
    }

    /// A weight of material that is left, rounded down.
    pub fn mass_down(self, mass: Mass) -> String {
        if self.us() {
            self.with(key::UNIT_LB, &decimal(mass.get::<unit::pound>(), 0, Rounding::Down))
        } else {
            self.with(key::UNIT_KG, &decimal(mass.get::<unit::kilogram>(), 1, Rounding::Down))
        }
    }

    /// Flake for the area, from kilograms a square metre.
    fn cover(self, kg_per_m2: f64, rounding: Rounding) -> String {
        if !self.us() {
            return self.with(key::UNIT_KG_SQ_M, &decimal(kg_per_m2, 2, rounding));
        }
        let pounds = Kind::Cover.typed_from(kg_per_m2, self.units);
        self.with(key::UNIT_LB_SQ_FT, &decimal(pounds, 2, rounding))
    }

    /// The flake there is for the area, rounded down.
    pub fn cover_at_most(self, kg_per_m2: f64) -> String {
        self.cover(kg_per_m2, Rounding::Down)
    }

    /// How far material goes, from square metres a litre.
    fn spread(self, m2_per_l: f64) -> String {
        if !self.us() {
            return self.with(key::UNIT_SQ_M_L, &decimal(m2_per_l, 2, Rounding::Nearest));
        }
        let square_feet = Kind::Spread.typed_from(m2_per_l, self.units);
        self.with(key::UNIT_SQ_FT_GAL, &decimal(square_feet, 1, Rounding::Nearest))
    }

    /// Moisture that a slab gives off, from grams a square metre a day.
    pub fn emission(self, grams: Figure) -> String {
        let grams = grams.si();
        if !self.us() {
            return self.with(key::UNIT_G_SQ_M, &tenths(grams));
        }
        let pounds = Kind::Emission.typed_from(grams, self.units);
        self.with(key::UNIT_LB_THOUSAND_SQ_FT, &tenths(pounds))
    }

    /// A price, in a currency by its three letters.
    pub fn money(self, amount: f64, currency: &str) -> String {
        let whole = decimal(amount, 2, Rounding::Up);
        let cents = match whole.split_once('.') {
            None => format!("{whole}.00"),
            Some((_, cents)) if cents.len() == 1 => format!("{whole}0"),
            Some(_) => whole,
        };
        format!("{cents} {currency}").trim().to_owned()
    }

    /// The size of a pail's filling, as one would say it.
    pub fn volume_about(self, volume: Volume) -> String {
        self.rounded(volume, Rounding::Nearest)
    }

    /// Material as it is bought and kept: plain gallons or litres, in digits that add up.
    pub fn stock(self, volume: Volume) -> String {
        let (size, key) = match self.units {
            Units::Us => (volume.get::<unit::gallon>(), key::UNIT_GAL),
            Units::Metric => (volume.get::<unit::liter>(), key::UNIT_L),
        };
        self.with(key, &decimal(size, 2, Rounding::Nearest))
    }

    /// The step to which a need is rounded up, so that what follows from it adds up as it is shown.
    pub fn stock_step(self, needed: Volume) -> Volume {
        let unit = match self.units {
            Units::Us => Volume::new::<unit::gallon>(1.0),
            Units::Metric => Volume::new::<unit::liter>(1.0),
        };
        unit * if needed < unit { 0.01 } else { 0.1 }
    }

    /// How much there is at the most: never more than it is.
    pub fn volume_at_most(self, volume: Volume) -> String {
        self.rounded(volume, Rounding::Down)
    }

    /// How much is needed, or is not here: never less than it is.
    pub fn volume_needed(self, volume: Volume) -> String {
        self.rounded(volume, Rounding::Up)
    }

    fn rounded(self, volume: Volume, rounding: Rounding) -> String {
        let quarts = volume.get::<unit::quart_liquid>();
        let liters = volume.get::<unit::liter>();
        let (size, places, key) = match self.us() {
            true if quarts < 1.0 => (volume.get::<unit::fluid_ounce>(), 0, key::UNIT_FL_OZ),
            true if quarts < 3.95 => (quarts, 1, key::UNIT_QT),
            true => (quarts / 4.0, 1, key::UNIT_GAL),
            false => (liters, if liters < 0.95 { 2 } else { 1 }, key::UNIT_L),
        };
        self.with(key, &decimal(size, places, rounding))
    }

    /// A difference of temperature.
    pub fn change(self, change: TemperatureInterval) -> String {
        if self.us() {
            self.with(key::UNIT_F, &tenths(change.get::<unit::fahrenheit_change>()))
        } else {
            self.with(key::UNIT_C, &tenths(change.get::<unit::celsius_change>()))
        }
    }

    /// Returns a film thickness as text, in mils to a tenth or whole micrometres.
    pub fn thickness(self, film: Length) -> String {
        if self.us() {
            self.with(key::UNIT_MIL, &tenths(film.get::<unit::mil>()))
        } else {
            let um = film.get::<unit::micrometer>();
            self.with(key::UNIT_UM, &decimal(um, 0, Rounding::Nearest))
        }
    }

    fn pace(self, pace: Pace) -> String {
        let per_minute = pace.get::<unit::square_meter_per_second>() * 60.0;
        if self.us() {
            let square_foot = Area::new::<unit::square_foot>(1.0).get::<unit::square_meter>();
            self.with(key::UNIT_SQ_FT_MIN, &tenths(per_minute / square_foot))
        } else {
            self.with(key::UNIT_SQ_M_MIN, &tenths(per_minute))
        }
    }

    fn speed(self, speed: Velocity) -> String {
        let per_minute = speed.get::<unit::meter_per_second>() * 60.0;
        if self.us() {
            let foot = Length::new::<unit::foot>(1.0).get::<unit::meter>();
            self.with(key::UNIT_FT_MIN, &tenths(per_minute / foot))
        } else {
            self.with(key::UNIT_M_MIN, &tenths(per_minute))
        }
    }

    /// A share of a whole, as a percentage.
    pub fn share(self, share: f64) -> String {
        self.with(key::UNIT_PERCENT, &tenths(share * 100.0))
    }

    fn density(self, density: MassDensity) -> String {
        let kg_per_l = density.get::<unit::kilogram_per_cubic_meter>() / 1000.0;
        if self.us() {
            let pounds = Kind::Density.typed_from(kg_per_l, self.units);
            self.with(key::UNIT_LB_GAL, &decimal(pounds, 2, Rounding::Nearest))
        } else {
            self.with(key::UNIT_KG_L, &decimal(kg_per_l, 3, Rounding::Nearest))
        }
    }

    /// A figure of a round or its working: finer than it must be typed.
    pub fn exact(self, figure: Figure) -> String {
        let hundredths = |value: f64| decimal(value, 2, Rounding::Nearest);
        match figure {
            Figure::Volume(q) if self.us() => {
                let quarts = q.get::<unit::quart_liquid>();
                let in_quarts = self.with(key::UNIT_QT, &hundredths(quarts));
                if quarts < 4.0 {
                    return in_quarts;
                }
                // Past a gallon people say gallons, and the box takes quarts: the same amount.
                let gallons = decimal(quarts / 4.0, 3, Rounding::Nearest);
                format!("{in_quarts} ({})", self.with(key::UNIT_GAL, &gallons))
            }
            Figure::Volume(q) => self.with(key::UNIT_L, &hundredths(q.get::<unit::liter>())),
            other => self.figure(other),
        }
    }

    /// Any figure: for the working and for the limits in an error.
    pub fn figure(self, figure: Figure) -> String {
        match figure {
            Figure::Length(q) => self.distance(q),
            Figure::Small(q) => self.small(q),
            Figure::Thickness(q) => self.thickness(q),
            Figure::Area(q) => self.area(q),
            Figure::Volume(q) => self.volume(q),
            Figure::Stock(q) => self.stock(q),
            Figure::Mass(q) => self.mass(q),
            Figure::Time(q) if q < Time::default() => format!("\u{2212}{}", self.time(-q)),
            Figure::Time(q) => self.time(q),
            Figure::Temperature(q) => self.temperature(q),
            Figure::Change(q) => self.change(q),
            Figure::Pace(q) => self.pace(q),
            Figure::Speed(q) => self.speed(q),
            Figure::Share(x) => self.share(x),
            Figure::Number(x) => tenths(x),
            Figure::Count(n) => n.to_string(),
            Figure::Cover(kg) => self.cover(kg, Rounding::Nearest),
            Figure::SpreadRate(m2) => self.spread(m2),
            Figure::Density(q) => self.density(q),
            Figure::PourRate(_) | Figure::MolarEnergy(_) | Figure::Heat(_) => figure.to_string(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::quantity::minutes;

    const US: Reader = Reader { language: Language::En, units: Units::Us };
    const METRIC: Reader = Reader { language: Language::En, units: Units::Metric };

    #[test]
    fn amounts_stand_on_the_jug_s_marks() {
        let quarts = |q| US.volume(Volume::new::<unit::quart_liquid>(q));
        assert_eq!(quarts(6.0), "1 gal 2 qt");
        assert_eq!(quarts(8.0), "2 gal");
        assert_eq!(quarts(2.75), "2¾ qt");
        assert_eq!(quarts(0.5), "½ qt");
        assert_eq!(quarts(5.15625), "1 gal 1 qt 5 fl oz");
        assert_eq!(quarts(1.03125), "1 qt 1 fl oz");
        assert_eq!(quarts(0.25), "¼ qt");
        assert_eq!(quarts(4.1), "1.02 gal");
        assert_eq!(quarts(0.1), "3.2 fl oz");
        assert_eq!(METRIC.volume(Volume::new::<unit::liter>(7.899)), "7.89 L");
        assert_eq!(METRIC.volume(Volume::new::<unit::liter>(7.9)), "7.9 L");
        assert_eq!(METRIC.volume(Volume::new::<unit::milliliter>(42.4)), "42 mL");
    }

    #[test]
    fn what_is_needed_is_never_said_smaller() {
        let us = |quarts| US.volume_needed(Volume::new::<unit::quart_liquid>(quarts));
        assert_eq!([us(0.001), us(1.01), us(8.05)], ["1 fl oz", "1.1 qt", "2.1 gal"]);
        let metric = |liters| METRIC.volume_needed(Volume::new::<unit::liter>(liters));
        assert_eq!([metric(0.001), metric(2.01), metric(2.0)], ["0.01 L", "2.1 L", "2 L"]);
    }

    #[test]
    fn times_of_day_are_said_as_people_say_them() {
        let said = |minutes: f64| US.clock(minutes);
        assert_eq!(
            [said(0.0), said(485.9), said(720.0), said(1439.0), said(1450.0)],
            ["12:00 am", "8:05 am", "12:00 pm", "11:59 pm", "12:10 am"]
        );
    }

    #[test]
    fn a_scale_reads_in_its_own_units() {
        let mass = Figure::from(Mass::new::<unit::ounce>(154.3));
        let shown = |mark| US.shown_by(Mark::Scale(mark), mass);
        assert_eq!(shown(ScaleMark::TenthOunce), "9 lb 10.3 oz");
        assert_eq!(shown(ScaleMark::HundredthPound), "9.64 lb");
        assert_eq!(shown(ScaleMark::Gram), "4.374 kg");
        let jug = |ounces| {
            let volume = Volume::new::<unit::fluid_ounce>(ounces);
            US.shown_by(Mark::Jug(JugMark::FluidOunce), volume.into())
        };
        assert_eq!(
            [jug(24.0), jug(12.0), jug(60.0), jug(64.0)],
            ["24 fl oz", "12 fl oz", "1 qt 28 fl oz", "2 qt"]
        );
    }

    #[test]
    fn times_areas_and_distances_never_flatter() {
        assert_eq!(US.time(minutes(16.99)), "16 min");
        assert_eq!(US.time(minutes(6.99)), "6 min 55 s");
        assert_eq!(US.time(minutes(0.99)), "55 s");
        assert_eq!(US.time(minutes(2.0)), "2 min");
        assert_eq!(US.time(minutes(-1.0)), "0 min");
        assert_eq!(US.time_up(minutes(18.02)), "19 min");
        assert_eq!(US.time_up(minutes(4.0)), "4 min");
        assert_eq!(US.time(minutes(129.9)), "2 h 9 min");
        assert_eq!(US.area(Area::new::<unit::square_foot>(199.9)), "199 sq ft");
        assert_eq!(US.distance(Length::new::<unit::inch>(89.9)), "7 ft 5 in");
        assert_eq!(METRIC.distance(Length::new::<unit::meter>(2.269)), "2.26 m");
    }

    #[test]
    fn marks_are_sixteenths_of_an_inch() {
        assert_eq!(US.small(Length::new::<unit::inch>(3.625)), "3⅝ in");
        assert_eq!(US.small(Length::new::<unit::inch>(3.3125)), "3 5/16 in");
        assert_eq!(US.small(Length::new::<unit::inch>(0.0625)), "1/16 in");
        assert_eq!(METRIC.small(Length::new::<unit::millimeter>(92.0)), "92 mm");
    }

    #[test]
    fn large_and_negative_numbers_read_well() {
        assert_eq!(decimal(1_076_391.0, 0, Rounding::Down), "1,076,391");
        assert_eq!(tenths(-0.04), "0");
        assert_eq!(tenths(-4.25), "\u{2212}4.3");
    }
}
