//! Flake: what an area takes, in boxes, and band by band what is left of it.

use crate::quantity::{Area, Figure, Mass, unit};
use crate::working::{Sentence, Source, Step};

/// How thickly flake is thrown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Cover {
    /// A scatter with much of the base showing.
    Light,
    /// A scatter with a little of it showing.
    Medium,
    /// As much as the film takes.
    Full,
}

impl Cover {
    /// Every thickness of cover, from the lightest to the fullest.
    pub const ALL: [Self; 3] = [Self::Light, Self::Medium, Self::Full];

    /// Kilograms a square metre: 0.06, 0.10 and 0.20 lb/ft², the upper end of what is usual for
    /// quarter-inch flake (common practice, no source).
    pub fn kg_per_m2(self) -> f64 {
        let pounds = match self {
            Self::Light => 0.06,
            Self::Medium => 0.10,
            Self::Full => 0.20,
        };
        let pound = Mass::new::<unit::pound>(pounds).get::<unit::kilogram>();
        pound / Area::new::<unit::square_foot>(1.0).get::<unit::square_meter>()
    }
}

/// The flake an area takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Flake {
    /// Weight of the flake that the area takes.
    pub mass: Mass,
    /// In how many boxes it comes.
    pub boxes: u32,
    /// How that came about.
    pub working: Vec<Step>,
}

/// The flake an area takes at so many kilograms a square metre, in boxes of a weight.
///
/// ```
/// use pailwise_calc::flake::{flake, Cover};
/// use pailwise_calc::quantity::{unit, Area, Mass};
/// // 400 sq ft at 0.10 lb/sq ft are 40 lb: two boxes of 25 lb.
/// let area = Area::new::<unit::square_foot>(400.0);
/// let flake = flake(area, Cover::Medium.kg_per_m2(), Mass::new::<unit::pound>(25.0));
/// assert!((flake.mass.get::<unit::pound>() - 40.0).abs() < 1e-9);
/// assert_eq!(flake.boxes, 2);
/// ```
pub fn flake(area: Area, kg_per_m2: f64, each: Mass) -> Flake {
    let mass = thrown(area, kg_per_m2);
    let boxes = boxes(mass, each);
    let figures = vec![area.into(), Figure::Cover(kg_per_m2), mass.into()];
    let needs = Step::new(Sentence::FlakeNeeds, Source::Entered, figures);
    let figures = vec![mass.into(), each.into(), boxes.into()];
    let working = vec![needs, Step::new(Sentence::FlakeBoxes, Source::Arithmetic, figures)];
    Flake { mass, boxes, working }
}

/// Boxes of a weight that hold so much.
pub fn boxes(mass: Mass, each: Mass) -> u32 {
    ((mass / each).value * (1.0 - 1e-9)).ceil().clamp(0.0, 1e6) as u32
}

/// What is thrown onto an area.
fn thrown(area: Area, kg_per_m2: f64) -> Mass {
    Mass::new::<unit::kilogram>(area.get::<unit::square_meter>() * kg_per_m2)
}

/// The flake of one batch's band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Weight of the flake that the band asks for.
    pub mass: Mass,
    /// What is left after it of what is here.
    pub left: Mass,
    /// How thickly that lies on the rest of the floor, kg/m²; nothing after the last band.
    pub for_rest: Option<f64>,
    /// There is less for it than was asked for: from this band on it shows.
    pub short: bool,
}

/// The flake of each band in turn, of so much that is here.
///
/// `for_rest = left / area still bare`: while that is no less than what is asked for, there is
/// enough. A band that finds less than it asks for takes what there is.
///
/// ```
/// use pailwise_calc::flake::bands;
/// use pailwise_calc::quantity::{unit, Area, Mass};
/// let m2 = Area::new::<unit::square_meter>;
/// let kg = Mass::new::<unit::kilogram>;
/// // Two bands of 10 m² at 1 kg/m², and only 15 kg: the second gets half of what it asks for.
/// let bands = bands(&[m2(10.0), m2(10.0)], 1.0, kg(15.0));
/// assert_eq!((bands[0].left, bands[0].for_rest, bands[0].short), (kg(5.0), Some(0.5), false));
/// assert_eq!((bands[1].mass, bands[1].left, bands[1].short), (kg(10.0), kg(0.0), true));
/// ```
pub fn bands(areas: &[Area], kg_per_m2: f64, here: Mass) -> Vec<Band> {
    let mut left = here;
    let mut rest: Area = areas.iter().copied().sum();
    let each = areas.iter().map(|area| {
        let mass = thrown(*area, kg_per_m2);
        let short = mass > left * (1.0 + 1e-9);
        left = (left - mass).max(Mass::default());
        rest -= *area;
        let bare = rest.get::<unit::square_meter>();
        let for_rest = (bare > 1e-6).then(|| left.get::<unit::kilogram>() / bare);
        Band { mass, left, for_rest, short }
    });
    each.collect()
}

/// Whether what is left falls short of what is asked for, so early that something can be done: the
/// first band after which it would be too thin.
///
/// ```
/// use pailwise_calc::flake::{bands, runs_short_after};
/// use pailwise_calc::quantity::{unit, Area, Mass};
/// let area = [Area::new::<unit::square_meter>(10.0); 3];
/// let here = |kg| bands(&area, 1.0, Mass::new::<unit::kilogram>(kg));
/// assert_eq!(runs_short_after(&here(30.0), 1.0), None);
/// assert_eq!(runs_short_after(&here(28.0), 1.0), Some(0));
/// ```
pub fn runs_short_after(bands: &[Band], kg_per_m2: f64) -> Option<usize> {
    let thin = |band: &Band| band.for_rest.is_some_and(|rest| rest < kg_per_m2 * (1.0 - 1e-9));
    bands.iter().position(|band| band.short || thin(band))
}
