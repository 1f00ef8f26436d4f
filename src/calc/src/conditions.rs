//! How warm it is: slab, air, and the material in its cans.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{
    TemperatureInterval, ThermodynamicTemperature, Time, celsius, minutes, unit,
};
use crate::record::{ConditionsRecord, CourseRecord, HourRecord};

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

/// How temperatures go on through a day, from where they are when the first batch is mixed.
///
/// Air follows its course. Slab and material warm as much as the air does, and are not counted on
/// to cool again: a film is planned for the warmest it may meet.
///
/// ```
/// use pailwise_calc::{conditions::{Conditions, Course}, demo, record::CourseRecord};
/// use pailwise_calc::quantity::{celsius, minutes};
/// let now = Conditions::try_from(&demo::conditions()).unwrap(); // slab 23 °C, air 24 °C
/// let course = Course::new(now, &CourseRecord::DriftKPerHour(2.0), minutes(480.0)).unwrap();
/// let later = course.warmest(minutes(60.0), minutes(90.0));
/// assert!((later.slab.value - celsius(26.0).value).abs() < 1e-9);
/// assert!((later.air.value - celsius(27.0).value).abs() < 1e-9);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    start: Conditions,
    /// How much warmer the air is than at the start, by seconds from the start; rising in time,
    /// straight lines between, level before and after.
    air: Vec<(f64, f64)>,
}

impl Course {
    /// Temperatures now, and how they go on from a time of day.
    ///
    /// A low and a high are joined by half cosines, day after day; an hourly list by straight
    /// lines.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::NotANumber`] for a reading or a time.
    pub fn new(start: Conditions, record: &CourseRecord, begins: Time) -> Result<Self, Error> {
        let check = |hour: &HourRecord| -> Result<(f64, f64), Error> {
            Field::HourAt.check(minutes(hour.at_min))?;
            Field::Air.check(celsius(hour.air_c))?;
            Ok((hour.at_min * 60.0, hour.air_c))
        };
        let from = begins.value;
        let air = match record {
            CourseRecord::Steady => Vec::new(),
            CourseRecord::DriftKPerHour(rate) => {
                let rate = TemperatureInterval::new::<unit::celsius_change>(*rate);
                Field::DriftRate.check(rate)?;
                vec![(0.0, 0.0), (AHEAD, rate.value * AHEAD / 3600.0)]
            }
            CourseRecord::LowAndHigh { low, high } => {
                let (low, high) = (check(low)?, check(high)?);
                if low.1 >= high.1 {
                    let (low, high) = (celsius(low.1), celsius(high.1));
                    return Err(Error::ColdestAboveWarmest { low, high });
                }
                let now = start.air.get::<unit::degree_celsius>();
                if now < low.1 - NEAR || now > high.1 + NEAR {
                    let (low, high) = (celsius(low.1).into(), celsius(high.1).into());
                    let given = start.air.into();
                    return Err(Error::OutOfRange { field: Field::DayAir, given, low, high });
                }
                // What is read now goes over into the course until its next low or high.
                let off = now - between(low, high, from);
                let next = (low.0 - from).rem_euclid(DAY).min((high.0 - from).rem_euclid(DAY));
                let (least, most) = (low.1.min(now), high.1.max(now));
                let at = |t: f64| {
                    let left = if next > 0.0 { (1.0 - t / next).max(0.0) } else { 0.0 };
                    (between(low, high, from + t) + off * left).clamp(least, most)
                };
                let half_hours = (0..=96).map(|i| f64::from(i) * 1800.0);
                half_hours.map(|t| (t, at(t) - now)).collect()
            }
            CourseRecord::Hours(hours) => {
                let mut points = hours.iter().map(check).collect::<Result<Vec<_>, _>>()?;
                points.sort_by(|a, b| a.0.total_cmp(&b.0));
                let now = linear(&points, from);
                let rest = points.iter().filter(|(t, _)| *t > from);
                let rest: Vec<_> = rest.map(|(t, air)| (t - from, air - now)).collect();
                [(0.0, 0.0)].into_iter().chain(rest).collect()
            }
        };
        Ok(Self { start, air })
    }

    /// The warmest that slab, air and material may be between two times from the start.
    pub fn warmest(&self, from: Time, to: Time) -> Conditions {
        let most = |from: f64| {
            let inside = self.air.iter().filter(|(t, _)| (from..=to.value).contains(t));
            let ends = linear(&self.air, from).max(linear(&self.air, to.value));
            inside.map(|(_, change)| *change).fold(ends, f64::max)
        };
        let warmed = most(0.0).max(0.0);
        Conditions {
            slab: kelvin(self.start.slab, warmed),
            air: kelvin(self.start.air, most(from.value)),
            material: kelvin(self.start.material, warmed),
        }
    }

    /// Slab, air and material at a time from the start if all of them follow the air, down as well
    /// as up: for asking whether waiting would help, never for a batch.
    pub fn cooled(&self, at: Time) -> Conditions {
        let change = linear(&self.air, at.value);
        Conditions {
            slab: kelvin(self.start.slab, change),
            air: kelvin(self.start.air, change),
            material: kelvin(self.start.material, change),
        }
    }

    /// What the air is expected to be at a time from the start.
    pub fn air(&self, at: Time) -> ThermodynamicTemperature {
        self.warmest(at, at).air
    }
}

/// So many degrees beyond a day's low or high may be read: a forecast is not exact.
const NEAR: f64 = 1.5;

/// A day in seconds.
const DAY: f64 = 86_400.0;

/// How far ahead a drift is followed, in seconds: two days.
const AHEAD: f64 = 48.0 * 3600.0;

/// A temperature changed by so much, kept within what the tool is good for.
fn kelvin(temperature: ThermodynamicTemperature, by: f64) -> ThermodynamicTemperature {
    let (low, high) = Field::Air.range();
    let kelvin = (temperature.value + by).clamp(low.si(), high.si());
    ThermodynamicTemperature::new::<unit::kelvin>(kelvin)
}

/// Straight lines between points, level before the first and after the last; 0 without any.
fn linear(points: &[(f64, f64)], at: f64) -> f64 {
    let next = points.partition_point(|(t, _)| *t <= at);
    match (points.get(next.wrapping_sub(1)), points.get(next)) {
        (Some(a), Some(b)) => a.1 + (b.1 - a.1) * (at - a.0) / (b.0 - a.0),
        (Some(only), None) | (None, Some(only)) => only.1,
        (None, None) => 0.0,
    }
}

/// Half cosines between a low and a high that come back every day.
fn between(low: (f64, f64), high: (f64, f64), at: f64) -> f64 {
    let since = |then: f64| (at - then).rem_euclid(DAY);
    let rise = (high.0 - low.0).rem_euclid(DAY);
    let share = if since(low.0) < rise {
        0.5 - 0.5 * (std::f64::consts::PI * since(low.0) / rise).cos()
    } else {
        0.5 + 0.5 * (std::f64::consts::PI * since(high.0) / (DAY - rise)).cos()
    };
    low.1 + (high.1 - low.1) * share
}

/// A temperature that rises or falls steadily, as a slab does through part of a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drift {
    /// The temperature now.
    pub start: ThermodynamicTemperature,
    /// How much it changes in an hour.
    pub per_hour: TemperatureInterval,
}

impl Drift {
    /// A temperature that stays as it is.
    pub fn none(start: ThermodynamicTemperature) -> Self {
        Self { start, per_hour: TemperatureInterval::default() }
    }

    /// The temperature after a time, kept within what the tool is good for
    /// ([`Field::Slab`]), so that no drift leads to an absurd one.
    ///
    /// ```
    /// use pailwise_calc::conditions::Drift;
    /// use pailwise_calc::quantity::{celsius, minutes, TemperatureInterval, unit};
    /// let per_hour = TemperatureInterval::new::<unit::celsius_change>(3.0);
    /// let morning = Drift { start: celsius(18.0), per_hour };
    /// assert!((morning.after(minutes(90.0)).value - celsius(22.5).value).abs() < 1e-9);
    /// ```
    pub fn after(&self, time: Time) -> ThermodynamicTemperature {
        let (low, high) = Field::Slab.range();
        let kelvin = self.start.value + self.per_hour.value * time.get::<unit::hour>();
        ThermodynamicTemperature::new::<unit::kelvin>(kelvin.clamp(low.si(), high.si()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    fn course(record: &CourseRecord, begins_min: f64) -> Course {
        let now = Conditions::try_from(&demo::conditions()).unwrap();
        Course::new(now, record, minutes(begins_min)).unwrap()
    }

    fn hour(at_min: f64, air_c: f64) -> HourRecord {
        HourRecord { at_min, air_c }
    }

    #[test]
    fn an_hourly_list_is_followed_from_what_is_read_now() {
        let list = [hour(480.0, 18.0), hour(600.0, 24.0), hour(720.0, 21.0)];
        let course = course(&CourseRecord::Hours(list.to_vec()), 540.0);
        // At nine it would be 21 by the list and is 24; at ten it is three more.
        assert!((course.air(minutes(60.0)).value - celsius(27.0).value).abs() < 1e-9);
        assert!((course.air(minutes(500.0)).value - celsius(24.0).value).abs() < 1e-9);
        // The slab is not counted on to cool.
        let late = course.warmest(minutes(400.0), minutes(500.0));
        assert!((late.slab.value - celsius(26.0).value).abs() < 1e-9);
    }

    #[test]
    fn a_low_and_a_high_are_met_at_their_hours() {
        let record = CourseRecord::LowAndHigh { low: hour(360.0, 14.0), high: hour(900.0, 30.0) };
        let course = course(&record, 420.0);
        let air = |min: f64| course.air(minutes(min)).get::<unit::degree_celsius>();
        // As read now; 30 at three in the afternoon; 14 at six the next morning; never beyond.
        assert!((air(0.0) - 24.0).abs() < 1e-9 && (air(480.0) - 30.0).abs() < 1e-9);
        assert!((air(23.0 * 60.0) - 14.0).abs() < 1e-9);
        assert!((0..2000).all(|min| (14.0 - 1e-9..=30.0 + 1e-9).contains(&air(f64::from(min)))));
    }

    #[test]
    fn an_absurd_course_is_refused() {
        let now = Conditions::try_from(&demo::conditions()).unwrap();
        let wrong = Course::new(now, &CourseRecord::DriftKPerHour(80.0), minutes(0.0));
        assert!(matches!(wrong, Err(Error::OutOfRange { field: Field::DriftRate, .. })));
        let oven = CourseRecord::Hours(vec![hour(0.0, 90.0)]);
        assert!(Course::new(now, &oven, minutes(0.0)).is_err());
        let cold = CourseRecord::LowAndHigh { low: hour(300.0, 2.0), high: hour(900.0, 10.0) };
        let wrong = Course::new(now, &cold, minutes(0.0));
        assert!(matches!(wrong, Err(Error::OutOfRange { field: Field::DayAir, .. })));
        let turned = CourseRecord::LowAndHigh { low: hour(300.0, 30.0), high: hour(900.0, 20.0) };
        let wrong = Course::new(now, &turned, minutes(0.0));
        assert!(matches!(wrong, Err(Error::ColdestAboveWarmest { .. })));
    }
}
