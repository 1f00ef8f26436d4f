//! Batch after batch until a coat is down, each at its own hour and place.

use std::ops::Range;

use super::bare::Stretch;
use super::share::Share;
use super::{Coat, Floor, Learnt, Team, WayOut};
use crate::batch::{Batch, NoBatch};
use crate::conditions::Conditions;
use crate::job::{Bare, CutIn, Job};
use crate::mixing::{Mixing, away, longest_away, setting_up};
use crate::quantity::{Area, Length, Time, Volume, minutes, unit};
use crate::ranked::ranked;
use crate::record::InPlanRecord;

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
        /// In which bay, from the left.
        bay: usize,
        /// From.
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
        let (cut_in, m2) = (job.bare.cut_in, |area: Area| area.get::<unit::square_meter>());
        InPlanRecord {
            went,
            pace,
            edge_at_start_m2: m2(cut_in.at_start),
            edge_per_m2: cut_in.per_area,
            edge_across_m2: m2(cut_in.across(area)),
            edge_ahead_m2: m2(cut_in.next_meets(area)),
            another_back_min: job.mixing.another_back.map(|back| back.get::<unit::minute>()),
            wait_min: job.mixing.wait.get::<unit::minute>(),
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
    /// When the last patch of it is finished, from when the coat begins: that is not always one of
    /// the batch mixed last.
    pub fn finished(&self) -> Option<Time> {
        let done = self.batches.iter().map(|placed| placed.start + placed.batch.timeline.done);
        done.reduce(Time::max)
    }

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

/// One crew at work: its share of everybody, and when it wants its next batch.
struct Lane {
    /// Which crew.
    team: usize,
    /// Which of those who mix do so for it.
    mixers: Range<usize>,
    /// How much longer its next batch may wait for them, where they mix for others too.
    wait: Time,
    /// When A is to meet B in its next batch, from when the coat begins.
    wants: Time,
    /// It has no more to lay, or no way to.
    ended: bool,
}

impl Floor {
    /// The batches of a coat, from where it has come to: each as large as it may be, and on the floor
    /// no larger than the share of its bay. Whoever mixes serves the crew first that wants its batch
    /// first.
    pub(super) fn plan_in(&self, coat: &Coat, shares: Option<&[Share]>) -> CoatPlan {
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
        // When each of those who mix is back.
        let mut back = vec![Time::default(); self.crew.mixers as usize];
        let begins = self.brush(coat, &mut plan, &mut back);
        let mut reached: Vec<Length> =
            (0..coat.bays.len()).map(|bay| self.reached(coat, bay)).collect();
        let mut lanes = self.lanes(coat, begins);
        for lane in &mut lanes {
            lane.ended = plan.stopped.is_some();
        }
        while let Some(lane) = first_to_want(&mut lanes) {
            let bays = (0..coat.bays.len()).filter(|bay| coat.is_laid_by(lane.team, *bay));
            let stretch = bays.into_iter().find_map(|bay| {
                let from = *reached.get(bay)?;
                Some((bay, from, self.stretch(coat, learnt, (bay, from))?))
            });
            let Some((bay, from, mut stretch)) = stretch else {
                lane.ended = true;
                continue;
            };
            let laid = plan.batches.iter().filter(|placed| placed.place.bay() == Some(bay));
            let left = stretch.bare.coverage.volume_for(stretch.bare.area);
            let share = shares.and_then(|shares| shares.get(bay));
            stretch.share = share.map(|share| share.of(coat, left, laid.count()));
            let place = |place: Place, batch: &Batch| {
                let to = self.reach(coat, bay, from, batch.area);
                match place {
                    Place::Cracks { .. } => Place::Cracks { from, to },
                    _ => Place::Flat { bay, from, to },
                }
            };
            match coat.one(&mut plan, &stretch, (lane, &mut back), place) {
                Some(Place::Flat { to, .. } | Place::Cracks { to, .. }) => reached[bay] = to,
                _ => lane.ended = true,
            }
        }
        if lanes.len() > 1 {
            plan.batches = ranked(plan.batches, |placed| placed.start.value);
        }
        plan.needed = plan.planned() + self.unplanned(coat, &plan, &reached);
        plan.left = coat.on_hand.map(|here| {
            let rolled = learnt.map_or(Volume::default(), |learnt| learnt.mixed);
            (here - rolled - coat.gone).max(Volume::default())
        });
        plan.short = plan.left.map(|left| (plan.needed - left).max(Volume::default()));
        plan
    }

    /// The batches of walls and steps, brushed by everybody, and when the flat can begin.
    fn brush(&self, coat: &Coat, plan: &mut CoatPlan, back: &mut [Time]) -> Time {
        let Some(verticals) = self.verticals.filter(|_| self.stands_up(coat)) else {
            return coat.resumes;
        };
        let free = (0..coat.teams.len()).map(|team| self.hands_free(coat, team));
        let mut all = Lane {
            team: 0,
            mixers: 0..back.len(),
            wait: Time::default(),
            wants: free.fold(coat.resumes, Time::max),
            ended: false,
        };
        let mut area = verticals.area - coat.brushed;
        while area.value > 1e-6 {
            let bare = Bare {
                area,
                width: verticals.area / verticals.length,
                coverage: coat.coverage,
                // A wall ends at a corner.
                ends_at_joint: true,
                cut_in: CutIn::default(),
            };
            let crew = self.crew.brushing();
            let stretch = Stretch { place: Place::Verticals, bare, crew, share: None };
            if coat.one(plan, &stretch, (&mut all, back), |place, _| place).is_none() {
                break;
            }
            area -= plan.batches.last().map_or(area, |placed| placed.batch.area);
        }
        all.wants
    }

    /// The crews of a coat whose floor can begin at a time.
    fn lanes(&self, coat: &Coat, begins: Time) -> Vec<Lane> {
        let lane = |(i, team): (usize, &Team)| {
            let (crew, product, gear) = (&team.crew, &coat.product, &coat.gear);
            let others = f64::from(team.serves.saturating_sub(1));
            Lane {
                team: i,
                mixers: team.mixers.clone(),
                wait: others * longest_away(crew, product, gear, coat.fullest()),
                wants: coat.begun(i).unwrap_or_else(|| begins.max(self.hands_free(coat, i))),
                ended: false,
            }
        };
        coat.teams.iter().enumerate().map(lane).collect()
    }

    /// When the hands of a crew that lay its last batch are free to mix the next, or to pour it where
    /// somebody else mixes; the beginning where nobody knows.
    fn hands_free(&self, coat: &Coat, team: usize) -> Time {
        let mut last = coat.done.iter().zip(self.covered(coat)).rev();
        let Some((done, area)) = last.find(|(done, _)| coat.is_laid_by(team, done.bay)) else {
            return Time::default();
        };
        let hands = self.hands(coat, done.bay);
        // Of one crew the time of the next batch says it; of several it is that of any of them.
        let as_planned = (coat.teams.len() > 1).then(|| area / hands.all_rolling());
        let Some((begun, took)) = done.begun.zip(done.rolled_in.or(as_planned)) else {
            return Time::default();
        };
        let ready = coat.product.ready() + hands.carry;
        let rolled = begun + ready + took;
        let (product, gear) = (&coat.product, &coat.gear);
        match hands.mixers {
            0 => rolled + hands.carry + setting_up(&hands, product, gear, done.mixed),
            // Whoever mixes alone is back then.
            1 => (rolled - ready).max(begun + away(&hands, product, gear, done.mixed)),
            _ => rolled - ready,
        }
    }
}

/// The lane that wants its next batch first, of those that have not ended.
fn first_to_want(lanes: &mut [Lane]) -> Option<&mut Lane> {
    let open = lanes.iter_mut().filter(|lane| !lane.ended);
    open.reduce(|first, lane| if lane.wants < first.wants { lane } else { first })
}

impl Coat {
    /// Whether a bay is one of a crew's.
    fn is_laid_by(&self, team: usize, bay: usize) -> bool {
        self.bays.get(bay).is_some_and(|bay| bay.team == team)
    }

    /// When A met B in the batch that a crew has under way: the first that is planned for it.
    fn begun(&self, team: usize) -> Option<Time> {
        let under_way = self.under_way.iter().filter(|(bay, _)| self.is_laid_by(team, *bay));
        under_way.map(|(_, begun)| (*begun).max(Time::default())).reduce(Time::max)
    }

    /// One batch at its own hour, mixed by whoever is back first; where it goes, or nothing where
    /// there is none.
    fn one(
        &self,
        plan: &mut CoatPlan,
        stretch: &Stretch,
        (lane, back): (&mut Lane, &mut [Time]),
        place: impl Fn(Place, &Batch) -> Place,
    ) -> Option<Place> {
        let mixers = ranked(lane.mixers.clone().collect(), |mixer| back[*mixer].value);
        let mixer = mixers.first().copied();
        let start = mixer.map_or(lane.wants, |mixer| lane.wants.max(back[mixer]));
        let another_back = mixers.get(1).map(|mixer| (back[*mixer] - start).max(Time::default()));
        let mut job = Job {
            product: self.product.clone(),
            conditions: self.course.warmest(start, start + usual_length()),
            crew: stretch.crew,
            bare: stretch.bare,
            gear: self.gear.clone(),
            mixing: Mixing { another_back, wait: lane.wait },
        };
        let found = match stretch.share {
            None => at_its_hour(self, &mut job, start),
            Some(share) => job.within(share, |job| at_its_hour(self, job, start)),
        };
        let batch = match found {
            Ok(batch) => batch,
            Err(why) => {
                let ways = self.ways_out(&job, stretch.place, start);
                let stopped = Stopped { place: stretch.place, at: start, why, ways };
                plan.stopped.get_or_insert(stopped);
                return None;
            }
        };
        if let Some(mixer) = mixer {
            back[mixer] = start + away(&job.crew, &self.product, &self.gear, batch.measured.volume);
        }
        lane.wants = start + batch.timeline.next_mix;
        let place = place(stretch.place, &batch);
        plan.batches.push(Placed { start, mixer, place, job, batch, share: stretch.share });
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
            floor.plan(&coat).batches[0].batch.area.value
        };
        floor.crew.rollers = 2;
        let (before, there) = (plan(&floor, 1.97), plan(&floor, 2.0));
        assert!(before > 0.9 * there, "{before} and {there} m²");
    }
}
