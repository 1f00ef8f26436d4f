//! Ready to coat: whether slab, air and humidity allow it, now and until the film has set.
//!
//! Go when the slab is above the dew point by the sheet's spread (ISO 8502-4 practice: 3 K), and
//! slab, air and humidity are within the product's limits, from now until the film has set, along
//! the temperatures of the evening and the night. Wait when that is expected to be so later. The
//! slab is taken as cold as it may be, and not counted on to warm.

use crate::conditions::Course;
use crate::field::Field;
use crate::limits::Limits;
use crate::product::Product;
use crate::quantity::{
    Figure, TemperatureInterval, ThermodynamicTemperature, Time, above, minutes, unit,
};
use crate::sorted::sorted_by;
use crate::surface::{Finding, Outcome};
use crate::working::{Sentence, Source, Step};

/// Whether to open a pail.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Verdict {
    /// Everything that was read is within its limits until the film has set.
    Go,
    /// Not now; from this time on it is expected to be, and is to be read again then.
    Wait(Time),
    /// Not now, and not within the day to come.
    NoGo,
    /// Nothing forbids, but this was not read: humidity, without which the dew point is not known,
    /// or a test of the surface for which the sheet sets a limit.
    Unread(Field),
}

/// A reading at its worst beside its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// Which: [`Field::Slab`], [`Field::Air`], [`Field::Humidity`] or [`Field::DewPointSpread`].
    pub reading: Field,
    /// What it is, or is expected to be.
    pub given: Figure,
    /// The limit that the reading is compared with.
    pub allowed: Figure,
    /// Whether what is allowed is the most, not the least.
    pub most: bool,
    /// When that is, from the start of the course.
    pub at: Time,
    /// From when on it forbids coating, if it does.
    pub from: Option<Time>,
    /// How far it is on the good side, in parts of what a usual instrument may be off
    /// ([`doubt`]); below 0 it is on the other.
    pub margin: f64,
}

impl Judged {
    /// Whether it forbids coating.
    pub fn fails(&self) -> bool {
        self.margin < 0.0
    }

    /// Whether an instrument that is off as usual could hide that it does.
    pub fn close(&self) -> bool {
        self.margin < 1.0
    }
}

/// The answer, with what it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Readiness {
    /// Go, wait or no-go.
    pub verdict: Verdict,
    /// Every reading that has a limit, at its worst until the film has set; the one that decides
    /// first.
    pub judged: Vec<Judged>,
    /// The dew point now.
    pub dew_point: Option<ThermodynamicTemperature>,
    /// How far the slab is above it now.
    pub spread: Option<TemperatureInterval>,
    /// On go: the last look at which beginning is still in time, where there is a later one in the
    /// day to come that is not.
    pub turns: Option<Time>,
    /// When the film has set, if it is begun now.
    pub set: Time,
    /// The sheet says nothing of the dew point, so what is practice holds.
    pub spread_is_usual: bool,
    /// The sheet limits neither slab nor air nor humidity: that nothing forbids says little.
    pub sheet_is_silent: bool,
    /// How all of that came about.
    pub working: Vec<Step>,
}

impl Readiness {
    /// The same with what was found of the surface that the coat goes on: a test that fails
    /// forbids, one that the sheet sets a limit for and nobody made keeps from going.
    ///
    /// ```
    /// use pailwise_calc::conditions::{Conditions, Course};
    /// use pailwise_calc::quantity::minutes;
    /// use pailwise_calc::ready::{ready, Verdict};
    /// use pailwise_calc::surface::{Finding, Outcome, Test};
    /// use pailwise_calc::demo;
    /// let now = Conditions::try_from(&demo::conditions()).unwrap();
    /// let found = ready(&demo::base().unwrap(), &Course::steady(now), minutes(60.0));
    /// let damp =
    ///     Finding { test: Test::PlasticSheet, given: None, outcome: Outcome::TooHigh(None) };
    /// assert_eq!(found.clone().on(&[]).verdict, Verdict::Go);
    /// assert_eq!(found.on(&[damp]).verdict, Verdict::NoGo);
    /// ```
    #[must_use]
    pub fn on(self, findings: &[Finding]) -> Self {
        let not_read = findings.iter().find(|finding| finding.outcome == Outcome::NotRead);
        let verdict = match self.verdict {
            _ if findings.iter().any(|finding| finding.outcome.fails()) => Verdict::NoGo,
            Verdict::Go => {
                not_read.map_or(Verdict::Go, |finding| Verdict::Unread(finding.test.field()))
            }
            other => other,
        };
        Self { verdict, ..self }
    }
}

/// What a usual instrument may be off, in the reading's own SI unit: a kelvin, or five points of
/// relative humidity (common practice, no source).
pub fn doubt(reading: Field) -> f64 {
    if reading == Field::Humidity { 0.05 } else { 1.0 }
}

/// As far ahead it is asked whether to wait.
fn day() -> Time {
    Time::new::<unit::hour>(24.0)
}

/// As often a course is looked at.
fn look() -> Time {
    minutes(15.0)
}

/// Where a sheet does not say when a film has set: over night (common practice, no source).
fn usual_set() -> Time {
    Time::new::<unit::hour>(12.0)
}

/// Whether a coat may be begun now, and else when. `laying` is how long it takes to lay.
///
/// A film has set when its sheet lets it be coated again, at the temperatures of its floor; where
/// the sheet does not say, when it takes light use; else after 12 hours.
///
/// ```
/// use pailwise_calc::conditions::{Conditions, Course};
/// use pailwise_calc::quantity::minutes;
/// use pailwise_calc::ready::{ready, Verdict};
/// use pailwise_calc::{demo, record::ConditionsRecord};
/// let base = demo::base().unwrap();
/// let course = |record| Course::steady(Conditions::try_from(&record).unwrap());
/// let found = ready(&base, &course(demo::conditions()), minutes(60.0));
/// assert_eq!(found.verdict, Verdict::Go);
/// // 24 °C and 95 %: the dew point is 23.1 °C, and the slab has 23 °C.
/// let damp = ConditionsRecord { humidity_percent: Some(95.0), ..demo::conditions() };
/// let found = ready(&base, &course(damp), minutes(60.0));
/// assert_eq!(found.verdict, Verdict::NoGo);
/// ```
pub fn ready(product: &Product, course: &Course, laying: Time) -> Readiness {
    let limits = product.limits();
    let until = |course: &Course, from: Time| {
        let down = from + laying;
        down + set_after(product, course, down)
    };
    let set = until(course, Time::default());
    let judged = judged(&limits, course, laying, set);
    let looks = || (1..).map(|i| look() * f64::from(i)).take_while(|at| *at <= day());
    let now = course.now();
    let (verdict, turns) = if judged.iter().any(Judged::fails) {
        let fits_then = |at: &Time| {
            let later = course.read_again(*at);
            let set = until(&later, Time::default());
            first_failing(&limits, &later, Time::default(), (laying, set)).is_none()
        };
        let later = looks().step_by(2).find(fits_then);
        (later.map_or(Verdict::NoGo, Verdict::Wait), None)
    } else if now.humidity.is_none() {
        (Verdict::Unread(Field::Humidity), None)
    } else {
        // What fails first when the film has not set by then, or is still being laid.
        let far = set + day() * 2.0;
        let fails = first_failing(&limits, course, set, (-day(), far));
        let warm = first_failing(&limits, course, laying, (far, laying));
        let late = |at: &Time| {
            fails.is_some_and(|fails| until(course, *at) >= fails)
                || warm.is_some_and(|warm| *at + laying >= warm)
        };
        let forbids = fails.is_some() || warm.is_some();
        let turned = looks().take_while(|_| forbids).find(late);
        // The last look that is still good is what may be counted on.
        (Verdict::Go, turned.map(|at| at - look()))
    };
    let dew_point = course.dew_point(Time::default());
    let spread = dew_point.map(|dew| above(now.slab, dew));
    Readiness {
        verdict,
        judged,
        dew_point,
        spread,
        turns,
        set,
        spread_is_usual: limits.spread.is_none(),
        sheet_is_silent: limits.are_silent(),
        working: explain(&limits, course, laying, (set, set_source(product))),
    }
}

/// The steps to the dew point, to the time the film has set, and to what may come until then.
fn explain(
    limits: &Limits,
    course: &Course,
    laying: Time,
    (set, source): (Time, Source),
) -> Vec<Step> {
    let now = course.now();
    let mut steps = Vec::new();
    let mut say = |sentence, source, figures| steps.push(Step::new(sentence, source, figures));
    if let (Some(dew), Some(humidity)) = (course.dew_point(Time::default()), now.humidity) {
        let figures = vec![now.air.into(), Figure::Share(humidity), dew.into()];
        say(Sentence::DewPoint, Source::Published, figures);
        let figures = vec![now.slab.into(), dew.into(), above(now.slab, dew).into()];
        say(Sentence::DewPointSpread, Source::Arithmetic, figures);
    }
    let spread = vec![limits.spread().into()];
    if limits.spread.is_some() {
        say(Sentence::SpreadAsked, Source::DataSheet, spread);
    } else {
        say(Sentence::SpreadUsual, Source::Published, spread);
    }
    say(Sentence::FilmSet, source, vec![laying.into(), set.into()]);
    let colder = |a: &Time, b: &Time| {
        course.slab_at_least(*a).value.total_cmp(&course.slab_at_least(*b).value)
    };
    if let Some(coldest) = times(Time::default(), set).min_by(colder) {
        let (slab, air) = (course.slab_at_least(coldest), course.air_at_least(coldest));
        say(Sentence::SlabCools, Source::Entered, vec![now.slab.into(), slab.into()]);
        if let Some(humidity) = course.humidity(coldest) {
            let figures = vec![now.air.into(), air.into(), Figure::Share(humidity)];
            say(Sentence::AirCools, Source::Published, figures);
        }
    }
    steps
}

/// Where it is known from when a film has set.
fn set_source(product: &Product) -> Source {
    let after = product.after();
    let said = after.recoat_opens.is_some() || after.light_use.is_some();
    if said { Source::DataSheet } else { Source::Practice }
}

/// How long after it is down a film has set, on the coldest the floor may be.
fn set_after(product: &Product, course: &Course, down: Time) -> Time {
    let after = product.after();
    let times = after.recoat_opens.as_ref().or(after.light_use.as_ref());
    times.map_or_else(usual_set, |times| {
        let settled = (course.settled() - down).max(Time::default());
        times.ready_through(|t| course.slab_at_least(down + t), settled)
    })
}

/// The times from one to another at which a course is looked at. One that comes back every day
/// shows all it has in three days.
fn times(from: Time, to: Time) -> impl Iterator<Item = Time> {
    let to = to.min(from + day() * 3.0);
    let steps = ((to - from) / look()).value.ceil().max(0.0) as u32;
    (0..=steps).map(move |i| (from + look() * f64::from(i)).min(to))
}

/// Every reading that has a limit, at its worst from the start on: what is too warm while it is
/// laid, all else until the film has set.
fn judged(limits: &Limits, course: &Course, laid: Time, set: Time) -> Vec<Judged> {
    let mut worst: Vec<Judged> = Vec::new();
    for at in times(Time::default(), set) {
        for judged in at_one_time(limits, course, at, at <= laid) {
            let same =
                |other: &&mut Judged| other.reading == judged.reading && other.most == judged.most;
            match worst.iter_mut().find(same) {
                Some(other) => {
                    let from = other.from.or(judged.from);
                    if judged.margin < other.margin {
                        *other = judged;
                    }
                    other.from = from;
                }
                None => worst.push(judged),
            }
        }
    }
    // What forbids first decides; among what does not, what is closest to its limit.
    let since = |judged: &Judged| judged.from.map_or(f64::INFINITY, |from| from.value);
    sorted_by(sorted_by(worst, |judged| judged.margin), since)
}

/// The first time from one on at which something forbids: what is too warm until `laid`, all else
/// until `set`.
fn first_failing(
    limits: &Limits,
    course: &Course,
    from: Time,
    (laid, set): (Time, Time),
) -> Option<Time> {
    times(from, laid.max(set)).find(|at| {
        let mut all = at_one_time(limits, course, *at, *at <= laid);
        all.any(|judged| judged.fails() && (*at <= set || judged.most))
    })
}

fn at_one_time(
    limits: &Limits,
    course: &Course,
    at: Time,
    laying: bool,
) -> impl Iterator<Item = Judged> {
    let judged = move |reading: Field, given: Figure, allowed: Figure, most: bool| {
        // A hair of slack, as a limit that went through a unit conversion has.
        let over = (given.si() - allowed.si()) / doubt(reading) + if most { -1e-9 } else { 1e-9 };
        let margin = if most { -over } else { over };
        let from = (margin < 0.0).then_some(at);
        Judged { reading, given, allowed, most, at, from, margin }
    };
    let least = |reading, given: ThermodynamicTemperature, least: Option<_>| {
        least.map(|least: ThermodynamicTemperature| {
            judged(reading, given.into(), least.into(), false)
        })
    };
    let most = |reading, given: ThermodynamicTemperature, most: Option<_>| {
        let most = most.filter(|_| laying);
        most.map(|most: ThermodynamicTemperature| judged(reading, given.into(), most.into(), true))
    };
    let slab = course.slab_at_least(at);
    let spread = course.dew_point(at).map(|dew| {
        judged(Field::DewPointSpread, above(slab, dew).into(), limits.spread().into(), false)
    });
    let humidity = course.humidity(at).zip(limits.humidity).map(|(given, allowed)| {
        judged(Field::Humidity, Figure::Share(given), Figure::Share(allowed), true)
    });
    [
        spread,
        least(Field::Slab, slab, limits.slab.least),
        most(Field::Slab, course.slab_at_most(at), limits.slab.most),
        least(Field::Air, course.air_at_least(at), limits.air.least),
        most(Field::Air, course.air_at_most(at), limits.air.most),
        humidity,
    ]
    .into_iter()
    .flatten()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conditions::Conditions;
    use crate::demo;
    use crate::record::{ConditionsRecord, CourseRecord, HourRecord, TonightRecord};

    fn evening(low_c: f64, starts_min: f64, conditions: ConditionsRecord) -> Course {
        let record = CourseRecord::LowAndHigh {
            low: HourRecord { at_min: 300.0, air_c: low_c },
            high: HourRecord { at_min: 900.0, air_c: 30.0 },
        };
        let now = Conditions::try_from(&conditions).unwrap();
        Course::new(now, &record, minutes(starts_min)).unwrap()
    }

    fn of(course: &Course) -> Readiness {
        ready(&demo::base().unwrap(), course, minutes(60.0))
    }

    #[test]
    fn a_night_that_cools_the_slab_to_the_dew_point_decides() {
        // 24 °C and 45 %: dew point 11.3 °C. A slab of 23 °C that cools by 4 K stays above.
        let mild = of(&evening(20.0, 960.0, demo::conditions()));
        assert_eq!(mild.verdict, Verdict::Go);
        // Down to 12 °C the slab, 1 K below the air, comes below it.
        let cold = of(&evening(12.0, 960.0, demo::conditions()));
        assert_ne!(cold.verdict, Verdict::Go);
        assert_eq!(cold.judged[0].reading, Field::DewPointSpread);
        // Worst towards five in the morning, 13 hours on; too near from some hour before.
        let (from, worst) = (cold.judged[0].from.unwrap(), cold.judged[0].at);
        assert!((11.0..=13.0).contains(&worst.get::<unit::hour>()), "{cold:?}");
        assert!(from > minutes(240.0) && from < worst, "{from:?}");
    }

    #[test]
    fn what_is_said_of_tonight_s_slab_is_believed() {
        let tonight = TonightRecord { slab_c: Some(20.0), humidity_percent: Some(75.0) };
        let course = evening(12.0, 960.0, demo::conditions()).tonight(&tonight).unwrap();
        assert_eq!(of(&course).verdict, Verdict::Go);
    }

    #[test]
    fn a_cold_morning_waits_for_the_day() {
        let cold = ConditionsRecord {
            slab_c: 9.0,
            air_c: 12.0,
            material_c: 12.0,
            humidity_percent: Some(40.0),
            read_after_mixing: false,
        };
        let tonight = TonightRecord { slab_c: Some(12.0), humidity_percent: None };
        let course = evening(11.0, 420.0, cold).tonight(&tonight).unwrap();
        let found = of(&course);
        let Verdict::Wait(until) = found.verdict else { panic!("{found:?}") };
        assert!(until >= minutes(15.0) && until < minutes(600.0), "{until:?}");
        assert_eq!((found.judged[0].reading, found.judged[0].most), (Field::Slab, false));
        let steady = Course::steady(Conditions::try_from(&cold).unwrap());
        assert_eq!(of(&steady).verdict, Verdict::NoGo);
    }

    #[test]
    fn without_humidity_there_is_no_go() {
        let unread = ConditionsRecord { humidity_percent: None, ..demo::conditions() };
        let course =
            |record: &ConditionsRecord| Course::steady(Conditions::try_from(record).unwrap());
        assert_eq!(of(&course(&unread)).verdict, Verdict::Unread(Field::Humidity));
        let cold = ConditionsRecord { slab_c: 5.0, ..unread };
        assert_eq!(of(&course(&cold)).verdict, Verdict::NoGo);
    }

    #[test]
    fn a_go_says_until_when_to_begin() {
        let course = evening(12.0, 480.0, demo::conditions());
        // A film that sets in four hours can be begun in the morning, not in the evening.
        let mut record = demo::record_base();
        record.recoat_opens[0].time_h = 4.0;
        record.recoat_closes[0].time_h = 24.0;
        let quick = Product::try_from(&record).unwrap();
        let found = ready(&quick, &course, minutes(60.0));
        assert_eq!(found.verdict, Verdict::Go);
        let turns = found.turns.unwrap();
        assert!(turns > minutes(120.0) && turns < minutes(18.0 * 60.0), "{turns:?}");
    }

    #[test]
    fn a_slab_that_warms_turns_when_it_is_too_warm_to_lay() {
        // 23 °C and 2 K an hour: past 35 °C six hours on; an hour of laying must be over by then.
        let now = Conditions::try_from(&demo::conditions()).unwrap();
        let warms = CourseRecord::DriftKPerHour(2.0);
        let course = Course::new(now, &warms, minutes(480.0)).unwrap();
        let found = of(&course);
        assert_eq!(found.verdict, Verdict::Go);
        let turns = found.turns.unwrap().get::<unit::hour>();
        assert!((4.5..=5.0).contains(&turns), "{turns}");
    }

    #[test]
    fn a_slab_that_cools_to_the_dew_point_is_not_waited_for() {
        let now = Conditions::try_from(&demo::conditions()).unwrap();
        for drift in [-2.0, -5.0] {
            let cools = CourseRecord::DriftKPerHour(drift);
            let course = Course::new(now, &cools, minutes(480.0)).unwrap();
            assert_eq!(of(&course).verdict, Verdict::NoGo, "{drift}");
        }
    }

    #[test]
    fn the_limit_itself_is_good_and_what_is_near_it_is_said_to_be() {
        let at_least = ConditionsRecord { slab_c: 10.0, ..demo::conditions() };
        let course = Course::steady(
            Conditions::try_from(&ConditionsRecord { humidity_percent: Some(30.0), ..at_least })
                .unwrap(),
        );
        let found = of(&course);
        assert_eq!(found.verdict, Verdict::Go);
        let slab = found.judged.iter().find(|j| j.reading == Field::Slab && !j.most).unwrap();
        assert!(slab.close() && !slab.fails());
    }
}
