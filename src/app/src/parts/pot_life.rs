//! Pot life against temperature for three pail sizes.

use leptos::prelude::*;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{ThermodynamicTemperature, Time, celsius, unit};
use pailwise_kept::show::Reader;

use crate::parts::chart::{Axis, Curve, Point, chart};
use crate::text::{key, tr};

/// The temperatures the curve spans, °C: those at which floors are coated.
const SPAN: (f64, f64) = (10.0, 35.0);

/// A point on the curves: a temperature, the time there, and what it is.
pub(crate) struct Dot {
    pub(crate) temperature: ThermodynamicTemperature,
    pub(crate) time: Time,
    pub(crate) label: String,
}

/// The curves of a product with some points on them.
pub(crate) fn pot_life(
    reader: Reader,
    product: &Product,
    dots: &[Dot],
    title: String,
) -> Option<AnyView> {
    let minutes = |time: Time| time.get::<unit::minute>();
    let celsius_of = |dot: &Dot| dot.temperature.get::<unit::degree_celsius>();
    let span =
        dots.iter().map(celsius_of).fold(SPAN, |(low, high), at| (low.min(at), high.max(at)));
    let curves = product.pot_life_of_sizes(span, 24).ok()?;
    // High enough for the points and for the middle of the curves; the cold end may run off.
    let middle = curves.first()?.points.get(6).map_or(1.0, |(_, life)| minutes(*life));
    let highest = dots.iter().map(|dot| 1.15 * minutes(dot.time)).fold(middle, f64::max);
    let x = Axis::round(
        reader.degrees(celsius(span.0)),
        reader.degrees(celsius(span.1)),
        6.0,
        reader.degree_unit(),
    );
    let y = Axis::round(0.0, highest, 5.0, tr(key::BAR_MINUTES));
    let curves: Vec<Curve> = curves
        .iter()
        .map(|curve| Curve {
            label: reader.volume_about(curve.volume),
            points: curve
                .points
                .iter()
                .map(|(t, life)| (reader.degrees(*t), minutes(*life)))
                .collect(),
        })
        .collect();
    let points: Vec<Point> = dots
        .iter()
        .map(|dot| Point {
            at: (reader.degrees(dot.temperature), minutes(dot.time)),
            rising: false,
            label: dot.label.clone(),
        })
        .collect();
    Some(chart(&x, &y, &curves, &points, title).into_any())
}
