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
mod fill;
mod time;

use crate::batch::Salvage;
use crate::error::Error;
use crate::field::Field;
use crate::job::Job;
use crate::measure::{InPail, MeasuredPour};
use crate::quantity::{Mass, Time, Volume};
use crate::ratio::{Ingredient, Pour};
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

/// A pail once what is missing has been added.
struct FilledPail {
    /// What to add, in order.
    adds: Vec<MeasuredPour>,
    /// What was poured and what is added.
    pours: Vec<Pour>,
    /// All of it by volume.
    volume: Volume,
    /// All of it by weight.
    mass: Mass,
    /// The pail that holds it, and its name where it is a larger one than the crew's own; `None`
    /// where it is more than any pail, or the owner, allows.
    vessel: Option<(Vessel, Option<Generic>)>,
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
        let whole = self.whole(&poured);
        if whole <= Volume::default() {
            return Err(Error::Missing { field: Field::PouredVolume });
        }
        let filled = self.fill_up(&poured, whole);
        let overdosed = self.overdosed(&filled.pours, whole);
        let salvage = self.salvage_in_time(&poured, &filled, met)?;
        let ratio = self.product.ratio();
        let mut rescue = Rescue {
            off_by: ratio.off_by(&poured),
            remedy: remedy(&filled, overdosed.is_some(), salvage.as_ref().err().copied()),
            back: self.pour_back(&poured, whole),
            off_after: ratio.off_by(&filled.pours).unwrap_or(f64::INFINITY),
            volume: filled.volume,
            mass: filled.mass,
            adds: filled.adds,
            overdosed,
            salvage: salvage.ok(),
            consequence: self.consequence(&poured),
            working: Vec::new(),
            poured,
        };
        rescue.working = self.explain_rescue(&rescue, whole);
        Ok(rescue)
    }

    /// What these pours would come to, where the data sheet lets one say.
    fn consequence(&self, poured: &[Pour]) -> Option<Consequence> {
        self.product.balance(poured).map(|balance| Consequence {
            balance,
            unreacted: unreacted(balance),
            gel: stoichiometry::gel(balance, self.product.functionality()),
        })
    }
}

/// What to do with a pail that was filled up, or is lost.
fn remedy(filled: &FilledPail, overdosed: bool, lost: Option<Lost>) -> Remedy {
    let larger = filled.vessel.and_then(|(_, larger)| larger);
    match (lost, larger) {
        (Some(lost), _) => Remedy::Discard(lost),
        _ if overdosed => Remedy::Overdosed,
        (None, Some(generic)) => Remedy::AddInLarger(generic),
        (None, None) if filled.adds.is_empty() => Remedy::Fine,
        (None, None) => Remedy::Add,
    }
}

/// All of some pours together, as they stand in the pail.
fn together(pours: &[Pour]) -> InPail {
    InPail {
        volume: pours.iter().map(|pour| pour.volume).sum(),
        mass: pours.iter().map(|pour| pour.mass).sum(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::quantity::{Figure, minutes, unit};
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
