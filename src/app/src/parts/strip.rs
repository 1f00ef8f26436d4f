//! Days on a strip: nights behind, a lane for each coat, what opens and closes on it.

use std::ops::RangeInclusive;

use leptos::prelude::*;

/// One lane. All in minutes after midnight of the first day.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Lane {
    /// What it is called.
    pub(crate) label: String,
    /// While it is laid.
    pub(crate) laid: (f64, f64),
    /// While the next may go on; open ended where nothing says when it ends.
    pub(crate) window: Option<(f64, Option<f64>)>,
    /// What becomes possible, each with its sign.
    pub(crate) marks: Vec<(f64, String)>,
}

const WIDTH: f64 = 340.0;
const LEFT: f64 = 4.0;
const RIGHT: f64 = 336.0;
const TOP: f64 = 20.0;
const ROW: f64 = 58.0;
const THICK: f64 = 16.0;
const DAY: f64 = 1440.0;
/// Night is drawn from eight in the evening to six in the morning.
const NIGHT: (f64, f64) = (20.0 * 60.0, 30.0 * 60.0);

/// The lanes, to scale. `day` says a day by its number from 0.
pub(crate) fn strip<F: Fn(u32) -> String>(
    lanes: &[Lane],
    day: F,
    title: String,
) -> impl IntoView + use<F> {
    let axis = Axis::of(lanes);
    let bottom = TOP + ROW * lanes.len() as f64;
    let rows = lanes.iter().enumerate().map(|(i, lane)| row(axis, i, lane));
    let box_of = format!("0 0 {WIDTH} {:.0}", bottom + 8.0);
    view! {
        <svg class="strip" viewBox=box_of role="img" aria-label=title>
            {nights(axis, bottom)}
            {names(axis, bottom, day)}
            {rows.collect_view()}
            <path class="time-axis" d=format!("M{LEFT} {bottom}H{RIGHT}") />
        </svg>
    }
}

/// The time that the strip shows, in minutes after midnight of the first day.
#[derive(Clone, Copy)]
struct Axis {
    first: f64,
    last: f64,
}

impl Axis {
    /// The time that some lanes take, and a little more.
    fn of(lanes: &[Lane]) -> Self {
        let first = lanes.iter().map(|lane| lane.laid.0).fold(f64::INFINITY, f64::min);
        let last = lanes.iter().map(end).fold(first + 60.0, f64::max);
        Self { first, last: last + 0.04 * (last - first) }
    }

    /// How far to the right a minute stands.
    fn x(&self, minute: f64) -> f64 {
        let along = (minute - self.first) / (self.last - self.first);
        LEFT + (RIGHT - LEFT) * along.clamp(0.0, 1.0)
    }

    /// The days on the strip, by number from 0.
    fn days(&self) -> RangeInclusive<u32> {
        let number = |minute: f64| (minute / DAY).floor().max(0.0) as u32;
        number(self.first)..=number(self.last)
    }
}

/// The nights that are drawn behind the lanes.
fn nights(axis: Axis, bottom: f64) -> impl IntoView {
    let nights = axis.days().map(|n| {
        let (from, to) =
            (axis.x(DAY * f64::from(n) + NIGHT.0), axis.x(DAY * f64::from(n) + NIGHT.1));
        view! { <rect class="strip-night" x=from y=TOP width=to - from height=bottom - TOP /> }
    });
    // The night that was before the first morning.
    let early = (axis.first.rem_euclid(DAY) < NIGHT.1 - DAY).then(|| {
        let to = axis.x((axis.first / DAY).floor() * DAY + NIGHT.1 - DAY);
        view! { <rect class="strip-night" x=LEFT y=TOP width=to - LEFT height=bottom - TOP /> }
    });
    view! { {nights.collect_view()} {early} }
}

/// A line and a name for each day that has room for its name.
fn names<F: Fn(u32) -> String>(axis: Axis, bottom: f64, day: F) -> impl IntoView + use<F> {
    let room = |name: &str| 7.0 * name.chars().count() as f64;
    let begins = |n: u32| axis.x(DAY * f64::from(n));
    let named = axis.days().map(|n| (begins(n), begins(n + 1), day(n)));
    let names = named.filter(|(from, to, name)| to - from > room(name)).map(|(from, to, name)| {
        view! {
            <path class="strip-day" d=format!("M{from:.1} {TOP}V{bottom}") />
            <text class="strip-name" x=0.5 * (from + to) y=TOP - 6.0>{name}</text>
        }
    });
    names.collect_view()
}

/// A lane with its name, its window, while it is laid, and its marks.
fn row(axis: Axis, i: usize, lane: &Lane) -> impl IntoView + use<> {
    let y = TOP + ROW * i as f64 + 20.0;
    let window = lane.window.map(|(opens, closes)| {
        let to = closes.map_or(RIGHT, |minute| axis.x(minute));
        let from = axis.x(opens);
        let open = closes.is_none().then(|| {
            view! { <path class="strip-open" d=format!("M{to:.1} {y}l5 8l-5 8") /> }
        });
        view! {
            <rect class="strip-window" x=from y=y width=(to - from).max(0.0) height=THICK />
            {open}
        }
    });
    let (from, to) = (axis.x(lane.laid.0), axis.x(lane.laid.1));
    let marks = lane.marks.iter().map(|(at, sign)| {
        let at = axis.x(*at);
        view! {
            <path class="strip-mark" d=format!("M{at:.1} {:.1}v{:.1}", y - 4.0, THICK + 8.0) />
            <text class="strip-sign" x=at y=y + THICK + 4.0>{sign.clone()}</text>
        }
    });
    view! {
        <text class="strip-label" x=LEFT + 2.0 y=y - 6.0>{lane.label.clone()}</text>
        {window}
        <rect class="strip-laid" x=from y=y width=(to - from).max(3.0) height=THICK />
        {marks.collect_view()}
    }
}

/// When the last thing of a lane happens.
fn end(lane: &Lane) -> f64 {
    let window = lane.window.map_or(0.0, |(opens, closes)| closes.unwrap_or(opens).max(opens));
    lane.marks.iter().map(|(at, _)| *at).fold(lane.laid.1.max(window), f64::max)
}
