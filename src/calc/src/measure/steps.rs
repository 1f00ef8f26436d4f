//! The steps that jugs, sticks and scales commonly have (common practice, no source), by name.

use serde::{Deserialize, Serialize};

use super::Measure;
use crate::quantity::{Length, Mass, Volume, unit};
use crate::record::MeasureRecord;
use crate::vessel::Vessel;

/// From one mark of a jug to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum JugMark {
    /// A US fluid ounce.
    FluidOunce,
    /// A quarter of a US quart: half a pint, a cup.
    QuarterQuart,
    /// A US pint: half a quart.
    Pint,
    /// A jug marked every US quart.
    Quart,
    /// A jug marked every 10 mL.
    TenMilliliters,
    /// A jug marked every 50 mL.
    FiftyMilliliters,
    /// A tenth of a litre.
    TenthLiter,
    /// A quarter of a litre.
    QuarterLiter,
    /// A jug marked every half litre.
    HalfLiter,
}

impl JugMark {
    /// Every one, US ones first, finest first.
    pub const ALL: [Self; 9] = [
        Self::FluidOunce,
        Self::QuarterQuart,
        Self::Pint,
        Self::Quart,
        Self::TenMilliliters,
        Self::FiftyMilliliters,
        Self::TenthLiter,
        Self::QuarterLiter,
        Self::HalfLiter,
    ];

    /// The volume from one mark of the jug to the next.
    pub fn step(self) -> Volume {
        let quarts = Volume::new::<unit::quart_liquid>;
        let liters = Volume::new::<unit::liter>;
        match self {
            Self::FluidOunce => Volume::new::<unit::fluid_ounce>(1.0),
            Self::QuarterQuart => quarts(0.25),
            Self::Pint => quarts(0.5),
            Self::Quart => quarts(1.0),
            Self::TenMilliliters => liters(0.01),
            Self::FiftyMilliliters => liters(0.05),
            Self::TenthLiter => liters(0.1),
            Self::QuarterLiter => liters(0.25),
            Self::HalfLiter => liters(0.5),
        }
    }
}

/// How finely a mark on a stick can be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StickMark {
    /// A sixteenth of an inch.
    SixteenthInch,
    /// An eighth of an inch.
    EighthInch,
    /// A quarter of an inch.
    QuarterInch,
    /// A mark on the stick placed to the nearest 1 mm.
    Millimeter,
    /// A mark on the stick placed to the nearest 5 mm.
    FiveMillimeters,
}

impl StickMark {
    /// Every one, US ones first, finest first.
    pub const ALL: [Self; 5] = [
        Self::SixteenthInch,
        Self::EighthInch,
        Self::QuarterInch,
        Self::Millimeter,
        Self::FiveMillimeters,
    ];

    /// The length that a mark on the stick is rounded to.
    pub fn step(self) -> Length {
        let inches = Length::new::<unit::inch>;
        let millimeters = Length::new::<unit::millimeter>;
        match self {
            Self::SixteenthInch => inches(0.0625),
            Self::EighthInch => inches(0.125),
            Self::QuarterInch => inches(0.25),
            Self::Millimeter => millimeters(1.0),
            Self::FiveMillimeters => millimeters(5.0),
        }
    }
}

/// What a scale counts in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ScaleMark {
    /// A tenth of an ounce.
    TenthOunce,
    /// A scale that shows steps of half an ounce.
    HalfOunce,
    /// A hundredth of a pound.
    HundredthPound,
    /// A twentieth of a pound.
    TwentiethPound,
    /// A scale that shows steps of 1 g.
    Gram,
    /// A scale that shows steps of 5 g.
    FiveGrams,
    /// A scale that shows steps of 10 g.
    TenGrams,
    /// A scale that shows steps of 50 g.
    FiftyGrams,
}

impl ScaleMark {
    /// Every one, US ones first.
    pub const ALL: [Self; 8] = [
        Self::TenthOunce,
        Self::HalfOunce,
        Self::HundredthPound,
        Self::TwentiethPound,
        Self::Gram,
        Self::FiveGrams,
        Self::TenGrams,
        Self::FiftyGrams,
    ];

    /// The mass by which the scale's display goes up.
    pub fn step(self) -> Mass {
        let ounces = Mass::new::<unit::ounce>;
        let pounds = Mass::new::<unit::pound>;
        let grams = Mass::new::<unit::gram>;
        match self {
            Self::TenthOunce => ounces(0.1),
            Self::HalfOunce => ounces(0.5),
            Self::HundredthPound => pounds(0.01),
            Self::TwentiethPound => pounds(0.05),
            Self::Gram => grams(1.0),
            Self::FiveGrams => grams(5.0),
            Self::TenGrams => grams(10.0),
            Self::FiftyGrams => grams(50.0),
        }
    }
}

/// A way to measure with its step, by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Mark {
    /// Each part is poured to a mark in a jug.
    Jug(JugMark),
    /// To a mark on a stick.
    Stick(StickMark),
    /// All parts are weighed into one pail on a scale.
    Scale(ScaleMark),
}

impl Mark {
    /// The measure this is, with the pail that a stick stands in.
    ///
    /// ```
    /// use pailwise_calc::measure::{Measure, steps::{Mark, ScaleMark}};
    /// use pailwise_calc::{quantity::{Mass, unit}, vessel::Generic};
    /// let scale = Mark::Scale(ScaleMark::HundredthPound).measure(Generic::FiveGallon.vessel());
    /// // 1 lb = 0.453 592 37 kg (NIST Handbook 44, appendix C).
    /// let step = Mass::new::<unit::gram>(4.535_923_7);
    /// assert!(matches!(scale, Measure::Scale { step: s } if (s - step).value.abs() < 1e-15));
    /// ```
    pub fn measure(self, vessel: Vessel) -> Measure {
        match self {
            Self::Jug(mark) => Measure::Jug { step: mark.step() },
            Self::Stick(mark) => Measure::Stick { vessel, step: mark.step() },
            Self::Scale(mark) => Measure::Scale { step: mark.step() },
        }
    }
}

impl Mark {
    /// The way and step that a measure is written down as, where it is one of these.
    ///
    /// ```
    /// use pailwise_calc::{measure::steps::{JugMark, Mark}, record::MeasureRecord};
    /// let jug = Mark::of(&MeasureRecord::Jug { jug_step_ml: 236.588_236_5 });
    /// assert_eq!(jug, Some(Mark::Jug(JugMark::QuarterQuart)));
    /// assert_eq!(Mark::of(&MeasureRecord::Scale { scale_step_g: 3.0 }), None);
    /// ```
    pub fn of(record: &MeasureRecord) -> Option<Self> {
        let close = |a: f64, b: f64| (a - b).abs() <= 1e-9 * b.abs();
        let jugs = || JugMark::ALL.into_iter().map(Self::Jug);
        let sticks = || StickMark::ALL.into_iter().map(Self::Stick);
        let scales = || ScaleMark::ALL.into_iter().map(Self::Scale);
        jugs().chain(sticks()).chain(scales()).find(|mark| {
            match (MeasureRecord::from(*mark), record) {
                (
                    MeasureRecord::Jug { jug_step_ml: step },
                    MeasureRecord::Jug { jug_step_ml: given },
                )
                | (
                    MeasureRecord::Stick { mark_step_mm: step },
                    MeasureRecord::Stick { mark_step_mm: given },
                )
                | (
                    MeasureRecord::Scale { scale_step_g: step },
                    MeasureRecord::Scale { scale_step_g: given },
                ) => close(*given, step),
                _ => false,
            }
        })
    }
}

impl From<Mark> for MeasureRecord {
    /// The measure as it is written down.
    fn from(mark: Mark) -> Self {
        match mark {
            Mark::Jug(mark) => Self::Jug { jug_step_ml: mark.step().get::<unit::milliliter>() },
            Mark::Stick(mark) => {
                Self::Stick { mark_step_mm: mark.step().get::<unit::millimeter>() }
            }
            Mark::Scale(mark) => Self::Scale { scale_step_g: mark.step().get::<unit::gram>() },
        }
    }
}
