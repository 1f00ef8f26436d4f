//! Batch after batch until a coat is down, each at its own hour and place.

use super::share::Share;
use super::{Coat, Cracks, Floor, Learnt, WayOut};
use crate::batch::{Batch, NoBatch};
use crate::conditions::Conditions;
use crate::coverage::Coverage;
use crate::crew::Crew;
use crate::job::{Bare, CutIn, Job};
use crate::quantity::{Area, Length, Time, Volume, minutes, unit};
use crate::record::{InPlanRecord, Role};

/// Where a batch is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Place {
    /// In the cracks, between two lengths along them.
    Cracks {
        /// From.
        from: Length,
        /// To.
        to: Length,
    },
    /// On walls and steps.
    Verticals,
    /// On the flat, between two distances from the back wall.
    Flat {
        /// From.
        from: Length,
        /// To: where to tape.
        to: Length,
    },
}

/// One batch in its place in the row.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// When A meets B, from when the coat begins.
    pub start: Time,
    /// Where it goes.
    pub place: Place,
    /// What it was worked out from: conditions and floor as they are then.
    pub job: Job,
    /// The batch.
    pub batch: Batch,
    /// The most that it was given, where the coat is shared among its pails.
    pub share: Option<Volume>,
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
        let (job, area) = (&self.job, self.batch.area);
        let (at_start, edges) = job.bare.cut_in.brushed(area, job.crew.cutters > 0);
        InPlanRecord {
            went,
            pace,
            edge_at_start_m2: at_start.get::<unit::square_meter>(),
            edge_per_m2: (edges / area).value,
        }
    }
}

/// The batches of a coat.
#[derive(Clone, Debug, PartialEq)]
pub struct CoatPlan {
    /// In order.
    pub batches: Vec<Placed>,
    /// What was learnt from those that are down.
    pub learnt: Option<Learnt>,
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
    /// What its batches come to, each as it can be measured.
    pub fn planned(&self) -> Volume {
        self.batches.iter().map(|placed| placed.batch.measured.volume).sum()
    }
}

/// Why a plan stops before the floor is down.
#[derive(Clone, Debug, PartialEq)]
pub struct Stopped {
    /// Where.
    pub place: Place,
    /// When, from when the coat begins.
    pub at: Time,
    /// Why there is no batch.
    pub why: NoBatch,
    /// What would make one possible.
    pub ways: Vec<WayOut>,
}

/// How far ahead a batch's own temperatures are looked up at first.
fn usual_length() -> Time {
    minutes(60.0)
}

/// A part of a coat: where it is, how much is left, and how the bare part looks.
struct Stretch {
    place: Place,
    bare: Bare,
    crew: Crew,
    /// The most that one batch of it is given.
    share: Option<Volume>,
}

impl Floor {
    /// The batches of a coat, from where it has come to: each as large as it may be, and on the floor
    /// no larger than a share of it.
    pub(super) fn plan_in(&self, coat: &Coat, share: Option<Share>) -> CoatPlan {
        let learnt = self.learnt(coat);
        let mut plan = CoatPlan {
            batches: Vec::new(),
            learnt,
            needed: Volume::default(),
            left: None,
            short: None,
            stopped: None,
            soaks: coat.coverage.take_up() > 0.0,
        };
        let mut start = coat.resumes.max(self.hands_free(coat));
        if let Some(verticals) = self.verticals.filter(|_| self.stands_up(coat)) {
            let bare = Bare {
                area: verticals.area - coat.brushed,
                width: verticals.area / verticals.length,
                coverage: coat.coverage,
                // A wall ends at a corner.
                ends_at_joint: true,
                cut_in: CutIn::default(),
            };
            let crew = self.crew.brushing();
            let stretch = Stretch { place: Place::Verticals, bare, crew, share: None };
            start = coat.lay(&mut plan, stretch, start, |place, _| place);
        }
        let mut from = learnt.map_or(self.begin(coat), |learnt| learnt.reached);
        while plan.stopped.is_none() {
            let Some(stretch) = self.stretch(coat, learnt, from) else { break };
            let laid = plan.batches.iter().filter(|placed| placed.place != Place::Verticals);
            let left = stretch.bare.coverage.volume_for(stretch.bare.area);
            let share = share.map(|share| share.of(coat, left, laid.count()));
            let stretch = Stretch { share, ..stretch };
            let reach = |area: Area| self.reach(coat, from, area);
            let place = |place: Place, batch: &Batch| {
                let to = reach(batch.area);
                match place {
                    Place::Cracks { .. } => Place::Cracks { from, to },
                    _ => Place::Flat { from, to },
                }
            };
            let before = plan.batches.len();
            start = coat.one(&mut plan, &stretch, start, place);
            match plan.batches.get(before).map(|placed| placed.place) {
                Some(Place::Flat { to, .. } | Place::Cracks { to, .. }) => from = to,
                _ => break,
            }
        }
        plan.needed = plan.planned() + self.unplanned(coat, &plan, from);
        plan.left = coat.on_hand.map(|here| {
            let rolled = learnt.map_or(Volume::default(), |learnt| learnt.mixed);
            (here - rolled - coat.gone).max(Volume::default())
        });
        plan.short = plan.left.map(|left| (plan.needed - left).max(Volume::default()));
        plan
    }

    /// When the hands that lay the last batch are free to mix the next, or to pour it where somebody
    /// else mixes; the beginning where nobody saw how long it took.
    fn hands_free(&self, coat: &Coat) -> Time {
        let last = coat.done.last();
        let Some((begun, took)) = last.and_then(|done| Some((done.begun?, done.rolled_in?))) else {
            return Time::default();
        };
        let ready = coat.product.ready() + self.crew.carry;
        let rolled = begun + ready + took;
        if self.crew.mixer {
            return rolled - ready;
        }
        rolled + self.crew.carry + self.crew.clean_pail
    }

    /// What is taken by all that no batch is planned for.
    fn unplanned(&self, coat: &Coat, plan: &CoatPlan, from: Length) -> Volume {
        if plan.stopped.is_none() {
            return Volume::default();
        }
        let (went, _) = plan.learnt.map_or((1.0, 1.0), |learnt| learnt.planned());
        let flat = self.between(coat, from, Length::new::<unit::meter>(1e6));
        let brushed = plan.batches.iter().filter(|p| p.place == Place::Verticals);
        let brushed = coat.brushed + brushed.map(|placed| placed.batch.area).sum();
        let standing = self.verticals.filter(|_| self.stands_up(coat));
        let standing = standing.map_or(Area::default(), |verticals| verticals.area - brushed);
        coat.coverage.going(went).volume_for(flat + standing.max(Area::default()))
    }

    /// Whether a coat still has walls and steps before it.
    fn stands_up(&self, coat: &Coat) -> bool {
        self.cracks_of(coat).is_none() && !coat.verticals_done
    }

    /// The cracks, for a coat that fills them.
    fn cracks_of(&self, coat: &Coat) -> Option<Cracks> {
        self.cracks.filter(|_| coat.product.role() == Role::Filler)
    }

    /// Where a coat begins.
    pub(super) fn begin(&self, coat: &Coat) -> Length {
        self.cracks_of(coat).map_or(self.shape.back(), |_| Length::default())
    }

    /// Where a coat ends.
    pub(super) fn end(&self, coat: &Coat) -> Length {
        self.cracks_of(coat).map_or(self.shape.front(), |cracks| cracks.length)
    }

    /// The people of a coat, at its own work.
    pub(super) fn hands(&self, coat: &Coat) -> Crew {
        self.cracks_of(coat).map_or(self.crew, |cracks| self.crew.filling(cracks.width))
    }

    /// The area of a coat between two places.
    pub(super) fn between(&self, coat: &Coat, from: Length, to: Length) -> Area {
        match self.cracks_of(coat) {
            Some(cracks) => (to.min(cracks.length) - from).max(Length::default()) * cracks.width,
            None => self.shape.area_between(from, to),
        }
    }

    /// Where an area of a coat ends that begins at a place.
    fn reach(&self, coat: &Coat, from: Length, area: Area) -> Length {
        match self.cracks_of(coat) {
            Some(cracks) => (from + area / cracks.width).min(cracks.length),
            None => self.shape.reach(from, area),
        }
    }

    /// What is still bare from a place on; `None` when nothing is.
    fn stretch(&self, coat: &Coat, learnt: Option<Learnt>, from: Length) -> Option<Stretch> {
        let (went, quicker) = learnt.map_or((1.0, 1.0), |learnt| learnt.planned());
        let coverage = coat.coverage.going(went);
        let hands = self.hands(coat);
        let crew = Crew { roll: hands.roll * quicker, ..hands };
        let far = Length::new::<unit::meter>(1e6);
        let area = self.between(coat, from, far);
        if area.value <= 1e-6 {
            return None;
        }
        let cracks = self.cracks_of(coat);
        let (place, width, cut_in) = if let Some(cracks) = cracks {
            (Place::Cracks { from, to: far }, cracks.width, CutIn::default())
        } else {
            let to = self.shape.reach(from, coat.most(&coverage).min(area));
            let width = self.shape.widest(from, to);
            (Place::Flat { from, to: far }, width, self.cut_in(from, to))
        };
        let ends_at_joint = self.ends_at_joint || cracks.is_some();
        let bare = Bare { area, width, coverage, ends_at_joint, cut_in };
        Some(Stretch { place, bare, crew, share: None })
    }

    /// Edges of a batch that begins at a place and ends no later than another: what is brushed
    /// where it begins, the most that comes with each area of its sides, and the sides across. Never
    /// less than there is up to any place in it.
    fn cut_in(&self, from: Length, to: Length) -> CutIn {
        let edges = |to: Length| self.shape.edges(from, to) * self.cut_in;
        let area = |to: Length| self.shape.area_between(from, to);
        let hair = Length::new::<unit::millimeter>(1.0);
        let first = (from + hair).min(to);
        let at_start = edges(first);
        let corners: Vec<Length> =
            self.shape.corners().filter(|corner| *corner > first && *corner < to).collect();
        // Along the sides, from just past one corner to just before the next.
        let begins = [first].into_iter().chain(corners.iter().map(|corner| *corner + hair));
        let ends = corners.iter().copied().chain([to]).map(|corner| corner - hair);
        let rates = begins
            .zip(ends)
            .map(|(begin, end)| ((edges(end) - edges(begin)) / (area(end) - area(begin))).value);
        let per_area = rates.filter(|rate| rate.is_finite()).fold(0.0, f64::max);
        let mut cut_in = CutIn { at_start, per_area, ..CutIn::default() };
        let last = cut_in.corners.len() - 1;
        for (i, corner) in corners.into_iter().chain([to]).enumerate() {
            // At its end the floor has a side across only if it ends there.
            let beyond = area((corner - hair).max(from));
            let there = edges((corner + hair).min(to));
            let counted = at_start + beyond * per_area + cut_in.across(beyond * (1.0 + 1e-9));
            let edge = (there - counted).max(Area::default());
            // More of them than there is room for are met with the last.
            let place = &mut cut_in.corners[i.min(last)];
            place.edge += edge;
            if i <= last {
                place.beyond = beyond;
            }
        }
        cut_in
    }
}

impl Coat {
    /// The most that any batch can cover.
    fn most(&self, coverage: &Coverage) -> Area {
        let by_mass = self.gear.largest_mass() / self.product.ratio().density();
        coverage.area_from(self.gear.vessel.working_capacity().min(by_mass))
    }

    /// Batches of one stretch until it is down; the time at which the next one starts.
    fn lay(
        &self,
        plan: &mut CoatPlan,
        mut stretch: Stretch,
        mut start: Time,
        place: impl Fn(Place, &Batch) -> Place + Copy,
    ) -> Time {
        while plan.stopped.is_none() && stretch.bare.area.value > 1e-6 {
            let before = plan.batches.len();
            start = self.one(plan, &stretch, start, place);
            if let Some(placed) = plan.batches.get(before) {
                stretch.bare.area -= placed.batch.area;
            }
        }
        start
    }

    /// One batch at its own hour, and when the next one starts.
    fn one(
        &self,
        plan: &mut CoatPlan,
        stretch: &Stretch,
        start: Time,
        place: impl Fn(Place, &Batch) -> Place,
    ) -> Time {
        let mut job = Job {
            product: self.product.clone(),
            conditions: self.course.warmest(start, start + usual_length()),
            crew: stretch.crew,
            bare: stretch.bare,
            gear: self.gear.clone(),
        };
        let found = match stretch.share {
            None => at_its_hour(self, &mut job, start),
            Some(share) => job.within(share, |job| at_its_hour(self, job, start)),
        };
        let batch = match found {
            Ok(batch) => batch,
            Err(why) => {
                let ways = self.ways_out(&job, start);
                plan.stopped = Some(Stopped { place: stretch.place, at: start, why, ways });
                return start;
            }
        };
        let next = start + batch.timeline.next_mix;
        let place = place(stretch.place, &batch);
        plan.batches.push(Placed { start, place, job, batch, share: stretch.share });
        next
    }
}

/// The next batch with temperatures as warm as they get while it is laid.
pub(super) fn at_its_hour(coat: &Coat, job: &mut Job, start: Time) -> Result<Batch, NoBatch> {
    let batch = job.next_batch()?;
    if batch.timeline.done <= usual_length() {
        return Ok(batch);
    }
    let warmer: Conditions = coat.course.warmest(start, start + batch.timeline.done);
    if warmer == job.conditions {
        return Ok(batch);
    }
    job.conditions = warmer;
    job.next_batch()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::record::RectangleRecord;

    /// A room that widens by half two metres in; edges of a hand's breadth.
    fn widening() -> Floor {
        let part =
            |width_m, depth_m, back_m| RectangleRecord { width_m, depth_m, left_m: 0.0, back_m };
        let mut record = demo::floor();
        record.flat = vec![part(6.0, 2.0, 0.0), part(9.0, 4.0, 2.0)];
        record.cut_in_m = 0.1;
        Floor::try_from(&record).unwrap()
    }

    #[test]
    fn edges_are_never_fewer_than_there_are_and_hardly_more() {
        let floor = widening();
        let m = Length::new::<unit::meter>;
        for from in [0.0, 0.7, 1.5, 1.97, 1.9995, 2.0, 3.0] {
            for deep in [0.4, 1.0, 3.0, 10.0] {
                let (from, to) = (m(from), m(from + deep).min(floor.shape.front()));
                let cut_in = floor.cut_in(from, to);
                let counted =
                    |area: Area| cut_in.at_start + area * cut_in.per_area + cut_in.across(area);
                for share in [0.05, 0.3, 0.6, 1.0] {
                    let end = from + (to - from) * share;
                    let area = floor.shape.area_between(from, end);
                    let there = floor.shape.edges(from, end) * floor.cut_in;
                    let counted = counted(area);
                    assert!(
                        counted >= there * (1.0 - 1e-9),
                        "{from:?} {end:?}: {counted:?} {there:?}"
                    );
                    // The steepest of its sides counts all along.
                    let most = there * 1.4 + Area::new::<unit::square_meter>(0.05);
                    assert!(counted <= most, "{from:?} {end:?}: {counted:?} {there:?}");
                }
            }
        }
    }

    /// Three centimetres before the room widens a batch is as large as it is right there.
    #[test]
    fn a_corner_just_ahead_is_no_wall() {
        let mut floor = widening();
        let plan = |floor: &Floor, at: f64| {
            let mut coat = floor.coats[0].clone();
            coat.verticals_done = true;
            coat.done = vec![super::super::Done {
                ended_at: Length::new::<unit::meter>(at),
                mixed: coat.coverage.volume_for(
                    floor.shape.area_between(floor.shape.back(), Length::new::<unit::meter>(at)),
                ),
                rolled_in: None,
                begun: None,
            }];
            floor.plan(&coat).batches[0].batch.area.value
        };
        floor.crew.rollers = 2;
        let (before, there) = (plan(&floor, 1.97), plan(&floor, 2.0));
        assert!(before > 0.9 * there, "{before} and {there} m²");
    }
}
