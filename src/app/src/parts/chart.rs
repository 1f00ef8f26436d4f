//! Curves over two axes, readable on a phone.

use std::fmt::Write as _;

use leptos::prelude::*;

/// One axis: from where to where, and how far apart its marks stand.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Axis {
    pub(crate) low: f64,
    pub(crate) high: f64,
    pub(crate) step: f64,
    /// The unit, written at its end.
    pub(crate) unit: String,
}

impl Axis {
    /// An axis over a range, with at most so many marks at round numbers.
    pub(crate) fn round(low: f64, high: f64, most: f64, unit: String) -> Self {
        let raw = ((high - low) / most).max(1e-9);
        let scale = 10_f64.powf(raw.log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0].into_iter().map(|m| m * scale).find(|s| *s >= raw);
        let step = step.unwrap_or(10.0 * scale);
        Self {
            low: (low / step + NOISE).floor() * step,
            high: (high / step - NOISE).ceil() * step,
            step,
            unit,
        }
    }

    fn marks(&self) -> impl Iterator<Item = f64> + use<> {
        let (low, step) = (self.low, self.step);
        let count = ((self.high - low) / step).round().clamp(0.0, 40.0) as u32;
        (0..=count).map(move |i| low + f64::from(i) * step)
    }

    fn share(&self, value: f64) -> f64 {
        ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0)
    }
}

/// One curve, labelled where it begins.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Curve {
    pub(crate) label: String,
    pub(crate) points: Vec<(f64, f64)>,
}

/// A point of its own.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Point {
    pub(crate) at: (f64, f64),
    /// Whether the curve it lies on rises there, so that its label can keep off it.
    pub(crate) rising: bool,
    pub(crate) label: String,
}

/// A limit this close to a mark, in marks, is that mark.
const NOISE: f64 = 1e-6;
const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 226.0;
const LEFT: f64 = 38.0;
const RIGHT: f64 = 322.0;
const TOP: f64 = 44.0;
const BOTTOM: f64 = 192.0;

/// The curves to scale. Each has a dash of its own, so that none depends on colour.
pub(crate) fn chart(
    x: &Axis,
    y: &Axis,
    curves: &[Curve],
    points: &[Point],
    title: String,
) -> impl IntoView + use<> {
    let px = |value: f64| LEFT + (RIGHT - LEFT) * x.share(value);
    let py = |value: f64| BOTTOM - (BOTTOM - TOP) * y.share(value);
    let across = x.marks().map(|mark| {
        let at = px(mark);
        view! {
            <path class="chart-grid" d=format!("M{at} {TOP}V{BOTTOM}") />
            <text class="chart-number chart-number-x" x=at y=BOTTOM + 17.0>{mark.to_string()}</text>
        }
    });
    let up = y.marks().map(|mark| {
        let at = py(mark);
        view! {
            <path class="chart-grid" d=format!("M{LEFT} {at}H{RIGHT}") />
            <text class="chart-number chart-number-y" x=LEFT - 5.0 y=at + 4.5>{mark.to_string()}</text>
        }
    });
    let lines = curves.iter().enumerate().map(|(i, curve)| {
        let class = format!("chart-line chart-line-{i}");
        // What lies above the axis is cut off, not bent along its edge.
        let inside = curve.points.iter().filter(|(_, value)| *value <= y.high);
        let path = path(inside.map(|(a, b)| (px(*a), py(*b))));
        view! { <path class=class d=path /> }
    });
    let keys = curves.iter().enumerate().filter(|(_, c)| !c.label.is_empty()).map(|(i, curve)| {
        let (class, at) = (format!("chart-line chart-line-{i}"), LEFT + 96.0 * i as f64);
        view! {
            <path class=class d=format!("M{at} 9h30") />
            <text class="chart-label" x=at + 35.0 y="13.5">{curve.label.clone()}</text>
        }
    });
    let dots = points.iter().map(|point| {
        let (at_x, at_y) = (px(point.at.0), py(point.at.1));
        // Above the side on which the curve is low; below it where there is no room there.
        let left = at_x > 0.5 * WIDTH;
        let (text_x, anchor) = if left { (at_x - 9.0, "end") } else { (at_x + 9.0, "start") };
        let text_y = if left == point.rising { at_y - 8.0 } else { at_y + 18.0 };
        view! {
            <circle class="chart-dot" cx=at_x cy=at_y r="5.5" />
            <text class="chart-label chart-label-strong" x=text_x y=text_y text-anchor=anchor>
                {point.label.clone()}
            </text>
        }
    });
    view! {
        <svg class="chart" viewBox=format!("0 0 {WIDTH} {HEIGHT}") role="img" aria-label=title>
            {across.collect_view()}
            {up.collect_view()}
            <text class="chart-number" x="2" y=TOP - 9.0>{y.unit.clone()}</text>
            <text class="chart-number chart-number-y" x=RIGHT y=BOTTOM + 30.0>{x.unit.clone()}</text>
            {lines.collect_view()}
            {keys.collect_view()}
            {dots.collect_view()}
        </svg>
    }
}

fn path(points: impl Iterator<Item = (f64, f64)>) -> String {
    let mut path = String::new();
    for (i, (x, y)) in points.enumerate() {
        let command = if i == 0 { 'M' } else { 'L' };
        // Writing to a string cannot fail.
        let _ = write!(path, "{command}{x:.1} {y:.1}");
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axes_are_round_and_hold_their_range() {
        for (low, high) in [(41.0, 104.0), (0.0, 163.0), (0.0, 7.3), (-5.0, 50.0)] {
            let axis = Axis::round(low, high, 6.0, String::new());
            assert!(axis.low <= low && axis.high >= high);
            assert!(axis.marks().count() <= 9, "{axis:?}");
        }
    }
}
