//! The wet-edge limit of a batch: how long its edge may wait for the next one, and how long the edge of
//! the one before has waited for it.

use super::{Bound, TimeBound, order};
use crate::job::Job;
use crate::quantity::{Time, unit};
use crate::timeline::Work;

impl Job {
    /// The point of the edge that is closest to drying before the next batch meets it, and by when that
    /// must be poured; nothing where the edge need not stay wet. `left` says how long the film of what
    /// leaves the pail at a moment stays open.
    pub(super) fn wet_edge(
        &self,
        work: &Work,
        left: impl Fn(Time) -> Time,
    ) -> Option<(TimeBound, Time)> {
        if self.bare.ends_at_joint {
            return None;
        }
        let next_pour = work.timeline().next_pour;
        let points = work.edge(next_pour).into_iter().map(|point| TimeBound {
            bound: Bound::WetEdge,
            needs: point.met - point.leaves,
            has: left(point.leaves) * self.crew.usable,
        });
        let worst = points.min_by(|a, b| order(a.spare(), b.spare()))?;
        // The edge is kept as long as the next batch may come later.
        Some((worst, next_pour + Time::new::<unit::second>(worst.spare())))
    }

    /// Whether this batch is at the edge of the one before in time, where its plan knows of one.
    pub(super) fn edge_before(&self, work: &Work) -> Option<TimeBound> {
        self.bare.meets.map(|edge| TimeBound {
            bound: Bound::EdgeBefore,
            needs: work.meets(&edge),
            has: edge.until,
        })
    }
}
