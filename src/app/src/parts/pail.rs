//! The pail, drawn to scale with a mark for each pour; or two of them, before and after.

use leptos::prelude::*;
use pailwise_calc::quantity::{Length, unit};
use pailwise_calc::vessel::Vessel;

/// How a layer is filled, so that parts are told apart without colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fill {
    /// The pattern of a part, counted from 0: 0 is A.
    Part(usize),
    /// Plain colour without a pattern, for an additive.
    Solid,
}

impl Fill {
    fn paint(self) -> &'static str {
        match self {
            Self::Part(0) => "url(#pail-slanted)",
            Self::Part(1) => "url(#pail-dotted)",
            Self::Part(2) => "url(#pail-level)",
            Self::Part(_) => "url(#pail-crossed)",
            Self::Solid => "currentColor",
        }
    }
}

/// One pour in the pail.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Layer {
    /// How it is filled.
    pub(crate) fill: Fill,
    /// Height of its underside, mm.
    pub(crate) bottom: f64,
    /// Height of its top, mm.
    pub(crate) top: f64,
    /// What stands beside it.
    pub(crate) text: String,
}

/// The patterns of the parts, once on a page.
#[component]
pub(crate) fn Patterns() -> impl IntoView {
    view! {
        <svg class="patterns" width="0" height="0" aria-hidden="true">
            <defs>
                <pattern id="pail-slanted" width="6" height="6" patternUnits="userSpaceOnUse"
                    patternTransform="rotate(45)">
                    <rect class="pail-ground" width="6" height="6" />
                    <path class="pail-line" d="M0 0V6" />
                </pattern>
                <pattern id="pail-dotted" width="6" height="6" patternUnits="userSpaceOnUse">
                    <rect class="pail-ground" width="6" height="6" />
                    <circle class="pail-dot" cx="3" cy="3" r="1.2" />
                </pattern>
                <pattern id="pail-level" width="6" height="6" patternUnits="userSpaceOnUse">
                    <rect class="pail-ground" width="6" height="6" />
                    <path class="pail-line" d="M0 0H6" />
                </pattern>
                <pattern id="pail-crossed" width="8" height="8" patternUnits="userSpaceOnUse">
                    <rect class="pail-ground" width="8" height="8" />
                    <path class="pail-line" d="M0 0L8 8M8 0L0 8" />
                </pattern>
            </defs>
        </svg>
    }
}

/// Where a pail stands in a drawing, and how large a millimetre is there.
#[derive(Clone, Copy, Debug)]
struct Stand {
    centre: f64,
    floor: f64,
    scale: f64,
    bottom: f64,
    top: f64,
    height: f64,
}

fn mm(length: Length) -> f64 {
    length.get::<unit::millimeter>()
}

impl Stand {
    fn new(vessel: &Vessel, centre: f64, floor: f64, scale: f64) -> Self {
        let (bottom, top, height) = (mm(vessel.bottom()), mm(vessel.top()), mm(vessel.height()));
        Self { centre, floor, scale, bottom, top, height }
    }

    /// Half the width of the pail at a height.
    fn half(&self, z: f64) -> f64 {
        0.5 * self.scale * (self.bottom + (self.top - self.bottom) * z / self.height)
    }

    fn y(&self, z: f64) -> f64 {
        self.floor - self.scale * z
    }

    /// The side view between two heights: from the upper left corner down, across and up.
    fn outline(&self, low: f64, high: f64) -> String {
        let corner = |side: f64, z: f64| {
            format!("{:.1} {:.1}", self.centre + side * self.half(z), self.y(z))
        };
        let (left, right) = (-1.0, 1.0);
        format!(
            "M{}L{}L{}L{}",
            corner(left, high),
            corner(left, low),
            corner(right, low),
            corner(right, high)
        )
    }

    /// The pail with its layers.
    fn draw(&self, layers: &[Layer]) -> impl IntoView + use<> {
        let shapes = layers.iter().map(|layer| {
            let shape = format!("{}Z", self.outline(layer.bottom, layer.top));
            view! { <path d=shape fill=layer.fill.paint() /> }
        });
        let outline = self.outline(0.0, self.height);
        view! {
            {shapes.collect_view()}
            <path class="pail-outline" d=outline />
        }
    }

    /// A line from each layer's top to its text, the texts kept apart.
    fn marks(&self, layers: &[Layer]) -> impl IntoView + use<> {
        let wanted = layers.iter().map(|layer| self.y(layer.top)).collect();
        let named = |(layer, _): &(&Layer, f64)| !layer.text.is_empty();
        let texts = layers.iter().zip(spread(wanted, self.floor)).filter(named);
        let marks = texts.map(|(layer, text_y)| {
            let (half, y) = (self.half(layer.top), self.y(layer.top));
            let right = self.centre + half;
            let lead = format!(
                "M{:.1} {y:.1}H{right:.1}L{:.1} {text_y:.1}H{:.1}",
                self.centre - half,
                right + 10.0,
                right + 14.0
            );
            view! {
                <path class="pail-mark" d=lead />
                <text class="pail-reading" x=right + 16.0 y=text_y + 6.0>{layer.text.clone()}</text>
            }
        });
        marks.collect_view()
    }
}

/// Width of a drawing, and the least height a pail stands on.
const WIDTH: f64 = 330.0;
/// The highest a text may stand.
const TOP: f64 = 12.0;
/// Room for one text.
const LINE: f64 = 22.0;

/// One scale for both directions, so that a pail fits a width and a height.
fn scale_for(vessel: &Vessel, width: f64, height: f64) -> f64 {
    (width / mm(vessel.top())).min(height / mm(vessel.height()))
}

/// The pail with its layers.
pub(crate) fn pail(vessel: &Vessel, layers: &[Layer], title: String) -> impl IntoView + use<> {
    let scale = scale_for(vessel, 150.0, 170.0);
    // As high as the pail is drawn, or as its texts need.
    let texts = TOP + LINE * layers.len() as f64;
    let floor = (scale * mm(vessel.height()) + 8.0).max(texts);
    let stand = Stand::new(vessel, 82.0, floor, scale);
    let box_of = format!("0 0 {WIDTH} {:.0}", floor + 6.0);
    view! {
        <svg class="pail" viewBox=box_of role="img" aria-label=title>
            {stand.draw(layers)}
            {stand.marks(layers)}
        </svg>
    }
}

/// A pail as one of two.
pub(crate) struct Shown<'a> {
    /// The pail to draw, which gives its shape and scale.
    pub(crate) vessel: &'a Vessel,
    /// What is in it.
    pub(crate) layers: &'a [Layer],
    /// What stands under it.
    pub(crate) caption: String,
}

/// Two pails side by side to one scale, an arrow from the first to the second.
pub(crate) fn before_and_after(
    before: &Shown,
    after: &Shown,
    title: String,
) -> impl IntoView + use<> {
    let scale = scale_for(before.vessel, 84.0, 150.0).min(scale_for(after.vessel, 84.0, 150.0));
    let tallest = mm(before.vessel.height()).max(mm(after.vessel.height()));
    let most = before.layers.len().max(after.layers.len());
    let floor = (scale * tallest + 8.0).max(TOP + LINE * most as f64);
    let one = |shown: &Shown, centre: f64| {
        let stand = Stand::new(shown.vessel, centre, floor, scale);
        view! {
            {stand.draw(shown.layers)}
            {stand.marks(shown.layers)}
            <text class="pail-caption" x=centre y=floor + 18.0>{shown.caption.clone()}</text>
        }
    };
    let box_of = format!("0 0 {WIDTH} {:.0}", floor + 26.0);
    let arrow = format!("M148 {0:.0}h22m-7 -6l7 6l-7 6", floor - 20.0);
    view! {
        <svg class="pail" viewBox=box_of role="img" aria-label=title>
            {one(before, 50.0)}
            <path class="pail-arrow" d=arrow />
            {one(after, 226.0)}
        </svg>
    }
}

/// Moves texts that stand closer than a line apart, upward, each no further than it must.
fn spread(wanted: Vec<f64>, floor: f64) -> Vec<f64> {
    let mut placed = wanted;
    for y in &mut placed {
        *y = y.clamp(TOP, floor - 6.0);
    }
    for i in 1..placed.len() {
        placed[i] = placed[i].min(placed[i - 1] - LINE);
    }
    // Pushed out at the top: all move down together.
    let over = TOP - placed.last().copied().unwrap_or(TOP);
    if over > 0.0 {
        for y in &mut placed {
            *y += over;
        }
    }
    placed
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_never_stand_on_each_other() {
        for wanted in [vec![150.0, 149.0, 120.0], vec![90.0, 85.0, 80.0, 75.0], vec![150.0]] {
            let placed = spread(wanted, 162.0);
            assert!(placed.windows(2).all(|pair| pair[0] - pair[1] >= LINE - 1e-9), "{placed:?}");
            assert!(placed.iter().all(|y| (TOP - 1e-9..=162.0).contains(y)), "{placed:?}");
        }
    }

    #[test]
    fn a_pail_is_drawn_to_one_scale() {
        let cm = Length::new::<unit::centimeter>;
        for (bottom, top, height) in [(20.0, 22.0, 60.0), (45.0, 46.0, 12.0), (12.0, 30.0, 25.0)] {
            let vessel = Vessel::new(cm(bottom), cm(top), cm(height)).expect("in range");
            let scale = scale_for(&vessel, 150.0, 170.0);
            let stand = Stand::new(&vessel, 82.0, 180.0, scale);
            let drawn = 2.0 * stand.half(stand.height) / (stand.floor - stand.y(stand.height));
            assert!((drawn - top / height).abs() < 1e-9 && stand.half(stand.height) <= 75.0 + 1e-9);
        }
    }
}
