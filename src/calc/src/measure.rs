//! Turning a split into what a jug, a stick or a scale can really show.
//!
//! The first part is rounded to a step of the measure, and everything after it is worked out from
//! the *rounded* pour before it is rounded itself, so that one rounding never adds to another.
//! What is left of ratio error is part of the answer.

use crate::error::Error;
use crate::quantity::{Figure, Length, Mass, Volume, unit};
use crate::ratio::{Ingredient, Pour, Ratio};
use crate::vessel::Vessel;

/// How a crew measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measure {
    /// Each part in a jug with marks at every `step`.
    Jug {
        /// From one mark to the next.
        step: Volume,
    },
    /// All parts into one pail on a tared scale that shows multiples of `step`.
    Scale {
        /// The scale's resolution.
        step: Mass,
    },
    /// All parts into one pail, each to a mark on a stick standing in it.
    Stick {
        /// The pail.
        vessel: Vessel,
        /// How finely a mark can be made.
        step: Length,
    },
}

/// One pour as it is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredPour {
    /// What and how much.
    pub pour: Pour,
    /// What to read: the jug's volume, the scale's running total, or the height on the stick.
    pub reading: Figure,
}

/// A batch as it is measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// The pours, in order.
    pub pours: Vec<MeasuredPour>,
    /// Mixed volume.
    pub volume: Volume,
    /// Mixed mass.
    pub mass: Mass,
    /// The ratio error that rounding leaves, as a share.
    pub off_by: f64,
}

/// How many steps down (or up) from the wanted amount are weighed against each other.
const CANDIDATES: u32 = 24;

impl Measure {
    /// The largest batch of at most `most` that this measure can show on ratio.
    ///
    /// Among the nearest steps below, a smaller ratio error is weighed against a larger batch:
    /// one tolerance of error counts as much as halving it a little less than once.
    /// A larger `most` never gives a smaller batch.
    ///
    /// # Errors
    /// [`Error::TooCoarse`] with the smallest batch that works; [`Error::DoesNotFit`] when a
    /// stick's pail is too small.
    ///
    /// ```
    /// use pailwise_calc::{demo, measure::Measure, quantity::{Volume, unit}};
    /// let base = demo::base().unwrap(); // 2 A : 1 B by volume
    /// let quarts = Volume::new::<unit::quart_liquid>;
    /// let jug = Measure::Jug { step: quarts(0.5) };
    /// let batch = jug.at_most(base.ratio(), quarts(6.4), base.tolerance()).unwrap();
    /// assert!((batch.volume - quarts(6.0)).abs() < quarts(1e-9)); // 4 qt A, 2 qt B
    /// assert!(batch.off_by.abs() < 1e-12);
    /// ```
    pub fn at_most(&self, ratio: &Ratio, most: Volume, tolerance: f64) -> Result<Measured, Error> {
        let highest = self.steps_of_first(ratio, most)?.floor();
        let below = (0..CANDIDATES)
            .map(|i| highest - f64::from(i))
            .take_while(|steps| *steps >= 1.0)
            .map(|steps| self.batch_of(ratio, steps))
            .filter(|m| !matches!(m, Ok(m) if m.volume > most * (1.0 + 1e-9)));
        match best(below, tolerance, 1.0)? {
            Some(batch) => Ok(batch),
            None => Err(self.too_coarse(ratio, tolerance)),
        }
    }

    /// The smallest batch of at least `least` that this measure can show on ratio.
    ///
    /// # Errors
    /// As [`Measure::at_most`].
    pub fn at_least(
        &self,
        ratio: &Ratio,
        least: Volume,
        tolerance: f64,
    ) -> Result<Measured, Error> {
        let lowest = (self.steps_of_first(ratio, least)? - 1e-6).ceil().max(1.0);
        let above = (0..CANDIDATES)
            .map(|i| self.batch_of(ratio, lowest + f64::from(i)))
            .filter(|m| !matches!(m, Ok(m) if m.volume < least * (1.0 - 1e-9)));
        match best(above, tolerance, -1.0)? {
            Some(batch) => Ok(batch),
            None => Err(self.too_coarse(ratio, tolerance)),
        }
    }

    /// The smallest batch this measure can show on ratio, or the reason there is none.
    ///
    /// # Errors
    /// [`Error::DoesNotFit`] when a stick's pail is full before the ratio can be held.
    pub fn smallest(&self, ratio: &Ratio, tolerance: f64) -> Result<Measured, Error> {
        let mut last = self.batch_of(ratio, 1.0)?;
        for steps in 1..20_000_u32 {
            last = self.batch_of(ratio, f64::from(steps))?;
            if last.off_by.abs() <= tolerance {
                return Ok(last);
            }
        }
        Err(Error::TooCoarse { smallest: last.volume })
    }

    fn too_coarse(&self, ratio: &Ratio, tolerance: f64) -> Error {
        match self.smallest(ratio, tolerance) {
            Ok(batch) => Error::TooCoarse { smallest: batch.volume },
            Err(error) => error,
        }
    }

    /// Steps of the first part in a batch of a mixed volume, not yet rounded.
    fn steps_of_first(&self, ratio: &Ratio, mixed: Volume) -> Result<f64, Error> {
        let (share, density) = ratio.order().first().map_or((0.0, 0.0), |o| (o.1, o.2.value));
        let first = mixed * share;
        let steps = match self {
            Self::Jug { step } => (first / *step).value,
            Self::Scale { step } => first.value * density / step.value,
            Self::Stick { vessel, step } => {
                let height = vessel.height_of(first.min(vessel.capacity()))?;
                (height / *step).value
            }
        };
        // A hair of slack, so that an amount that is a step already is not rounded to the next.
        Ok(steps + 1e-9)
    }

    /// The batch whose first part is so many whole steps.
    fn batch_of(&self, ratio: &Ratio, first_steps: f64) -> Result<Measured, Error> {
        let mut pours = Vec::with_capacity(ratio.order().len());
        let (mut volume, mut mass) = (Volume::default(), Mass::default());
        let mut base = None;
        for &(what, share, density) in ratio.order() {
            // Wanted: in proportion to the first part as it was really rounded.
            let wanted =
                base.map(|(first, first_share): (Volume, f64)| first * (share / first_share));
            let fine = matches!(what, Ingredient::Additive(_));
            let (poured, reading) = match self {
                Self::Jug { .. } | Self::Stick { .. } if fine => {
                    let dose = wanted.unwrap_or_default();
                    (dose, dose.into())
                }
                Self::Jug { step } => {
                    let steps = wanted.map_or(first_steps, |w| (w / *step).value.round());
                    let poured = *step * steps;
                    (poured, poured.into())
                }
                Self::Scale { step } => {
                    let total = |w: Volume| ((mass + w * density) / *step).value.round();
                    let reading = *step * wanted.map_or(first_steps, total);
                    ((reading - mass) / density, reading.into())
                }
                Self::Stick { vessel, step } => {
                    let mark = match wanted {
                        None => *step * first_steps,
                        Some(w) => *step * (vessel.height_of(volume + w)? / *step).value.round(),
                    };
                    if mark > vessel.height() {
                        let holds = vessel.capacity();
                        return Err(Error::DoesNotFit { asked: holds, holds });
                    }
                    (vessel.volume_to(mark) - volume, mark.into())
                }
            };
            base = base.or(Some((poured, share)));
            let pour = Pour { what, volume: poured, mass: poured * density };
            volume += pour.volume;
            mass = match reading {
                Figure::Mass(reading) => reading,
                _ => mass + pour.mass,
            };
            pours.push(MeasuredPour { pour, reading });
        }
        let plain: Vec<Pour> = pours.iter().map(|p| p.pour).collect();
        let off_by = ratio.off_by(&plain).unwrap_or(f64::INFINITY);
        Ok(Measured { pours, volume, mass, off_by })
    }
}

/// The batch within tolerance with the best weight of small error against volume: large volume
/// with a `sense` of 1, small with −1.
///
/// The weight of a batch depends on nothing but itself, which is what keeps a larger allowance
/// from ever leading to a smaller batch.
fn best(
    batches: impl Iterator<Item = Result<Measured, Error>>,
    tolerance: f64,
    sense: f64,
) -> Result<Option<Measured>, Error> {
    let weight = |m: &Measured| 2.0 * sense * m.volume.value.ln() - m.off_by.abs() / tolerance;
    let mut best: Option<Measured> = None;
    for batch in batches {
        let batch = batch?;
        if batch.off_by.abs() <= tolerance
            && best.as_ref().is_none_or(|b| weight(&batch) > weight(b))
        {
            best = Some(batch);
        }
    }
    Ok(best)
}

/// Steps that jugs, sticks and scales commonly have.
pub mod common {
    use super::{Length, Mass, Volume, unit};

    /// A quarter of a US quart.
    pub fn quarter_quart() -> Volume {
        Volume::new::<unit::quart_liquid>(0.25)
    }

    /// A tenth of a litre.
    pub fn tenth_liter() -> Volume {
        Volume::new::<unit::liter>(0.1)
    }

    /// Five grams.
    pub fn five_grams() -> Mass {
        Mass::new::<unit::gram>(5.0)
    }

    /// A tenth of an ounce.
    pub fn tenth_ounce() -> Mass {
        Mass::new::<unit::ounce>(0.1)
    }

    /// An eighth of an inch.
    pub fn eighth_inch() -> Length {
        Length::new::<unit::inch>(0.125)
    }

    /// A millimetre.
    pub fn millimeter() -> Length {
        Length::new::<unit::millimeter>(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::vessel::Generic;

    fn liter(x: f64) -> Volume {
        Volume::new::<unit::liter>(x)
    }

    #[test]
    fn the_scale_shows_running_totals_in_its_own_steps() {
        let base = demo::base().unwrap();
        let step = common::five_grams();
        let batch =
            Measure::Scale { step }.at_most(base.ratio(), liter(5.0), base.tolerance()).unwrap();
        let mut last = 0.0;
        for pour in &batch.pours {
            let Figure::Mass(reading) = pour.reading else { panic!("{:?}", pour.reading) };
            let steps = (reading / step).value;
            assert!((steps - steps.round()).abs() < 1e-9 && reading.value > last);
            last = reading.value;
        }
        assert!((last - batch.mass.value).abs() < 1e-12);
        assert!(batch.volume <= liter(5.0) && batch.volume > liter(4.9));
        assert!(batch.off_by.abs() < 0.01);
    }

    #[test]
    fn marks_on_the_stick_rise_and_hold_the_ratio() {
        let base = demo::base().unwrap();
        let measure =
            Measure::Stick { vessel: Generic::FiveGallon.vessel(), step: common::millimeter() };
        let batch = measure.at_most(base.ratio(), liter(8.0), base.tolerance()).unwrap();
        let marks: Vec<f64> = batch.pours.iter().map(|p| p.reading.si()).collect();
        assert!(marks.windows(2).all(|pair| pair[0] < pair[1]), "{marks:?}");
        assert!(batch.off_by.abs() < 0.02);
    }

    #[test]
    fn too_little_for_the_step_is_refused_with_what_would_do() {
        let base = demo::base().unwrap();
        let jug = Measure::Jug { step: liter(1.0) };
        match jug.at_most(base.ratio(), liter(1.0), base.tolerance()) {
            Err(Error::TooCoarse { smallest }) => {
                assert!((smallest - liter(3.0)).abs() < liter(1e-9));
            }
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_larger_allowance_never_gives_a_smaller_batch() {
        let base = demo::base().unwrap();
        for measure in [
            Measure::Jug { step: common::quarter_quart() },
            Measure::Scale { step: common::tenth_ounce() },
            Measure::Stick { vessel: Generic::FiveGallon.vessel(), step: common::eighth_inch() },
        ] {
            let mut last = Volume::default();
            for i in 15..150 {
                let allowed = liter(f64::from(i) * 0.1);
                let batch = measure.at_most(base.ratio(), allowed, base.tolerance()).unwrap();
                assert!(batch.volume >= last && batch.volume <= allowed * (1.0 + 1e-9));
                last = batch.volume;
            }
        }
    }
}
