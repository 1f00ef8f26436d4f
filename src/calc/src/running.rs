//! A batch that is under way: what comes next, and by when.
//!
//! Everything is counted from the moment A met B, so a clock that was stopped, restarted or put
//! right shows the same. Two kinds of time stand side by side. Each stage has a time of the plan, by
//! which it is to be done so that the ones after it come in time. And one limit counts down: as long
//! as it stands in the pail the last pour ([`Running::pours`]), after which not all of it, later
//! nothing of it, can be laid before its film closes; once it is poured, the closing of that film.

use serde::{Deserialize, Serialize};

use crate::batch::LastPour;
use crate::crew::Pouring;
use crate::error::Error;
use crate::job::Job;
use crate::quantity::{Area, ThermodynamicTemperature, Time, Volume};
use crate::timeline::Timeline;
use crate::working::{Sentence, Source, Step};

/// A stage of a batch, in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Stirred with the drill, in the second pail too.
    Mix,
    /// Left to stand before use, where the product asks for it.
    #[serde(rename = "stand")]
    Induction,
    /// Carried to the floor and begun, where it is used from the pail.
    Pour,
    /// Poured out or used up: the pail is empty at its end.
    Empty,
    /// Rolled, or filled in.
    Roll,
    /// Flake is thrown into the film before it closes.
    Flake,
}

impl Stage {
    /// Every stage a batch can have, in the order they are done.
    pub const ALL: [Self; 6] =
        [Self::Mix, Self::Induction, Self::Pour, Self::Empty, Self::Roll, Self::Flake];
}

/// A stage with its end, counted from when A met B.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Due {
    /// The stage that must be done by then.
    pub stage: Stage,
    /// By when it must be done.
    pub by: Time,
}

/// How a batch left its pail, as far as it was told. Times count from when A met B.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Poured {
    /// When its pour began, where it is used from the pail.
    pub began: Option<Time>,
    /// When the pail was empty.
    pub emptied: Option<Time>,
    /// So much of it is on the floor; all of it where nobody said.
    pub volume: Option<Volume>,
}

/// Which deadline of a batch is being counted down to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// All of it must begin to leave its pail, to be laid in time.
    LastPour,
    /// What is used from the pail must be out of it.
    Empty,
    /// It must be rolled and flaked: its film closes.
    Film,
}

/// The deadlines of a batch, counted from when A met B.
#[derive(Clone, Debug, PartialEq)]
pub struct Running {
    /// The stages it has, in order.
    pub stages: Vec<Due>,
    /// When A meets B in the next pail, so that its floor still meets a wet edge.
    pub next_mix: Time,
    /// Until when all of it can be poured, three quarters of it, and so on; the largest first. None
    /// once its pour has begun.
    pub pours: Vec<LastPour>,
    /// What is used from the pail must be out of it by then: the end of the usable part of its pot
    /// life, or the last time at which what leaves it can still be finished.
    pub empty_by: Time,
    /// The usable part of its pot life ends: nothing of it goes onto the floor after that.
    pub pour_out: Time,
    /// Or once it is as warm as this, whichever is first.
    pub out_at: ThermodynamicTemperature,
    /// Past that it is no longer usable, and gets hot.
    pub pot_life: Time,
    /// The film closes: what is not rolled and flaked by then takes neither any more.
    pub closes: Time,
    /// What it is laid on; nothing where not even a tenth of it can be laid in time.
    pub area: Area,
    /// How all of that came about.
    pub working: Vec<Step>,
}

/// How a batch stands at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Status {
    /// No stage is late, and no limit has passed.
    OnTime,
    /// The stage that is due was to be done by now.
    Late,
    /// It is on the floor, and its film closed before it was finished: rolled or flaked into now
    /// it tears.
    FilmClosed,
    /// It is still in the pail, and only a part of it can be laid in time.
    PartOnly,
    /// It is still in the pail, and nothing of it can be laid in time: out of the pail, thin, and
    /// not on this floor.
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
    /// use pailwise_calc::{demo, job::Job, running::{Poured, Stage, Status}};
    /// use pailwise_calc::quantity::minutes;
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let volume = job.next_batch().unwrap().measured.volume;
    /// let running = job.running(volume, &Poured::default()).unwrap();
    /// assert_eq!(running.status(minutes(0.0), |_| false), Status::OnTime);
    /// assert_eq!(running.status(running.pours[0].by, |_| false), Status::PartOnly);
    /// assert_eq!(running.status(running.pour_out, |_| false), Status::PourOutNow);
    /// assert_eq!(running.status(running.pot_life, |_| false), Status::PastPotLife);
    /// // Once the pail is empty its pot life is no longer what counts.
    /// let empty = |stage| stage <= Stage::Empty;
    /// assert_eq!(running.status(running.stages[2].by, empty), Status::Late);
    /// // What counts then is the film.
    /// assert_eq!(running.status(running.closes, empty), Status::FilmClosed);
    /// ```
    pub fn status(&self, since: Time, done: impl Fn(Stage) -> bool) -> Status {
        let Some(due) = self.next(&done) else { return Status::OnTime };
        let limit = self.limit(&done);
        let in_pail = due.stage <= Stage::Empty;
        if in_pail && since >= self.pot_life {
            return Status::PastPotLife;
        }
        match limit {
            Some((Limit::LastPour, by)) if since >= by => match self.still(since) {
                Some(_) => Status::PartOnly,
                None => Status::PourOutNow,
            },
            Some((Limit::Empty, by)) if since >= by => Status::PourOutNow,
            Some((Limit::Film, by)) if since >= by => Status::FilmClosed,
            _ if since >= due.by => Status::Late,
            _ => Status::OnTime,
        }
    }

    /// What counts down with some stages done, and to when; nothing once all are.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job, running::{Limit, Poured, Stage}};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let volume = job.next_batch().unwrap().measured.volume;
    /// let running = job.running(volume, &Poured::default()).unwrap();
    /// let (limit, last_pour) = running.limit(|_| false).unwrap();
    /// assert!(limit == Limit::LastPour && last_pour < running.closes);
    /// let (limit, by) = running.limit(|stage| stage <= Stage::Empty).unwrap();
    /// assert_eq!((limit, by), (Limit::Film, running.closes));
    /// ```
    pub fn limit(&self, done: impl Fn(Stage) -> bool) -> Option<(Limit, Time)> {
        let due = self.next(&done)?;
        Some(if due.stage > Stage::Empty {
            (Limit::Film, self.closes)
        } else if due.stage == Stage::Empty && self.used_from_pail() {
            (Limit::Empty, self.empty_by)
        } else {
            (Limit::LastPour, self.pours.first().map_or(Time::default(), |all| all.by))
        })
    }

    /// Whether it is used from the pail, and so has a moment at which that begins.
    fn used_from_pail(&self) -> bool {
        self.stages.iter().any(|due| due.stage == Stage::Pour)
    }

    /// The most of it that can still be poured so long after A met B; nothing once it is too late
    /// for any of it.
    pub fn still(&self, since: Time) -> Option<&LastPour> {
        self.pours.iter().find(|pour| since < pour.by)
    }
}

impl Job {
    /// The deadlines of so much of the product, at these temperatures and with this crew, and as it
    /// was poured, where that was told.
    ///
    /// Until it is poured the stages are those of the plan, and the film is said to close when the
    /// patch with the least time to spare does, all of the work being as late as its end is. Poured,
    /// the work goes on from then: rolled and flaked so much later, and each patch had gone so much
    /// further in its pail. What cannot be laid at all, not even a tenth of it, is to be poured out
    /// at once: its stages are all due by the limit of the pail.
    ///
    /// # Errors
    /// As [`crate::product::Product::pail`].
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job, running::Poured};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let batch = job.next_batch().unwrap();
    /// let volume = batch.measured.volume;
    /// let running = job.running(volume, &Poured::default()).unwrap();
    /// // The batch as planned runs as it was planned.
    /// let last = running.stages.last().unwrap();
    /// assert!((last.by - batch.timeline.done).value.abs() < 1.0);
    /// assert!((running.pour_out - batch.pour_out).value.abs() < 1e-6);
    /// // Emptied at its last pour, all the rest is later, and just in time.
    /// let emptied = running.pours[0].by + batch.timeline.emptied - batch.timeline.pour;
    /// let poured = Poured { emptied: Some(emptied), ..Poured::default() };
    /// let late = job.running(volume, &poured).unwrap();
    /// let done = late.stages.last().unwrap().by;
    /// assert!(done > last.by && done <= late.closes);
    /// ```
    pub fn running(&self, volume: Volume, poured: &Poured) -> Result<Running, Error> {
        let product = &self.product;
        let mass = volume * product.ratio().density();
        let stand = self.curing_pail(mass, &self.gear.vessel, 1.0)?;
        let pot_life = stand.pot_life();
        let pour_out = pot_life * self.crew.usable;
        let on_floor = poured.volume.map_or(volume, |part| part.min(volume));
        let began = poured.began.or_else(|| {
            let emptied = poured.emptied?;
            Some((emptied - self.crew.pouring_takes(on_floor)).max(Time::default()))
        });
        let pours = if began.is_some() { Vec::new() } else { self.last_pours(volume, &stand) };
        let laid = match began {
            // What is on the floor is there, whatever was planned.
            Some(began) => Some(self.laid(on_floor, &stand, Some(began))),
            None => self.planned(volume, &stand, &pours),
        };
        let area = laid.as_ref().map_or_else(Area::default, |laid| laid.area);
        let tail = laid.as_ref().map(|laid| laid.timeline.done - laid.timeline.emptied);
        let empty_by = self.last_patch(&stand, began, tail.unwrap_or_default());
        let film = product.film_in(&self.conditions);
        let open_from =
            |leaves: Time| leaves + film.left(stand.conversion_at(leaves), self.conditions.slab);
        let closes = laid.as_ref().map_or_else(|| open_from(pour_out), |laid| laid.closes);
        let closes = poured.emptied.map_or(closes, |at| closes.min(open_from(at)));
        let next_mix = laid.as_ref().map_or(pot_life, |laid| laid.timeline.next_mix);
        let mut working = self.explain_pail(mass, pot_life);
        if let Some(laid) = &laid {
            self.explain_times((laid.area, volume), &laid.timeline, &mut working);
        }
        let figures = vec![self.conditions.slab.into(), closes.into()];
        working.push(Step::new(Sentence::FilmCloses, Source::Published, figures));
        if let (Some(all), Some(laid)) = (pours.first(), &laid) {
            let takes = laid.timeline.done - laid.timeline.pour;
            let figures = vec![all.volume.into(), takes.into(), all.by.into()];
            working.push(Step::new(Sentence::LastPour, Source::Arithmetic, figures));
        }
        let stages = self.stages(laid.as_ref().map(|laid| &laid.timeline), pour_out);
        let out_at = self.out_at();
        Ok(Running {
            stages,
            next_mix,
            pours,
            empty_by,
            pour_out,
            out_at,
            pot_life,
            closes,
            area,
            working,
        })
    }

    /// The stages with the times of a timeline; without one, all due by the limit of the pail.
    fn stages(&self, timeline: Option<&Timeline>, pour_out: Time) -> Vec<Due> {
        let product = &self.product;
        let (pour, emptied, rolled, done) = timeline
            .map_or((pour_out, pour_out, pour_out, pour_out), |t| {
                (t.pour, t.emptied, t.rolled, t.done)
            });
        let mixed = product.mixing_in_all();
        let stands = product.induction() > Time::default();
        let from_pail = self.crew.pouring == Pouring::FromPail;
        [
            Some((Stage::Mix, mixed.min(emptied))),
            stands.then(|| (Stage::Induction, (mixed + product.induction()).min(emptied))),
            from_pail.then_some((Stage::Pour, pour)),
            Some((Stage::Empty, emptied)),
            Some((Stage::Roll, rolled)),
            product.flaked().then_some((Stage::Flake, done)),
        ]
        .into_iter()
        .flatten()
        .map(|(stage, by)| Due { stage, by })
        .collect()
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
            let running = job.running(volume, &Poured::default()).unwrap();
            assert!(running.stages.windows(2).all(|pair| pair[0].by <= pair[1].by));
            let empty = running.stages.iter().find(|due| due.stage == Stage::Empty).unwrap();
            assert!(empty.by <= running.pour_out && running.pour_out < running.pot_life);
            let flaked = running.stages.iter().any(|due| due.stage == Stage::Flake);
            assert_eq!(flaked, job.product.flaked());
            let stands =
                |running: &Running| running.stages.iter().any(|d| d.stage == Stage::Induction);
            assert!(stands(&running));
            record.product.induction_min = 0.0;
            assert!(!stands(
                &Job::try_from(&record).unwrap().running(volume, &Poured::default()).unwrap()
            ));
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
        let (cool, warm) = (
            cool.running(volume, &Poured::default()).unwrap(),
            warm.running(volume, &Poured::default()).unwrap(),
        );
        assert!(warm.pour_out < cool.pour_out && warm.pot_life < cool.pot_life);
    }

    #[test]
    fn what_can_no_longer_be_laid_is_to_be_poured_out_at_once() {
        let mut record = demo::job();
        (record.conditions.material_c, record.conditions.air_c) = (43.0, 43.0);
        record.product.induction_min = 30.0;
        record.conditions.slab_c = 43.0;
        let running = Job::try_from(&record).unwrap();
        let running = running
            .running(Volume::new::<crate::quantity::unit::liter>(12.0), &Poured::default())
            .unwrap();
        assert_eq!(running.area, Area::default());
        assert!(running.stages.iter().all(|due| due.by <= running.pour_out), "{running:?}");
        assert_eq!(running.status(minutes(0.5), |_| false), Status::PourOutNow);
        assert!(running.pot_life > minutes(0.5));
        assert_eq!(running.status(running.pot_life, |_| false), Status::PastPotLife);
    }

    #[test]
    fn the_longer_it_stood_in_the_pail_the_less_its_film_has() {
        let job = job();
        let volume = Volume::new::<crate::quantity::unit::liter>(6.0);
        let planned = job.running(volume, &Poured::default()).unwrap();
        assert!(planned.closes > planned.stages.last().unwrap().by);
        let after = |emptied| {
            let poured = Poured { emptied: Some(emptied), ..Poured::default() };
            job.running(volume, &poured).unwrap()
        };
        let mut open = planned.closes;
        for share in [0.3, 0.5, 0.7] {
            let emptied = planned.pot_life * share;
            let left = after(emptied).closes - emptied;
            assert!(left < open, "{left:?} after {emptied:?}");
            open = left;
        }
        let status = |since| planned.status(since, |stage| stage <= Stage::Roll);
        assert_eq!(status(planned.closes - minutes(0.1)), Status::Late);
        assert_eq!(status(planned.closes), Status::FilmClosed);
        assert_eq!(planned.status(planned.closes, |_| true), Status::OnTime);
    }

    #[test]
    fn the_last_pour_comes_before_the_end_of_the_pail_and_a_part_later_than_all() {
        let job = job();
        let volume = job.next_batch().unwrap().measured.volume;
        let running = job.running(volume, &Poured::default()).unwrap();
        let pours = &running.pours;
        assert!((pours[0].volume - volume).value.abs() < 1e-12, "{pours:?}");
        assert!(pours.windows(2).all(|pair| pair[0].by <= pair[1].by));
        assert!(pours.iter().all(|pour| pour.by <= running.pour_out));
        let (all, none) = (pours[0].by, pours.last().unwrap().by);
        assert_eq!(running.still(all - minutes(0.1)), Some(&pours[0]));
        assert!(running.still(all).is_some_and(|pour| pour.volume < volume));
        assert_eq!(running.still(none), None);
        assert_eq!(running.status(none, |_| false), Status::PourOutNow);
        // Poured in part, what is on the floor is what counts.
        let part = pours[1];
        let emptied = Some(part.by + job.crew.pouring_takes(part.volume));
        let poured = Poured { emptied, volume: Some(part.volume), ..Poured::default() };
        let after = job.running(volume, &poured).unwrap();
        assert_eq!(after.area, part.area);
        let done = after.stages.last().unwrap().by;
        assert!(done <= after.closes + minutes(0.01), "{done:?} of {:?}", after.closes);
    }

    #[test]
    fn what_is_used_from_the_pail_counts_to_its_first_and_then_to_its_last() {
        let mut record = demo::job();
        record.crew.ribbon = false;
        let job = Job::try_from(&record).unwrap();
        let volume = job.next_batch().unwrap().measured.volume;
        let running = job.running(volume, &Poured::default()).unwrap();
        let before = running.limit(|stage| stage < Stage::Pour).unwrap();
        assert_eq!(before, (Limit::LastPour, running.pours[0].by));
        let began = Some(running.pours[0].by);
        let running = job.running(volume, &Poured { began, ..Poured::default() }).unwrap();
        let (limit, by) = running.limit(|stage| stage < Stage::Empty).unwrap();
        assert!(limit == Limit::Empty && by <= running.pour_out);
        let emptied = running.stages.iter().find(|due| due.stage == Stage::Empty).unwrap().by;
        assert!(emptied <= by + minutes(0.01), "{emptied:?} of {by:?}");
        let status = |since| running.status(since, |stage| stage < Stage::Empty);
        assert_eq!(status(by), Status::PourOutNow);
    }

    #[test]
    fn what_is_due_is_late_once_its_time_is_over() {
        let running =
            job().running(Volume::new::<crate::quantity::unit::liter>(4.0), &Poured::default());
        let running = running.unwrap();
        let first = running.stages[0];
        let at = |since| running.status(since, |_| false);
        assert_eq!(at(first.by - minutes(0.1)), Status::OnTime);
        assert_eq!(at(first.by), Status::Late);
        assert_eq!(running.next(|_| true), None);
        assert_eq!(running.status(running.pot_life * 9.0, |_| true), Status::OnTime);
    }
}
