//! A floor from above, drawn to scale: bands from the back wall to the door, one a batch.

use leptos::prelude::*;
use pailwise_calc::quantity::Length;
use pailwise_calc::shape::Rectangle;

/// The part of the floor that one batch covers, as it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Band {
    /// In which bay, from the left.
    pub(crate) bay: usize,
    /// The floor it covers.
    pub(crate) boxes: Vec<Rectangle>,
    /// Where it begins, as a distance from the back wall.
    pub(crate) from: Length,
    /// Where it ends, as a distance from the back wall.
    pub(crate) to: Length,
    /// Number of the batch, or a tick where it is down.
    pub(crate) number: String,
    /// Where to tape, in words: the distance from the back wall.
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
/// From one text beside the floor to the next.
const LEAST: f64 = 17.0;
/// A band less high than this has no room for its number.
const LOWEST: f64 = 13.0;

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
    let all = |class| floor.iter().map(|r| rectangle(r, class)).collect::<Vec<_>>();
    let (outline, ground) = (all("plan-outline"), all("plan-floor"));
    let walls = walls.map(|walls| {
        view! {
            <rect class="plan-band plan-wall" x=LEFT y=TOP - 4.0 width=scale * (right - left)
                height=WALLS - 4.0 />
            <text class="plan-side plan-over" x=LEFT + 6.0 y=TOP + 12.0>{walls}</text>
        }
    });
    // Of bays the distances stand in the bands; of one they stand beside the floor.
    let several = bands.iter().any(|band| band.bay > 0);
    let ends: Vec<f64> = bands.iter().map(|band| y(m(band.to))).collect();
    let beside = if several { vec![None; bands.len()] } else { labels(&ends, begin) };
    let mut shapes = Vec::new();
    let mut texts = Vec::new();
    for (i, (band, end)) in bands.iter().zip(&ends).enumerate() {
        let in_bay =
            bands.get(..i).unwrap_or_default().iter().filter(|other| other.bay == band.bay).count();
        let class = match (band.down, (in_bay + band.bay) % 2) {
            (true, _) => "plan-band plan-band-down",
            (false, 0) => "plan-band",
            (false, _) => "plan-band plan-band-other",
        };
        shapes.extend(band.boxes.iter().map(|r| rectangle(r, class)));
        let begins = band.boxes.iter().map(|r| x(m(r.left))).fold(f64::INFINITY, f64::min);
        let stops = band.boxes.iter().map(|r| x(m(r.left) + m(r.width))).fold(LEFT, f64::max);
        // Across the floor, and on to its text where there is one.
        let (edge, at) = (LEFT + scale * (right - left) + 2.0, LEFT + ROOM + 10.0);
        let tape = match beside[i] {
            _ if several => format!("M{begins:.1} {end:.1}H{stops:.1}"),
            Some(y) => format!("M{LEFT} {end:.1}H{edge:.1}L{:.1} {y:.1}", at - 2.0),
            None => format!("M{LEFT} {end:.1}H{edge:.1}"),
        };
        let above = y(m(band.from));
        let high = end - above;
        let widest = band.boxes.iter().max_by(|a, b| m(a.width).total_cmp(&m(b.width)));
        let middle = widest.map_or(0.0, |r| x(m(r.left) + m(r.width) / 2.0));
        let inside = several && high >= LOWEST + LEAST;
        let number = (high >= LOWEST).then(|| {
            let room = if inside { LEAST } else { 0.0 };
            let y = f64::midpoint(above, *end - room) + 6.0;
            view! { <text class="plan-number" x=middle y=y>{band.number.clone()}</text> }
        });
        let distance = beside[i].map(|y| {
            view! { <text class="plan-distance" x=at y=y + 5.0>{band.tape.clone()}</text> }
        });
        let within = inside.then(|| {
            let class = "plan-distance plan-within";
            view! { <text class=class x=middle y=end - 5.0>{band.tape.clone()}</text> }
        });
        texts.push(view! { <path class="plan-tape" d=tape /> {number} {distance} {within} });
    }
    // The tape lines between bays, along what lies to the right of each.
    let lines = bands.iter().filter(|band| band.bay > 0).map(|band| {
        let side = band.boxes.iter().map(|r| x(m(r.left))).fold(f64::INFINITY, f64::min);
        let line = format!("M{side:.1} {:.1}V{:.1}", y(m(band.from)), y(m(band.to)));
        view! { <path class="plan-tape" d=line /> }
    });
    let lines = lines.collect::<Vec<_>>();
    let floor_ends = y(bottom);
    let box_of = format!("0 0 {WIDTH} {:.0}", floor_ends + 24.0);
    view! {
        <svg class="plan" viewBox=box_of role="img" aria-label=title>
            <text class="plan-side" x=LEFT y=TOP - 8.0>{back.to_owned()}</text>
            {walls}
            {outline}
            {ground}
            {shapes}
            {lines}
            {texts}
            <text class="plan-side" x=LEFT y=floor_ends + 18.0>{front.to_owned()}</text>
        </svg>
    }
}

/// How high the text beside each band's end stands: there, or moved up so far that no two meet. Of
/// more than there is room for, the nearer ends go without.
fn labels(ends: &[f64], begin: f64) -> Vec<Option<f64>> {
    let mut at = vec![None; ends.len()];
    let mut next = f64::INFINITY;
    for (i, end) in ends.iter().enumerate().rev() {
        let y = end.min(next - LEAST);
        // No further up than a line of its own: it would stand beside another's band.
        if y < begin || end - y > 2.0 * LEAST {
            continue;
        }
        at[i] = Some(y);
        next = y;
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_beside_the_bands_keep_apart_and_the_last_is_named() {
        let ends: Vec<f64> = (1..=60).map(|i| 24.0 + 5.0 * f64::from(i)).collect();
        let at = labels(&ends, 24.0);
        assert_eq!(at[59], Some(ends[59]));
        let named: Vec<f64> = at.into_iter().flatten().collect();
        assert!(named.windows(2).all(|pair| pair[1] - pair[0] >= LEAST) && named.len() > 10);
        // Every one where they fit, moved up a little where two would meet.
        let ends = [60.0, 100.0, 104.0, 160.0];
        assert_eq!(labels(&ends, 24.0), [Some(60.0), Some(87.0), Some(104.0), Some(160.0)]);
        assert!(labels(&[], 24.0).is_empty());
    }
}
