//! One batch after another until the floor is down.

use crate::batch::{Batch, NoBatch};
use crate::job::Job;
use crate::quantity::Time;

/// One batch in its place in the row.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// When A meets B, counted from the first batch's.
    pub start: Time,
    /// The batch.
    pub batch: Batch,
}

/// A row of batches for a floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// In order.
    pub batches: Vec<Placed>,
}

impl Job {
    /// Batches for the whole floor, each the largest that meets its bounds on what is then left.
    ///
    /// Temperatures are taken as they are now for all of them.
    ///
    /// # Errors
    /// As [`Job::next_batch`], for whichever batch it happens to.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let plan = job.plan().unwrap();
    /// let laid: f64 = plan.batches.iter().map(|b| b.batch.area.value).sum();
    /// assert!((laid - 37.2).abs() < 1e-6);
    /// ```
    pub fn plan(&self) -> Result<Plan, NoBatch> {
        let mut rest = self.clone();
        let mut batches = Vec::new();
        let mut start = Time::default();
        loop {
            let batch = rest.next_batch()?;
            let next = start + batch.timeline.next_mix;
            let finishes = batch.finishes;
            rest.bare.area -= batch.area;
            batches.push(Placed { start, batch });
            if finishes {
                return Ok(Plan { batches });
            }
            start = next;
        }
    }
}
