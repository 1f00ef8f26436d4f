//! Dew points and the margin above them.

use pailwise_calc::dew::dew_point;
use pailwise_calc::limits::Limits;
use pailwise_calc::quantity::{celsius, unit};
use pailwise_tests::checks::check;
use serde::Deserialize;

use crate::data::cases;

fn dew(air_c: f64, percent: f64) -> f64 {
    dew_point(celsius(air_c), percent / 100.0).unwrap().get::<unit::degree_celsius>()
}

#[test]
fn dew_points() {
    // Read to the tenth of a degree.
    let source = "WMO-No. 8, annex 4.B; the ASHRAE chart (from memory)";
    for (air, percent, expected) in [(20.0, 60.0, 12.0), (25.0, 50.0, 13.9), (30.0, 70.0, 23.9)] {
        let what = format!("dew point of air at {air} °C and {percent} %, °C");
        check(what, source).near(0.05, expected, dew(air, percent));
    }
}

/// The Magnus form is coarser below 0 °C and in very dry air.
#[test]
fn dew_points_are_those_of_ashrae() {
    #[derive(Deserialize)]
    struct Case {
        air_c: f64,
        humidity_percent: f64,
        dew_point_c: f64,
    }
    let all = cases::<Case>("dew.json");
    let (usual, coarse): (Vec<_>, Vec<_>) =
        all.iter().partition(|case| case.dew_point_c >= 0.0 && case.humidity_percent >= 20.0);
    let off = |cases: Vec<&Case>| -> Vec<f64> {
        cases.iter().map(|case| dew(case.air_c, case.humidity_percent) - case.dew_point_c).collect()
    };
    let source = "ASHRAE Handbook, Fundamentals, through psychrolib";
    check("dew points above 0 °C, from 20 % on, K", source).furthest(0.05, &off(usual));
    check("dew points below, and in drier air, K", source).furthest(0.12, &off(coarse));
}

#[test]
fn the_usual_margin_above_the_dew_point() {
    let margin = Limits::default().spread().get::<unit::celsius_change>();
    check("surface above the dew point where a sheet does not say, K", "ISO 8502-4")
        .within(1e-12, 3.0, margin);
}
