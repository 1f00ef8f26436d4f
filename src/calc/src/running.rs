//! A batch that is under way: what comes next, and by when.
//!
//! Everything is counted from the moment A met B, so a clock that was stopped, restarted or put
//! right shows the same. The deadlines are those of the plan: each stage ends in time for the
//! ones after it. Three limits stand behind them: the pail must be empty within the usable part of its
//! pot life ([`Running::pour_out`]); past the pot life itself it is lost; and once it is on the
//! floor its film closes ([`Running::closes`]).

use serde::{Deserialize, Serialize};

use crate::batch::{Closing, Late};
use crate::error::Error;
use crate::job::Job;
use crate::quantity::{Area, ThermodynamicTemperature, Time, Volume};
use crate::working::{Sentence, Source, Step};

/// A stage of a batch, in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Stirred with the drill, in the second pail too.
    Mix,
    /// Left to stand before use, where the product asks for it.
    Stand,
    /// Carried to the floor and poured out or used up: the pail is empty at its end.
    Empty,
    /// Rolled, or filled in.
    Roll,
    /// Flaked.
    Flake,
}

impl Stage {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Mix, Self::Stand, Self::Empty, Self::Roll, Self::Flake];
}

/// A stage with its end, counted from when A met B.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Due {
    /// Which.
    pub stage: Stage,
    /// By when it must be done.
    pub by: Time,
}

/// The deadlines of a batch, counted from when A met B.
#[derive(Clone, Debug, PartialEq)]
pub struct Running {
    /// The stages it has, in order.
    pub stages: Vec<Due>,
    /// When A meets B in the next pail, so that its floor still meets a wet edge.
    pub next_mix: Time,
    /// The pail must be empty by then: the usable part of its pot life.
    pub pour_out: Time,
    /// Or once it is as warm as this, whichever is first.
    pub out_at: ThermodynamicTemperature,
    /// Past that it is no longer usable, and gets hot.
    pub pot_life: Time,
    /// All of it must be rolled and flaked by then: the usable part of the time its film has.
    pub finish_by: Time,
    /// The film closes: what is not rolled and flaked by then takes neither any more.
    pub closes: Time,
    /// What it is laid on; nothing where not even half of it can be laid in time.
    pub area: Area,
    /// How all of that came about.
    pub working: Vec<Step>,
}

/// How a batch stands at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// In time.
    OnTime,
    /// The stage that is due was to be done by now.
    Late,
    /// It is on the floor, and its film closed before it was finished: rolled or flaked into now
    /// it tears.
    FilmClosed,
    /// It is still in the pail, and should be out of it: pour it out thin, now.
    PourOutNow,
    /// It is still in the pail past its pot life: lost, and hot.
    PastPotLife,
}

impl Running {
    /// The first stage that is not done.
    pub fn next(&self, done: impl Fn(Stage) -> bool) -> Option<Due> {
        self.stages.iter().copied().find(|due| !done(due.stage))
    }

    /// How it stands so long after A met B, with some stages done.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job, running::{Stage, Standing}};
    /// use pailwise_calc::quantity::minutes;
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let volume = job.next_batch().unwrap().measured.volume;
    /// let running = job.running(volume, None).unwrap();
    /// assert_eq!(running.standing(minutes(0.0), |_| false), Standing::OnTime);
    /// assert_eq!(running.standing(running.pour_out, |_| false), Standing::PourOutNow);
    /// assert_eq!(running.standing(running.pot_life, |_| false), Standing::PastPotLife);
    /// // Once the pail is empty its pot life is no longer what counts.
    /// let empty = |stage| stage <= Stage::Empty;
    /// assert_eq!(running.standing(running.stages[2].by, empty), Standing::Late);
    /// // What counts then is the film.
    /// assert_eq!(running.standing(running.closes, empty), Standing::FilmClosed);
    /// ```
    pub fn standing(&self, since: Time, done: impl Fn(Stage) -> bool) -> Standing {
        let Some(due) = self.next(&done) else { return Standing::OnTime };
        let in_pail = due.stage <= Stage::Empty;
        let hopeless = self.area <= Area::default();
        if in_pail && since >= self.pot_life {
            Standing::PastPotLife
        } else if in_pail && (hopeless || since >= self.pour_out) {
            Standing::PourOutNow
        } else if !in_pail && since >= self.closes {
            Standing::FilmClosed
        } else if since >= due.by {
            Standing::Late
        } else {
            Standing::OnTime
        }
    }
}

impl Job {
    /// The deadlines of so much of the product, at these temperatures and with this crew. What
    /// cannot be laid in time, not even half of it, is to be poured out at once: its stages are all
    /// due by the limit of the pail.
    ///
    /// The film closes when the patch with the least time to spare does, all of the work being as
    /// late as its end is. Where the pail was emptied later than planned, its last material had
    /// gone further in it: it closes when `F_o − F(α)` of [`crate::film`] is used up, if that is
    /// sooner.
    ///
    /// # Errors
    /// As [`crate::product::Product::pail`].
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let batch = job.next_batch().unwrap();
    /// let running = job.running(batch.measured.volume, None).unwrap();
    /// // The batch as planned runs as it was planned.
    /// let last = running.stages.last().unwrap();
    /// assert!((last.by - batch.timeline.done).value.abs() < 1.0);
    /// assert!((running.pour_out - batch.pour_out).value.abs() < 1e-6);
    /// // Emptied at its very limit, it stays open for less.
    /// let late = job.running(batch.measured.volume, Some(running.pour_out)).unwrap();
    /// assert!(late.closes - running.pour_out < running.closes - running.stages[1].by);
    /// ```
    pub fn running(&self, volume: Volume, emptied: Option<Time>) -> Result<Running, Error> {
        let product = &self.product;
        let mass = volume * product.ratio().density();
        let stand = self.standing(mass, &self.gear.vessel, 1.0)?;
        let late = self.late(volume, &stand, None);
        let pot_life = stand.pot_life();
        let pour_out = pot_life * self.crew.usable;
        let mixed = product.mixing_in_all();
        let stood = mixed + product.induction();
        let film = product.film_in(&self.conditions);
        let last = |leaves| {
            let left = film.left(stand.conversion_at(leaves), self.conditions.slab);
            Closing::of(leaves, left, self.crew.usable)
        };
        let planned = late.as_ref().map_or_else(|| last(pour_out), |late| late.closes);
        let Closing { finish_by, closes } = emptied.map_or(planned, |at| planned.min(last(at)));
        let (emptied, rolled, done, next_mix) = match &late {
            Some(Late { timeline: t, .. }) => (t.emptied, t.rolled, t.done, t.next_mix),
            None => (pour_out, pour_out, pour_out, pot_life),
        };
        let mut working = self.explain_pail(mass, pot_life);
        if let Some(late) = &late {
            self.explain_times(late.area, &late.timeline, &mut working);
        }
        let figures = vec![self.conditions.slab.into(), closes.into()];
        working.push(Step::new(Sentence::FilmCloses, Source::Published, figures));
        let due = |stage, by| Due { stage, by };
        let mut stages = vec![due(Stage::Mix, mixed.min(emptied))];
        if product.induction() > Time::default() {
            stages.push(due(Stage::Stand, stood.min(emptied)));
        }
        stages.push(due(Stage::Empty, emptied));
        stages.push(due(Stage::Roll, rolled));
        if product.flaked() {
            stages.push(due(Stage::Flake, done));
        }
        let area = late.map_or_else(Area::default, |late| late.area);
        let out_at = self.out_at();
        Ok(Running {
            stages,
            next_mix,
            pour_out,
            out_at,
            pot_life,
            finish_by,
            closes,
            area,
            working,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::quantity::minutes;

    fn job() -> Job {
        Job::try_from(&demo::job()).unwrap()
    }

    #[test]
    fn stages_follow_each_other_and_end_within_the_pot_life() {
        for product in demo::records() {
            let mut record = demo::job();
            if product.id == "invented-filler" {
                (record.bare.width_m, record.bare.crack_depth_mm) = (0.006, Some(12.0));
                record.bare.area_m2 = 0.06;
            }
            record.product = product;
            record.product.induction_min = 1.0;
            let job = Job::try_from(&record).unwrap();
            let volume = job.next_batch().unwrap().measured.volume;
            let running = job.running(volume, None).unwrap();
            assert!(running.stages.windows(2).all(|pair| pair[0].by <= pair[1].by));
            let empty = running.stages.iter().find(|due| due.stage == Stage::Empty).unwrap();
            assert!(empty.by <= running.pour_out && running.pour_out < running.pot_life);
            let flaked = running.stages.iter().any(|due| due.stage == Stage::Flake);
            assert_eq!(flaked, job.product.flaked());
            let stands = |running: &Running| running.stages.iter().any(|d| d.stage == Stage::Stand);
            assert!(stands(&running));
            record.product.induction_min = 0.0;
            assert!(!stands(&Job::try_from(&record).unwrap().running(volume, None).unwrap()));
        }
    }

    #[test]
    fn a_warmer_reading_never_gives_more_time() {
        let cool = job();
        let volume = cool.next_batch().unwrap().measured.volume;
        let mut warm = demo::job();
        warm.conditions.material_c += 4.0;
        warm.conditions.air_c += 4.0;
        let warm = Job::try_from(&warm).unwrap();
        let (cool, warm) =
            (cool.running(volume, None).unwrap(), warm.running(volume, None).unwrap());
        assert!(warm.pour_out < cool.pour_out && warm.pot_life < cool.pot_life);
    }

    #[test]
    fn what_can_no_longer_be_laid_is_to_be_poured_out_at_once() {
        let mut record = demo::job();
        (record.conditions.material_c, record.conditions.air_c) = (43.0, 43.0);
        record.product.induction_min = 30.0;
        record.conditions.slab_c = 43.0;
        let running = Job::try_from(&record).unwrap();
        let running =
            running.running(Volume::new::<crate::quantity::unit::liter>(12.0), None).unwrap();
        assert_eq!(running.area, Area::default());
        assert!(running.stages.iter().all(|due| due.by <= running.pour_out), "{running:?}");
        assert_eq!(running.standing(minutes(0.5), |_| false), Standing::PourOutNow);
        assert!(running.pot_life > minutes(0.5));
        assert_eq!(running.standing(running.pot_life, |_| false), Standing::PastPotLife);
    }

    #[test]
    fn the_longer_it_stood_in_the_pail_the_sooner_its_film_closes() {
        let job = job();
        let volume = Volume::new::<crate::quantity::unit::liter>(6.0);
        let planned = job.running(volume, None).unwrap();
        let done = planned.stages.last().unwrap().by;
        assert!(planned.finish_by >= done && planned.closes > planned.finish_by);
        let after = |emptied| job.running(volume, Some(emptied)).unwrap().closes;
        let mut open = planned.closes;
        for share in [0.3, 0.5, 0.7] {
            let emptied = planned.pot_life * share;
            let left = after(emptied) - emptied;
            assert!(left < open, "{left:?} after {emptied:?}");
            open = left;
            assert!(after(emptied) <= planned.closes);
        }
        let standing = |since| planned.standing(since, |stage| stage <= Stage::Roll);
        assert_eq!(standing(planned.closes - minutes(0.1)), Standing::Late);
        assert_eq!(standing(planned.closes), Standing::FilmClosed);
        assert_eq!(planned.standing(planned.closes, |_| true), Standing::OnTime);
    }

    #[test]
    fn what_is_due_is_late_once_its_time_is_over() {
        let running = job().running(Volume::new::<crate::quantity::unit::liter>(4.0), None);
        let running = running.unwrap();
        let first = running.stages[0];
        let at = |since| running.standing(since, |_| false);
        assert_eq!(at(first.by - minutes(0.1)), Standing::OnTime);
        assert_eq!(at(first.by), Standing::Late);
        assert_eq!(running.next(|_| true), None);
        assert_eq!(running.standing(running.pot_life * 9.0, |_| true), Standing::OnTime);
    }
}
