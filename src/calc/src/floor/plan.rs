//! The plan of a coat: its batches, each at its place and hour, and why there are no more.

use super::bare::WorkFront;
use super::{Coat, Learnt, UnderWay, WayOut};
use crate::batch::{Batch, NoBatch};
use crate::edge_before::EdgeBefore;
use crate::job::Job;
use crate::quantity::{Area, Length, Time, Volume, unit};
use crate::record::InPlanRecord;

/// Where a batch is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Place {
    /// In the cracks, between two lengths along them.
    Cracks {
        /// Where it begins, as a length along the cracks.
        from: Length,
        /// Where it ends, as a length along the cracks.
        to: Length,
    },
    /// On walls and steps.
    Verticals,
    /// On the flat, between two distances from the back wall.
    Flat {
        /// In which bay, from the left.
        bay: usize,
        /// Where it begins, as a distance from the back wall.
        from: Length,
        /// To: where to tape.
        to: Length,
    },
}

impl Place {
    /// Which bay, of the flat; cracks are not parted into any and count as one.
    pub(super) fn bay(self) -> Option<usize> {
        match self {
            Self::Verticals => None,
            Self::Cracks { .. } => Some(0),
            Self::Flat { bay, .. } => Some(bay),
        }
    }
}

/// One batch in its place in the row.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// When A meets B, from when the coat begins.
    pub start: Time,
    /// Who mixes it, of those who do nothing else; nobody where the rollers mix.
    pub mixer: Option<usize>,
    /// Where on the floor the batch is laid.
    pub place: Place,
    /// What it was worked out from: conditions and floor as they are then.
    pub job: Job,
    /// The batch worked out for this place: its amount, area, limit and times.
    pub batch: Batch,
    /// The most that it was given, where the coat is shared among its pails.
    pub share: Option<Volume>,
    /// The batch that is mixed already, where it is one: of it the batch may be a part, where no more
    /// would be mixed now.
    pub under_way: Option<UnderWay>,
}

impl Placed {
    /// What its plan knows of it beyond what is typed for one batch: taken over with that, the
    /// same batch comes out.
    ///
    /// ```
    /// use pailwise_calc::{demo, floor::Floor};
    /// let floor = Floor::try_from(&demo::floor()).unwrap();
    /// let plan = floor.plan(&floor.coats[0]);
    /// // Nothing is down: all as it was given, and the back wall is cut in first.
    /// let in_plan = plan.batches[0].in_plan(plan.learnt);
    /// assert_eq!((in_plan.went, in_plan.pace), (1.0, 1.0));
    /// assert!(in_plan.edge_at_start_m2 > 0.0);
    /// ```
    pub fn in_plan(&self, learnt: Option<Learnt>) -> InPlanRecord {
        // What was learnt on the flat says nothing of a wall.
        let learnt = learnt.filter(|_| self.place != Place::Verticals);
        let (went, pace) = learnt.map_or((1.0, 1.0), |learnt| learnt.planned());
        let job = &self.job;
        let (cut_in, m2) = (job.bare.cut_in, |area: Area| area.get::<unit::square_meter>());
        InPlanRecord {
            went,
            pace,
            edge_at_start_m2: m2(cut_in.at_start),
            edge_per_m2: cut_in.per_area,
            edge_across_m2: 0.0,
            edge_ahead_m2: m2(cut_in.ahead),
            sides_across: Some(cut_in.sides()),
            another_back_min: job.mixing.another_back.map(|back| back.get::<unit::minute>()),
            wait_min: job.mixing.wait.get::<unit::minute>(),
            edge_before: job.bare.meets.map(|edge| edge.record()),
        }
    }
}

/// The batches of a coat.
#[derive(Clone, Debug, PartialEq)]
pub struct CoatPlan {
    /// The batches still to be laid, in the order they are mixed.
    pub batches: Vec<Placed>,
    /// What was learnt from those that are down.
    pub learnt: Option<Learnt>,
    /// What of it is mixed already beyond what this plan would mix now.
    pub apart: Volume,
    /// What is still to be laid takes, where the plan stops as well.
    pub needed: Volume,
    /// What is left here, where it was said what was: without what has been mixed.
    pub left: Option<Volume>,
    /// How much of the need is not here.
    pub short: Option<Volume>,
    /// Why it goes no further, if it does not.
    pub stopped: Option<Stopped>,
    /// Whether the slab soaks up of it, as a rough one does of the first coat.
    pub soaks: bool,
}

impl CoatPlan {
    /// Of a coat of which nothing is planned yet.
    pub(super) fn nothing(coat: &Coat, learnt: Option<Learnt>) -> Self {
        Self {
            batches: Vec::new(),
            learnt,
            apart: Volume::default(),
            needed: Volume::default(),
            left: None,
            short: None,
            stopped: None,
            soaks: coat.coverage.take_up() > 0.0,
        }
    }

    /// When the last patch of it is finished, from when the coat begins: that is not always one of
    /// the batch mixed last.
    pub fn finished(&self) -> Option<Time> {
        let done = self.batches.iter().map(|placed| placed.start + placed.batch.timeline.done);
        done.reduce(Time::max)
    }

    /// The wet edge that the batch before left where a front begins, from when the next is mixed;
    /// nothing where there is none, or it need not stay wet.
    pub(super) fn edge_before(&self, front: &WorkFront, start: Time) -> Option<EdgeBefore> {
        let Place::Flat { bay, .. } = front.place else { return None };
        let before = self.batches.iter().rfind(|placed| placed.place.bay() == Some(bay))?;
        let wet = !front.bare.ends_at_joint;
        wet.then(|| EdgeBefore::of(&before.batch, start - before.start))
    }

    /// What its batches come to, each as it can be measured.
    pub fn planned(&self) -> Volume {
        self.batches.iter().map(|placed| placed.batch.measured.volume).sum()
    }
}

/// Why a plan stops before the floor is down.
#[derive(Clone, Debug, PartialEq)]
pub struct Stopped {
    /// The bay, wall or crack where no further batch is possible.
    pub place: Place,
    /// When, from when the coat begins.
    pub at: Time,
    /// Why there is no batch.
    pub why: NoBatch,
    /// What would make one possible.
    pub ways: Vec<WayOut>,
}
