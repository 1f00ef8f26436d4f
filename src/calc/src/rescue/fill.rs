//! What a pail lacks of the whole, and what it is once that was added.

use super::{FilledPail, together};
use crate::job::Job;
use crate::measure::{InPail, Measure, MeasuredPour};
use crate::quantity::{Figure, Volume};
use crate::ratio::{Ingredient, Portion, Pour, Ratio};
use crate::vessel::{Generic, Vessel};

/// More of an additive than this much over its dose is said (common practice, no source).
const OVERDOSE: f64 = 0.1;

impl Job {
    /// The size of the whole, `V = max v_i / φ_i`: set by the part that is furthest over.
    pub(super) fn whole(&self, poured: &[Pour]) -> Volume {
        parts(self.product.ratio())
            .map(|portion| volume_of(poured, portion.what) / portion.share)
            .fold(Volume::default(), Volume::max)
    }

    /// The pail once it was brought up to the whole.
    pub(super) fn fill_up(&self, poured: &[Pour], whole: Volume) -> FilledPail {
        let wanted = self.wanted(poured, whole);
        let standing = together(poured);
        let vessel = self.vessel_for(standing.volume + wanted.iter().map(|w| w.1).sum());
        let adds = self.additions(vessel.map(|(vessel, _)| vessel), poured, &standing, &wanted);
        let pours = with(poured, &adds);
        let InPail { volume, mass } = together(&pours);
        let too_much = mass > self.gear.largest_mass();
        FilledPail { adds, pours, volume, mass, vessel: vessel.filter(|_| !too_much) }
    }

    /// What to pour back of each part while the parts are still apart.
    pub(super) fn pour_back(&self, poured: &[Pour], whole: Volume) -> Vec<Pour> {
        let (ratio, within) = (self.product.ratio(), self.is_within(poured));
        // The part that is furthest short sets what the others may keep.
        let least = parts(ratio)
            .map(|portion| volume_of(poured, portion.what) / portion.share)
            .fold(whole, Volume::min);
        parts(ratio)
            .map(|portion| portion.pour(volume_of(poured, portion.what) - least * portion.share))
            .filter(|pour| !within && pour.volume > least * 1e-9)
            .collect()
    }

    /// The first additive of which there is more than its dose, and by what share.
    pub(super) fn overdosed(&self, pours: &[Pour], whole: Volume) -> Option<(Ingredient, f64)> {
        self.product.ratio().order().iter().find_map(|portion| {
            let needed = whole * portion.share;
            let over = (volume_of(pours, portion.what) / needed).value - 1.0;
            let dose = matches!(portion.what, Ingredient::Additive(_));
            (dose && over > OVERDOSE).then_some((portion.what, over))
        })
    }

    /// Whether pours are on ratio, as near as the product's tolerance asks.
    fn is_within(&self, poured: &[Pour]) -> bool {
        let tolerance = self.product.tolerance();
        self.product.ratio().off_by(poured).is_some_and(|off| off.abs() <= tolerance)
    }

    /// What is missing of the whole, in the order of pouring.
    fn wanted(&self, poured: &[Pour], whole: Volume) -> Vec<(&Portion, Volume)> {
        let within = self.is_within(poured);
        let portions = self.product.ratio().order().iter();
        let wanted = portions.filter_map(|portion| {
            let needed = whole * portion.share;
            let short = needed - volume_of(poured, portion.what);
            let asked = match portion.what {
                Ingredient::Component(_) => !within && short > needed * 1e-9,
                Ingredient::Additive(_) => short > needed * OVERDOSE,
            };
            asked.then_some((portion, short))
        });
        wanted.collect()
    }

    /// What is missing, as this crew measures; where that is too coarse for so little, in a small
    /// jug.
    fn additions(
        &self,
        vessel: Option<Vessel>,
        poured: &[Pour],
        standing: &InPail,
        wanted: &[(&Portion, Volume)],
    ) -> Vec<MeasuredPour> {
        // A stick stands in the pail that it is poured into.
        let measure = match (self.gear.measure, vessel) {
            (Measure::Stick { step, .. }, Some(vessel)) => Measure::Stick { vessel, step },
            (measure, _) => measure,
        };
        let mut on = *standing;
        let ratio = self.product.ratio();
        let tolerance = self.product.tolerance();
        let adds = wanted
            .iter()
            .map(|(portion, short)| measure.pour(portion, *short, &mut on).ok())
            .collect::<Option<Vec<_>>>()
            .filter(|adds| {
                let some = adds.iter().all(|add| add.pour.volume > Volume::default());
                let all = with(poured, adds);
                some && ratio.off_by(&all).is_some_and(|off| off.abs() <= tolerance)
            });
        adds.unwrap_or_else(|| {
            let exact = |(portion, short): &(&Portion, Volume)| MeasuredPour {
                pour: portion.pour(*short),
                reading: Figure::Volume(*short),
                slack: Volume::default(),
            };
            wanted.iter().map(exact).collect()
        })
    }

    /// The pail for a volume: this crew's own while a drill can still stir it, else the smallest
    /// common one in which it can; `None` where there is none.
    fn vessel_for(&self, volume: Volume) -> Option<(Vessel, Option<Generic>)> {
        // A hair of slack for a pail that was filled to its limit as planned.
        let holds = |vessel: &Vessel| vessel.working_capacity() * (1.0 + 1e-6) >= volume;
        if holds(&self.gear.vessel) {
            return Some((self.gear.vessel, None));
        }
        let larger = Generic::ALL.into_iter().find(|generic| holds(&generic.vessel()))?;
        Some((larger.vessel(), Some(larger)))
    }
}

/// The parts of a ratio, without its additives.
fn parts(ratio: &Ratio) -> impl Iterator<Item = &Portion> {
    ratio.order().iter().filter(|portion| matches!(portion.what, Ingredient::Component(_)))
}

/// How much of something there is in some pours.
fn volume_of(pours: &[Pour], what: Ingredient) -> Volume {
    pours.iter().filter(|pour| pour.what == what).map(|pour| pour.volume).sum()
}

/// What was poured with what is added.
fn with(poured: &[Pour], adds: &[MeasuredPour]) -> Vec<Pour> {
    poured.iter().copied().chain(adds.iter().map(|add| add.pour)).collect()
}
