//! What a crew mixes in and measures with, as it is kept.

use pailwise_calc::measure::steps::{JugMark, Mark, ScaleMark, StickMark};
use pailwise_calc::measure::{Measure, Measured};
use pailwise_calc::vessel::Generic;
use serde::{Deserialize, Serialize};

use crate::units::Units;

/// How the crew measures.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Parts are poured into a jug and read on its marks.
    #[default]
    Jug,
    /// To marks on a stick.
    Stick,
    /// Parts are weighed as they are poured, on a scale.
    Scale,
}

/// A finer measure that is here, for small batches.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Finer {
    /// The crew has no finer measure than its usual one.
    Nothing,
    /// A cup with fine marks.
    #[default]
    Cup,
    /// A small scale that weighs in steps of a gram.
    SmallScale,
}

impl Finer {
    /// Returns the step it is read in, or `None` without a finer measure.
    pub(super) fn mark(self, units: Units) -> Option<Mark> {
        let us = units == Units::Us;
        match self {
            Self::Nothing => None,
            Self::Cup => {
                Some(Mark::Jug(if us { JugMark::FluidOunce } else { JugMark::TenMilliliters }))
            }
            // They count in grams wherever they are sold.
            Self::SmallScale => Some(Mark::Scale(ScaleMark::Gram)),
        }
    }
}

/// The steps in which a crew reads: of its usual measure, and of a finer one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ReadIn {
    /// What is measured with.
    pub usual: Mark,
    /// What is measured with where that is too coarse.
    pub finer: Option<Mark>,
}

impl ReadIn {
    /// The steps in which a batch is read.
    pub fn of(self, measured: &Measured) -> Mark {
        let by = |mark: &Mark| match (mark, measured.by) {
            (Mark::Jug(jug), Measure::Jug { step }) => jug.step() == step,
            (Mark::Scale(scale), Measure::Scale { step }) => scale.step() == step,
            (Mark::Stick(_), Measure::Stick { .. }) => true,
            _ => false,
        };
        self.finer.filter(|finer| by(finer) && !by(&self.usual)).unwrap_or(self.usual)
    }
}

impl Way {
    /// The way that has such steps.
    pub fn of(mark: Mark) -> Self {
        match mark {
            Mark::Jug(_) => Self::Jug,
            Mark::Stick(_) => Self::Stick,
            Mark::Scale(_) => Self::Scale,
        }
    }
}

/// The pail mixed in: one of the generic ones, or the crew's own by its measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is the pail of that name")]
pub enum PailPick {
    FiveQuart,
    TwoGallon,
    FiveGallon,
    Own,
}

impl PailPick {
    /// All of them, smallest first.
    pub const ALL: [Self; 4] = [Self::FiveQuart, Self::TwoGallon, Self::FiveGallon, Self::Own];

    /// The generic pail it is, if it is one.
    pub fn generic(self) -> Option<Generic> {
        match self {
            Self::FiveQuart => Some(Generic::FiveQuart),
            Self::TwoGallon => Some(Generic::TwoGallon),
            Self::FiveGallon => Some(Generic::FiveGallon),
            Self::Own => None,
        }
    }
}

/// The steps of jug, stick and scale, where one was chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct MarksRecord {
    /// From one mark of the jug to the next.
    pub jug: Option<JugMark>,
    /// How finely a mark on the stick can be made.
    pub stick: Option<StickMark>,
    /// What the scale counts in.
    pub scale: Option<ScaleMark>,
}

impl MarksRecord {
    /// The step of a way to measure: the one chosen, or the usual one of the person's units.
    pub fn mark(self, way: Way, units: Units) -> Mark {
        let us = units == Units::Us;
        let (jug, stick, scale) = if us {
            (JugMark::QuarterQuart, StickMark::SixteenthInch, ScaleMark::HundredthPound)
        } else {
            (JugMark::TenthLiter, StickMark::Millimeter, ScaleMark::FiveGrams)
        };
        match way {
            Way::Jug => Mark::Jug(self.jug.unwrap_or(jug)),
            Way::Stick => Mark::Stick(self.stick.unwrap_or(stick)),
            Way::Scale => Mark::Scale(self.scale.unwrap_or(scale)),
        }
    }

    /// The steps of the same kind, a chosen one in place of the one before.
    pub fn choose(&mut self, mark: Mark) {
        match mark {
            Mark::Jug(mark) => self.jug = Some(mark),
            Mark::Stick(mark) => self.stick = Some(mark),
            Mark::Scale(mark) => self.scale = Some(mark),
        }
    }
}
