//! The next batch: how much, and what holds it back.
//!
//! The answer is the largest area that meets every bound, with the amount rounded down to what
//! the crew can measure:
//!
//! - **floor**: no more than is left;
//! - **vessel**: filled at most three quarters, so that a drill can stir it;
//! - **mass**: no more than the owner allows in one pail;
//! - **pail life**: the pail is empty within the usable part of *this* mass's pot life;
//! - **open time**: every patch is flaked (or rolled) within the usable part of what it has left;
//! - **kit**: where only kits are mixed, the next portion of one would break another bound;
//! - **wet edge**: the next batch meets this one's edge within the usable part of what that has left.
//!
//! Where the floor is the bound the amount is rounded *up*, if the other bounds allow: the last
//! batch must not leave a bare strip.

use std::cmp::Ordering;

use serde::{Deserialize, Serialize};

use crate::crew::Crew;
use crate::error::Error;
use crate::field::Field;
use crate::job::Job;
use crate::measure::Measured;
use crate::pail::CuringPail;
use crate::quantity::{Area, Figure, Length, TemperatureInterval, Time, Volume, unit};
use crate::solve::largest_feasible;
use crate::timeline::{Timeline, Work};

mod explain;
mod kits;
mod moves;
mod pours;
mod salvage;
mod share;
mod wet_edge;

pub use kits::{KitFirst, Takes};
pub use moves::{Change, Move};
pub use pours::LastPour;
pub use salvage::Salvage;

/// What can hold a batch back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Bound {
    /// The floor that is left.
    Floor,
    /// What the vessel holds under a drill.
    Vessel,
    /// The most the owner allows in one pail.
    Mass,
    /// The pot life of this mass.
    PailLife,
    /// The time the film takes flake.
    OpenTime,
    /// The time the edge stays wet for the next batch.
    WetEdge,
    /// The time the edge of the batch before stays wet for this one.
    EdgeBefore,
    /// The next portion of a kit would be too much for one of these.
    Kit,
}

impl Bound {
    /// Whether it is of an edge: that is no reason to throw away what is mixed.
    pub(crate) fn is_of_an_edge(self) -> bool {
        matches!(self, Self::WetEdge | Self::EdgeBefore)
    }
}

/// The next batch to mix: its amount, area, limit and times.
#[derive(Clone, Debug, PartialEq)]
pub struct Batch {
    /// How much, as it is measured.
    pub measured: Measured,
    /// The area it is for.
    pub area: Area,
    /// How far along the floor that reaches.
    pub reach: Length,
    /// What holds it back.
    pub bound: Bound,
    /// How long this mass stays usable in this pail.
    pub pot_life: Time,
    /// The moment by which it must have left the pail.
    pub pour_out: Time,
    /// When it is poured, rolled, flaked, and when the next one is mixed.
    pub timeline: Timeline,
    /// When the patch that is closest to it closes.
    pub open_until: Time,
    /// When that patch must be finished: the usable part of what it has.
    pub finish_by: Time,
    /// The moment by which the next batch must be poured, to meet the edge of this one.
    pub edge_until: Time,
    /// What the film of the material poured last has left on the slab.
    pub edge_left: Time,
    /// How deep the strips are in which it is rolled.
    pub strip: Length,
    /// The floor is finished with it.
    pub finishes: bool,
    /// What of it the floor does not need, where rounding up to what can be measured leaves some.
    pub left_over: Volume,
}

/// No batch of any size meets every bound.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusal {
    /// The bound that fails at the smallest mix.
    pub bound: Bound,
    /// The smallest mix that was tried.
    pub smallest: Volume,
    /// How long it would take.
    pub needs: Time,
    /// How long there is.
    pub has: Time,
}

/// Why there is no next batch.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NoBatch {
    /// Something entered is wrong.
    #[error(transparent)]
    Wrong(#[from] Error),
    /// The bounds leave no room.
    #[error(
        "no batch fits: {:?} fails at the smallest mix of {}: it needs {}, there is {}",
        .0.bound, Figure::from(.0.smallest), Figure::from(.0.needs), Figure::from(.0.has)
    )]
    Refused(Refusal),
}

/// When a film closes, and when the part of its time that may be counted on is over.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct FilmDeadline {
    pub(crate) finish_by: Time,
    pub(crate) closes: Time,
}

impl FilmDeadline {
    /// Of a film that has so much left from a moment on.
    pub(crate) fn of(from: Time, left: Time, usable: f64) -> Self {
        Self { finish_by: from + left * usable, closes: from + left }
    }

    /// The sooner of each.
    pub(crate) fn min(self, other: Self) -> Self {
        Self {
            finish_by: self.finish_by.min(other.finish_by),
            closes: self.closes.min(other.closes),
        }
    }

    fn after(self, since: Time) -> Self {
        Self { finish_by: since + self.finish_by, closes: since + self.closes }
    }
}

/// A bound in time: how long something takes, and how long it may.
#[derive(Clone, Copy, Debug)]
struct TimeBound {
    bound: Bound,
    needs: Time,
    has: Time,
}

impl TimeBound {
    fn spare(&self) -> f64 {
        (self.has - self.needs).value
    }
}

/// A batch of some size, tried out.
struct Trial {
    pot_life: Time,
    /// The next batch must be poured by then, to meet a wet edge.
    edge_until: Time,
    /// What the material poured last has left on the slab.
    edge_left: Time,
    timeline: Timeline,
    limits: Vec<TimeBound>,
    open_until: Time,
    finish_by: Time,
    /// When the first patch closes, were all of the work so late that it does; and when the first
    /// has used up the usable part of its time.
    closes: FilmDeadline,
}

impl Trial {
    /// The limit that has the least time to spare.
    fn tightest(&self) -> Option<TimeBound> {
        self.limits.iter().copied().min_by(|a, b| order(a.spare(), b.spare()))
    }

    fn spare(&self) -> f64 {
        self.tightest().map_or(f64::NEG_INFINITY, |race| race.spare())
    }
}

/// How many more steps of the measure a batch is rounded down where one is lost.
const MAX_STEPS_DOWN: u32 = 24;

/// The largest area is found to this share of the most there could be.
const FOUND_WITHIN: f64 = 1e-5;

/// So much, in seconds, the search for the largest batch may miss a limit by.
const TOLERANCE_S: f64 = 1e-3;

fn order(a: f64, b: f64) -> Ordering {
    a.partial_cmp(&b).unwrap_or(Ordering::Less)
}

impl Job {
    /// The next batch for this job.
    ///
    /// # Errors
    /// [`NoBatch::Wrong`] for an input that is off or a measure too coarse;
    /// [`NoBatch::Refused`] when not even the smallest mix meets every bound.
    ///
    /// ```
    /// use pailwise_calc::{batch::Bound, demo, job::Job, quantity::unit};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let batch = job.next_batch().unwrap();
    /// assert!(batch.measured.volume <= job.gear.vessel.working_capacity());
    /// assert!(batch.timeline.emptied <= batch.pour_out);
    /// ```
    pub fn next_batch(&self) -> Result<Batch, NoBatch> {
        let (measured, area, bound, trial) = self.sized()?;
        let pot_life = trial.pot_life;
        Ok(Batch {
            area,
            reach: area / self.bare.width,
            bound,
            pot_life,
            pour_out: pot_life * self.crew.usable,
            timeline: trial.timeline,
            open_until: trial.open_until,
            finish_by: trial.finish_by,
            edge_until: trial.edge_until,
            edge_left: trial.edge_left,
            strip: trial.timeline.strip / self.bare.width,
            finishes: area >= self.bare.area * (1.0 - 1e-6),
            left_over: (measured.volume - self.bare.coverage.volume_for(area))
                .max(Volume::default()),
            measured,
        })
    }

    /// The amount, the area and the bound of the next batch.
    fn sized(&self) -> Result<(Measured, Area, Bound, Trial), NoBatch> {
        let (cap, mut bound) = self.static_bound();
        let smallest = self.gear.smallest(self.product.ratio(), self.product.tolerance())?;
        let least = self.bare.coverage.area_from(smallest);
        let (mut area, mut sure) = (cap, cap);
        if self.spare(cap) < 0.0 {
            // Less than can be measured on ratio is no way out.
            let low = if least < cap { least } else { cap };
            let Some(found) = self.largest_in_time(low, cap) else {
                return Err(self.refusal(low));
            };
            // A mark of the measure within that of it may hold as well: it is tried.
            sure = found;
            area = (found + cap * FOUND_WITHIN).min(cap);
            // Just above, some limit is missed: that is the one which holds.
            let above = self.mixed_for(area * 1.001);
            bound = self.trial(area * 1.001, above)?.tightest().map_or(bound, |race| race.bound);
        } else if bound == Bound::Floor
            && let Some(rounded_up) = self.whole_floor()
        {
            return Ok(rounded_up);
        }
        let most = self.bare.coverage.volume_for(area);
        let (ratio, tolerance) = (self.product.ratio(), self.product.tolerance());
        let mut measured = self.gear.at_most(ratio, most, tolerance)?;
        if measured.kits.is_some() && measured.volume < most * 0.98 {
            bound = Bound::Kit;
        }
        let laid = |measured: &Measured| -> Result<(Area, Trial), Error> {
            let area = self.bare.coverage.area_from(measured.volume).min(area);
            Ok((area, self.trial(area, measured.volume)?))
        };
        let (mut area, mut trial) = laid(&measured)?;
        // A smaller batch can miss the limit of its own edge where a larger one kept it. Is there a
        // still smaller one that holds?
        let rounded = measured.volume;
        for _ in 0..MAX_STEPS_DOWN {
            let beyond = area > sure;
            if trial.spare() >= if beyond { 0.0 } else { -TOLERANCE_S } {
                return Ok((measured, area, bound, trial));
            }
            let below = measured.volume * (1.0 - 1e-6);
            let below = if beyond { self.bare.coverage.volume_for(sure) } else { below };
            let Ok(smaller) = self.gear.at_most(ratio, below, tolerance) else { break };
            measured = smaller;
            (area, trial) = laid(&measured)?;
        }
        Err(self.refusal(self.bare.coverage.area_from(rounded)))
    }

    /// What is left of the floor in one batch, rounded up, if every other bound allows it.
    fn whole_floor(&self) -> Option<(Measured, Area, Bound, Trial)> {
        let area = self.bare.area;
        let needed = self.bare.coverage.volume_for(area);
        let (ratio, tolerance) = (self.product.ratio(), self.product.tolerance());
        let measured = self.gear.at_least(ratio, needed, tolerance).ok()?;
        let fits = measured.volume <= self.gear.vessel.working_capacity()
            && measured.mass <= self.gear.largest_mass();
        let trial = self.trial(area, measured.volume).ok()?;
        (fits && trial.spare() >= 0.0).then_some((measured, area, Bound::Floor, trial))
    }

    /// The largest area by the bounds that do not depend on time, and which of them it is.
    fn static_bound(&self) -> (Area, Bound) {
        let by_volume = |volume| self.bare.coverage.area_from(volume);
        let bounds = [
            (self.bare.area, Bound::Floor),
            (by_volume(self.gear.vessel.working_capacity()), Bound::Vessel),
            (by_volume(self.gear.largest_mass() / self.product.ratio().density()), Bound::Mass),
        ];
        bounds
            .into_iter()
            .fold(bounds[0], |least, bound| if bound.0 < least.0 { bound } else { least })
    }

    /// What is mixed for an area: never less than this crate reckons with.
    fn mixed_for(&self, area: Area) -> Volume {
        let least = match Field::BatchMass.range().0 {
            Figure::Mass(mass) => mass / self.product.ratio().density(),
            _ => Volume::default(),
        };
        self.bare.coverage.volume_for(area).max(least * (1.0 + 1e-9))
    }

    /// Time to spare in the tightest limit for an area, or what decides on its sign: in the
    /// shallowest strips, which no deeper ones beat but for hands that roll and flake in turns.
    fn spare(&self, area: Area) -> f64 {
        let volume = self.mixed_for(area);
        let Ok(stand) = self.in_pail(volume) else { return f64::NEG_INFINITY };
        let full = Work::new(self, area, volume);
        if self.crew.flakers == 0 {
            return self.best_way(area, &stand, &full).spare();
        }
        let depths = self.crew.depths(self.product.flaked());
        let work = depths.first().map_or(full, |depth| full.in_strips(*depth, self.bare.width));
        let spare = self.run(area, &stand, &work).spare();
        if spare >= 0.0 {
            return spare;
        }
        let first = work.edges_first(self);
        let ways =
            self.hands(&work).chain(first).chain(first.into_iter().flat_map(|w| self.hands(&w)));
        ways.map(|work| self.run(area, &stand, &work).spare()).fold(spare, f64::max)
    }

    /// The largest area between two that misses no limit.
    ///
    /// More than one range of areas may hold: a very small batch is fresh when its edge is met, a
    /// larger one gives whoever mixes the time for the next. It is looked for from the top, in steps
    /// that depend on nothing but the two, so that what holds at one of them in the heat is found
    /// at it when it is cooler too.
    fn largest_in_time(&self, low: Area, high: Area) -> Option<Area> {
        const STEPS: u32 = 12;
        let m2 = Area::new::<unit::square_meter>;
        let spare = |x: f64| self.spare(m2(x));
        let ratio = (low.value / high.value).powf(1.0 / f64::from(STEPS));
        let mut above = high.value;
        for step in 1..=STEPS {
            let last = step == STEPS;
            let x = if last { low.value } else { above * ratio };
            if spare(x) >= 0.0 {
                return largest_feasible(x, above, FOUND_WITHIN * high.value, spare).map(m2);
            }
            above = x;
        }
        None
    }

    fn refusal(&self, low: Area) -> NoBatch {
        let smallest = self.mixed_for(low);
        match self.trial(low, smallest) {
            Err(error) => error.into(),
            Ok(trial) => trial.tightest().map_or(Error::NoSolution.into(), |race| {
                let TimeBound { bound, needs, has } = race;
                // What closes before it leaves the pail is a matter of the pail.
                let in_pail = (bound == Bound::OpenTime && has <= Time::default())
                    .then(|| self.film_in_pail(smallest))
                    .flatten()
                    .map(|closes| (Bound::PailLife, trial.timeline.emptied, closes));
                let (bound, needs, has) = in_pail.unwrap_or((bound, needs, has));
                NoBatch::Refused(Refusal { bound, smallest, needs, has: has.max(Time::default()) })
            }),
        }
    }

    /// So much of a mix, standing in the crew's pail.
    fn in_pail(&self, volume: Volume) -> Result<CuringPail, Error> {
        self.curing_pail(volume * self.product.ratio().density(), &self.gear.vessel, 1.0)
    }

    /// When so much, left in its pail, gives a film that has closed.
    fn film_in_pail(&self, volume: Volume) -> Option<Time> {
        Some(self.last_patch(&self.in_pail(volume).ok()?, None, Time::default()))
    }

    /// Lays an area from a volume on paper, the better of the ways this crew can work.
    fn trial(&self, area: Area, volume: Volume) -> Result<Trial, Error> {
        let stand = self.in_pail(volume)?;
        let work = Work::new(self, area, volume);
        Ok(self.best_way(area, &stand, &work))
    }

    /// The work as it is, or the way in which this crew has most time to spare.
    fn best_way(&self, area: Area, stand: &CuringPail, full: &Work) -> Trial {
        let trial = self.run(area, stand, full);
        if trial.spare() >= 0.0 {
            return trial;
        }
        let best = self
            .ways(full)
            .map(|work| (self.run(area, stand, &work), work))
            .fold((trial, *full), |a, b| if b.0.spare() > a.0.spare() { b } else { a });
        if best.0.spare() < 0.0 {
            return best.0;
        }
        // Of those that hold the deepest strips: they are the fewest.
        let deeper = self.crew.depths(self.product.flaked()).into_iter().rev();
        let deeper = deeper.map(|depth| best.1.in_strips(depth, self.bare.width));
        deeper
            .map(|work| self.run(area, stand, &work))
            .find(|trial| trial.spare() >= 0.0)
            .unwrap_or(best.0)
    }

    /// The other ways in which this crew can lay the same. Strips need not be as deep as a throw
    /// reaches: the shallower, the sooner they are flaked and meet their edge; but hands that roll
    /// and flake in turns lose time with each. And more hands may always stand by: material can wait
    /// better in a cold pail than on a warm slab.
    fn ways(&self, full: &Work) -> impl Iterator<Item = Work> {
        let (crew, width) = (self.crew, self.bare.width);
        let mut depths = crew.depths(self.product.flaked());
        if crew.flakers > 0 {
            depths.truncate(1);
        }
        let full = *full;
        let shallower = depths.into_iter().map(move |depth| full.in_strips(depth, width));
        std::iter::once(full)
            .chain(shallower)
            .flat_map(move |work| [Some(work), work.edges_first(self)].into_iter().flatten())
            .flat_map(move |work| std::iter::once(work).chain(self.hands(&work)))
            .skip(1)
    }

    /// The same work with fewer hands, or with the roller held back, to the flakers or for whoever
    /// mixes.
    fn hands(&self, work: &Work) -> impl Iterator<Item = Work> + use<> {
        let (crew, work) = (self.crew, *work);
        let fewer = (1..crew.rollers).rev();
        let fewer = fewer.map(move |rollers| work.with_rollers(&Crew { rollers, ..crew }));
        fewer.chain(work.held_back()).chain(work.held_for_mixer())
    }

    /// Lays an area in one way on paper: every limit in time, with what it needs and what it has.
    fn run(&self, area: Area, stand: &CuringPail, work: &Work) -> Trial {
        let film = self.product.film_in(&self.conditions).on(self.conditions.slab);
        // Below zero for what closed in the pail: that must lose, though it needs no time either.
        let left = |leaves: Time| film(stand.conversion_at(leaves));
        let timeline = work.timeline();
        let mut limits = Vec::with_capacity(3);
        limits.push(TimeBound {
            bound: Bound::PailLife,
            needs: timeline.emptied,
            has: stand.pot_life() * self.crew.usable,
        });
        let (mut open_until, mut finish_by) = (Time::default(), Time::default());
        let mut worst: Option<TimeBound> = None;
        let mut spare: Option<FilmDeadline> = None;
        for patch in work.patches() {
            let open = left(patch.leaves);
            let of = FilmDeadline::of(patch.leaves - patch.done, open, self.crew.usable);
            spare = Some(spare.map_or(of, |least| least.min(of)));
            let race = TimeBound {
                bound: Bound::OpenTime,
                needs: patch.done - patch.leaves,
                has: open * self.crew.usable,
            };
            if worst.is_none_or(|worst| race.spare() < worst.spare()) {
                worst = Some(race);
                open_until = patch.leaves + open;
                finish_by = patch.leaves + race.has;
            }
        }
        limits.extend(worst);
        let another_follows = area < self.bare.area * (1.0 - 1e-6);
        let edge_left = left(timeline.emptied).max(Time::default());
        let mut edge_until = timeline.emptied + edge_left * self.crew.usable;
        if another_follows && let Some((edge, until)) = self.wet_edge(work, left) {
            edge_until = until;
            limits.push(edge);
        }
        limits.extend(self.edge_before(work));
        Trial {
            pot_life: stand.pot_life(),
            edge_until,
            edge_left,
            timeline,
            limits,
            open_until,
            finish_by,
            closes: spare.unwrap_or_default().after(timeline.done),
        }
    }

    /// The area that one limit in time alone would allow, for the working.
    fn area_by(&self, bound: Bound) -> Option<Area> {
        let (cap, at_cap) = self.static_bound();
        // A batch that finishes the floor has no edge to keep wet; ask about one that does not.
        let edge_counts = bound == Bound::WetEdge && at_cap == Bound::Floor;
        let cap = if edge_counts { cap * 0.9999 } else { cap };
        let alone = |x: f64| {
            let area = Area::new::<unit::square_meter>(x);
            let trial = self.trial(area, self.bare.coverage.volume_for(area));
            let race = trial.ok().and_then(|t| t.limits.iter().copied().find(|r| r.bound == bound));
            race.map_or(f64::INFINITY, |race| race.spare())
        };
        let low = 0.001 * cap.value;
        largest_feasible(low, cap.value, 1e-4 * cap.value, alone)
            .map(Area::new::<unit::square_meter>)
    }
}

/// The cooling of material that is offered as a way to a larger batch.
fn cooler_by() -> TemperatureInterval {
    TemperatureInterval::new::<unit::celsius_change>(3.0)
}
