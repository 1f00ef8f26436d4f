//! A floor from above, drawn to scale: bands from the back wall to the door, one a batch.

use leptos::prelude::*;
use pailwise_calc::quantity::Length;
use pailwise_calc::shape::Rectangle;

/// One band.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Band {
    /// The floor it covers.
    pub(crate) boxes: Vec<Rectangle>,
    /// Where it ends, as a distance from the back wall.
    pub(crate) to: Length,
    /// Its number.
    pub(crate) number: String,
    /// Where to tape.
    pub(crate) tape: String,
    /// It is down already.
    pub(crate) down: bool,
}

const WIDTH: f64 = 340.0;
/// The floor stands left; distances to its right.
const LEFT: f64 = 6.0;
const ROOM: f64 = 206.0;
const HIGH: f64 = 340.0;
/// Where the floor begins under the text at its back, and under the strip that stands for walls.
const TOP: f64 = 24.0;
const WALLS: f64 = 26.0;
/// A band less high than this has no room for a text of its own.
const LEAST: f64 = 17.0;

/// The floor with its bands, what stands at its back and its front, and what is said of the walls
/// and steps, which have no place on the plan.
pub(crate) fn plan(
    floor: &[Rectangle],
    bands: &[Band],
    (back, front): (&str, &str),
    walls: Option<String>,
    title: String,
) -> impl IntoView + use<> {
    let m = |length: Length| length.value;
    let low = |of: fn(&Rectangle) -> f64| floor.iter().map(of).fold(f64::INFINITY, f64::min);
    let high = |of: fn(&Rectangle) -> f64| floor.iter().map(of).fold(0.0, f64::max);
    let (left, top) = (low(|r| r.left.value), low(|r| r.back.value));
    let right = high(|r| r.left.value + r.width.value);
    let bottom = high(|r| r.back.value + r.depth.value);
    // One scale for both directions.
    let scale = (ROOM / (right - left)).min(HIGH / (bottom - top));
    let begin = if walls.is_some() { TOP + WALLS } else { TOP };
    let (x, y) = (move |v: f64| LEFT + scale * (v - left), move |v: f64| begin + scale * (v - top));
    let rectangle = |r: &Rectangle, class: &'static str| {
        let (width, height) = (scale * m(r.width), scale * m(r.depth));
        view! { <rect class=class x=x(m(r.left)) y=y(m(r.back)) width=width height=height /> }
    };
    let ground: Vec<_> = floor.iter().map(|r| rectangle(r, "plan-floor")).collect();
    let walls = walls.map(|walls| {
        view! {
            <rect class="plan-band plan-wall" x=LEFT y=TOP - 4.0 width=scale * (right - left)
                height=WALLS - 4.0 />
            <text class="plan-side plan-over" x=LEFT + 6.0 y=TOP + 12.0>{walls}</text>
        }
    });
    let ends: Vec<f64> = bands.iter().map(|band| y(m(band.to))).collect();
    let named = with_room(&ends, begin);
    let mut above = begin;
    let mut shapes = Vec::new();
    let mut texts = Vec::new();
    for (i, (band, end)) in bands.iter().zip(&ends).enumerate() {
        let class = match (band.down, i % 2) {
            (true, _) => "plan-band plan-band-down",
            (false, 0) => "plan-band",
            (false, _) => "plan-band plan-band-other",
        };
        shapes.extend(band.boxes.iter().map(|r| rectangle(r, class)));
        if named.contains(&i) {
            let widest = band.boxes.iter().max_by(|a, b| m(a.width).total_cmp(&m(b.width)));
            let middle = widest.map_or(0.0, |r| x(m(r.left) + m(r.width) / 2.0));
            let tape = format!("M{LEFT} {end:.1}H{:.1}", LEFT + ROOM + 8.0);
            let number = f64::midpoint(above, *end) + 6.0;
            texts.push(view! {
                <path class="plan-tape" d=tape />
                <text class="plan-number" x=middle y=number>{band.number.clone()}</text>
                <text class="plan-distance" x=LEFT + ROOM + 10.0 y=end + 5.0>{band.tape.clone()}</text>
            });
        }
        above = *end;
    }
    let floor_ends = y(bottom);
    let box_of = format!("0 0 {WIDTH} {:.0}", floor_ends + 24.0);
    view! {
        <svg class="plan" viewBox=box_of role="img" aria-label=title>
            <text class="plan-side" x=LEFT y=TOP - 8.0>{back.to_owned()}</text>
            {walls}
            {ground}
            {shapes}
            {texts}
            <text class="plan-side" x=LEFT y=floor_ends + 18.0>{front.to_owned()}</text>
        </svg>
    }
}

/// Which bands have room for their texts: the last always, of the others those that stand a line
/// from the next that has.
fn with_room(ends: &[f64], begin: f64) -> Vec<usize> {
    let mut named = Vec::new();
    let mut next = f64::INFINITY;
    for (i, end) in ends.iter().enumerate().rev() {
        let above = if i == 0 { begin } else { ends[i - 1] };
        let last = i + 1 == ends.len();
        if last || (next - end >= LEAST && end - above >= LEAST * 0.75) {
            named.push(i);
            next = *end;
        }
    }
    named
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_of_bands_keep_apart_and_the_last_is_named() {
        let ends: Vec<f64> = (1..=60).map(|i| 24.0 + 5.0 * f64::from(i)).collect();
        assert_eq!(with_room(&ends, 24.0), [59]);
        let ends = [60.0, 100.0, 104.0, 160.0];
        assert_eq!(with_room(&ends, 24.0), [3, 1, 0]);
        assert!(with_room(&[], 24.0).is_empty());
    }
}
