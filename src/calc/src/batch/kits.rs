//! Kits first: whether a whole kit or half of one can go down in one batch, and what that takes.

use super::{Bound, Change};
use crate::field::Field;
use crate::job::Job;
use crate::kit::{KitRule, Kits, Portions};
use crate::quantity::{Area, Volume};

/// What it takes for a portion of a kit to go down in one batch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Takes {
    /// Nothing has to change: the portion fits in one batch.
    Nothing,
    /// A change on the spot.
    Change(Change),
    /// So many more people rolling, and so many more flaking.
    People {
        /// More of them rolling.
        rolling: u32,
        /// More of them flaking.
        flaking: u32,
    },
    /// Neither a change of ways nor a few more people would be enough.
    TooMuch,
}

/// A portion of a kit, asked about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KitFirst {
    /// The portion asked about: a whole kit, or half of one.
    pub kits: Kits,
    /// How much floor the portion covers.
    pub covers: Area,
    /// What must change for the portion to go down in one batch.
    pub takes: Takes,
}

/// More people than this are not called for.
const MORE: u32 = 3;

impl Job {
    /// Whether a whole kit of the smallest size, and half of one, can go down in one batch here, and
    /// what each takes; nothing for a product without kits, and of no portion that is more than the
    /// floor still takes.
    ///
    /// ```
    /// use pailwise_calc::{batch::Takes, demo, job::Job};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// for first in job.kits_first() {
    ///     let fits = job.next_batch().unwrap().measured.volume >= first.kits.each;
    ///     assert!(!fits || first.takes == Takes::Nothing);
    /// }
    /// ```
    pub fn kits_first(&self) -> Vec<KitFirst> {
        let smallest = self.product.kits().iter().copied().reduce(Volume::min);
        let Some(each) = smallest else { return Vec::new() };
        let portions = [Portions::Whole, Portions::Half].into_iter().filter_map(|portions| {
            let mut job = self.clone();
            job.gear.kits = Some(KitRule::new(&[each], portions)?);
            let kits = Kits { each, halves: portions.step() };
            let covers = self.bare.coverage.area_from(kits.mixed(self.product.ratio()));
            let enough = covers <= self.bare.area;
            enough.then(|| KitFirst { kits, covers, takes: job.takes(&kits) })
        });
        portions.collect()
    }

    /// What it takes for so much to go down at once, of the kits this job is given.
    fn takes(&self, kits: &Kits) -> Takes {
        let goes = |job: &Self| {
            job.sized().is_ok_and(|(measured, _, bound, _)| {
                let made = measured.kits.is_some_and(|made| made.halves >= kits.halves);
                made || bound == Bound::Floor
            })
        };
        if goes(self) {
            return Takes::Nothing;
        }
        let people = |rolling: u32, flaking: u32| {
            let mut job = self.clone();
            job.crew.rollers += rolling;
            job.crew.flakers += flaking;
            let fits = Field::Rollers.check(job.crew.rollers).is_ok()
                && Field::Flakers.check(job.crew.flakers).is_ok();
            (fits && goes(&job)).then_some(Takes::People { rolling, flaking })
        };
        // A change of ways costs nobody; then as few people as will do.
        let ways = self.changes(false).into_iter();
        let mut ways = ways.filter(|(change, _)| change.of_the_way()).filter(|(_, job)| goes(job));
        if let Some((change, _)) = ways.next() {
            return Takes::Change(change);
        }
        let most_flaking = if self.product.flaked() && self.crew.flakers > 0 { MORE } else { 0 };
        let crews =
            (1..=MORE).flat_map(|all| (0..=all).map(move |flaking| (all - flaking, flaking)));
        let mut crews = crews.filter(|(_, flaking)| *flaking <= most_flaking);
        crews.find_map(|(rolling, flaking)| people(rolling, flaking)).unwrap_or(Takes::TooMuch)
    }
}
