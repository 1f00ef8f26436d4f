//! When each patch of a batch leaves the pail, is rolled, and is flaked.
//!
//! Time zero is when A meets B. A patch is named by the area laid before it, from nothing to the
//! whole batch. Rolling and flaking run at their own pace; flake starts when one strip has been
//! rolled and then never overtakes the roller. With one set of hands for both, strips alternate:
//! roll one, flake it, roll the next.

use crate::crew::{Crew, Pouring};
use crate::edge_before::EdgeBefore;
use crate::job::{CutIn, Job};
use crate::mixing::{away, setting_up};
use crate::quantity::{Area, Length, Pace, Time, Volume};

/// The moments of one patch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patch {
    /// It leaves the pail.
    pub leaves: Time,
    /// It has been rolled.
    pub rolled: Time,
    /// It is finished: flaked, or rolled where no flake is thrown.
    pub done: Time,
}

/// The moments of one batch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timeline {
    /// Mixed, stood, carried: the first drop leaves the pail.
    pub pour: Time,
    /// The pail is empty.
    pub emptied: Time,
    /// The last patch has been rolled.
    pub rolled: Time,
    /// The pace of rolling: that of the whole crew, or slower where that keeps the film open.
    pub rolling: Pace,
    /// Flake is thrown onto the first patch, or it has been rolled where none is thrown.
    pub flaking_starts: Time,
    /// The last patch is finished.
    pub done: Time,
    /// Who rolls and who flakes is free to lay the next batch.
    pub free: Time,
    /// A clean pail, and the next batch measured out.
    pub setting_up: Time,
    /// Whoever mixes the next batch is there, with that done; where the rollers mix, when they can be.
    pub mixer_back: Time,
    /// A is to meet B in the next pail.
    pub next_mix: Time,
    /// The first drop of the next batch meets this one's edge, at the latest.
    pub next_pour: Time,
    /// What the next batch is counted on to do between its first drop and the end of this one's edge.
    pub meeting: Meeting,
    /// The area of one strip across the floor, as this batch is rolled.
    pub strip: Area,
}

/// What is counted on between the first drop of a batch and the far end of the edge it meets.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Meeting {
    /// Sides across are brushed before anything is rolled.
    pub brushing: Time,
    /// A strip is rolled along the edge.
    pub first_strip: Time,
}

/// A point of a batch's edge: when it left the pail, and when the next batch meets it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct EdgePoint {
    pub(crate) leaves: Time,
    pub(crate) met: Time,
}

/// One batch being laid.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Work {
    area: Area,
    /// Edges to be brushed as it goes on, by area.
    edges: Area,
    /// Edges that the rollers brush where it begins, before they roll.
    at_start: Area,
    strip: Area,
    /// From A meets B to the first drop of any batch.
    ready: Time,
    /// When the first patch is rolled: after the edge where it begins.
    begins: Time,
    /// When whoever mixes the next batch stands there with it measured out into a clean pail.
    mixer_back: Time,
    /// How much longer it may wait for them.
    wait: Time,
    /// The way back to the mixing place.
    back: Time,
    /// A clean pail, and the next batch measured out.
    setting_up: Time,
    /// What leaves the pail: area in a time, `None` when it leaves as it is rolled.
    leaving: Option<Pace>,
    rolling: Pace,
    flaking: Option<Pace>,
    /// The rollers flake: strips alternate.
    alternates: bool,
    settle: Time,
    mixers: u32,
    /// Every strip begins at the same wall; else they turn round at it.
    same_wall: bool,
    /// What of the floor comes after this batch.
    rest: Area,
    /// Edges of this batch and the next.
    cut_in: CutIn,
    /// What those who brush where it begins brush together.
    brushing: Pace,
    /// What everybody brushes together where the next one begins.
    all_brushing: Pace,
    /// The sides across are brushed before anything is rolled past its first strip.
    sides_first: bool,
}

impl Work {
    /// An area laid from a volume of a product, in strips across the width of the floor.
    pub(crate) fn new(job: &Job, area: Area, volume: Volume) -> Self {
        let Job { crew, product, bare, gear, .. } = job;
        let flaked = product.flaked();
        let ready = product.ready() + crew.carry;
        let leaving = match crew.pouring {
            Pouring::Ribbon(rate) => Some(area * rate / volume),
            Pouring::FromPail => None,
        };
        let own_back = away(crew, product, gear, volume);
        // Several follow one another at even distances: who hurries at first has nobody to mix later.
        let evenly = own_back / f64::from(crew.mixers.max(1));
        let another = job.mixing.another_back.unwrap_or_default();
        let mixer_back = if crew.mixers > 1 { own_back.min(another).max(evenly) } else { own_back };
        let wait = if crew.mixers > 0 { job.mixing.wait } else { Time::default() };
        let helped = crew.cutters > 0;
        let (at_start, edges) = bare.cut_in.brushed(area, helped);
        // People who only cut in do so while the others begin.
        let at_start = if helped { Area::default() } else { at_start };
        let own = crew.rolling_with_edges(area, edges);
        Self {
            area,
            edges,
            at_start,
            begins: ready + at_start / (crew.cut * f64::from(crew.rollers)),
            strip: crew.strip(flaked) * bare.width,
            ready,
            mixer_back,
            wait,
            back: crew.carry,
            setting_up: setting_up(crew, product, gear, volume),
            leaving,
            // Nobody rolls what has not been poured.
            rolling: leaving.map_or(own, |pace| pace.min(own)),
            flaking: flaked.then(|| crew.all_flaking()),
            alternates: flaked && crew.flakers == 0,
            settle: if flaked { crew.settle } else { Time::default() },
            mixers: crew.mixers,
            same_wall: crew.same_wall,
            rest: (bare.area - area).max(Area::default()),
            cut_in: bare.cut_in,
            brushing: crew.cut * f64::from(crew.rollers),
            all_brushing: crew.cut * f64::from(crew.rollers + crew.cutters),
            sides_first: !helped,
        }
    }

    /// The same work in strips so deep, on a floor so wide.
    pub(crate) fn in_strips(&self, depth: Length, width: Length) -> Self {
        Self { strip: depth * width, ..*self }
    }

    /// The same work with the sides across cut in by all hands before they roll, where people who only
    /// cut in do so as it goes on else; nothing where that changes nothing.
    pub(crate) fn edges_first(&self, job: &Job) -> Option<Self> {
        let (crew, cut_in) = (&job.crew, &job.bare.cut_in);
        if crew.cutters == 0 || cut_in.across(self.area) <= Area::default() {
            return None;
        }
        let (at_start, edges) = cut_in.brushed(self.area, false);
        Some(Self { edges, at_start, sides_first: true, ..*self }.with_rollers(crew))
    }

    /// The same work with fewer people rolling.
    pub(crate) fn with_rollers(&self, crew: &Crew) -> Self {
        let own = crew.rolling_with_edges(self.area, self.edges);
        let brushing = crew.cut * f64::from(crew.rollers + crew.cutters);
        Self {
            begins: self.ready + self.at_start / brushing,
            brushing,
            rolling: self.leaving.map_or(own, |pace| pace.min(own)),
            flaking: self.flaking.map(|_| crew.all_flaking()),
            ..*self
        }
    }

    /// The same work with the first drop leaving the pail at another time.
    pub(crate) fn ready_at(&self, ready: Time) -> Self {
        Self { ready, begins: ready + (self.begins - self.ready), ..*self }
    }

    /// The same work with the roller held back to the pace of the flakers, where material waits
    /// better in the pail than on the floor; `None` where that changes nothing.
    pub(crate) fn held_back(&self) -> Option<Self> {
        let pace = self.flaking?;
        let runs_ahead = self.leaving.is_none() && !self.alternates && pace < self.rolling;
        runs_ahead.then_some(Self { rolling: pace, ..*self })
    }

    /// The same work with the roller held back until whoever mixes is back with the next one measured
    /// out, where material waits in the pail for it; `None` where that changes nothing.
    pub(crate) fn held_for_mixer(&self) -> Option<Self> {
        if self.leaving.is_some() || self.alternates || self.mixers == 0 {
            return None;
        }
        let pace = self.area / (self.mixer_back + self.ready - self.begins);
        (pace.value > 0.0 && pace < self.rolling).then_some(Self { rolling: pace, ..*self })
    }

    /// Patches among which the worst of the batch is: the ends of every straight run, and some
    /// between for what curves in between.
    pub(crate) fn patches(&self) -> Vec<Patch> {
        const BETWEEN: u32 = 8;
        if self.alternates {
            let strips = self.strips();
            (0..strips)
                .flat_map(|strip| [0.0, 0.5, 1.0].map(|share| self.in_strip(strip, share)))
                .collect()
        } else {
            let ends = [self.first_strip(), self.area];
            (0..BETWEEN)
                .map(|i| self.area * (f64::from(i) / f64::from(BETWEEN)))
                .chain(ends)
                .map(|before| self.patch(before))
                .collect()
        }
    }

    /// The moments of the whole batch.
    pub(crate) fn timeline(&self) -> Timeline {
        let (first, last) = if self.alternates {
            (self.in_strip(0, 0.0), self.in_strip(self.strips() - 1, 1.0))
        } else {
            (self.patch(Area::default()), self.patch(self.area))
        };
        // Who rolls is free when the last strip is rolled, or flaked where the rollers flake; who
        // flakes is wanted again once the next batch has settled.
        let hands = if self.alternates { last.done } else { last.rolled };
        let free = hands.max(last.done - self.settle);
        let (mixer_back, next_mix) = if self.mixers > 0 {
            // Mixed so as to be ready when it is wanted, but not before the mixer can.
            (self.mixer_back, self.mixer_back.max(free - self.ready))
        } else {
            let back = hands + self.back + self.setting_up;
            (back, back.max(free - self.ready))
        };
        Timeline {
            pour: self.ready,
            emptied: last.leaves,
            rolled: last.rolled,
            rolling: self.rolling,
            flaking_starts: first.done,
            done: last.done,
            free,
            setting_up: self.setting_up,
            mixer_back,
            next_mix,
            next_pour: next_mix + self.wait + self.ready,
            meeting: self.meeting(),
            strip: self.strip,
        }
    }

    /// Points along the edge: the far side of what was laid last, as much as a strip of it, met by
    /// the first strip of the next batch, which comes back from where this one ended or begins at the
    /// same wall. Of hands that roll and flake in turns the last strip counts as it ends and as a
    /// whole one: a larger batch never has more time.
    pub(crate) fn edge(&self, next_pour: Time) -> Vec<EdgePoint> {
        const BETWEEN: u32 = 4;
        let strips = self.strips();
        let Meeting { brushing, first_strip } = self.meeting();
        let begins = next_pour + brushing;
        let met =
            |along: f64| begins + first_strip * if self.same_wall { along } else { 1.0 - along };
        let mut points = Vec::with_capacity(2 * (BETWEEN as usize + 1));
        for along in (0..=BETWEEN).map(|i| f64::from(i) / f64::from(BETWEEN)) {
            let met = met(along);
            let back = self.strip.min(self.area) * (1.0 - along);
            if self.alternates {
                let own = self.in_strip(strips - 1, along);
                let rolled = self.in_strip(strips - 1, 1.0).rolled - back / self.rolling;
                let whole = self.leaves(self.area - back, rolled);
                points.extend([own.leaves, whole].map(|leaves| EdgePoint { leaves, met }));
            } else {
                points.push(EdgePoint { leaves: self.patch(self.area - back).leaves, met });
            }
        }
        points
    }

    /// What the next batch is counted on to do as it meets this one's edge.
    fn meeting(&self) -> Meeting {
        let strip = self.strip.min(self.rest);
        let brushing = self.cut_in.next_meets(self.area, strip) / self.all_brushing;
        Meeting { brushing, first_strip: strip / self.rolling }
    }

    /// When the first drop would have to be on an edge for this batch to be at every point of it no
    /// later than was counted on. Sides across that lie past its first strip are brushed after that:
    /// no patch is rolled later for it.
    pub(crate) fn meets(&self, edge: &EdgeBefore) -> Time {
        let strip = self.first_strip();
        let later = self.cut_in.across(self.area) - self.cut_in.across(strip);
        let later = if self.sides_first { later / self.brushing } else { Time::default() };
        edge.needs(self.begins - later, strip / self.rolling)
    }

    fn first_strip(&self) -> Area {
        if self.strip < self.area { self.strip } else { self.area }
    }

    fn strips(&self) -> u32 {
        (self.area / self.strip).value.ceil().clamp(1.0, 1e6) as u32
    }

    fn leaves(&self, before: Area, rolled: Time) -> Time {
        self.leaving.map_or(rolled, |pace| self.ready + before / pace)
    }

    /// The patch after an area, where rolling and flaking go on side by side.
    fn patch(&self, before: Area) -> Patch {
        let rolled = self.begins + before / self.rolling;
        let done = match self.flaking {
            None => rolled,
            Some(pace) => {
                let follows = rolled + self.settle;
                let start = self.begins + self.first_strip() / self.rolling + self.settle;
                let reaches = start + before / pace;
                follows.max(reaches)
            }
        };
        Patch { leaves: self.leaves(before, rolled), rolled, done }
    }

    /// A patch a share of the way into a strip, where the same hands roll and flake.
    fn in_strip(&self, strip: u32, share: f64) -> Patch {
        let before = self.strip * f64::from(strip);
        let rest = self.area - before;
        let size = rest.min(self.strip);
        let flaking = |area: Area| self.flaking.map_or(Time::default(), |pace| area / pace);
        let cycle = self.strip / self.rolling + self.settle + flaking(self.strip);
        let start = self.begins + cycle * f64::from(strip);
        let rolled = start + size * share / self.rolling;
        let done = start + size / self.rolling + self.settle + flaking(size * share);
        Patch { leaves: self.leaves(before + size * share, rolled), rolled, done }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::job::Job;
    use crate::quantity::{minutes, pace, unit};
    use crate::record::{MeasureRecord, ProductRecord};
    use approx::assert_relative_eq;

    fn m2(x: f64) -> Area {
        Area::new::<unit::square_meter>(x)
    }

    /// 1 m² a minute rolled, 2 flaked, strips of 4 m², from the pail, ready after 5 min.
    fn crew(flakers: u32, mixers: u32) -> Crew {
        let minute = minutes(1.0);
        Crew {
            rollers: 1,
            flakers,
            mixers,
            roll: pace(m2(1.0), minute),
            flake: pace(m2(2.0), minute),
            throw: Length::new::<unit::meter>(2.0),
            carry: minutes(1.0),
            pouring: Pouring::FromPail,
            clean_pail: Time::default(),
            measured_ahead: true,
            ..Crew::try_from(&demo::crew()).unwrap()
        }
    }

    fn work(crew: &Crew, flaked: bool) -> Work {
        Work::new(&job(crew, flaked), m2(10.0), Volume::new::<unit::liter>(4.0))
    }

    fn job(crew: &Crew, flaked: bool) -> Job {
        let mut record = demo::job();
        record.product = ProductRecord { flaked, mixing_min: 3.0, ..demo::record_base() };
        record.bare.width_m = 2.0;
        record.gear.measure = MeasureRecord::Scale { scale_step_g: 1.0 };
        Job { crew: *crew, ..Job::try_from(&record).unwrap() }
    }

    fn min(time: Time) -> f64 {
        time.get::<unit::minute>()
    }

    // Worked by hand on squared paper: 10 m² at 1 m²/min from minute 5 is rolled at 15.
    #[test]
    fn a_flaker_waits_for_the_first_strip_and_never_overtakes() {
        let t = work(&crew(1, 1), true).timeline();
        assert_relative_eq!(min(t.rolled), 15.0, max_relative = 1e-12);
        // Starts at 9, would be through at 14, waits for the roller: 15.
        assert_relative_eq!(min(t.done), 15.0, max_relative = 1e-12);
        assert_relative_eq!(min(t.next_mix), 10.0, max_relative = 1e-12);
        assert_relative_eq!(min(t.next_pour), 15.0, max_relative = 1e-12);
    }

    // 10 m² in strips of 4: the last 4 m² are rolled from 11 to 15; the next batch pours at 15 and
    // rolls its first strip of 4 m² until 19.
    #[test]
    fn the_edge_waits_for_the_strip_that_comes_back_and_less_from_the_same_wall() {
        let waits = |same_wall| {
            let crew = Crew { same_wall, ..crew(1, 1) };
            let mut work = work(&crew, true);
            work.rest = m2(20.0);
            work.edge(work.timeline().next_pour)
                .iter()
                .map(|point| min(point.met - point.leaves))
                .collect::<Vec<_>>()
        };
        let (turning, same) = (waits(false), waits(true));
        assert_relative_eq!(turning[0], 8.0, max_relative = 1e-9);
        assert_relative_eq!(turning[4], 0.0, epsilon = 1e-9);
        assert_relative_eq!(same[0], 4.0, max_relative = 1e-9);
        assert_relative_eq!(same[4], 4.0, max_relative = 1e-9);
    }

    /// On a scale A and B are read once each, half a minute; fetching a pail takes a minute.
    #[test]
    fn nobody_mixes_two_at_once_and_measuring_takes_time() {
        let slow = |crew: Crew| Crew {
            clean_pail: minutes(1.0),
            reading: minutes(0.5),
            measured_ahead: false,
            ..crew
        };
        // Rolled at 15: back, a clean pail, two readings, and A meets B.
        let alone = work(&slow(crew(1, 0)), true).timeline();
        assert_relative_eq!(min(alone.next_mix), 18.0, max_relative = 1e-12);
        let mixer = slow(Crew { roll: pace(m2(10.0), minutes(1.0)), ..crew(1, 1) });
        // Carried at 5, back at 6, set up at 8; rolled at 6 already.
        let quick = work(&mixer, true).timeline();
        assert_relative_eq!(min(quick.next_mix), 8.0, max_relative = 1e-12);
        let ahead = work(&Crew { measured_ahead: true, ..mixer }, true).timeline();
        assert_relative_eq!(min(ahead.next_mix), 7.0, max_relative = 1e-12);
        // 4 L at 8 L/min take half a minute to pour.
        let ribbon =
            Pouring::Ribbon(crate::quantity::VolumeRate::new::<unit::liter_per_minute>(8.0));
        let poured = work(&Crew { pouring: ribbon, ..mixer }, true).timeline();
        assert_relative_eq!(min(poured.next_mix), 8.5, max_relative = 1e-12);
        // Two take turns every four minutes; but flake is thrown from 5.4 on, five minutes long, and
        // who throws it takes no next batch before.
        let two = work(&Crew { mixers: 2, ..mixer }, true).timeline();
        assert_relative_eq!(min(two.mixer_back), 4.0, max_relative = 1e-12);
        assert_relative_eq!(min(two.next_mix), 5.4, max_relative = 1e-12);
    }

    /// One who mixes for two bays may be out with the other's pail when this one wants the next.
    #[test]
    fn an_edge_counts_the_wait_for_who_mixes_elsewhere() {
        let mut job = job(&crew(1, 1), true);
        let alone = Work::new(&job, m2(10.0), Volume::new::<unit::liter>(4.0)).timeline();
        job.mixing.wait = minutes(3.0);
        let shared = Work::new(&job, m2(10.0), Volume::new::<unit::liter>(4.0)).timeline();
        assert_eq!(shared.next_mix, alone.next_mix);
        assert_relative_eq!(min(shared.next_pour - alone.next_pour), 3.0, max_relative = 1e-12);
    }

    #[test]
    fn one_pair_of_hands_alternates() {
        let t = work(&crew(0, 0), true).timeline();
        // Strips of 4, 4, 2 m²: (4 + 2) + (4 + 2) + (2 + 1) min after minute 5.
        assert_relative_eq!(min(t.rolled), 19.0, max_relative = 1e-12);
        assert_relative_eq!(min(t.done), 20.0, max_relative = 1e-12);
        assert_relative_eq!(min(t.next_mix), 21.0, max_relative = 1e-12);
    }

    #[test]
    fn without_flake_a_patch_is_done_when_rolled() {
        let w = work(&crew(1, 0), false);
        assert!(w.patches().iter().all(|p| p.done == p.rolled && p.leaves == p.rolled));
    }

    #[test]
    fn a_ribbon_leaves_the_pail_before_it_is_rolled() {
        let ribbon = Crew { pouring: Crew::try_from(&demo::crew()).unwrap().pouring, ..crew(1, 1) };
        let w = work(&ribbon, true);
        // 4 L at 8 L/min.
        assert_relative_eq!(min(w.timeline().emptied), 5.5, max_relative = 1e-12);
        assert_relative_eq!(min(w.timeline().rolled), 15.0, max_relative = 1e-12);
    }
}
