//! Safe directions through the night, over random days: colder, damper and later are never
//! rewarded, and the sheet's own times are never bettered.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::after::Ahead;
use pailwise_calc::conditions::{Conditions, Course};
use pailwise_calc::demo;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Time, minutes, unit};
use pailwise_calc::ready::{Readiness, Verdict, ready};
use pailwise_calc::record::{
    AfterRecord, ConditionsRecord, CourseRecord, HourRecord, TonightRecord,
};
use proptest::prelude::*;

/// A day as a crew would enter it.
#[derive(Clone, Debug)]
struct Day {
    conditions: ConditionsRecord,
    low: HourRecord,
    high: HourRecord,
    begins_min: f64,
    tonight: TonightRecord,
}

impl Day {
    /// The same with a colder slab, now and, where that was said, tonight: one that is colder now
    /// cannot be what was said of it tonight.
    fn colder(&self, by: f64) -> Self {
        let mut colder = self.clone();
        colder.conditions.slab_c = (self.conditions.slab_c - by).max(-5.0);
        colder.tonight.slab_c = self.tonight.slab_c.map(|slab_c| (slab_c - by).max(-5.0));
        colder
    }

    fn course(&self) -> Course {
        let course = CourseRecord::LowAndHigh { low: self.low, high: self.high };
        let now = Conditions::try_from(&self.conditions).unwrap();
        let course = Course::new(now, &course, minutes(self.begins_min)).unwrap();
        course.tonight(&self.tonight).unwrap()
    }
}

fn days() -> impl Strategy<Value = Day> {
    let readings = (4.0..38.0_f64, -3.0..3.0_f64, 15.0..98.0_f64);
    let swing = (0.5..14.0_f64, 0.5..12.0_f64, 180.0..420.0_f64, 780.0..1000.0_f64);
    let slab = proptest::option::of(0.0..6.0_f64);
    (readings, swing, 360.0..1200.0_f64, slab).prop_map(
        |((air_c, slab, humidity), (below, above, low_at, high_at), begins_min, night)| Day {
            conditions: ConditionsRecord {
                read_after_mixing: false,
                slab_c: air_c + slab,
                air_c,
                material_c: 20.0,
                humidity_percent: Some(humidity),
            },
            low: HourRecord { at_min: low_at, air_c: (air_c - below).max(-4.0) },
            high: HourRecord { at_min: high_at, air_c: (air_c + above).min(49.0) },
            begins_min,
            tonight: TonightRecord {
                slab_c: night.map(|by| (air_c + slab - by).max(-4.0)),
                humidity_percent: None,
            },
        },
    )
}

/// A sheet with times at one temperature or at two.
fn sheets() -> impl Strategy<Value = Product> {
    let second = proptest::option::of((1.2..2.5_f64, 4.0..15.0_f64));
    (3.0..30.0_f64, 18.0..28.0_f64, 1.5..6.0_f64, second).prop_map(|(opens, at, times, second)| {
        let of = |time_h: f64| {
            let mut all = vec![AfterRecord { time_h, temperature_c: at }];
            all.extend(second.map(|(longer, colder)| AfterRecord {
                time_h: time_h * longer,
                temperature_c: at - colder,
            }));
            all
        };
        let mut record = demo::record_base();
        (record.recoat_opens, record.recoat_closes) = (of(opens), of(opens * times));
        (record.light_use, record.vehicles) = (of(opens * 2.0), of(opens * 6.0));
        Product::try_from(&record).unwrap()
    })
}

fn ahead(product: &Product, course: &Course, down: Time) -> Ahead {
    product.after().ahead(course, (minutes(0.0), down), None)
}

fn of(day: &Day, product: &Product) -> Readiness {
    ready(product, &day.course(), minutes(60.0))
}

/// A hair for the integration, and for the slab's course, which is right to some hundredths of a
/// kelvin: at 120 kJ/mol each is 0.15 % of a time.
fn no_sooner(worse: Time, than: Time) -> Result<(), TestCaseError> {
    prop_assert!(worse.value >= than.value * 0.995 - 20.0, "{worse:?} before {than:?}");
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn a_colder_slab_or_night_is_never_ready_sooner(
        day in days(), product in sheets(), by in 0.0..4.0_f64, down in 10.0..400.0_f64,
    ) {
        let down = minutes(down);
        let colder = day.colder(by);
        let mut cold_night = day.clone();
        cold_night.low.air_c = (day.low.air_c - by).max(-5.0);
        let before = ahead(&product, &day.course(), down);
        // Where tonight's slab was said, it is that whatever the air does.
        let nights = [Some(cold_night).filter(|night| night.tonight.slab_c.is_none()), Some(colder)];
        for worse in nights.into_iter().flatten() {
            let after = ahead(&product, &worse.course(), down);
            no_sooner(after.recoat.unwrap().opens, before.recoat.unwrap().opens)?;
            no_sooner(after.light_use.unwrap(), before.light_use.unwrap())?;
            no_sooner(after.vehicles.unwrap(), before.vehicles.unwrap())?;
        }
    }

    #[test]
    fn a_warmer_day_never_keeps_the_window_open_longer(
        day in days(), product in sheets(), by in 0.0..4.0_f64,
    ) {
        let mut warmer = day.clone();
        warmer.conditions.slab_c += by;
        let mut hot_day = day.clone();
        hot_day.high.air_c = (day.high.air_c + by).min(50.0);
        let closes = |day: &Day| {
            ahead(&product, &day.course(), minutes(60.0)).recoat.unwrap().closes.unwrap()
        };
        for worse in [warmer, hot_day] {
            no_sooner(closes(&day), closes(&worse))?;
        }
    }

    #[test]
    fn the_sheet_s_own_times_are_never_bettered(day in days(), product in sheets(), down in 10.0..400.0_f64) {
        let down = minutes(down);
        let found = ahead(&product, &day.course(), down);
        let shortest = |times: &Option<pailwise_calc::after::SheetTimes>| {
            let times = times.as_ref().unwrap().times();
            times.iter().map(|point| point.time).fold(times[0].time, Time::min)
        };
        let longest = |times: &Option<pailwise_calc::after::SheetTimes>| {
            let times = times.as_ref().unwrap().times();
            times.iter().map(|point| point.time).fold(times[0].time, Time::max)
        };
        let after = product.after();
        let window = found.recoat.unwrap();
        no_sooner(window.opens, down + shortest(&after.recoat_opens))?;
        no_sooner(found.light_use.unwrap(), down + shortest(&after.light_use))?;
        no_sooner(longest(&after.recoat_closes), window.closes.unwrap())?;
        prop_assert!(found.vehicles.unwrap().is_finite());
    }

    #[test]
    fn damper_or_colder_is_never_a_go_where_it_was_none(
        day in days(), product in sheets(), by in 0.0..20.0_f64, kelvin in 0.0..5.0_f64,
    ) {
        let before = of(&day, &product);
        let mut damper = day.clone();
        damper.conditions.humidity_percent = Some((day.conditions.humidity_percent.unwrap() + by).min(100.0));
        let colder = day.colder(kelvin);
        if before.verdict != Verdict::Go {
            prop_assert_ne!(of(&damper, &product).verdict, Verdict::Go);
        }
        // A slab too warm to be coated may well get better for being colder.
        let too_warm = before.judged.iter().any(|judged| judged.fails() && judged.most);
        if before.verdict != Verdict::Go && !too_warm {
            prop_assert_ne!(of(&colder, &product).verdict, Verdict::Go);
        }
    }

    /// Whoever begins at the last moment that was called good finds a film that sets in time.
    #[test]
    fn until_it_turns_every_moment_is_good(day in days(), product in sheets(), share in 0.0..1.0_f64) {
        let found = of(&day, &product);
        if let (Verdict::Go, Some(turns)) = (found.verdict, found.turns) {
            let at = turns * share;
            let course = day.course();
            let limits = product.limits();
            // The slab as cold as it may be, step by step until the film has set.
            let opens = product.after().recoat_opens.clone().unwrap();
            let down = at + minutes(60.0);
            let set = opens.ready_through(
                |t| course.slab_at_least(down + t),
                Time::new::<unit::hour>(72.0),
            );
            for i in 0..=200 {
                let time = at + (minutes(60.0) + set) * (f64::from(i) / 200.0);
                let spread = course.slab_at_least(time).value - course.dew_point(time).unwrap().value;
                let wanted = limits.spread().get::<unit::kelvin_change>();
                prop_assert!(spread >= wanted - 0.25, "{spread} K at {time:?} of {turns:?}");
            }
        }
    }
}
