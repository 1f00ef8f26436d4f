//! What batches that are done took together.

use crate::quantity::{Area, Figure, Volume, unit};
use crate::working::{Sentence, Source, Step};

/// Batches of one product, added up.
///
/// ```
/// use pailwise_calc::quantity::{Area, Volume, unit};
/// use pailwise_calc::tally::Tally;
/// let (liters, square) = (Volume::new::<unit::liter>, Area::new::<unit::square_meter>);
/// let mut tally = Tally::default();
/// tally.add(liters(4.0), square(10.0));
/// // Thrown away: mixed, and nothing laid.
/// tally.add(liters(1.0), square(0.0));
/// assert_eq!((tally.batches(), tally.spread()), (2, Some(2.0)));
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Tally {
    batches: u32,
    mixed: Volume,
    laid: Area,
}

impl Tally {
    /// One more batch: what was mixed of it, and what it covered.
    pub fn add(&mut self, mixed: Volume, laid: Area) {
        self.batches += 1;
        self.mixed += mixed;
        self.laid += laid;
    }

    /// Returns how many batches were added up, those thrown away included.
    pub fn batches(&self) -> u32 {
        self.batches
    }

    /// Returns the volume of all that was mixed, what was thrown away included.
    pub fn mixed(&self) -> Volume {
        self.mixed
    }

    /// Returns the area that all the batches together covered.
    pub fn laid(&self) -> Area {
        self.laid
    }

    /// How far it went, in square metres a litre of all that was mixed, what was thrown away
    /// included; `None` where nothing was.
    pub fn spread(&self) -> Option<f64> {
        let liters = self.mixed.get::<unit::liter>();
        (liters > 0.0).then(|| self.laid.get::<unit::square_meter>() / liters)
    }

    /// The steps to both.
    ///
    /// ```
    /// use pailwise_calc::quantity::{Area, Figure, Volume, unit};
    /// use pailwise_calc::tally::Tally;
    /// let mut tally = Tally::default();
    /// tally.add(Volume::new::<unit::liter>(4.0), Area::new::<unit::square_meter>(10.0));
    /// assert_eq!(tally.explain()[1].figures[2], Figure::SpreadRate(2.5));
    /// ```
    pub fn explain(&self) -> Vec<Step> {
        let figures = vec![self.batches.into(), self.mixed.into()];
        let mixed = Step::new(Sentence::LogMixed, Source::Arithmetic, figures);
        let spread = self.spread().map(|spread| {
            let figures = vec![self.laid.into(), self.mixed.into(), Figure::SpreadRate(spread)];
            Step::new(Sentence::LogSpread, Source::Arithmetic, figures)
        });
        [mixed].into_iter().chain(spread).collect()
    }
}
