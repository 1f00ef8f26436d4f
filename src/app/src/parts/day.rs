//! A row for each batch along the hours of a day: mixed, on the floor, flaked.

use leptos::prelude::*;

/// One row. All in minutes after midnight.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Row {
    /// Number of the batch, written to the left of its row.
    pub(crate) number: String,
    /// When A meets B, in minutes after midnight.
    pub(crate) mixed: f64,
    /// The first drop leaves the pail.
    pub(crate) poured: f64,
    /// The last patch is rolled.
    pub(crate) rolled: f64,
    /// The last patch is finished.
    pub(crate) done: f64,
    /// It must have left the pail.
    pub(crate) pour_out: f64,
    /// The next batch must have met its edge, where one follows.
    pub(crate) edge_until: Option<f64>,
}

const WIDTH: f64 = 340.0;
const LEFT: f64 = 26.0;
const RIGHT: f64 = 334.0;
const ROW: f64 = 22.0;
const THICK: f64 = 12.0;

/// The rows, to scale, with two lines of text under round times: the hour, and how warm it is.
pub(crate) fn day<F: Fn(f64) -> (String, String)>(
    rows: &[Row],
    under: F,
    title: String,
) -> impl IntoView + use<F> {
    let first = rows.first().map_or(0.0, |row| row.mixed);
    let ends = |row: &Row| row.done.max(row.pour_out).max(row.edge_until.unwrap_or(0.0));
    let last = rows.iter().map(ends).fold(first + 1.0, f64::max);
    let x = move |minute: f64| {
        LEFT + (RIGHT - LEFT) * ((minute - first) / (last - first)).clamp(0.0, 1.0)
    };
    let bars = rows.iter().enumerate().map(|(i, row)| {
        let y = ROW * i as f64 + 4.0;
        let bar = |class: &'static str, from: f64, to: f64| {
            view! { <rect class=class x=x(from) y=y width=(x(to) - x(from)).max(1.0) height=THICK /> }
        };
        let edge = row.edge_until.map(|until| {
            let d = format!("M{:.1} {1}H{2:.1}v-4v8", x(row.rolled), y + THICK / 2.0, x(until));
            view! { <path class="day-edge" d=d /> }
        });
        let limit = format!("M{0:.1} {1}v{2}", x(row.pour_out), y - 2.0, THICK + 4.0);
        view! {
            <text class="day-number" x=LEFT - 6.0 y=y + 11.0>{row.number.clone()}</text>
            {edge}
            {bar("day-mix", row.mixed, row.poured)}
            {bar("day-roll", row.poured, row.rolled)}
            {bar("day-flake", row.rolled, row.done)}
            <path class="time-limit" d=limit />
        }
    });
    let bottom = ROW * rows.len() as f64 + 4.0;
    let ticks: Vec<f64> = ticks(first, last).collect();
    let ticks = ticks.into_iter().map(|minute| {
        let at = x(minute);
        let (hour, warm) = under(minute);
        view! {
            <path class="time-tick" d=format!("M{at:.1} {bottom}v5") />
            <text class="time-number" x=at y=bottom + 18.0>{hour}</text>
            <text class="time-number" x=at y=bottom + 34.0>{warm}</text>
        }
    });
    let ticks = ticks.collect_view();
    let box_of = format!("0 0 {WIDTH} {:.0}", bottom + 40.0);
    view! {
        <svg class="day" viewBox=box_of role="img" aria-label=title>
            {bars.collect_view()}
            <path class="time-axis" d=format!("M{LEFT} {bottom}H{RIGHT}") />
            {ticks}
        </svg>
    }
}

/// Round times of day, few enough to read, with room for the first and the last.
fn ticks(first: f64, last: f64) -> impl Iterator<Item = f64> {
    let span = last - first;
    let step = [5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 1440.0, 2880.0]
        .into_iter()
        .find(|step| span / step <= 5.0)
        .unwrap_or((span / 5.0).ceil());
    let begin = ((first + 0.06 * span) / step).ceil() * step;
    (0..6).map(move |i| begin + step * f64::from(i)).take_while(move |t| *t <= last - 0.06 * span)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_few_and_round() {
        assert_eq!(ticks(480.0, 520.0).collect::<Vec<_>>(), [490.0, 500.0, 510.0]);
        assert!(ticks(0.0, 9000.0).count() <= 6);
        assert!(ticks(480.0, 700.0).all(|t| t % 60.0 == 0.0));
    }
}
