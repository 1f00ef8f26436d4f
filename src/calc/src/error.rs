//! What can be wrong with an input, as data: the app says it in the reader's language and units.

use crate::field::Field;
use crate::quantity::{Figure, Length, ThermodynamicTemperature, Volume};

/// Why there is no answer. Names the field, what was given and what is allowed.
///
/// `Display` is one English line for the command line.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// Something that is not a finite number.
    #[error("{}: not a number", field.key())]
    NotANumber {
        /// The input that is not a finite number.
        field: Field,
    },
    /// A number outside what makes sense.
    #[error("{}: {given} is outside {low} to {high}", field.key())]
    OutOfRange {
        /// The input that is out of its range.
        field: Field,
        /// The value that was given, with its kind of quantity.
        given: Figure,
        /// The smallest value allowed for this input.
        low: Figure,
        /// The largest value allowed for this input.
        high: Figure,
    },
    /// An input the calculation cannot do without.
    #[error("{}: missing", field.key())]
    Missing {
        /// The input that has to be given.
        field: Field,
    },
    /// Two inputs that say the same thing twice, or an additive put onto a part that is not there.
    #[error("{}: contradicts {}", field.key(), other.key())]
    Contradiction {
        /// The input that contradicts another one.
        field: Field,
        /// The input that it contradicts, which can be of the same kind.
        other: Field,
    },
    /// A least that is above its most.
    #[error("{}: {least} is above {}: {most}", field.key(), other.key())]
    LeastAboveMost {
        /// The input that gives the lower limit.
        field: Field,
        /// The input that gives the upper limit.
        other: Field,
        /// What the least is.
        least: Figure,
        /// What the most is.
        most: Figure,
    },
    /// A text that is empty or too long.
    #[error("{}: must have {least} to {most} characters", field.key())]
    TextLength {
        /// The text that is too short or too long.
        field: Field,
        /// The fewest characters that the text may have.
        least: usize,
        /// The most characters that the text may have.
        most: usize,
    },
    /// A text with a sign that does not belong there, such as one that hides others.
    #[error("{}: the sign U+{sign:04X} may not stand there", field.key())]
    TextSign {
        /// The text that has a sign which is not allowed.
        field: Field,
        /// Its number in Unicode.
        sign: u32,
    },
    /// A moment or a currency that is not written as the format asks.
    #[error("{}: cannot be read", field.key())]
    Unreadable {
        /// The input that is not written as its format asks.
        field: Field,
    },
    /// The jug, stick or scale is too coarse to hold the ratio on so little material.
    #[error(
        "measure: the step is too coarse to hold the ratio; the smallest batch that works is {}",
        Figure::from(*smallest)
    )]
    TooCoarse {
        /// The smallest batch this measure can hold on ratio.
        smallest: Volume,
    },
    /// No batch is large enough for this measure to hold the ratio.
    #[error("measure: the step is too coarse to hold the ratio, however much is mixed")]
    NotMeasurable,
    /// The vessel cannot hold what is asked of it.
    #[error("vessel: {} does not fit, it holds {}", Figure::from(*asked), Figure::from(*holds))]
    DoesNotFit {
        /// The volume asked for.
        asked: Volume,
        /// The volume it holds.
        holds: Volume,
    },
    /// A pail whose rim is narrower than its bottom: most likely the two are swapped.
    #[error("vessel: {} at the rim is narrower than {} at the bottom",
        Figure::from(*top), Figure::from(*bottom))]
    NarrowsUpward {
        /// Inside diameter of the pail at its rim.
        top: Length,
        /// Inside diameter of the pail at its bottom.
        bottom: Length,
    },
    /// Only kits are mixed, and not even the smallest portion of one may be.
    #[error("kits: the smallest portion is {}, at most {} can be mixed now",
        Figure::from(*portion), Figure::from(*most))]
    KitTooLarge {
        /// Volume of the smallest portion of a kit that the rule allows.
        portion: Volume,
        /// The most that may be mixed.
        most: Volume,
    },
    /// A reading below the one before it in the same pail.
    #[error("poured: a reading of {given} is below the {before} before it")]
    ReadingFalls {
        /// The reading that is lower than the one before it.
        given: Figure,
        /// What was there before.
        before: Figure,
    },
    /// A coldest hour that is not colder than the warmest.
    #[error("course: the coldest, {}, is not below the warmest, {}",
        Figure::from(*low), Figure::from(*high))]
    ColdestAboveWarmest {
        /// Air temperature given for the coldest hour.
        low: ThermodynamicTemperature,
        /// Air temperature given for the warmest hour.
        high: ThermodynamicTemperature,
    },
    /// A plan without any floor.
    #[error("flat: no floor is left")]
    NoFloor,
    /// A plan of pieces that do not touch along a side.
    #[error(
        "flat: the piece that begins {} from the back wall and {} from the left does not touch the \
         rest along a side; plan each as a floor of its own",
        Figure::from(*.back), Figure::from(*.left)
    )]
    FloorApart {
        /// Where one begins that does not: its distance from the left wall.
        left: Length,
        /// And from the back wall.
        back: Length,
    },
    /// A cut-out where there is no floor.
    #[error("cut_out[{index}]: lies outside the floor, and cuts nothing")]
    CutsNothing {
        /// Which one, counted from 0.
        index: usize,
    },
    /// The calculation did not settle; never expected, never hidden.
    #[error("the calculation did not settle")]
    NoSolution,
}

impl Error {
    /// The input it is about, where it is about one.
    pub fn field(&self) -> Option<Field> {
        match self {
            Self::NotANumber { field }
            | Self::OutOfRange { field, .. }
            | Self::Missing { field }
            | Self::Contradiction { field, .. }
            | Self::TextLength { field, .. }
            | Self::TextSign { field, .. }
            | Self::Unreadable { field }
            | Self::LeastAboveMost { field, .. } => Some(*field),
            _ => None,
        }
    }
}
