//! What is down: open time, and the hours after.

use pailwise_calc::after::{After, SheetTimes};
use pailwise_calc::comb::{Place, WetFilm};
use pailwise_calc::conditions::{Conditions, Course};
use pailwise_calc::film::{Film, OpenTimePoint};
use pailwise_calc::quantity::{Length, ThermodynamicTemperature, Time, minutes, unit};
use pailwise_calc::record::{AfterRecord, ConditionsRecord, CourseRecord, HourRecord};
use pailwise_tests::checks::check;
use serde::Deserialize;

use crate::chemistry::cure;
use crate::data::cases;

fn kelvin(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<unit::kelvin>(value)
}

fn seconds(value: f64) -> Time {
    Time::new::<unit::second>(value)
}

/// Quadrature of the rate over what the pail has left of it.
#[test]
fn a_film_closes_when_the_integral_says() {
    #[derive(Deserialize)]
    struct Case {
        k_ref_hz: f64,
        open_s: f64,
        open_k: f64,
        conversion: f64,
        slab_k: f64,
        left_s: f64,
    }
    let mut off = Vec::new();
    for case in cases::<Case>("film.json") {
        let cure = cure(case.k_ref_hz, 60e3, 0.1, 1.0);
        let (time, temperature) = (seconds(case.open_s), kelvin(case.open_k));
        let open = OpenTimePoint { time, temperature, humidity: None };
        let film = Film::new(cure, &[open], false).unwrap();
        let left = film.left(case.conversion, kelvin(case.slab_k)).value;
        // Within a millisecond where that is more than the share.
        off.push((left - case.left_s) / case.left_s.max(1e4));
    }
    check("open time left of what stood in the pail, share", "scipy: quad and brentq")
        .furthest(1e-7, &off);
}

/// Equivalent age through nights given hour by hour, on a slab that cools with the air and one
/// that warms with it, each coming over to the air besides, by `scipy.integrate.quad`,
/// `solve_ivp` and `brentq`.
#[test]
fn times_through_the_night_are_the_integral() {
    #[derive(Deserialize)]
    struct Case {
        begins_min: f64,
        slab_c: f64,
        air: Vec<(f64, f64)>,
        down_s: f64,
        sheet: Vec<(f64, f64)>,
        ready_s: f64,
        over_s: f64,
    }
    let (mut opens, mut closes) = (Vec::new(), Vec::new());
    for case in cases::<Case>("night.json") {
        let record = ConditionsRecord {
            slab_c: case.slab_c,
            air_c: case.air[0].1,
            material_c: 20.0,
            read_after_mixing: true,
            humidity_percent: None,
        };
        let hour = |&(at_min, air_c): &(f64, f64)| HourRecord { at_min, air_c };
        let hours = CourseRecord::Hours(case.air.iter().map(hour).collect());
        let now = Conditions::try_from(&record).unwrap();
        let course = Course::new(now, &hours, minutes(case.begins_min)).unwrap();
        let point = |&(time_h, temperature_c): &(f64, f64)| AfterRecord { time_h, temperature_c };
        let sheet: Vec<_> = case.sheet.iter().map(point).collect();
        let times = SheetTimes::new(&sheet).unwrap().unwrap();
        let after = After {
            recoat_opens: Some(times.clone()),
            recoat_closes: Some(times),
            ..After::default()
        };
        let down = seconds(case.down_s);
        let window = after.ahead(&course, (down, down), None).recoat.unwrap();
        opens.push(window.opens.value / (case.down_s + case.ready_s) - 1.0);
        closes.push(window.closes.unwrap().value / (case.down_s + case.over_s) - 1.0);
    }
    let source = "scipy: quad, solve_ivp and brentq, through the hours of a night";
    check("recoat opens after nights given hour by hour, share", source).furthest(1e-4, &opens);
    check("recoat closes after nights given hour by hour, share", source).furthest(1e-4, &closes);
}

/// A comb of whole mils whose tooth of 3 comes out wet and whose tooth of 4 stays dry.
#[test]
fn a_comb_reads_between_two_teeth() {
    let source = "Organic Finishing Guidebook 2012, p. 310, on the practice of ASTM D4414";
    let mil = Length::new::<unit::mil>;
    let place = Place { last_wet: mil(3.0), next_dry: mil(4.0) };
    let film = WetFilm::read(&[place]).unwrap();
    check("film no thinner than the last wet tooth, mil", source).within(
        1e-12,
        3.0,
        film.least.get::<unit::mil>(),
    );
    check("film no thicker than the next dry tooth, mil", source).within(
        1e-12,
        4.0,
        film.most.get::<unit::mil>(),
    );
}
