//! Batch after batch until a coat is down, each at its own hour and place.

use super::bare::WorkFront;
use super::lanes::{Lane, first_to_want};
use super::share::Share;
use super::{Coat, CoatPlan, Floor, Place, Placed, Stopped, UnderWay, Verticals};
use crate::batch::{Batch, NoBatch};
use crate::conditions::Conditions;
use crate::job::{Bare, CutIn, Job};
use crate::mixing::{Mixing, away};
use crate::quantity::{Area, Length, Time, Volume, minutes};
use crate::sorted::sorted_by;

/// How far ahead a batch's own temperatures are looked up at first.
fn usual_length() -> Time {
    minutes(60.0)
}

/// A coat that is being laid on paper.
struct Laying<'a> {
    floor: &'a Floor,
    coat: &'a Coat,
    plan: CoatPlan,
    /// When each of those who mix is back.
    back: Vec<Time>,
    /// How far each bay has come.
    reached: Vec<Length>,
}

impl Floor {
    /// The batches of a coat, from where it has come to: each as large as it may be, and on the floor
    /// no larger than the share of its bay. Whoever mixes serves the crew first that wants its batch
    /// first.
    pub(super) fn plan_in(&self, coat: &Coat, shares: Option<&[Share]>) -> CoatPlan {
        let mut laying = Laying {
            floor: self,
            coat,
            plan: CoatPlan::nothing(coat, self.learnt(coat)),
            back: vec![Time::default(); self.crew.mixers as usize],
            reached: (0..coat.bays.len()).map(|bay| self.reached(coat, bay)).collect(),
        };
        let standing = self.verticals.filter(|_| self.stands_up(coat));
        let begins = standing.map_or(coat.resumes, |standing| laying.brush(&standing));
        let mut lanes = self.lanes(coat, begins);
        for lane in &mut lanes {
            lane.ended = laying.plan.stopped.is_some();
        }
        while let Some(lane) = first_to_want(&mut lanes) {
            laying.next_of(lane, shares);
        }
        if lanes.len() > 1 {
            laying.plan.batches = sorted_by(laying.plan.batches, |placed| placed.start.value);
        }
        let Laying { mut plan, reached, .. } = laying;
        plan.needed = plan.planned() + plan.apart + self.unplanned(coat, &plan, &reached);
        plan.left = coat.on_hand.map(|here| {
            let rolled = plan.learnt.map_or(Volume::default(), |learnt| learnt.mixed);
            (here - rolled - coat.used_otherwise).max(Volume::default())
        });
        plan.short = plan.left.map(|left| (plan.needed - left).max(Volume::default()));
        plan
    }
}

impl Laying<'_> {
    /// The batches of walls and steps, brushed by everybody, and when the flat can begin.
    fn brush(&mut self, standing: &Verticals) -> Time {
        let (floor, coat) = (self.floor, self.coat);
        let free = (0..coat.teams.len()).map(|team| floor.hands_free(coat, team));
        let mut all = Lane {
            team: 0,
            mixers: 0..self.back.len(),
            wait: Time::default(),
            wants: free.fold(coat.resumes, Time::max),
            begun: coat.begun_in(|bay| bay.is_none()),
            ended: false,
        };
        all.await_begun();
        let mut area = standing.area - coat.brushed;
        while area.value > 1e-6 {
            let bare = Bare {
                area,
                width: standing.area / standing.length,
                coverage: coat.coverage,
                // A wall ends at a corner.
                ends_at_joint: true,
                cut_in: CutIn::default(),
                meets: None,
            };
            let (crew, begun) = (floor.crew.brushing(), all.begin());
            let front = WorkFront { place: Place::Verticals, bare, crew, share: None };
            let laid = self.one(&front, (&mut all, begun), |place, _| place);
            area -= match (laid, begun.and_then(|begun| begun.mixed)) {
                (Some(_), _) => self.plan.batches.last().map_or(area, |placed| placed.batch.area),
                (None, Some(mixed)) => {
                    self.plan.apart += mixed;
                    coat.coverage.area_from(mixed)
                }
                (None, None) => break,
            };
        }
        all.wants
    }

    /// The next batch of a crew: what it has under way, or the next on its own bays.
    fn next_of(&mut self, lane: &mut Lane, shares: Option<&[Share]>) {
        let (floor, coat) = (self.floor, self.coat);
        let begun = lane.begin();
        let is_next = |bay: &usize| match begun {
            Some(begun) => begun.bay == Some(*bay),
            None => coat.is_laid_by(lane.team, *bay),
        };
        let mut bays = (0..coat.bays.len()).filter(is_next);
        let front = bays.find_map(|bay| {
            let from = *self.reached.get(bay)?;
            Some((bay, from, floor.front(coat, self.plan.learnt, (bay, from))?))
        });
        let Some((bay, from, mut front)) = front else {
            // Of what is begun there may be nothing bare any more.
            lane.ended = begun.is_none();
            return;
        };
        let laid = self.plan.batches.iter().filter(|placed| placed.place.bay() == Some(bay));
        let left = front.bare.coverage.volume_for(front.bare.area);
        let share = shares.and_then(|shares| shares.get(bay));
        front.share = share.map(|share| share.of(coat, left, laid.count()));
        let ends = |area: Area| {
            let taped = begun.and_then(|begun| begun.to);
            taped.map_or_else(|| floor.reach(coat, bay, from, area), |taped| taped.max(from))
        };
        let place = |place: Place, batch: &Batch| match place {
            Place::Cracks { .. } => Place::Cracks { from, to: ends(batch.area) },
            _ => Place::Flat { bay, from, to: ends(batch.area) },
        };
        match self.one(&front, (lane, begun), place) {
            Some(Place::Flat { to, .. } | Place::Cracks { to, .. }) => self.reached[bay] = to,
            _ => match begun.and_then(|begun| begun.mixed) {
                // It is mixed, whatever this says of it.
                Some(mixed) => {
                    self.reached[bay] = ends(front.bare.coverage.area_from(mixed));
                    self.plan.apart += mixed;
                }
                None => lane.ended = true,
            },
        }
    }

    /// One batch at its own hour, mixed by whoever is back first, or one that is under way; where it
    /// goes, or nothing where there is none.
    fn one(
        &mut self,
        front: &WorkFront,
        (lane, begun): (&mut Lane, Option<UnderWay>),
        place: impl Fn(Place, &Batch) -> Place,
    ) -> Option<Place> {
        let coat = self.coat;
        let back = &mut self.back;
        let mixers = sorted_by(lane.mixers.clone().collect(), |mixer| back[*mixer].value);
        let mixer = mixers.first().copied();
        let start = mixer.map_or(lane.wants, |mixer| lane.wants.max(back[mixer]));
        let start = begun.map_or(start, |begun| begun.begun);
        let another_back = mixers.get(1).map(|mixer| (back[*mixer] - start).max(Time::default()));
        // What is mixed is mixed, whatever edge it meets.
        let meets = self.plan.edge_before(front, start).filter(|_| begun.is_none());
        let mut job = Job {
            product: coat.product.clone(),
            conditions: coat.course.warmest(start, start + usual_length()),
            crew: front.crew,
            bare: Bare { meets, ..front.bare },
            gear: coat.gear.clone(),
            mixing: Mixing { another_back, wait: lane.wait },
        };
        let mixed = begun.and_then(|begun| begun.mixed);
        // A hair more than it is, so that it is not measured down.
        let share = mixed.map(|mixed| mixed * (1.0 + 1e-6)).or(front.share);
        let found = match share {
            None => at_its_hour(coat, &mut job, start),
            Some(share) => job.within(share, |job| at_its_hour(coat, job, start)),
        };
        let batch = match found {
            Ok(batch) => batch,
            Err(why) => {
                if mixed.is_none() {
                    let place = front.place;
                    let ways = self.floor.ways_out(coat, &job, (place, start));
                    self.plan.stopped.get_or_insert(Stopped { place, at: start, why, ways });
                }
                lane.await_begun();
                return None;
            }
        };
        let volume = batch.measured.volume;
        if let Some(mixer) = mixer {
            back[mixer] = start + away(&job.crew, &coat.product, &coat.gear, volume);
        }
        self.plan.apart +=
            mixed.map_or(Volume::default(), |mixed| mixed - volume).max(Volume::default());
        lane.wants = start + batch.timeline.next_mix;
        lane.await_begun();
        let place = place(front.place, &batch);
        let placed = Placed { start, mixer, place, job, batch, share, under_way: begun };
        self.plan.batches.push(placed);
        Some(place)
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

    use super::super::bare::tests::widening;
    use crate::quantity::unit;

    /// Three centimetres before the room widens a batch is as large as it is right there.
    #[test]
    fn a_corner_just_ahead_is_no_wall() {
        let mut floor = widening();
        let plan = |floor: &Floor, at: f64| {
            let mut coat = floor.coats[0].clone();
            coat.verticals_done = true;
            coat.done = vec![super::super::Done {
                bay: 0,
                ended_at: Length::new::<unit::meter>(at),
                mixed: coat.coverage.volume_for(
                    floor.shape.area_between(floor.shape.back(), Length::new::<unit::meter>(at)),
                ),
                rolled_in: None,
                begun: None,
            }];
            // Not as it is shared with those after it.
            floor.plan_in(&coat, None).batches[0].batch.area.value
        };
        floor.crew.rollers = 2;
        let (before, there) = (plan(&floor, 1.97), plan(&floor, 2.0));
        assert!(before > 0.9 * there, "{before} and {there} m²");
    }
}
