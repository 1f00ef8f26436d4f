//! What happens when: bars along a common line of minutes, each with its limit behind it.

use leptos::prelude::*;

/// One bar. All in minutes.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Bar {
    /// What it stands for.
    pub(crate) label: String,
    /// When the bar begins, in minutes from the left end of the line.
    pub(crate) from: f64,
    /// When the bar ends, in minutes from the left end of the line.
    pub(crate) to: f64,
    /// The last safe moment, and the moment it is too late.
    pub(crate) limit: Option<(f64, f64)>,
}

const WIDTH: f64 = 340.0;
const LEFT: f64 = 4.0;
const RIGHT: f64 = 336.0;
const ROW: f64 = 40.0;
const THICK: f64 = 14.0;

/// The bars, to scale.
pub(crate) fn time_bar(bars: &[Bar], minutes: &str, title: String) -> impl IntoView + use<> {
    let last = bars
        .iter()
        .flat_map(|bar| [bar.to, bar.limit.map_or(0.0, |limit| limit.1)])
        .fold(1.0, f64::max);
    let x = move |minute: f64| LEFT + (RIGHT - LEFT) * (minute / (1.04 * last)).clamp(0.0, 1.0);
    let bottom = ROW * bars.len() as f64;
    let rows = bars.iter().enumerate().map(|(i, bar)| {
        let top = ROW * i as f64;
        let y = top + 19.0;
        let limit = bar.limit.map(|(safe, late)| {
            view! {
                <rect class="time-late" x=x(safe) y=y width=x(late) - x(safe) height=THICK />
                <path class="time-limit" d=format!("M{0} {1}V{2}", x(safe), y - 3.0, y + THICK + 3.0) />
            }
        });
        let room = bar.limit.map(|(safe, _)| {
            view! { <rect class="time-room" x=x(0.0) y=y width=x(safe) - x(0.0) height=THICK /> }
        });
        view! {
            <text class="time-label" x=LEFT y=top + 13.0>{bar.label.clone()}</text>
            {room}
            {limit}
            <rect class="time-work" x=x(bar.from) y=y
                width=(x(bar.to) - x(bar.from)).max(2.0) height=THICK />
        }
    });
    let ticks = ticks(1.04 * last).map(|minute| {
        let at = x(minute);
        view! {
            <path class="time-tick" d=format!("M{at} {bottom}v5") />
            <text class="time-number" x=at y=bottom + 18.0>{minute.to_string()}</text>
        }
    });
    let box_of = format!("0 0 {WIDTH} {}", bottom + 24.0);
    view! {
        <svg class="time-bar" viewBox=box_of role="img" aria-label=title>
            {rows.collect_view()}
            <path class="time-axis" d=format!("M{LEFT} {bottom}H{RIGHT}") />
            {ticks.collect_view()}
            <text class="time-unit" x=RIGHT y=bottom + 18.0>{minutes.to_owned()}</text>
        </svg>
    }
}

/// Round minutes along the line, few enough to read, leaving room for the unit at the end.
fn ticks(last: f64) -> impl Iterator<Item = f64> {
    let step = [1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0]
        .into_iter()
        .find(|step| last / step <= 7.0)
        .unwrap_or(960.0);
    (0..10).map(move |i| f64::from(i) * step).take_while(move |minute| *minute <= 0.88 * last)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_few_and_round() {
        assert_eq!(ticks(50.0).collect::<Vec<_>>(), [0.0, 10.0, 20.0, 30.0, 40.0]);
        assert_eq!(ticks(3.0).collect::<Vec<_>>(), [0.0, 1.0, 2.0]);
        assert!(ticks(1500.0).count() <= 8);
    }
}
