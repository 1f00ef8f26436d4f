//! The batches of a coat chosen together: as few pails as will do, and shared evenly among them.
//!
//! Each batch as large as it may be needs the fewest pails: whatever another plan has laid by then,
//! this one has laid at least as much. But it leaves a sliver for the end, or 290 square feet and
//! then 109. So the same number of pails is laid again with a limit for each of them, the smallest
//! that still does, found by halving: that plan has the smallest largest batch of all that take as
//! many pails. One that would finish later is not taken.

use super::lay::{Place, Placed};
use super::{Coat, CoatPlan, Floor};
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
        self.shared(coat, &largest).unwrap_or(largest)
    }

    /// The plan of the largest batches, shared evenly; nothing where that changes nothing, or where
    /// there is nothing to share.
    fn shared(&self, coat: &Coat, largest: &CoatPlan) -> Option<CoatPlan> {
        let on_floor = || largest.batches.iter().filter(|placed| placed.place != Place::Verticals);
        let volume = |placed: &Placed| placed.batch.measured.volume;
        let pails = on_floor().count();
        let kits = on_floor().any(|placed| placed.batch.measured.kits.is_some());
        if largest.stopped.is_some() || pails < 2 || kits {
            return None;
        }
        let spare: Volume = on_floor().map(|placed| placed.batch.left_over).sum();
        let total = on_floor().map(volume).sum::<Volume>() - spare;
        let ratio = (coat.product.ratio(), coat.product.tolerance());
        let most = on_floor().map(volume).fold(Volume::default(), Volume::max);
        let alike = coat.gear.at_least(ratio.0, total / pails as f64, ratio.1).ok()?;
        let share = alike.volume.min(most);
        // All before the last are as large as they may be: with them smaller it would only grow.
        if on_floor().next_back().is_none_or(|last| volume(last) >= most * (1.0 - 1e-9)) {
            return None;
        }
        let finish = finished(largest)?;
        let finish = finish + as_early(finish - coat.resumes);
        let limited = |most: Volume, pails: Option<usize>| -> Option<CoatPlan> {
            let plan = self.plan_in(coat, Some(Share { most: most * (1.0 + 1e-9), pails }));
            let as_few = plan.batches.len() == largest.batches.len() && plan.stopped.is_none();
            (as_few && finished(&plan)? <= finish).then_some(plan)
        };
        let (mut limit, mut found) = (share, limited(share, None));
        if found.is_none() {
            // No closer than from one mark of the measure to the next.
            let next = coat.gear.at_least(ratio.0, share * (1.0 + 1e-6), ratio.1).ok()?.volume;
            let grain = (0.5 * (next - share)).max(most * HAIR);
            let (mut low, mut high) = (share, most);
            while pails <= MANY && high - low > grain {
                let mid = 0.5 * (low + high);
                match limited(mid, None) {
                    Some(plan) => (high, found) = (mid, Some(plan)),
                    None => low = mid,
                }
            }
            limit = high;
        }
        limited(limit, Some(pails)).or(found)
    }
}

/// When the last patch of a plan is finished.
fn finished(plan: &CoatPlan) -> Option<Time> {
    plan.batches.last().map(|placed| placed.start + placed.batch.timeline.done)
}
