//! Turning a split into what a jug, a stick or a scale can really show.
//!
//! The first part is rounded to a step of the measure, and everything after it is worked out from
//! the *rounded* pour before it is rounded itself, so that one rounding never adds to another.
//! What is left of ratio error is part of the answer, and so is how much worse it gets when each
//! reading is a little off.
//!
//! A part that is stirred with its additive before it meets the rest is measured apart, from an
//! empty pail; all other readings follow on in one pail.

mod pails;
mod read;
pub mod steps;

pub(crate) use pails::InPail;
pub use read::poured;

use self::pails::Pails;
use crate::error::Error;
use crate::kit::Kits;
use crate::quantity::{Figure, Length, Mass, Volume, unit};
use crate::ratio::{Ingredient, Portion, Pour, Ratio};
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
        /// The smallest change in mass that the scale shows.
        step: Mass,
    },
    /// All parts into one pail, each to a mark on a stick standing in it.
    Stick {
        /// The pail the stick stands in; its shape turns volumes into heights.
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
    /// What to read: the jug's volume, the scale's running total, or the height on the stick. A
    /// dose too small for the scale is read in a small jug.
    pub reading: Figure,
    /// How far the amount may be off when each reading is off by as much as it may.
    pub slack: Volume,
}

/// A batch as it is measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// The pours, in order.
    pub pours: Vec<MeasuredPour>,
    /// Volume of the whole batch once all pours are mixed.
    pub volume: Volume,
    /// Mass of the whole batch once all pours are mixed.
    pub mass: Mass,
    /// The ratio error that rounding leaves, as a share.
    pub off_by: f64,
    /// The largest ratio error when each reading is off as far as it may be, as a share.
    pub off_at_most: f64,
    /// How many kits this is, where only kits are mixed.
    pub kits: Option<Kits>,
    /// What it is measured with.
    pub by: Measure,
}

/// How many steps down (or up) from the wanted amount are weighed against each other.
const CANDIDATES: u32 = 27;

/// How many steps of the first part the rounding of all others can come to.
const ROUNDED: f64 = 3.0;

impl Measure {
    /// The largest batch of at most `most` that this measure holds on ratio, with each reading off
    /// as far as it may be.
    ///
    /// Among the nearest steps below, a smaller ratio error is weighed against a larger batch:
    /// one tolerance of error counts as much as halving it a little less than once.
    /// A larger `most` never gives a smaller batch.
    ///
    /// # Errors
    /// [`Error::TooCoarse`] with the smallest batch that works, [`Error::NotMeasurable`] where
    /// there is none; [`Error::DoesNotFit`] when a stick's pail is too small.
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
        let mut highest = self.steps_of_first(ratio, most)?.floor() + ROUNDED;
        // A coarse measure may hold the ratio only further down.
        while highest >= 1.0 {
            let below = (0..CANDIDATES)
                .map(|i| highest - f64::from(i))
                .take_while(|steps| *steps >= 1.0)
                .map(|steps| self.batch_of(ratio, steps))
                // What rounds up over the rim, or over what is allowed, is none.
                .filter(|m| !matches!(m, Err(Error::DoesNotFit { .. })))
                .filter(|m| !matches!(m, Ok(m) if m.volume > most * (1.0 + 1e-9)));
            if let Some(batch) = best(below, tolerance, 1.0)? {
                return Ok(batch);
            }
            highest -= f64::from(CANDIDATES);
        }
        Err(self.too_coarse(ratio, tolerance))
    }

    /// The smallest batch of at least `least` that this measure holds on ratio, with each reading
    /// off as far as it may be.
    ///
    /// # Errors
    /// As [`Measure::at_most`].
    pub fn at_least(
        &self,
        ratio: &Ratio,
        least: Volume,
        tolerance: f64,
    ) -> Result<Measured, Error> {
        let sure = self.smallest(ratio, tolerance)?;
        let lowest = self.steps_of_first(ratio, least.max(sure))? - 1e-6;
        let lowest = (lowest.ceil() - ROUNDED).max(1.0);
        let above = (0..CANDIDATES)
            .map(|i| self.batch_of(ratio, lowest + f64::from(i)))
            // What would not fit is none; a smaller one that is enough may.
            .filter(|m| !matches!(m, Err(Error::DoesNotFit { .. })))
            .filter(|m| !matches!(m, Ok(m) if m.volume < least * (1.0 - 1e-9)));
        match best(above, tolerance, -1.0)? {
            Some(batch) => Ok(batch),
            None => Err(self.too_coarse(ratio, tolerance)),
        }
    }

    /// The smallest batch this measure holds on ratio, with each reading off as far as it may be.
    ///
    /// # Errors
    /// [`Error::NotMeasurable`] where there is none.
    pub fn smallest(&self, ratio: &Ratio, tolerance: f64) -> Result<Volume, Error> {
        self.sure_from(ratio, tolerance).ok_or(Error::NotMeasurable)
    }

    fn too_coarse(&self, ratio: &Ratio, tolerance: f64) -> Error {
        match self.smallest(ratio, tolerance) {
            Ok(smallest) => Error::TooCoarse { smallest },
            Err(error) => error,
        }
    }

    /// Steps of the first part in a batch of a mixed volume, not yet rounded.
    fn steps_of_first(&self, ratio: &Ratio, mixed: Volume) -> Result<f64, Error> {
        let portion = ratio.order().first().ok_or(Error::NoSolution)?;
        let first = mixed * portion.share;
        let steps = match self {
            Self::Jug { step } => (first / *step).value,
            Self::Scale { step } => (first * portion.density / *step).value,
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
        let order = ratio.order();
        let first = order.first().ok_or(Error::NoSolution)?;
        let poured = match self {
            Self::Jug { step } => *step * first_steps,
            Self::Scale { step } => *step * first_steps / first.density,
            Self::Stick { vessel, step } => {
                let mark = *step * first_steps;
                if mark > vessel.height() {
                    let holds = vessel.capacity();
                    return Err(Error::DoesNotFit { asked: holds, holds });
                }
                vessel.volume_to(mark)
            }
        };
        self.following(ratio, poured)
    }

    /// The batch that follows from an amount of the first part, each pour in proportion to that
    /// one as it is really rounded.
    fn following(&self, ratio: &Ratio, first: Volume) -> Result<Measured, Error> {
        let order = ratio.order();
        let mut pours: Vec<MeasuredPour> = Vec::with_capacity(order.len());
        let mut pails = Pails::default();
        for portion in order {
            let wanted = match (pours.first(), order.first()) {
                (Some(base), Some(of)) => base.pour.volume * (portion.share / of.share),
                _ => first,
            };
            let poured = self.pour(portion, wanted, pails.next(portion))?;
            pails.joined(&poured.pour);
            pours.push(poured);
        }
        Ok(measured(ratio, pours, *self))
    }

    /// So much of one thing onto what stands in a pail, rounded to what this measure shows.
    pub(crate) fn pour(
        &self,
        portion: &Portion,
        wanted: Volume,
        on: &mut InPail,
    ) -> Result<MeasuredPour, Error> {
        /// A dose of fewer steps than this is measured in a small jug instead.
        const FINE: f64 = 8.0;
        let dose = matches!(portion.what, Ingredient::Additive(_));
        let by_jug = |volume: Volume, slack| (volume, volume.into(), slack);
        let (volume, reading, slack) = match self {
            Self::Jug { .. } | Self::Stick { .. } if dose => by_jug(wanted, Volume::default()),
            Self::Scale { step } if dose && wanted * portion.density < *step * FINE => {
                by_jug(wanted, Volume::default())
            }
            Self::Jug { step } => {
                let poured = *step * (wanted / *step).value.round();
                by_jug(poured, *step * READ_JUG)
            }
            Self::Scale { step } => {
                let steps = ((on.mass + wanted * portion.density) / *step).value.round();
                // A total never falls, even onto what stands between two steps.
                let reading = *step * steps.max((on.mass / *step).value.ceil());
                // Both readings, the one before and this one, may be off.
                let readings = if on.mass > Mass::default() { 2.0 } else { 1.0 };
                let slack = *step * READ_SCALE * readings / portion.density;
                ((reading - on.mass) / portion.density, reading.into(), slack)
            }
            Self::Stick { vessel, step } => {
                let below = vessel.height_of(on.volume)?;
                let steps = (vessel.height_of(on.volume + wanted)? / *step).value.round();
                let mark = *step * steps.max((below / *step).value.ceil());
                if mark > vessel.height() {
                    let holds = vessel.capacity();
                    return Err(Error::DoesNotFit { asked: holds, holds });
                }
                let around = |mark: Length| {
                    let off = *step * READ_STICK;
                    0.5 * (vessel.volume_to(mark + off) - vessel.volume_to(mark - off))
                };
                let under =
                    if below > Length::default() { around(below) } else { Volume::default() };
                (vessel.volume_to(mark) - on.volume, Figure::Small(mark), around(mark) + under)
            }
        };
        let pour = portion.pour(volume);
        on.volume += volume;
        on.mass = match reading {
            Figure::Mass(reading) => reading,
            _ => on.mass + pour.mass,
        };
        Ok(MeasuredPour { pour, reading, slack })
    }

    /// The batch of just so much, each pour rounded to the nearest this measure shows.
    ///
    /// # Errors
    /// [`Error::DoesNotFit`] when a stick's pail is too small.
    pub(crate) fn nearest(&self, ratio: &Ratio, mixed: Volume) -> Result<Measured, Error> {
        let first = ratio.order().first().ok_or(Error::NoSolution)?;
        self.following(ratio, mixed * first.share)
    }

    /// How often something is read for so much: once for each part, on a scale or a stick; in a jug
    /// once more for each jugful. Fractions count, so that a little more never takes much longer.
    ///
    /// ```
    /// use pailwise_calc::{demo, measure::Measure, quantity::{Volume, unit}};
    /// let base = demo::base().unwrap(); // 2 A : 1 B by volume
    /// let quarts = Volume::new::<unit::quart_liquid>;
    /// let jug = Measure::Jug { step: quarts(0.25) }; // a gallon of it
    /// let readings = jug.readings(base.ratio(), quarts(15.0)); // 2½ gal of A, 1¼ of B
    /// assert!((readings - (3.5 + 2.25)).abs() < 1e-9);
    /// ```
    pub fn readings(&self, ratio: &Ratio, mixed: Volume) -> f64 {
        let each = |portion: &Portion| match *self {
            Self::Jug { step } => 1.0 + (mixed * portion.share / jugful(step)).value,
            Self::Scale { .. } | Self::Stick { .. } => 1.0,
        };
        ratio.order().iter().map(each).sum()
    }

    /// The largest batch for which this is handy where another measure is at hand: no part of it is
    /// more than a few jugs.
    pub(crate) fn holds_at_most(&self, ratio: &Ratio) -> Volume {
        let Self::Jug { step } = *self else { return Volume::new::<unit::cubic_meter>(1.0) };
        let largest = ratio.order().iter().map(|portion| portion.share).fold(0.0, f64::max);
        jugful(step) * FILLS / largest
    }

    /// As [`Measure::smallest`]; `None` where there is none.
    ///
    /// The error falls as the batch grows, so it is found by doubling and halving.
    fn sure_from(&self, ratio: &Ratio, tolerance: f64) -> Option<Volume> {
        let sure =
            |steps: f64| self.batch_of(ratio, steps).ok().filter(|batch| batch.is_sure(tolerance));
        let fits = |steps: f64| self.batch_of(ratio, steps).is_ok();
        let (mut low, mut high) = (0.5, 1.0);
        while sure(high).is_none() {
            if high > 1e6 || !fits(high) {
                return None;
            }
            low = high;
            high *= 2.0;
            if !fits(high) {
                // The fullest pail that a stick can measure is the last that may be sure.
                let (mut full, mut over) = (low, high);
                while over - full > 1.0 {
                    let mid = f64::midpoint(full, over).floor();
                    if fits(mid) { full = mid } else { over = mid }
                }
                if full <= low {
                    return None;
                }
                high = full;
                sure(high)?;
            }
        }
        while high - low > 1.0 {
            let mid = f64::midpoint(low, high).floor();
            if sure(mid).is_some() { high = mid } else { low = mid }
        }
        sure(high).map(|batch| batch.volume)
    }
}

/// A jug holds so many of its steps, or a quart where that is more (common practice, no source).
const JUG_HOLDS: f64 = 16.0;

/// Nobody fills a small jug more often than this for one part (common practice, no source).
const FILLS: f64 = 4.0;

/// What a jug of a step holds.
fn jugful(step: Volume) -> Volume {
    (step * JUG_HOLDS).max(Volume::new::<unit::quart_liquid>(1.0))
}

/// How far off a reading may be, in steps: a jug is filled to within an eighth of
/// its mark (common practice, no source), a stick wobbles by half a mark (likewise), a scale rounds to its own step.
const READ_JUG: f64 = 0.125;
const READ_STICK: f64 = 0.5;
const READ_SCALE: f64 = 0.5;

impl Measured {
    /// Whether it stays within a tolerance even with each reading off as far as it may be.
    pub fn is_sure(&self, tolerance: f64) -> bool {
        self.off_at_most <= tolerance
    }
}

/// Pours with their sums and what is left of ratio error.
pub(crate) fn measured(ratio: &Ratio, pours: Vec<MeasuredPour>, by: Measure) -> Measured {
    let plain: Vec<Pour> = pours.iter().map(|p| p.pour).collect();
    Measured {
        volume: plain.iter().map(|p| p.volume).sum(),
        mass: plain.iter().map(|p| p.mass).sum(),
        off_by: ratio.off_by(&plain).unwrap_or(f64::INFINITY),
        off_at_most: off_at_most(ratio, &pours),
        pours,
        kits: None,
        by,
    }
}

/// The largest ratio error when each pour is off by its slack, the worst way round.
fn off_at_most(ratio: &Ratio, pours: &[MeasuredPour]) -> f64 {
    let part = |i: usize| pours.iter().find(|p| p.pour.what == Ingredient::Component(i));
    let shares = |i: usize| ratio.order().iter().find(|p| p.what == Ingredient::Component(i));
    let (Some(a), Some(share_a)) = (part(0), shares(0)) else { return f64::INFINITY };
    let worst = |i: usize| -> Option<f64> {
        let (b, share_b) = (part(i)?, shares(i)?);
        let nominal = share_b.share / share_a.share;
        let (a_least, a_most) = (a.pour.volume - a.slack, a.pour.volume + a.slack);
        if a_least.value <= 0.0 {
            return Some(f64::INFINITY);
        }
        let over = ((b.pour.volume + b.slack) / a_least).value / nominal - 1.0;
        let under = 1.0 - ((b.pour.volume - b.slack) / a_most).value / nominal;
        Some(over.max(under))
    };
    (1..ratio.components().len()).filter_map(worst).fold(0.0, f64::max)
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
        if batch.is_sure(tolerance) && best.as_ref().is_none_or(|b| weight(&batch) > weight(b)) {
            best = Some(batch);
        }
    }
    Ok(best)
}

#[cfg(test)]
mod tests {
    use super::steps::{JugMark, Mark, ScaleMark, StickMark};
    use super::*;
    use crate::demo;
    use crate::quantity::{MassDensity, unit};
    use crate::ratio::{Additive, Basis, Component, Onto};
    use crate::vessel::Generic;

    fn liter(x: f64) -> Volume {
        Volume::new::<unit::liter>(x)
    }

    #[test]
    fn the_scale_shows_running_totals_in_its_own_steps() {
        let base = demo::base().unwrap();
        let step = ScaleMark::FiveGrams.step();
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
        let measure = Measure::Stick {
            vessel: Generic::FiveGallon.vessel(),
            step: StickMark::Millimeter.step(),
        };
        let batch = measure.at_most(base.ratio(), liter(8.0), base.tolerance()).unwrap();
        let marks: Vec<f64> = batch.pours.iter().map(|p| p.reading.si()).collect();
        assert!(marks.windows(2).all(|pair| pair[0] < pair[1]), "{marks:?}");
        assert!(batch.off_by.abs() < 0.02);
    }

    /// A jug is off by an eighth of a step: of 2 L and 1 L of two parts the ratio is within 5 %
    /// from four steps of the smaller on, ⅛ in 4 and ⅛ in 8.
    #[test]
    fn too_little_for_the_step_is_refused_with_what_would_do() {
        let base = demo::base().unwrap();
        let jug = Measure::Jug { step: liter(1.0) };
        for most in [1.0, 3.0, 11.9] {
            match jug.at_most(base.ratio(), liter(most), base.tolerance()) {
                Err(Error::TooCoarse { smallest }) => {
                    assert!((smallest - liter(12.0)).abs() < liter(1e-9), "{smallest:?}");
                }
                other => panic!("{other:?}"),
            }
        }
        assert!(jug.at_most(base.ratio(), liter(12.0), base.tolerance()).is_ok());
    }

    /// A jug, a scale and a stick as crews have them.
    fn measures() -> [Measure; 3] {
        let marks = [
            Mark::Jug(JugMark::QuarterQuart),
            Mark::Scale(ScaleMark::TenthOunce),
            Mark::Stick(StickMark::EighthInch),
        ];
        marks.map(|mark| mark.measure(Generic::FiveGallon.vessel()))
    }

    #[test]
    fn a_larger_allowance_never_gives_a_smaller_batch() {
        let base = demo::base().unwrap();
        for measure in measures() {
            let mut last = Volume::default();
            let smallest = measure.smallest(base.ratio(), base.tolerance()).unwrap();
            for i in 0..135 {
                let allowed = smallest + liter(f64::from(i) * 0.1);
                if allowed > Generic::FiveGallon.vessel().capacity() {
                    continue;
                }
                let batch = measure.at_most(base.ratio(), allowed, base.tolerance()).unwrap();
                assert!(batch.volume >= last && batch.volume <= allowed * (1.0 + 1e-9));
                last = batch.volume;
            }
        }
    }

    #[test]
    fn from_its_surest_size_on_a_batch_is_sure() {
        let base = demo::base().unwrap();
        for measure in measures() {
            let sure = |steps: u32| {
                let batch = measure.batch_of(base.ratio(), f64::from(steps)).unwrap();
                (batch.off_at_most <= base.tolerance(), batch.volume)
            };
            let found = measure.sure_from(base.ratio(), base.tolerance()).unwrap();
            let at = (1..2000).find(|steps| (sure(*steps).1 - found).value.abs() < 1e-12);
            let at = at.unwrap_or_else(|| panic!("{measure:?}: {found:?}"));
            assert!(sure(at).0 && at > 1 && !sure(at - 1).0, "{measure:?}: {at} steps");
        }
        // A jug that holds nothing on ratio is sure of nothing.
        let jug = Measure::Jug { step: liter(1.0) };
        assert_eq!(jug.sure_from(base.ratio(), 1e-9), None);
        let inches = Length::new::<unit::inch>(1.0);
        let stick = Measure::Stick { vessel: Generic::FiveQuart.vessel(), step: inches };
        assert_eq!(stick.sure_from(base.ratio(), base.tolerance()), None);
    }

    /// Onto what stands between two steps a reading never falls, and two readings may be off.
    #[test]
    fn a_total_never_falls() {
        let base = demo::base().unwrap();
        let portion = base.ratio().order()[1];
        let vessel = Generic::FiveGallon.vessel();
        let there = vessel.volume_to(Length::new::<unit::millimeter>(50.4));
        let mass = Mass::new::<unit::gram>(1002.0);
        let stick = Measure::Stick { vessel, step: Length::new::<unit::millimeter>(1.0) };
        let scale = Measure::Scale { step: Mass::new::<unit::gram>(5.0) };
        for measure in [stick, scale] {
            let mut on = InPail { volume: there, mass };
            let more = measure.pour(&portion, Volume::default(), &mut on).unwrap();
            assert!(more.pour.volume.value >= 0.0, "{measure:?}: {more:?}");
            let (mut empty, mut full) = (InPail::default(), InPail { volume: there, mass });
            let onto = |on: &mut InPail| measure.pour(&portion, liter(1.0), on).unwrap().slack;
            assert!(onto(&mut full).value > 1.5 * onto(&mut empty).value, "{measure:?}");
        }
    }

    /// Two parts that take something each stand in pails of their own, one after the other: the
    /// scale reads each from empty, with what is stirred into it.
    #[test]
    fn each_part_measured_apart_begins_from_empty() {
        let part = |parts| Component {
            parts,
            density: MassDensity::new::<unit::kilogram_per_cubic_meter>(1000.0),
        };
        let into = |component| Additive {
            onto: Onto::Component(component),
            dose: 0.1,
            by: Basis::Mass,
            density: MassDensity::new::<unit::kilogram_per_cubic_meter>(1000.0),
        };
        let parts = vec![part(2.0), part(2.0), part(1.0)];
        let ratio = Ratio::new(Basis::Mass, parts, vec![into(1), into(2)]).unwrap();
        let scale = Measure::Scale { step: ScaleMark::FiveGrams.step() };
        let batch = scale.at_most(&ratio, liter(5.3), 0.02).unwrap();
        let grams = |figure: &Figure| figure.si() * 1000.0;
        let readings: Vec<f64> = batch.pours.iter().map(|p| grams(&p.reading).round()).collect();
        assert_eq!(readings, [2000.0, 2000.0, 2200.0, 1000.0, 1100.0]);
    }

    #[test]
    fn what_is_rounded_up_is_enough_and_hardly_more() {
        let base = demo::base().unwrap();
        for measure in measures() {
            let smallest = measure.smallest(base.ratio(), base.tolerance()).unwrap();
            for i in 15..140 {
                let needed = liter(f64::from(i) * 0.1);
                let batch = measure.at_least(base.ratio(), needed, base.tolerance()).unwrap();
                assert!(batch.volume >= needed * (1.0 - 1e-9), "{measure:?}: {:?}", batch.volume);
                // The steps that hold the ratio better are worth that much, and no more.
                let most = needed.max(smallest) + liter(1.5);
                assert!(batch.volume < most, "{measure:?}: {:?}", batch.volume);
                assert!(batch.is_sure(base.tolerance()), "{measure:?}: {:?}", batch.volume);
            }
        }
    }
}
