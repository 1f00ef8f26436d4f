//! The pail, drawn to scale with a mark for each pour.

use leptos::prelude::*;
use pailwise_calc::quantity::unit;
use pailwise_calc::vessel::Vessel;

/// How a layer is filled, so that parts are told apart without colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fill {
    /// Slanted lines: part A.
    Hatched,
    /// Dots: the parts after A.
    Dotted,
    /// Plain: an additive.
    Solid,
}

/// One pour in the pail.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Layer {
    /// How it is filled.
    pub(crate) fill: Fill,
    /// Its letter.
    pub(crate) letter: String,
    /// Height of its underside, mm.
    pub(crate) bottom: f64,
    /// Height of its top, mm.
    pub(crate) top: f64,
    /// What to read there.
    pub(crate) reading: String,
}

/// Size of the drawing; the pail stands left, the readings right of it.
const WIDTH: f64 = 330.0;
const HEIGHT: f64 = 168.0;
const CENTRE: f64 = 82.0;
const FLOOR: f64 = 162.0;
/// The highest a reading may stand.
const TOP: f64 = 12.0;
/// Room for one reading.
const LINE: f64 = 22.0;

/// The pail with its layers.
pub(crate) fn pail(vessel: &Vessel, layers: &[Layer], title: String) -> impl IntoView + use<> {
    let mm = |length: pailwise_calc::quantity::Length| length.get::<unit::millimeter>();
    let (bottom, top, height) = (mm(vessel.bottom()), mm(vessel.top()), mm(vessel.height()));
    // One scale for both directions.
    let scale = (150.0 / top).min(156.0 / height);
    let half = move |z: f64| 0.5 * scale * (bottom + (top - bottom) * z / height);
    let y = move |z: f64| FLOOR - scale * z;
    let outline = format!(
        "M{} {}L{} {}L{} {}L{} {}",
        CENTRE - half(height),
        y(height),
        CENTRE - half(0.0),
        FLOOR,
        CENTRE + half(0.0),
        FLOOR,
        CENTRE + half(height),
        y(height),
    );
    let shapes = layers.iter().map(|layer| {
        let (low, high) = (layer.bottom, layer.top);
        let shape = format!(
            "M{} {}L{} {}L{} {}L{} {}Z",
            CENTRE - half(high),
            y(high),
            CENTRE - half(low),
            y(low),
            CENTRE + half(low),
            y(low),
            CENTRE + half(high),
            y(high),
        );
        let fill = match layer.fill {
            Fill::Hatched => "url(#pail-hatched)",
            Fill::Dotted => "url(#pail-dotted)",
            Fill::Solid => "currentColor",
        };
        view! { <path class="pail-layer" d=shape fill=fill /> }
    });
    let labels = spread(layers.iter().map(|layer| y(layer.top)).collect());
    let marks = layers.iter().zip(labels).map(|(layer, label_y)| {
        let (x, mark_y) = (CENTRE + half(layer.top), y(layer.top));
        let lead = format!(
            "M{} {mark_y}H{x}L{} {label_y}H{}",
            CENTRE - half(layer.top),
            x + 12.0,
            x + 16.0
        );
        let text = format!("{} {}", layer.letter, layer.reading);
        view! {
            <path class="pail-mark" d=lead />
            <text class="pail-reading" x=x + 18.0 y=label_y + 6.0>{text}</text>
        }
    });
    let box_of = format!("0 0 {WIDTH} {HEIGHT}");
    view! {
        <svg class="pail" viewBox=box_of role="img" aria-label=title>
            <defs>
                <pattern id="pail-hatched" width="6" height="6" patternUnits="userSpaceOnUse"
                    patternTransform="rotate(45)">
                    <rect class="pail-ground" width="6" height="6" />
                    <path class="pail-line" d="M0 0V6" />
                </pattern>
                <pattern id="pail-dotted" width="6" height="6" patternUnits="userSpaceOnUse">
                    <rect class="pail-ground" width="6" height="6" />
                    <circle class="pail-dot" cx="3" cy="3" r="1.2" />
                </pattern>
            </defs>
            {shapes.collect_view()}
            <path class="pail-outline" d=outline />
            {marks.collect_view()}
        </svg>
    }
}

/// Moves labels that stand closer than a line apart, upward, each no further than it must.
fn spread(wanted: Vec<f64>) -> Vec<f64> {
    let mut placed = wanted;
    for y in &mut placed {
        *y = y.clamp(TOP, FLOOR - 6.0);
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
    fn labels_never_stand_on_each_other() {
        for wanted in [vec![150.0, 149.0, 120.0], vec![90.0, 85.0, 80.0, 75.0], vec![150.0]] {
            let placed = spread(wanted);
            assert!(placed.windows(2).all(|pair| pair[0] - pair[1] >= LINE - 1e-9), "{placed:?}");
            assert!(placed.iter().all(|y| (TOP - 1e-9..=FLOOR).contains(y)), "{placed:?}");
        }
    }
}
