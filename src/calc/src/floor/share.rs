//! The batches of a coat chosen together: as few pails as will do, and shared evenly among them.
//!
//! Each batch as large as it may be needs the fewest pails: whatever another plan has laid by then,
//! this one has laid at least as much. But it leaves a sliver for the end, or 290 square feet and
//! then 109. So the same number of pails is laid again with a limit for each of them, the smallest
//! that still does, found by halving: that plan has the smallest largest batch of all that take as
//! many pails. One that would finish later is not taken. Bays are shared each by itself.

use super::{Coat, CoatPlan, Floor, Place, Placed};
use crate::batch::Batch;
use crate::quantity::{Time, Volume, minutes};

/// What a batch on the floor is given of its coat.
#[derive(Clone, Copy)]
pub(super) struct Share {
    /// No batch gets more.
    most: Volume,
    /// What is left is shared alike among those of so many pails that are left.
    pails: Option<usize>,
}

impl Share {
    /// The most of the next batch, with so much of the coat left and so many of its pails laid.
    pub(super) fn of(&self, coat: &Coat, left: Volume, laid: usize) -> Volume {
        let Some(pails) = self.pails else { return self.most };
        let pails = pails.saturating_sub(laid).max(1);
        let (ratio, tolerance) = (coat.product.ratio(), coat.product.tolerance());
        let alike = coat.gear.at_least(ratio, left / pails as f64, tolerance);
        alike.map_or(self.most, |alike| (alike.volume * (1.0 + 1e-9)).min(self.most))
    }
}

/// A plan of a coat that takes so long is as early as another when it finishes no later than this
/// after it: two minutes, or a fiftieth.
fn as_early(takes: Time) -> Time {
    minutes(2.0).max(takes / 50.0)
}

/// Of a coat of more pails the limit is not looked for: shared alike or not at all.
const MANY: usize = 60;

/// The limit is found to this share of itself.
const HAIR: f64 = 0.004;

impl Floor {
    /// The batches of a coat, from where it has come to: the fewest that do, and of those that
    /// finish as early the ones whose largest is the smallest.
    ///
    /// ```
    /// use pailwise_calc::{demo, floor::{Floor, Place}};
    /// let floor = Floor::try_from(&demo::floor()).unwrap();
    /// let plan = floor.plan(&floor.coats[0]);
    /// let laid: f64 = plan.batches.iter().map(|b| b.batch.area.value).sum();
    /// assert!(plan.stopped.is_none() && (laid - floor.shape.area().value).abs() < 1e-6);
    /// let Place::Flat { to, .. } = plan.batches.last().unwrap().place else { panic!() };
    /// assert!((to - floor.shape.front()).value.abs() < 1e-6);
    /// ```
    pub fn plan(&self, coat: &Coat) -> CoatPlan {
        let largest = self.plan_in(coat, None);
        let better = match &largest.stopped {
            Some(stopped) => self.without_sliver(coat, &largest, stopped.place),
            None => self.shared(coat, &largest),
        };
        better.unwrap_or(largest)
    }

    /// The plan of the largest batches may stop before a sliver that can be laid by no batch of its
    /// own, with a wall to be cut in along it. One pail more, shared alike from the beginning, leaves
    /// none; nothing where that does not do, or where more is left than a pail lays.
    fn without_sliver(&self, coat: &Coat, largest: &CoatPlan, place: Place) -> Option<CoatPlan> {
        let of_bay = |placed: &&Placed| placed.place.bay() == place.bay();
        let on_it = || largest.batches.iter().filter(of_bay);
        let most = on_it().map(|placed| placed.batch.measured.volume).reduce(Volume::max)?;
        let kits = on_it().any(|placed| placed.batch.measured.kits.is_some());
        if kits || largest.needed - largest.planned() - largest.apart > most {
            return None;
        }
        let pails = on_it().count() + 1;
        let share = |bay: usize| Share {
            most: coat.fullest(),
            pails: (Some(bay) == place.bay()).then_some(pails),
        };
        let shares: Vec<Share> = (0..coat.bays.len()).map(share).collect();
        let plan = self.plan_in(coat, Some(&shares));
        plan.stopped.is_none().then_some(plan)
    }

    /// The plan of the largest batches, shared evenly; nothing where that changes nothing, or where
    /// there is nothing to share.
    fn shared(&self, coat: &Coat, largest: &CoatPlan) -> Option<CoatPlan> {
        let of_bay = |bay: usize| {
            let ours = move |placed: &&Placed| placed.place.bay() == Some(bay);
            largest.batches.iter().filter(ours).map(|placed| &placed.batch)
        };
        let bays: Vec<Option<Even>> =
            (0..coat.bays.len()).map(|bay| Even::of(coat, of_bay(bay))).collect();
        let pails = (0..coat.bays.len()).map(|bay| of_bay(bay).count()).collect::<Vec<_>>();
        let kits = largest.batches.iter().any(|placed| placed.batch.measured.kits.is_some());
        if largest.stopped.is_some() || kits || bays.iter().all(Option::is_none) {
            return None;
        }
        let finish = largest.finished()?;
        let finish = finish + as_early(finish - coat.resumes);
        // Each bay's limit so far above its even share, of the way to its largest batch.
        let limited = |above: f64, alike: bool| -> Option<CoatPlan> {
            let share = |(even, pails): (&Option<Even>, &usize)| Share {
                most: even.as_ref().map_or(coat.fullest(), |even| even.limit(above)),
                pails: (alike && even.is_some()).then_some(*pails),
            };
            let shares: Vec<Share> = bays.iter().zip(&pails).map(share).collect();
            let plan = self.plan_in(coat, Some(&shares));
            let as_few = plan.batches.len() == largest.batches.len() && plan.stopped.is_none();
            (as_few && plan.finished()? <= finish).then_some(plan)
        };
        let (mut limit, mut found) = (0.0, limited(0.0, false));
        if found.is_none() {
            let grain = bays.iter().flatten().map(|even| even.grain(coat)).fold(1.0, f64::min);
            let (mut low, mut high) = (0.0, 1.0);
            while pails.iter().sum::<usize>() <= MANY && high - low > grain {
                let mid = 0.5 * (low + high);
                match limited(mid, false) {
                    Some(plan) => (high, found) = (mid, Some(plan)),
                    None => low = mid,
                }
            }
            limit = high;
        }
        limited(limit, true).or(found)
    }
}

/// What the batches of a bay would be, shared evenly.
struct Even {
    /// What each batch gets in an even split, as the measure can show it.
    share: Volume,
    /// The largest of them now.
    most: Volume,
}

impl Even {
    /// Of the largest batches of a bay; nothing where there is nothing to share.
    fn of<'a>(coat: &Coat, batches: impl Iterator<Item = &'a Batch> + Clone) -> Option<Self> {
        let volumes = batches.clone().map(|batch| batch.measured.volume);
        let pails = volumes.clone().count();
        let last = volumes.clone().last()?;
        let spare: Volume = batches.map(|batch| batch.left_over).sum();
        let total = volumes.clone().sum::<Volume>() - spare;
        let most = volumes.fold(Volume::default(), Volume::max);
        // All before the last are as large as they may be: with them smaller it would only grow.
        if pails < 2 || last >= most * (1.0 - 1e-9) {
            return None;
        }
        let (ratio, tolerance) = (coat.product.ratio(), coat.product.tolerance());
        let alike = coat.gear.at_least(ratio, total / pails as f64, tolerance).ok()?;
        Some(Self { share: alike.volume.min(most), most })
    }

    /// The limit so far above the even share, of the way to the largest.
    fn limit(&self, above: f64) -> Volume {
        (self.share + (self.most - self.share) * above) * (1.0 + 1e-9)
    }

    /// No closer than from one mark of the measure to the next is the limit looked for.
    fn grain(&self, coat: &Coat) -> f64 {
        let (ratio, tolerance) = (coat.product.ratio(), coat.product.tolerance());
        let next = coat.gear.at_least(ratio, self.share * (1.0 + 1e-6), tolerance);
        let mark = next.map_or(Volume::default(), |next| 0.5 * (next.volume - self.share));
        let way = (self.most - self.share).max(self.most * 1e-9);
        (mark.max(self.most * HAIR) / way).value
    }
}
