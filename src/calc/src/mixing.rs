//! How long people who mix are away with a batch, and what else they are wanted for.

use crate::crew::{Crew, Pouring};
use crate::error::Error;
use crate::field::Field;
use crate::gear::Gear;
use crate::product::Product;
use crate::quantity::{Time, Volume, minutes};
use crate::record::InPlanRecord;

/// What else the people who mix are wanted for, where a plan knows it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Mixing {
    /// When another of several is back, from when A meets B in this batch. They follow one another at
    /// even distances, or later where none is back by then.
    pub another_back: Option<Time>,
    /// How much longer the next batch may wait for them, where they mix for other bays too.
    pub wait: Time,
}

impl TryFrom<&InPlanRecord> for Mixing {
    type Error = Error;

    /// Checks what a plan knows of it.
    ///
    /// # Errors
    /// The first thing that is wrong, naming its field.
    fn try_from(plan: &InPlanRecord) -> Result<Self, Error> {
        let another = plan.another_back_min.map(|back| Field::AnotherBack.check(minutes(back)));
        let wait = Field::MixerWait.check(minutes(plan.wait_min))?;
        Ok(Self { another_back: another.transpose()?, wait })
    }
}

/// A clean pail, and a batch of so much measured out into it.
pub(crate) fn setting_up(crew: &Crew, product: &Product, gear: &Gear, volume: Volume) -> Time {
    if crew.measured_ahead {
        return crew.clean_pail;
    }
    crew.clean_pail + crew.reading * gear.readings(product.ratio(), volume)
}

/// How long whoever mixes so much is away with it: mixed, carried, poured where it is poured, and
/// back with the next one set up. What is set up while this one stands takes no time of its own.
pub(crate) fn away(crew: &Crew, product: &Product, gear: &Gear, volume: Volume) -> Time {
    let after = setting_up(crew, product, gear, volume) - product.induction();
    let there = product.ready() + crew.carry + crew.pouring_takes(volume);
    there + crew.carry + after.max(Time::default())
}

/// How long whoever mixes is away at the longest with a batch of no more than so much. A part of a
/// kit may take more readings than the kits that would be emptied as they are.
pub(crate) fn longest_away(crew: &Crew, product: &Product, gear: &Gear, most: Volume) -> Time {
    let measured = Gear { kits: None, ..gear.clone() };
    away(crew, product, gear, most).max(away(crew, product, &measured, most))
}

impl Crew {
    /// How long a pour of so much takes; nothing for what is used from the pail.
    pub(crate) fn pouring_takes(&self, volume: Volume) -> Time {
        match self.pouring {
            Pouring::Ribbon(rate) => volume / rate,
            Pouring::FromPail => Time::default(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::quantity::unit;

    /// Worked by hand: 4 + 1 min mixed and carried, 4 L poured at 8 L/min, 1 back; then a pail in 1.
    #[test]
    fn a_round_is_mixing_carrying_pouring_back_and_a_clean_pail() {
        let record = crate::record::CrewRecord { measured_ahead: true, ..demo::crew() };
        let crew = Crew::try_from(&record).unwrap();
        let product = demo::base().unwrap();
        let gear = Gear::new(&demo::gear(), &[]).unwrap();
        let takes = away(&crew, &product, &gear, Volume::new::<unit::liter>(4.0));
        let by_hand = product.ready().get::<unit::minute>() + 1.0 + 0.5 + 1.0 + 1.0;
        assert!((takes.get::<unit::minute>() - by_hand).abs() < 1e-9);
    }

    #[test]
    fn no_smaller_batch_takes_longer_than_the_longest() {
        let crew = Crew::try_from(&demo::crew()).unwrap();
        let product = demo::base().unwrap();
        let liters = Volume::new::<unit::liter>;
        for kits in [None, Some(crate::kit::Portions::Half)] {
            let record = crate::record::GearRecord { kits, ..demo::gear() };
            let gear = Gear::new(&record, &[liters(3.0)]).unwrap();
            let longest = longest_away(&crew, &product, &gear, liters(12.0));
            for tenth in 1..=120 {
                let volume = liters(f64::from(tenth) / 10.0);
                assert!(away(&crew, &product, &gear, volume) <= longest, "{tenth} dL, {kits:?}");
            }
        }
    }
}
