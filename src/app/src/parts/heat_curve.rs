//! Temperature of a pail against time, if it is left standing.

use leptos::prelude::*;
use pailwise_calc::pail::{Pail, Peak};
use pailwise_calc::quantity::{ThermodynamicTemperature, Time, unit};
use pailwise_kept::show::Reader;

use crate::parts::chart::{Axis, Curve, Point, chart};
use crate::text::{key, tr, tr_with};

/// The curve of a pail in air of a temperature, with some moments on it, each with the text of its
/// label; and what to warn of, in words.
pub(crate) fn heat_curve(
    reader: Reader,
    pail: &Pail,
    can_pass: Peak,
    air: ThermodynamicTemperature,
    moments: &[(Option<Time>, &'static str)],
) -> Option<(AnyView, String)> {
    let minutes = |time: Time| time.get::<unit::minute>();
    let curve = pail.heat_curve().ok()?;
    let points: Vec<(f64, f64)> =
        curve.iter().map(|(t, heat)| (minutes(*t), reader.degrees(*heat))).collect();
    let last = points.last()?.0;
    let (coldest, hottest) =
        points.iter().fold((f64::MAX, f64::MIN), |(low, high), (_, t)| (low.min(*t), high.max(*t)));
    let x = Axis::round(0.0, last, 6.0, tr(key::BAR_MINUTES));
    let y = Axis::round(
        coldest.min(reader.degrees(air)),
        hottest.max(coldest + 5.0),
        5.0,
        reader.degree_unit(),
    );
    // The last point at or before a moment: never later than the curve.
    let on_curve = |(time, label): &(Option<Time>, &'static str)| {
        let time = (*time)?;
        let at = points.iter().rev().find(|(t, _)| *t <= minutes(time))?;
        let label = tr_with(label, &[("time", &reader.time(time))]);
        Some(Point { at: (minutes(time), at.1), rising: true, label })
    };
    let marks: Vec<Point> = moments.iter().filter_map(on_curve).collect();
    let figures = [
        ("peak", &*reader.temperature_up(can_pass.temperature)),
        ("after", &*reader.time(can_pass.after)),
        ("core", &*reader.temperature_up(pail.adiabatic_bound())),
    ];
    let said = tr_with(key::HEAT_LEFT_STANDING, &figures);
    let picture = chart(&x, &y, &[Curve { label: String::new(), points }], &marks, said.clone());
    Some((picture.into_any(), said))
}
