//! How temperatures go on from where they are, through the day and the night.

use super::Conditions;
use super::daily::{DAY, LEVEL, between, half_hours, in_daily, linear};
use super::lag::Lag;
use crate::dew;
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{
    TemperatureInterval, ThermodynamicTemperature, Time, above, celsius, minutes, unit,
};
use crate::record::{CourseRecord, HourRecord, TonightRecord};
use crate::sorted::sorted_by;

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
    /// How much colder than that it may be from the first point after the start on.
    cold_allowance: f64,
    /// What comes after the points.
    beyond: Horizon,
    /// How much the slab cools where the air cools by one kelvin.
    slab_per_air: f64,
    /// What was said of the coldest hour.
    night: Option<Night>,
    /// The dew point at the start, where humidity was read.
    dew: Option<ThermodynamicTemperature>,
    /// A floor under the coldest air and one under the warmest.
    slab_lag: [Lag; 2],
}

/// The coldest hour of the day to come.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Night {
    /// When, in seconds from the start.
    at: f64,
    /// How much warmer the air is then than at the start.
    change: f64,
    /// The slab then, where it was said.
    slab: Option<ThermodynamicTemperature>,
    /// The dew point then, where humidity was said.
    dew: Option<ThermodynamicTemperature>,
}

impl Night {
    /// How much a slab that has this temperature now cools for each kelvin of the air.
    fn slab_per_air(&self, now: ThermodynamicTemperature) -> f64 {
        match self.slab {
            Some(slab) if self.change < -0.1 => {
                (above(slab, now).value / self.change).clamp(0.0, 5.0)
            }
            _ => 1.0,
        }
    }
}

/// How a course goes on where its points end, for those who look further than a working day.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Horizon {
    /// Air and slab stay as they are at the start.
    Steady,
    /// As it was when a working day had gone by, in seconds from the start.
    HeldFrom(f64),
    /// The last day of [`half_hours`] comes back.
    Daily,
    /// Anywhere between the coldest and the warmest that was expected.
    Between,
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
        let mut below = 0.0;
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
                half_hours().map(|t| (t, at(t) - now)).collect()
            }
            CourseRecord::Hours(hours) => {
                let points = hours.iter().map(check).collect::<Result<Vec<_>, _>>()?;
                let points = sorted_by(points, |point| point.0);
                let now = start.air.get::<unit::degree_celsius>();
                // What is read now may be off the list; whether it stays so nobody knows.
                let listed = points.first().is_some_and(|(t, _)| *t <= from);
                let off = if listed { now - linear(&points, from) } else { 0.0 };
                below = off.abs();
                let rest = points.iter().filter(|(t, _)| *t > from);
                let rest = rest.map(|(t, air)| (t - from, air + off.max(0.0) - now));
                [(0.0, 0.0)].into_iter().chain(rest).collect()
            }
        };
        let beyond = match record {
            CourseRecord::Steady => Horizon::Steady,
            CourseRecord::DriftKPerHour(_) => Horizon::HeldFrom(WORKING_DAY),
            CourseRecord::LowAndHigh { .. } => Horizon::Daily,
            CourseRecord::Hours(_) => Horizon::Between,
        };
        Ok(Self::along(start, air, below, beyond))
    }

    /// How warm and damp it is when it begins.
    pub fn start(&self) -> &Conditions {
        &self.start
    }

    /// Temperatures that stay as they are.
    pub fn steady(start: Conditions) -> Self {
        Self::along(start, Vec::new(), 0.0, Horizon::Steady)
    }

    /// Temperatures along points of the air, and what comes after them.
    fn along(start: Conditions, air: Vec<(f64, f64)>, below: f64, beyond: Horizon) -> Self {
        let dew = start.humidity.map(|share| dew::of(start.air, share));
        let floor = |below: f64| {
            let below = |at: f64| if at > 0.0 { below } else { 0.0 };
            let under: Vec<_> = match beyond {
                Horizon::HeldFrom(end) => vec![(0.0, 0.0), (end.max(1.0), linear(&air, end))],
                _ => air.iter().map(|&(at, change)| (at, change - below(at))).collect(),
            };
            Lag::new(&under, above(start.slab, start.air).value)
        };
        let most = floor(0.0);
        let least = if below > 0.0 { floor(below) } else { most.clone() };
        let slab_lag = [least, most];
        Self {
            start,
            air,
            cold_allowance: below,
            beyond,
            slab_per_air: 1.0,
            night: None,
            dew,
            slab_lag,
        }
    }

    /// The same with what is expected when it is coldest, in the day to come. A course that does
    /// not know a night has no use for it.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::NotANumber`] for a reading, and for a slab that would be
    /// warmer at its coldest than it can be by then, as one is that reads colder already.
    pub fn tonight(self, record: &TonightRecord) -> Result<Self, Error> {
        let slab = record.slab_c.map(|c| Field::TonightSlab.check(celsius(c))).transpose()?;
        let share = |percent: f64| Field::Humidity.check_share(percent / 100.0);
        let humidity = record.humidity_percent.map(share).transpose()?;
        let colder = |a: &&(f64, f64), b: &&(f64, f64)| a.1.total_cmp(&b.1);
        let day = self.air.iter().filter(|(t, _)| *t <= DAY);
        let Some(&(at, change)) = day.min_by(colder).filter(|_| self.knows_a_night()) else {
            return Ok(self);
        };
        let until = self.air.iter().map(|(t, _)| *t).filter(|t| *t <= at);
        let most = until.map(|t| self.slab_at_most(Time::new::<unit::second>(t)));
        let most = most.fold(self.start.slab, |most, slab| if slab > most { slab } else { most });
        if let Some(slab) = slab.filter(|slab| above(*slab, most).value > NEAR) {
            let field = Field::TonightSlab;
            let (low, _) = field.range();
            return Err(Error::OutOfRange { field, given: slab.into(), low, high: most.into() });
        }
        let change = change - self.cold_allowance;
        let dew = humidity.map(|share| dew::of(kelvin(self.start.air, change), share));
        let night = Night { at, change, slab, dew };
        Ok(Self { slab_per_air: night.slab_per_air(self.start.slab), night: Some(night), ..self })
    }

    /// Whether it says how cold the night will be.
    pub fn knows_a_night(&self) -> bool {
        match self.beyond {
            Horizon::Daily => true,
            Horizon::Between => self.air.last().is_some_and(|(t, _)| *t >= 0.5 * DAY),
            Horizon::Steady | Horizon::HeldFrom(_) => false,
        }
    }

    /// From then on it comes back every 24 hours, or stays as it is.
    pub(crate) fn settled(&self) -> Time {
        Time::new::<unit::second>(match self.beyond {
            Horizon::Steady => 0.0,
            Horizon::HeldFrom(end) => end + LEVEL,
            Horizon::Daily => LEVEL,
            Horizon::Between => self.air.last().map_or(0.0, |(last, _)| last + 1.0),
        })
    }

    /// Gives the readings at the start of the course.
    pub fn now(&self) -> Conditions {
        self.start
    }

    /// The least and the most that the air may have changed by a time from the start.
    fn change(&self, at: Time) -> (f64, f64) {
        let at = at.value.max(0.0);
        let one = |at: f64| {
            let change = linear(&self.air, at);
            (change, change)
        };
        match self.beyond {
            Horizon::Steady => (0.0, 0.0),
            Horizon::HeldFrom(end) => one(at.min(end)),
            Horizon::Daily => one(in_daily(at)),
            Horizon::Between if self.air.last().is_some_and(|(last, _)| at > *last) => {
                let changes = self.air.iter().map(|(_, change)| *change);
                changes.fold((0.0, 0.0), |(least, most), c| {
                    (c.min(least).min(c - self.cold_allowance), c.max(most))
                })
            }
            Horizon::Between => {
                let first = self.air.get(1).map_or(1.0, |(t, _)| t.max(1.0));
                let most = linear(&self.air, at);
                (most - self.cold_allowance * (at / first).min(1.0), most)
            }
        }
    }

    /// The coldest the slab may be at a time from the start: it follows the air down at once, as
    /// far as was said of tonight; it comes over to air that is colder than it, but not to below
    /// what was said; and it is not counted on to be warmer than it is now.
    ///
    /// ```
    /// use pailwise_calc::conditions::{Conditions, Course};
    /// use pailwise_calc::quantity::{celsius, minutes};
    /// use pailwise_calc::record::{ConditionsRecord, CourseRecord};
    /// use pailwise_calc::demo;
    /// let record = ConditionsRecord { slab_c: 20.0, air_c: 12.0, ..demo::conditions() };
    /// let now = Conditions::try_from(&record).unwrap();
    /// // Under air that stays at 12 °C a slab of 20 °C has lost all but 2 % of its 8 K in a day.
    /// let course = Course::new(now, &CourseRecord::DriftKPerHour(0.0), minutes(0.0)).unwrap();
    /// let tomorrow = course.slab_at_least(minutes(1440.0)).value - celsius(12.0).value;
    /// assert!((tomorrow - 8.0 * (-86_400.0_f64 / 21_857.5).exp()).abs() < 1e-3);
    /// ```
    pub fn slab_at_least(&self, at: Time) -> ThermodynamicTemperature {
        let said = self.night.and_then(|night| Some(above(night.slab?, self.start.slab).value));
        let (air, _) = self.change(at);
        let over = self.over(&self.slab_lag[0], air, at).max(said.unwrap_or(f64::NEG_INFINITY));
        kelvin(self.start.slab, (self.slab_per_air * air.min(0.0)).min(over))
    }

    /// The warmest it may be: it follows the air up at once, comes over to air that is warmer than
    /// it, keeps that warmth as long as concrete does, and is not counted on to be cooler than it
    /// is now.
    ///
    /// ```
    /// use pailwise_calc::conditions::{Conditions, Course};
    /// use pailwise_calc::quantity::{celsius, minutes};
    /// use pailwise_calc::record::{CourseRecord, HourRecord};
    /// use pailwise_calc::demo;
    /// let now = Conditions::try_from(&demo::conditions()).unwrap(); // slab 23 °C, air 24 °C
    /// let hour = |at_min, air_c| HourRecord { at_min, air_c };
    /// let day = CourseRecord::LowAndHigh { low: hour(300.0, 16.0), high: hour(900.0, 36.0) };
    /// let course = Course::new(now, &day, minutes(540.0)).unwrap();
    /// // At ten in the evening the air is back to 26 °C; the slab may still be warmer.
    /// let evening = minutes(780.0);
    /// assert!(course.air_at_most(evening) < celsius(27.0));
    /// assert!(course.slab_at_most(evening) > celsius(30.0));
    /// ```
    pub fn slab_at_most(&self, at: Time) -> ThermodynamicTemperature {
        let (_, air) = self.change(at);
        kelvin(self.start.slab, air.max(0.0).max(self.over(&self.slab_lag[1], air, at)))
    }

    /// How much a floor may have changed by a time from the start as it comes over to air that has
    /// changed so much by then. Where the air may be anything on a list, so may the floor.
    fn over(&self, floor: &Lag, air: f64, at: Time) -> f64 {
        let at = at.value.max(0.0);
        match self.beyond {
            Horizon::Between if self.air.last().is_some_and(|(last, _)| at > *last) => {
                air - above(self.start.slab, self.start.air).value
            }
            Horizon::HeldFrom(end) => floor.change(at.min(end + LEVEL)),
            Horizon::Daily => floor.change(in_daily(at)),
            Horizon::Steady | Horizon::Between => floor.change(at),
        }
    }

    /// The coldest the air may be at a time from the start.
    pub fn air_at_least(&self, at: Time) -> ThermodynamicTemperature {
        kelvin(self.start.air, self.change(at).0)
    }

    /// The warmest the air may be at a time from the start.
    pub fn air_at_most(&self, at: Time) -> ThermodynamicTemperature {
        kelvin(self.start.air, self.change(at).1)
    }

    /// The dew point at a time from the start; `None` where humidity was not read.
    ///
    /// The air keeps its moisture. Where tonight's humidity was said, the dew point goes over into
    /// tonight's until then, and back within the day. It is never above the air.
    ///
    /// ```
    /// use pailwise_calc::conditions::{Conditions, Course};
    /// use pailwise_calc::{demo, dew, quantity::minutes};
    /// let now = Conditions::try_from(&demo::conditions()).unwrap();
    /// let later = Course::steady(now).dew_point(minutes(300.0)).unwrap();
    /// assert_eq!(later, dew::dew_point(now.air, now.humidity.unwrap()).unwrap());
    /// ```
    pub fn dew_point(&self, at: Time) -> Option<ThermodynamicTemperature> {
        let now = self.dew?;
        let night = self.night.and_then(|night| Some((night.at, night.dew?)));
        let then = match night.filter(|(night, _)| *night > 0.0) {
            None => now,
            // Into the night's and, until a day has gone by, back.
            Some((night, dew)) => {
                let hour = at.value.rem_euclid(DAY);
                let share = if hour <= night {
                    hour / night
                } else {
                    (DAY - hour) / (DAY - night).max(1.0)
                };
                kelvin(now, above(dew, now).value * share)
            }
        };
        let air = self.air_at_least(at);
        Some(if then > air { air } else { then })
    }

    /// Relative humidity of the air at a time from the start, as a share.
    pub fn humidity(&self, at: Time) -> Option<f64> {
        self.dew_point(at).map(|dew| dew::humidity(self.air_at_least(at), dew))
    }

    /// What is expected to be read at a time from the start, the slab following the air down and up.
    pub(crate) fn expected(&self, at: Time) -> Conditions {
        let (air, _) = self.change(at);
        let slab = if air < 0.0 { air * self.slab_per_air } else { air };
        Conditions {
            slab: kelvin(self.start.slab, slab),
            air: kelvin(self.start.air, air),
            material: kelvin(self.start.material, air),
            read_after_mixing: self.start.read_after_mixing,
            humidity: self.humidity(at),
        }
    }

    /// The same course when that is read at a time from the start: for asking whether waiting would
    /// help, never for a batch.
    #[must_use]
    pub fn read_again(&self, at: Time) -> Self {
        let change = |at: Time| self.change(at).0;
        let (start, moved) = (self.expected(at), change(at));
        let times: Vec<f64> = match self.beyond {
            Horizon::Steady => Vec::new(),
            Horizon::Daily => half_hours().collect(),
            Horizon::HeldFrom(end) => vec![0.0, (end - at.value).max(1.0)],
            Horizon::Between => {
                let rest = self.air.iter().map(|(t, _)| t - at.value).filter(|t| *t > 0.0);
                [0.0].into_iter().chain(rest).collect()
            }
        };
        let changes = |t: f64| change(at + Time::new::<unit::second>(t)) - moved;
        let beyond = match self.beyond {
            Horizon::HeldFrom(end) => Horizon::HeldFrom((end - at.value).max(0.0)),
            beyond => beyond,
        };
        let night = self.night.map(|night| Night {
            at: (night.at - at.value).rem_euclid(DAY),
            change: night.change - moved,
            ..night
        });
        let air = times.into_iter().map(|t| (t, changes(t))).collect();
        let slab_per_air = night.map_or(1.0, |night| night.slab_per_air(start.slab));
        Self { slab_per_air, night, ..Self::along(start, air, 0.0, beyond) }
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
            read_after_mixing: self.start.read_after_mixing,
            humidity: None,
        }
    }

    /// What the air is expected to be at a time from the start.
    pub fn air(&self, at: Time) -> ThermodynamicTemperature {
        self.warmest(at, at).air
    }
}

/// So many degrees beyond a day's low or high may be read: a forecast is not exact.
const NEAR: f64 = 1.5;

/// How long a drift is taken to go on, in seconds, by those who look beyond the working day: eight
/// hours.
const WORKING_DAY: f64 = 8.0 * 3600.0;

/// How far ahead a drift is followed, in seconds: two days.
const AHEAD: f64 = 48.0 * 3600.0;

/// A temperature changed by so much, kept within what the tool is good for.
fn kelvin(temperature: ThermodynamicTemperature, by: f64) -> ThermodynamicTemperature {
    let (low, high) = Field::Air.range();
    let kelvin = (temperature.value + by).clamp(low.si(), high.si());
    ThermodynamicTemperature::new::<unit::kelvin>(kelvin)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::record::ConditionsRecord;

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
        // Between two hours of the list it is warmest at one of the two times.
        let rising = course.warmest(minutes(10.0), minutes(30.0));
        assert!((rising.air.value - celsius(25.5).value).abs() < 1e-9);
    }

    /// Past the last hour that was given it may be as cold as any of them, and as warm.
    #[test]
    fn past_the_last_hour_all_of_them_may_come_back() {
        let list = [hour(480.0, 18.0), hour(600.0, 26.0), hour(720.0, 21.0)];
        let course = course(&CourseRecord::Hours(list.to_vec()), 480.0);
        let (later, now) = (minutes(600.0), course.air_at_most(minutes(0.0)).value);
        assert!(course.air_at_most(later).value >= now + 8.0 - 1e-9);
        assert!(course.air_at_least(later).value <= now + 1e-9);
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

    fn night(low: f64, tonight: &TonightRecord) -> Course {
        let record = CourseRecord::LowAndHigh { low: hour(300.0, low), high: hour(900.0, 30.0) };
        course(&record, 480.0).tonight(tonight).unwrap()
    }

    fn at(temperature: ThermodynamicTemperature) -> f64 {
        temperature.get::<unit::degree_celsius>()
    }

    #[test]
    fn the_night_comes_back_and_the_slab_takes_the_safer_side_of_it() {
        let course = night(10.0, &TonightRecord::default());
        let five_in_the_morning = |day: f64| minutes(day * 1440.0 + 21.0 * 60.0);
        for day in [0.0, 1.0, 2.0, 5.0] {
            // The slab, 23 now, follows the air from 24 down to 10.
            let time = five_in_the_morning(day);
            assert!((at(course.slab_at_least(time)) - 9.0).abs() < 1e-9, "day {day}");
            assert!((at(course.slab_at_most(time)) - 23.0).abs() < 1e-9);
        }
        let three = minutes(7.0 * 60.0);
        assert!((at(course.slab_at_least(three)) - 23.0).abs() < 1e-9);
        assert!((at(course.slab_at_most(three)) - 29.0).abs() < 1e-9);
    }

    /// 26 °C are read at four in the afternoon under air of 24 °C that falls to 10: the two
    /// kelvin above the air are not counted on for the days to come.
    #[test]
    fn warmth_above_the_air_is_not_counted_on_for_long() {
        let warm = ConditionsRecord { slab_c: 26.0, ..demo::conditions() };
        let record = CourseRecord::LowAndHigh { low: hour(300.0, 10.0), high: hour(900.0, 24.0) };
        let now = Conditions::try_from(&warm).unwrap();
        let course = Course::new(now, &record, minutes(960.0)).unwrap();
        let afternoons = [1.0, 2.0, 6.0].map(|day| at(course.slab_at_least(minutes(day * 1440.0))));
        assert!(afternoons.iter().all(|c| *c < 21.0), "{afternoons:?}");
        assert!(at(course.slab_at_least(minutes(10.0))) > 25.0);
        assert_eq!(course.slab_at_least(minutes(4000.0)), course.slab_at_least(minutes(6880.0)));
    }

    #[test]
    fn what_is_said_of_tonight_is_met_tonight() {
        let said = TonightRecord { slab_c: Some(16.0), humidity_percent: Some(90.0) };
        let course = night(10.0, &said);
        let five = minutes(21.0 * 60.0);
        assert!((at(course.slab_at_least(five)) - 16.0).abs() < 1e-9);
        assert!((course.humidity(five).unwrap() - 0.9).abs() < 1e-9);
        assert!((course.humidity(minutes(0.0)).unwrap() - 0.45).abs() < 1e-9);
        // A slab said to be warmer tonight than now is not counted on to be, one warmer than the
        // warmest air is a mistake.
        let warm = TonightRecord { slab_c: Some(28.0), ..said };
        assert!((at(night(10.0, &warm).slab_at_least(five)) - 23.0).abs() < 1e-9);
        let hot = TonightRecord { slab_c: Some(34.0), ..said };
        let wrong = night(10.0, &said).tonight(&hot);
        assert!(matches!(wrong, Err(Error::OutOfRange { field: Field::TonightSlab, .. })));
        // Nor can it be 16 tonight where it reads 14 in the evening and nothing warms it.
        let cold = ConditionsRecord { slab_c: 14.0, air_c: 13.0, ..demo::conditions() };
        let now = Conditions::try_from(&cold).unwrap();
        let record = CourseRecord::LowAndHigh { low: hour(300.0, 4.0), high: hour(900.0, 20.0) };
        let evening = Course::new(now, &record, minutes(1200.0)).unwrap();
        let wrong = evening.clone().tonight(&said).unwrap_err();
        assert!(matches!(wrong, Error::OutOfRange { field: Field::TonightSlab, high, .. }
            if high == now.slab.into()));
        assert!(evening.tonight(&TonightRecord { slab_c: Some(13.0), ..said }).is_ok());
        let wet = TonightRecord { humidity_percent: Some(130.0), ..said };
        assert!(night(10.0, &said).tonight(&wet).is_err());
    }

    #[test]
    fn air_that_cools_below_its_dew_point_is_saturated() {
        let course = night(4.0, &TonightRecord::default());
        let five = minutes(21.0 * 60.0);
        assert_eq!(course.humidity(five), Some(1.0));
        assert_eq!(course.dew_point(five), Some(course.air_at_least(five)));
    }

    #[test]
    fn read_again_later_it_goes_on_as_it_was() {
        let course = night(12.0, &TonightRecord::default());
        let later = course.read_again(minutes(150.0));
        for after in [0.0, 100.0, 700.0, 1300.0, 4000.0] {
            let (then, now) = (later.air(minutes(after)), course.air(minutes(150.0 + after)));
            assert!((at(then) - at(now)).abs() < 0.02 || after > 2000.0, "{after}");
            let (then, now) =
                (later.air_at_least(minutes(after)), course.air_at_least(minutes(150.0 + after)));
            assert!((at(then) - at(now)).abs() < 0.02, "{after}");
        }
        // It is warmer then, and the slab with it.
        assert!(later.now().slab > course.now().slab);
    }

    #[test]
    fn a_typed_hour_is_met_whatever_is_read_now() {
        // Typed from seven in the evening on, begun at four: 24 now, 6 at five in the morning.
        let list = [hour(1140.0, 16.0), hour(1320.0, 10.0), hour(1740.0, 6.0)];
        let course = course(&CourseRecord::Hours(list.to_vec()), 960.0);
        assert!((at(course.air_at_least(minutes(780.0))) - 6.0).abs() < 1e-9);
        assert!((at(course.slab_at_least(minutes(780.0))) - 5.0).abs() < 1e-9);
        assert!((at(course.air_at_least(minutes(0.0))) - 24.0).abs() < 1e-9);
    }

    #[test]
    fn a_reading_off_the_list_is_taken_both_ways() {
        // The list says 21 at nine and 24 is read: the warmer for what closes, the list's own for
        // what must wait.
        let list = [hour(480.0, 18.0), hour(600.0, 24.0), hour(1740.0, 8.0)];
        let course = course(&CourseRecord::Hours(list.to_vec()), 540.0);
        assert!((at(course.air_at_most(minutes(60.0))) - 27.0).abs() < 1e-9);
        assert!((at(course.air_at_least(minutes(60.0))) - 24.0).abs() < 1e-9);
        assert!((at(course.air_at_least(minutes(1200.0))) - 8.0).abs() < 1e-9);
    }

    /// The same list, and a slab that is warmer or colder than either air: the warm one comes down
    /// to the list's air, the cold one up to the air that is read, each within 4 % of what it was
    /// off after twenty hours.
    #[test]
    fn a_floor_comes_over_to_the_worse_of_two_airs() {
        let list = CourseRecord::Hours([480.0, 600.0, 1740.0].map(|at| hour(at, 21.0)).to_vec());
        let after_20_h = |slab_c| {
            let now = Conditions::try_from(&ConditionsRecord { slab_c, ..demo::conditions() });
            let course = Course::new(now.unwrap(), &list, minutes(540.0)).unwrap();
            let (least, most) =
                (course.slab_at_least(minutes(1200.0)), course.slab_at_most(minutes(1200.0)));
            (at(least), at(most))
        };
        let (least, most) = after_20_h(30.0);
        assert!((21.0..21.4).contains(&least) && (most - 30.0).abs() < 1e-9, "{least}, {most}");
        let (least, most) = after_20_h(16.0);
        assert!((least - 13.0).abs() < 1e-9 && (23.6..24.0).contains(&most), "{least}, {most}");
    }

    #[test]
    fn a_falling_drift_read_again_falls_on() {
        let course = course(&CourseRecord::DriftKPerHour(-2.0), 480.0);
        let later = course.read_again(minutes(60.0));
        for after in [0.0, 120.0, 420.0, 2000.0] {
            let (then, now) =
                (later.air_at_least(minutes(after)), course.air_at_least(minutes(60.0 + after)));
            assert!((at(then) - at(now)).abs() < 1e-6, "{after}");
        }
    }

    #[test]
    fn beyond_an_hourly_list_anything_on_it_may_come() {
        let list = [hour(480.0, 24.0), hour(900.0, 30.0), hour(1740.0, 12.0)];
        let course = course(&CourseRecord::Hours(list.to_vec()), 480.0);
        assert!(course.knows_a_night());
        let later = minutes(3000.0);
        assert!((at(course.slab_at_least(later)) - 11.0).abs() < 1e-9);
        // The slab, 1 K below the air now, may have come up to it.
        assert!((at(course.slab_at_most(later)) - 30.0).abs() < 1e-9);
    }

    #[test]
    fn a_drift_ends_with_the_working_day() {
        let course = course(&CourseRecord::DriftKPerHour(1.0), 480.0);
        // From 24 °C to 32 °C, which the slab then comes over to.
        assert!((at(course.slab_at_most(minutes(9000.0))) - 32.0).abs() < 0.01);
        assert_eq!(course.slab_at_most(minutes(9000.0)), course.slab_at_most(minutes(20_000.0)));
        assert!(!course.knows_a_night());
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
