//! A pail that was poured wrongly: whether it will do, what brings it back, or why it is lost.
//!
//! With `v_i` poured of part `i` and `φ_i` its share of the mix, the part that is furthest over
//! sets the size of the whole, `V = max v_i / φ_i`, and every other part is brought up to it:
//!
//! ```text
//! add_i = φ_i·V − v_i ≥ 0
//! ```
//!
//! Whether there is time is asked of the pail as it will be: its whole mass, taken to have reacted
//! since A met B, and quicker by as much as the part that is over crowds it. Every doubt is to the safe side.

mod explain;

use crate::batch::Salvage;
use crate::error::Error;
use crate::field::Field;
use crate::job::Job;
use crate::measure::{InPail, Measure, MeasuredPour};
use crate::quantity::{Figure, Mass, Time, Volume, minutes, unit};
use crate::ratio::{Ingredient, Portion, Pour};
use crate::stoichiometry::{self, Unreacted, unreacted};
use crate::vessel::{Generic, Vessel};
use crate::working::Step;

/// What to do with the pail.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remedy {
    /// It is within tolerance and complete: mix it.
    Fine,
    /// There is far more of an additive than its dose, which cannot be taken out: not to be mixed
    /// before the data sheet or its maker has been asked.
    Overdosed,
    /// Add what is missing.
    Add,
    /// Move it to a larger pail and add what is missing there: this one is too full to be stirred.
    AddInLarger(Generic),
    /// The pail cannot be saved, for the reason given: throw it away.
    Discard(Lost),
}

/// Why a pail is lost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lost {
    /// It is past its pot life.
    PastPotLife,
    /// Brought back it could not be laid any more.
    NoTime,
    /// Brought back it would be more than any pail, or the owner, allows.
    TooMuch,
}

/// What an off-ratio pail would come to if it were left as it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Consequence {
    /// Groups of B for each of A.
    pub balance: f64,
    /// Which side has groups left over, and how much; `None` where neither has.
    pub unreacted: Option<Unreacted>,
    /// The conversion of A at which it gels, or never.
    pub gel: Option<f64>,
}

/// A pail as it was poured, and what becomes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Rescue {
    /// What was really poured of each part and additive.
    pub poured: Vec<Pour>,
    /// How far that is off ratio; `None` before there is any of the first part.
    pub off_by: Option<f64>,
    /// What the crew should do with the pail.
    pub remedy: Remedy,
    /// While the parts are still apart: what to pour back of each to come to the ratio.
    pub back: Vec<Pour>,
    /// What to add, in order, each with what to read then.
    pub adds: Vec<MeasuredPour>,
    /// All of it then, by volume.
    pub volume: Volume,
    /// All of it then, by weight.
    pub mass: Mass,
    /// How far off ratio it is then.
    pub off_after: f64,
    /// An additive of which there is more than its dose, and by what share.
    pub overdosed: Option<(Ingredient, f64)>,
    /// What can still be laid, and until when.
    pub salvage: Option<Salvage>,
    /// What it would come to as it is, where the data sheet lets one say.
    pub consequence: Option<Consequence>,
    /// How the answer came about.
    pub working: Vec<Step>,
}

/// More of an additive than this much over its dose is said (common practice, no source).
const OVERDOSE: f64 = 0.1;

impl Job {
    /// What becomes of a pail as it was poured, A having met B so long ago, or not yet.
    ///
    /// # Errors
    /// [`Error::Missing`] when nothing has been poured; [`Error::OutOfRange`] for the time.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job, rescue::Remedy};
    /// use pailwise_calc::quantity::{Volume, unit};
    /// let job = Job::try_from(&demo::job()).unwrap(); // 2 A : 1 B by volume
    /// let mut poured = job.product.ratio().split(Volume::new::<unit::quart_liquid>(3.0));
    /// poured[1].volume *= 1.5; // a quart and a half of B on two quarts of A
    /// poured[1].mass *= 1.5;
    /// let rescue = job.rescue(poured, None).unwrap();
    /// assert_eq!(rescue.remedy, Remedy::Add);
    /// // B asks for three quarts of A; one more is needed.
    /// let add = rescue.adds[0].pour.volume.get::<unit::quart_liquid>();
    /// assert!((add - 1.0).abs() < 1e-9);
    /// ```
    pub fn rescue(&self, poured: Vec<Pour>, met: Option<Time>) -> Result<Rescue, Error> {
        if let Some(since) = met {
            Field::MetAgo.check(since)?;
        }
        let ratio = self.product.ratio();
        let tolerance = self.product.tolerance();
        let of = |pours: &[Pour], what| -> Volume {
            pours.iter().filter(|p| p.what == what).map(|p| p.volume).sum()
        };
        let parts = || ratio.order().iter().filter(|p| matches!(p.what, Ingredient::Component(_)));
        let whole = parts()
            .map(|portion| of(&poured, portion.what) / portion.share)
            .fold(Volume::default(), Volume::max);
        if whole <= Volume::default() {
            return Err(Error::Missing { field: Field::PouredVolume });
        }
        let off_by = ratio.off_by(&poured);
        let within = off_by.is_some_and(|off| off.abs() <= tolerance);
        let missing = |what, share: f64| whole * share - of(&poured, what);
        let wanted: Vec<_> = ratio
            .order()
            .iter()
            .filter_map(|portion| {
                let short = missing(portion.what, portion.share);
                let needed = whole * portion.share;
                let asked = match portion.what {
                    Ingredient::Component(_) => !within && short > needed * 1e-9,
                    Ingredient::Additive(_) => short > needed * OVERDOSE,
                };
                asked.then_some((portion, short))
            })
            .collect();
        // The part that is furthest short sets what the others may keep.
        let least = parts()
            .map(|portion| of(&poured, portion.what) / portion.share)
            .fold(whole, Volume::min);
        let back: Vec<Pour> = parts()
            .map(|portion| portion.pour(of(&poured, portion.what) - least * portion.share))
            .filter(|pour| !within && pour.volume > least * 1e-9)
            .collect();
        let standing = InPail {
            volume: poured.iter().map(|p| p.volume).sum(),
            mass: poured.iter().map(|p| p.mass).sum(),
        };
        let vessel = self.vessel_for(standing.volume + wanted.iter().map(|w| w.1).sum());

        let adds = self.additions(vessel.map(|(vessel, _)| vessel), &poured, &standing, &wanted);
        let all = with(&poured, &adds);
        let volume: Volume = all.iter().map(|p| p.volume).sum();
        let mass: Mass = all.iter().map(|p| p.mass).sum();
        let overdosed = ratio.order().iter().find_map(|portion| {
            let over = (of(&all, portion.what) / (whole * portion.share)).value - 1.0;
            let dose = matches!(portion.what, Ingredient::Additive(_));
            (dose && over > OVERDOSE).then_some((portion.what, over))
        });

        let rate_factor = met.map_or(1.0, |_| self.rate_factor(&poured));
        let too_much = mass > self.gear.largest_mass() || vessel.is_none();
        let (fits, larger) = vessel.unwrap_or((Vessel::compact(volume), None));
        // A minute to measure what is added (common practice, no source).
        let ready = match met {
            Some(since) if !adds.is_empty() => Some(since + minutes(1.0)),
            other => other,
        };
        let salvage = if too_much {
            None
        } else {
            let stand = self.curing_pail(volume * ratio.density(), &fits, rate_factor)?;
            self.salvage(volume, &stand, ready)
        };
        let past = match met {
            Some(since) => since >= self.pot_life_as_is(&standing, rate_factor)?,
            None => false,
        };
        let remedy = match (&salvage, larger) {
            _ if past => Remedy::Discard(Lost::PastPotLife),
            _ if too_much => Remedy::Discard(Lost::TooMuch),
            (None, _) => Remedy::Discard(Lost::NoTime),
            _ if overdosed.is_some() => Remedy::Overdosed,
            (Some(_), Some(generic)) => Remedy::AddInLarger(generic),
            (Some(_), None) if adds.is_empty() => Remedy::Fine,
            (Some(_), None) => Remedy::Add,
        };
        let consequence = self.product.balance(&poured).map(|balance| Consequence {
            balance,
            unreacted: unreacted(balance),
            gel: stoichiometry::gel(balance, self.product.functionality()),
        });
        let mut rescue = Rescue {
            off_after: ratio.off_by(&all).unwrap_or(f64::INFINITY),
            salvage: if past { None } else { salvage },
            working: Vec::new(),
            poured,
            off_by,
            remedy,
            adds,
            volume,
            mass,
            overdosed,
            consequence,
            back,
        };
        rescue.working = self.explain_rescue(&rescue, whole);
        Ok(rescue)
    }

    /// How many times quicker than on ratio these pours may react: the part that is over is so much
    /// denser in the pail, `max (v_i/Σv) / φ_i`, and the rate is of first order in each part.
    fn rate_factor(&self, poured: &[Pour]) -> f64 {
        let all: Volume = poured.iter().map(|pour| pour.volume).sum();
        let crowded = |portion: &Portion| {
            let of = poured.iter().filter(|pour| pour.what == portion.what);
            (of.map(|pour| pour.volume).sum::<Volume>() / all).value / portion.share
        };
        let parts = self.product.ratio().order().iter();
        let parts = parts.filter(|portion| matches!(portion.what, Ingredient::Component(_)));
        parts.map(crowded).fold(1.0, f64::max)
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

    /// The pot life of what stands there now.
    fn pot_life_as_is(&self, standing: &InPail, rate_factor: f64) -> Result<Time, Error> {
        let mass = standing.mass.max(Mass::new::<unit::kilogram>(0.01));
        // Off ratio its density is not the mix's; the pail is asked about by weight.
        let volume = mass / self.product.ratio().density();
        let own = self.gear.vessel;
        let vessel = if own.capacity() < volume { Vessel::compact(volume * 1.001) } else { own };
        Ok(self.curing_pail(mass, &vessel, rate_factor)?.pot_life())
    }
}

/// What was poured with what is added.
fn with(poured: &[Pour], adds: &[MeasuredPour]) -> Vec<Pour> {
    poured.iter().copied().chain(adds.iter().map(|add| add.pour)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::record::{MeasureRecord, VesselRecord};

    fn job() -> Job {
        Job::try_from(&demo::job()).unwrap()
    }

    /// Quarts of A and B as poured.
    fn poured(job: &Job, a: f64, b: f64) -> Vec<Pour> {
        let quarts = Volume::new::<unit::quart_liquid>;
        job.product
            .ratio()
            .order()
            .iter()
            .zip([a, b])
            .filter(|(_, amount)| *amount > 0.0)
            .map(|(portion, amount)| portion.pour(quarts(amount)))
            .collect()
    }

    #[test]
    fn a_pail_within_tolerance_is_fine_as_it_is() {
        let job = job();
        let rescue = job.rescue(poured(&job, 4.0, 2.08), Some(minutes(2.0))).unwrap();
        assert_eq!((rescue.remedy, rescue.adds.len()), (Remedy::Fine, 0));
        assert!((rescue.off_by.unwrap() - 0.04).abs() < 1e-9);
    }

    /// By the jug's own steps where they are fine enough, else in a small jug.
    #[test]
    fn what_is_added_is_measured_as_the_crew_measures() {
        let quarts = Volume::new::<unit::quart_liquid>;
        let job = job();
        let add = |b: f64| {
            let rescue = job.rescue(poured(&job, 4.0, b), None).unwrap();
            rescue.adds[0].pour.volume
        };
        // 0.26 qt are short: a quarter of a quart is near enough.
        assert!((add(1.74) - quarts(0.25)).value.abs() < 1e-12);
        // 0.11 qt are less than half a step, and would be nothing.
        assert!((add(1.89) - quarts(0.11)).value.abs() < 1e-12);
    }

    #[test]
    fn a_part_not_poured_yet_is_what_is_missing() {
        let job = job();
        let rescue = job.rescue(poured(&job, 4.5, 0.0), None).unwrap();
        assert_eq!(rescue.adds[0].pour.what, Ingredient::Component(1));
        assert!((rescue.adds[0].pour.volume.get::<unit::quart_liquid>() - 2.25).abs() < 1e-9);
        assert_eq!(
            job.rescue(Vec::new(), None),
            Err(Error::Missing { field: Field::PouredVolume })
        );
    }

    #[test]
    fn more_than_the_pail_can_be_stirred_in_asks_for_a_larger_one() {
        let mut job = job();
        job.gear.vessel = Generic::TwoGallon.vessel();
        let rescue = job.rescue(poured(&job, 4.0, 3.0), Some(minutes(2.0))).unwrap();
        assert_eq!(rescue.remedy, Remedy::AddInLarger(Generic::FiveGallon));
        let rescue = job.rescue(poured(&job, 10.0, 8.0), Some(minutes(2.0))).unwrap();
        assert_eq!(rescue.remedy, Remedy::Discard(Lost::TooMuch));
    }

    /// The mark of an addition is a depth in the pail that it stands in: the larger one.
    #[test]
    fn in_a_larger_pail_the_stick_is_read_there() {
        let mut record = demo::job();
        record.gear.measure = MeasureRecord::Stick { mark_step_mm: 1.0 };
        record.gear.vessel = VesselRecord::Generic(Generic::FiveQuart);
        let job = Job::try_from(&record).unwrap();
        let own = job.gear.vessel;
        // Fits under the rim of the five-quart pail with what is missing, but not under a drill.
        let all = own.working_capacity() * 1.15;
        let split = job.product.ratio().split(all);
        let mut poured = split.clone();
        poured[1].volume *= 0.6;
        poured[1].mass *= 0.6;
        let rescue = job.rescue(poured, None).unwrap();
        let Remedy::AddInLarger(larger) = rescue.remedy else { panic!("{:?}", rescue.remedy) };
        let Figure::Small(mark) = rescue.adds[0].reading else { panic!("{:?}", rescue.adds) };
        assert!((larger.vessel().volume_to(mark) - rescue.volume).value.abs() < 1e-9);
        assert!((own.volume_to(mark) - rescue.volume).value.abs() > 1e-4);
    }

    #[test]
    fn an_additive_over_its_dose_is_said_and_one_short_is_added() {
        let mut record = demo::job();
        record.product = demo::record_topcoat();
        let job = Job::try_from(&record).unwrap();
        let dosed = |times: f64| {
            let mut poured = job.product.ratio().split(Volume::new::<unit::quart_liquid>(3.0));
            let dose = |pour: &&mut Pour| matches!(pour.what, Ingredient::Additive(_));
            let dose = poured.iter_mut().find(dose).unwrap();
            (dose.volume, dose.mass) = (dose.volume * times, dose.mass * times);
            job.rescue(poured, Some(minutes(1.0))).unwrap()
        };
        let (what, over) = dosed(1.2).overdosed.unwrap();
        assert!(what == Ingredient::Additive(0) && (over - 0.2).abs() < 0.01, "{over}");
        assert_eq!(dosed(1.2).remedy, Remedy::Overdosed);
        for near in [0.95, 1.0, 1.05] {
            let rescue = dosed(near);
            assert_eq!((rescue.overdosed, rescue.adds.len()), (None, 0), "{near}");
        }
        let added = dosed(0.8).adds;
        assert!(added.len() == 1 && added[0].pour.what == what, "{added:?}");
    }

    #[test]
    fn the_clock_decides() {
        let job = job();
        let at = |min: f64| job.rescue(poured(&job, 4.0, 3.0), Some(minutes(min))).unwrap();
        let (early, later) = (at(1.0), at(8.0));
        assert_eq!(early.remedy, Remedy::Add);
        let area = |rescue: &Rescue| rescue.salvage.as_ref().map(|salvage| salvage.area);
        assert!(area(&later).is_none_or(|l| area(&early).is_some_and(|e| l <= e)));
        assert_eq!(at(200.0).remedy, Remedy::Discard(Lost::PastPotLife));
        let lost = (1..60).map(|min| at(f64::from(min)).remedy);
        assert!(lost.into_iter().any(|v| v == Remedy::Discard(Lost::NoTime)));
    }

    #[test]
    fn the_later_the_less_its_edge_holds() {
        let mut job = job();
        let holds = |job: &Job| -> Vec<bool> {
            let at = |min: u32| job.rescue(poured(job, 4.0, 2.0), Some(minutes(f64::from(min))));
            (0..60).filter_map(|min| Some(at(min).unwrap().salvage?.edge_holds)).collect()
        };
        let found = holds(&job);
        assert!(found[0] && !found[found.len() - 1], "{found:?}");
        assert!(found.windows(2).all(|pair| pair[0] || !pair[1]), "{found:?}");
        job.bare.ends_at_joint = true;
        assert!(holds(&job).into_iter().all(|holds| holds));
    }

    #[test]
    fn what_is_poured_four_to_one_leaves_hardener_or_never_sets() {
        let job = job();
        let rescue = job.rescue(poured(&job, 1.0, 2.0), None).unwrap();
        let consequence = rescue.consequence.unwrap();
        // Four times the B: β = 4.006, past the three that still gels.
        assert!((consequence.balance - 4.006).abs() < 1e-3 && consequence.gel.is_none());
        assert!((consequence.unreacted.unwrap().share - 0.7504).abs() < 1e-4);
    }
}
