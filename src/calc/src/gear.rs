//! What a crew mixes in and measures with, and how it rounds a batch to that.

use crate::error::Error;
use crate::field::Field;
use crate::kit::{KitRule, Kits};
use crate::measure::{Measure, Measured, MeasuredPour, measured};
use crate::quantity::{Figure, Length, Mass, Volume, unit};
use crate::ratio::Ratio;
use crate::record::{GearRecord, MeasureRecord, VesselRecord};
use crate::vessel::Vessel;

/// What the crew mixes in and measures with.
#[derive(Clone, Debug, PartialEq)]
pub struct Gear {
    /// The pail mixed in.
    pub vessel: Vessel,
    /// The usual way to measure the parts: jug, scale or stick.
    pub measure: Measure,
    /// A finer one that is here, for what that cannot hold on ratio.
    pub finer: Option<Measure>,
    /// Only kits are mixed.
    pub kits: Option<KitRule>,
    /// The most the owner allows in one pail.
    pub largest_mass: Option<Mass>,
}

impl Gear {
    /// The largest batch of at most `most` that this crew can make up on ratio; with the finer
    /// measure, where the usual one cannot.
    ///
    /// # Errors
    /// [`Error::KitTooLarge`] where only kits are mixed and none fits, [`Error::TooCoarse`] where
    /// what would fit cannot be measured on ratio; else as [`Measure::at_most`].
    pub fn at_most(&self, ratio: &Ratio, most: Volume, tolerance: f64) -> Result<Measured, Error> {
        let Some(rule) = &self.kits else {
            let usual = self.measure.at_most(ratio, most, tolerance);
            let finer = |finer: &Measure| {
                let most = most.min(finer.holds_at_most(ratio));
                finer.at_most(ratio, most, tolerance)
            };
            return usual
                .or_else(|error| self.finer.as_ref().and_then(|f| finer(f).ok()).ok_or(error));
        };
        let mut below = most;
        while let Some(kits) = rule.at_most(ratio, below) {
            let made = self.made_of(ratio, kits, tolerance)?;
            if made.is_sure(tolerance) && made.volume <= most * (1.0 + 1e-9) {
                return Ok(made);
            }
            // Half a kit may be measured as a little more than it is, or off ratio.
            below = kits.mixed(ratio) * (1.0 - 1e-6);
        }
        let smallest = rule.smallest(ratio).ok_or(Error::NoSolution)?;
        let portion = smallest.mixed(ratio);
        if portion > most {
            return Err(Error::KitTooLarge { portion, most });
        }
        // No portion can be measured on ratio: the least of whole kits need not be.
        let whole = Kits { halves: smallest.halves.next_multiple_of(2), ..smallest };
        Err(Error::TooCoarse { smallest: whole.mixed(ratio) })
    }

    /// The smallest batch of at least `least` that this crew can make up on ratio; with the finer
    /// measure, where the usual one makes much more of it.
    ///
    /// # Errors
    /// As [`Measure::at_least`].
    pub fn at_least(
        &self,
        ratio: &Ratio,
        least: Volume,
        tolerance: f64,
    ) -> Result<Measured, Error> {
        /// More than this of what is needed is not mixed for want of a finer mark.
        const MUCH: f64 = 1.15;
        let Some(rule) = &self.kits else {
            let usual = self.measure.at_least(ratio, least, tolerance);
            if usual.as_ref().is_ok_and(|usual| usual.volume <= least * MUCH) {
                return usual;
            }
            let finer = self.finer.as_ref().filter(|finer| least <= finer.holds_at_most(ratio));
            let finer = finer.map(|finer| finer.at_least(ratio, least, tolerance));
            return match (usual, finer) {
                (Ok(usual), Some(Ok(finer))) if finer.volume < usual.volume => Ok(finer),
                (Err(_), Some(finer)) => finer,
                (usual, _) => usual,
            };
        };
        let mut above = least;
        // Sooner or later come whole kits, which are on ratio as they are.
        for _ in 0..64 {
            let kits = rule.at_least(ratio, above).ok_or(Error::NoSolution)?;
            let made = self.made_of(ratio, kits, tolerance)?;
            if made.is_sure(tolerance) && made.volume >= least * (1.0 - 1e-9) {
                return Ok(made);
            }
            above = kits.mixed(ratio) * (1.0 + 1e-6);
        }
        Err(Error::NoSolution)
    }

    /// The smallest batch that can be measured on ratio, by either measure.
    ///
    /// # Errors
    /// As [`Measure::smallest`].
    pub fn smallest(&self, ratio: &Ratio, tolerance: f64) -> Result<Volume, Error> {
        let usual = self.measure.smallest(ratio, tolerance);
        let finer = self.finer.and_then(|finer| finer.smallest(ratio, tolerance).ok());
        match (usual, finer) {
            (Ok(usual), Some(finer)) => Ok(usual.min(finer)),
            (Err(_), Some(finer)) => Ok(finer),
            (usual, None) => usual,
        }
    }

    /// How often something is read for so much; a kit that is emptied as it is counts as one for
    /// each part.
    pub fn readings(&self, ratio: &Ratio, mixed: Volume) -> f64 {
        let kits = self.kits.as_ref().and_then(|rule| rule.at_most(ratio, mixed));
        match kits.filter(Kits::whole) {
            Some(kits) => f64::from(kits.halves) / 2.0 * ratio.order().len() as f64,
            None => self.measure.readings(ratio, mixed),
        }
    }

    /// Whole kits are emptied as they are; what splits one is measured.
    fn made_of(&self, ratio: &Ratio, kits: Kits, tolerance: f64) -> Result<Measured, Error> {
        let mixed = kits.mixed(ratio);
        let batch = if kits.whole() {
            let pours = ratio.split(mixed).into_iter().map(|pour| MeasuredPour {
                pour,
                reading: pour.volume.into(),
                slack: Volume::default(),
            });
            measured(ratio, pours.collect(), self.measure)
        } else {
            let usual = self.measure.nearest(ratio, mixed)?;
            match self.finer.filter(|_| !usual.is_sure(tolerance)) {
                Some(finer) => finer.nearest(ratio, mixed)?,
                None => usual,
            }
        };
        Ok(Measured { kits: Some(kits), ..batch })
    }

    /// The most that may go into one pail, by mass: the owner's limit, or what this crate is
    /// good for.
    pub fn largest_mass(&self) -> Mass {
        let domain = match Field::BatchMass.range().1 {
            Figure::Mass(mass) => mass,
            _ => Mass::default(),
        };
        self.largest_mass.unwrap_or(domain)
    }

    /// Checks a record field by field, for a product that comes in kits of these sizes.
    ///
    /// # Errors
    /// The first thing that is wrong, naming its field.
    ///
    /// ```
    /// use pailwise_calc::{demo, error::Error, field::Field, gear::Gear, kit::Portions};
    /// let record = pailwise_calc::record::GearRecord { kits: Some(Portions::Whole), ..demo::gear() };
    /// assert_eq!(Gear::new(&record, &[]), Err(Error::Missing { field: Field::Kits }));
    /// ```
    pub fn new(record: &GearRecord, kits: &[Volume]) -> Result<Self, Error> {
        let millimeters = Length::new::<unit::millimeter>;
        let vessel = match record.vessel {
            VesselRecord::Generic(generic) => generic.vessel(),
            VesselRecord::Own(own) => Vessel::new(
                millimeters(own.bottom_diameter_mm),
                millimeters(own.top_diameter_mm),
                millimeters(own.height_mm),
            )?,
        };
        Field::Vessel.check(vessel.capacity())?;
        let measure = |record: MeasureRecord| -> Result<Measure, Error> {
            Ok(match record {
                MeasureRecord::Jug { jug_step_ml } => {
                    let step = Volume::new::<unit::milliliter>(jug_step_ml);
                    Measure::Jug { step: Field::JugStep.check(step)? }
                }
                MeasureRecord::Scale { scale_step_g } => {
                    let step = Mass::new::<unit::gram>(scale_step_g);
                    Measure::Scale { step: Field::ScaleStep.check(step)? }
                }
                MeasureRecord::Stick { mark_step_mm } => {
                    let step = millimeters(mark_step_mm);
                    Measure::Stick { vessel, step: Field::MarkStep.check(step)? }
                }
            })
        };
        let largest_mass = match record.largest_mass_kg {
            Some(kg) => Some(Field::LargestMass.check(Mass::new::<unit::kilogram>(kg))?),
            None => None,
        };
        let kits = match record.kits {
            None => None,
            Some(portions) => {
                Some(KitRule::new(kits, portions).ok_or(Error::Missing { field: Field::Kits })?)
            }
        };
        let finer = record.finer.map(measure).transpose()?;
        Ok(Self { vessel, measure: measure(record.measure)?, finer, kits, largest_mass })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::kit::Portions;

    #[test]
    fn whole_kits_are_emptied_and_half_ones_measured() {
        let base = demo::base().unwrap();
        let kit = Volume::new::<unit::liter>(6.0);
        let at_most = |portions, liters: f64| {
            let record = GearRecord { kits: Some(portions), ..demo::gear() };
            let gear = Gear::new(&record, &[kit]).unwrap();
            let most = Volume::new::<unit::liter>(liters);
            gear.at_most(base.ratio(), most, base.tolerance())
        };
        let whole = at_most(Portions::Whole, 11.0).unwrap();
        assert!((whole.volume - kit).value.abs() < 1e-12 && whole.off_by.abs() < 1e-12);
        assert!(matches!(at_most(Portions::Whole, 5.0), Err(Error::KitTooLarge { .. })));
        let half = at_most(Portions::Half, 5.0).unwrap();
        assert_eq!(half.kits.unwrap().halves, 1);
        // Half a kit is 2 L of A: 8.45 quarter quarts, measured as eight.
        assert!(half.off_by.abs() <= base.tolerance());
    }

    /// 3 L in a jug of one quart: half a kit is 1 L of A and half a litre of B, a quart of each.
    #[test]
    fn half_a_kit_that_the_jug_cannot_hold_on_ratio_is_not_mixed() {
        let base = demo::base().unwrap();
        let measure = MeasureRecord::Jug { jug_step_ml: 946.352_946 };
        let record = GearRecord { kits: Some(Portions::Half), measure, ..demo::gear() };
        let gear = Gear::new(&record, &[Volume::new::<unit::liter>(3.0)]).unwrap();
        let liters = Volume::new::<unit::liter>;
        let at_most = |most| gear.at_most(base.ratio(), liters(most), base.tolerance());
        assert_eq!(at_most(5.0).unwrap().kits.unwrap().halves, 2, "a whole one is");
        match at_most(2.0) {
            Err(Error::TooCoarse { smallest }) => assert!((smallest - liters(3.0)).value < 1e-9),
            other => panic!("{other:?}"),
        }
        assert!(matches!(at_most(1.0), Err(Error::KitTooLarge { .. })));
        let enough = gear.at_least(base.ratio(), liters(1.2), base.tolerance()).unwrap();
        assert_eq!(enough.kits.unwrap().halves, 2);
    }
}
