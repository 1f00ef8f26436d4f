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
/// Where the texts beside the floor begin.
const BESIDE: f64 = LEFT + ROOM + 10.0;
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
    let begin = if walls.is_some() { TOP + WALLS } else { TOP };
    let projection = Projection::of(floor, begin);
    let all = |class| floor.iter().map(|r| projection.rectangle(r, class)).collect::<Vec<_>>();
    let (outline, ground) = (all("plan-outline"), all("plan-floor"));
    let walls = walls.map(|walls| walls_strip(projection, walls));
    // Of bays the distances stand in the bands; of one they stand beside the floor.
    let several = bands.iter().any(|band| band.bay > 0);
    let ends: Vec<f64> = bands.iter().map(|band| projection.y(band.to)).collect();
    let beside = if several { vec![None; bands.len()] } else { labels(&ends, begin) };
    let mut shapes = Vec::new();
    let mut texts = Vec::new();
    for (i, (band, beside)) in bands.iter().zip(beside).enumerate() {
        let class = band_class(band, bands.get(..i).unwrap_or_default());
        shapes.extend(band.boxes.iter().map(|r| projection.rectangle(r, class)));
        texts.push(band_texts(projection, band, beside, several));
    }
    let lines = bay_lines(projection, bands);
    let box_of = format!("0 0 {WIDTH} {:.0}", projection.end + 24.0);
    view! {
        <svg class="plan" viewBox=box_of role="img" aria-label=title>
            <text class="plan-side" x=LEFT y=TOP - 8.0>{back.to_owned()}</text>
            {walls}
            {outline}
            {ground}
            {shapes}
            {lines}
            {texts}
            <text class="plan-side" x=LEFT y=projection.end + 18.0>{front.to_owned()}</text>
        </svg>
    }
}

/// Where the places of a floor stand in its drawing, with one scale for both directions.
#[derive(Clone, Copy)]
struct Projection {
    /// The left edge of the floor, in meters.
    left: f64,
    /// Its back edge, in meters.
    top: f64,
    /// How wide the floor is in the drawing.
    width: f64,
    /// Where in the drawing the floor begins, from its top.
    begin: f64,
    /// Where in the drawing the floor ends, from its top.
    end: f64,
    /// How much of the drawing one meter takes.
    scale: f64,
}

impl Projection {
    /// The projection of a floor that begins so far down in the drawing.
    fn of(floor: &[Rectangle], begin: f64) -> Self {
        let low = |of: fn(&Rectangle) -> f64| floor.iter().map(of).fold(f64::INFINITY, f64::min);
        let high = |of: fn(&Rectangle) -> f64| floor.iter().map(of).fold(0.0, f64::max);
        let (left, top) = (low(|r| r.left.value), low(|r| r.back.value));
        let right = high(|r| r.left.value + r.width.value);
        let bottom = high(|r| r.back.value + r.depth.value);
        let scale = (ROOM / (right - left)).min(HIGH / (bottom - top));
        let (width, end) = (scale * (right - left), begin + scale * (bottom - top));
        Self { left, top, width, begin, end, scale }
    }

    /// How far to the right a place stands that is so far from the left.
    fn x(&self, from_left: Length) -> f64 {
        LEFT + self.scale * (from_left.value - self.left)
    }

    /// How far down a place stands that is so far from the back wall.
    fn y(&self, from_back: Length) -> f64 {
        self.begin + self.scale * (from_back.value - self.top)
    }

    /// How far to the right a band begins.
    fn left_of(&self, band: &Band) -> f64 {
        band.boxes.iter().map(|r| self.x(r.left)).fold(f64::INFINITY, f64::min)
    }

    /// A part of the floor as it is drawn.
    fn rectangle(&self, r: &Rectangle, class: &'static str) -> impl IntoView + use<> {
        let (x, y) = (self.x(r.left), self.y(r.back));
        let (width, height) = (self.scale * r.width.value, self.scale * r.depth.value);
        view! { <rect class=class x=x y=y width=width height=height /> }
    }
}

/// The strip at the back that stands for the walls and steps.
fn walls_strip(projection: Projection, walls: String) -> impl IntoView {
    view! {
        <rect class="plan-band plan-wall" x=LEFT y=TOP - 4.0 width=projection.width
            height=WALLS - 4.0 />
        <text class="plan-side plan-over" x=LEFT + 6.0 y=TOP + 12.0>{walls}</text>
    }
}

/// The class of a band, by the bands before it: no two that meet look alike.
fn band_class(band: &Band, before: &[Band]) -> &'static str {
    let in_bay = before.iter().filter(|other| other.bay == band.bay).count();
    match (band.down, (in_bay + band.bay) % 2) {
        (true, _) => "plan-band plan-band-down",
        (false, 0) => "plan-band",
        (false, _) => "plan-band plan-band-other",
    }
}

/// The tape of a band, its number, and its distance from the back wall beside the floor or within.
fn band_texts(
    projection: Projection,
    band: &Band,
    beside: Option<f64>,
    several: bool,
) -> impl IntoView + use<> {
    let (above, end) = (projection.y(band.from), projection.y(band.to));
    let high = end - above;
    let widest = band.boxes.iter().max_by(|a, b| a.width.value.total_cmp(&b.width.value));
    let middle = widest.map_or(0.0, |r| projection.x(r.left + r.width / 2.0));
    let inside = several && high >= LOWEST + LEAST;
    let number = (high >= LOWEST).then(|| {
        let room = if inside { LEAST } else { 0.0 };
        let y = f64::midpoint(above, end - room) + 6.0;
        view! { <text class="plan-number" x=middle y=y>{band.number.clone()}</text> }
    });
    let distance = beside.map(|y| {
        view! { <text class="plan-distance" x=BESIDE y=y + 5.0>{band.tape.clone()}</text> }
    });
    let within = inside.then(|| {
        let class = "plan-distance plan-within";
        view! { <text class=class x=middle y=end - 5.0>{band.tape.clone()}</text> }
    });
    let tape = tape_path(projection, band, beside, several);
    view! { <path class="plan-tape" d=tape /> {number} {distance} {within} }
}

/// The line of a band's tape: across its bay, or across the floor and on to the text beside it.
fn tape_path(projection: Projection, band: &Band, beside: Option<f64>, several: bool) -> String {
    let end = projection.y(band.to);
    let edge = LEFT + projection.width + 2.0;
    match beside {
        _ if several => {
            let begins = projection.left_of(band);
            let stops =
                band.boxes.iter().map(|r| projection.x(r.left + r.width)).fold(LEFT, f64::max);
            format!("M{begins:.1} {end:.1}H{stops:.1}")
        }
        Some(y) => format!("M{LEFT} {end:.1}H{edge:.1}L{:.1} {y:.1}", BESIDE - 2.0),
        None => format!("M{LEFT} {end:.1}H{edge:.1}"),
    }
}

/// The tape lines between bays, along what lies to the right of each.
fn bay_lines(projection: Projection, bands: &[Band]) -> Vec<impl IntoView + use<>> {
    let lines = bands.iter().filter(|band| band.bay > 0).map(|band| {
        let side = projection.left_of(band);
        let line =
            format!("M{side:.1} {:.1}V{:.1}", projection.y(band.from), projection.y(band.to));
        view! { <path class="plan-tape" d=line /> }
    });
    lines.collect()
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
