//! A batch made smaller so that the last one of a floor is not a sliver.

use super::{Batch, Bound};
use crate::job::Job;

/// A last batch smaller than this share of the one before is a sliver.
const SLIVER: f64 = 0.25;

impl Job {
    /// The batch, or one of half of what is left where a sliver would remain after it; and whether
    /// it was made smaller.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job, quantity::{Mass, unit}};
    /// let mut job = Job::try_from(&demo::job()).unwrap();
    /// job.gear.largest_mass = Some(Mass::new::<unit::kilogram>(4.0));
    /// let most = job.next_batch().unwrap();
    /// // A tenth of a batch would remain.
    /// job.bare.area = most.area * 1.1;
    /// let (batch, evened) = job.evened(job.next_batch().unwrap());
    /// assert!(evened && batch.area < most.area * 0.6);
    /// ```
    pub fn evened(&self, batch: Batch) -> (Batch, bool) {
        let left = self.bare.area - batch.area;
        if batch.finishes || left > batch.area * SLIVER || batch.bound == Bound::Kit {
            return (batch, false);
        }
        let half = self.bare.coverage.volume_for(self.bare.area * 0.5);
        let mut smaller = self.clone();
        smaller.gear.largest_mass = Some(half * self.product.ratio().density());
        match smaller.next_batch() {
            Ok(even) if even.area < batch.area => (Batch { bound: batch.bound, ..even }, true),
            _ => (batch, false),
        }
    }
}
