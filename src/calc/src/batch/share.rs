//! A batch that is given no more than its share of a coat.

use super::{Batch, Bound, NoBatch};
use crate::job::Job;
use crate::quantity::Volume;

impl Job {
    /// The next batch of no more than a share of the coat ([`crate::floor`]). Where nothing else
    /// holds it back it is the floor that does.
    ///
    /// ```
    /// use pailwise_calc::{batch::Bound, demo, job::Job};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let largest = job.next_batch().unwrap();
    /// let half = job.next_batch_within(largest.measured.volume * 0.5).unwrap();
    /// assert!(half.measured.volume <= largest.measured.volume * 0.5);
    /// assert_eq!(half.bound, Bound::Floor);
    /// ```
    ///
    /// # Errors
    /// As [`Job::next_batch`].
    pub fn next_batch_within(&self, share: Volume) -> Result<Batch, NoBatch> {
        self.clone().within(share, |job| job.next_batch())
    }

    /// What is found of this job while no batch of it is larger than a share.
    pub(crate) fn within(
        &mut self,
        share: Volume,
        find: impl FnOnce(&mut Self) -> Result<Batch, NoBatch>,
    ) -> Result<Batch, NoBatch> {
        let share = share * self.product.ratio().density();
        let own = self.gear.largest_mass;
        if self.gear.largest_mass() <= share {
            return find(self);
        }
        self.gear.largest_mass = Some(share);
        let found = find(self);
        self.gear.largest_mass = own;
        let bound = |bound| if bound == Bound::Mass { Bound::Floor } else { bound };
        found.map(|batch| Batch { bound: bound(batch.bound), ..batch })
    }
}
