//! A batch under way, as it is kept: what it is, when A met B, and what was done when.

use std::collections::{BTreeMap, BTreeSet};

use pailwise_calc::error::Error;
use pailwise_calc::field::Field;
use pailwise_calc::job::Job;
use pailwise_calc::quantity::{Time, Volume, minutes, unit};
use pailwise_calc::ratio::Pour;
use pailwise_calc::record::{ConditionsRecord, JobRecord, ProductRecord, Role, VERSION};
use pailwise_calc::running::{Due, Poured, Running, Stage, Status};
use serde::{Deserialize, Serialize};

use super::Record as _;

/// A limit that a batch in its pail had passed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is what its name says in the trade")]
pub enum Alarmed {
    PourOut,
    PotLife,
}

/// Where in a floor's plan a batch belongs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct BandRecord {
    /// Which floor; 0 is the one in hand, as an earlier version knew no other.
    #[serde(default, skip_serializing_if = "crate::records::is_default")]
    pub floor: u64,
    /// Which coat, counted from 0.
    pub coat: usize,
    /// Which bay, from the left: 0 is the first.
    #[serde(default)]
    pub bay: u32,
    /// Where its band ends, in metres from the back wall or along the cracks; nothing for one
    /// that is brushed on walls and steps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to_m: Option<f64>,
    /// How many minutes after A met B the plan mixes the next batch; nothing for the last one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub next_after_min: Option<f64>,
}

/// One part as it was planned to be poured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PourRecord {
    /// The label of the part, or the name of the additive.
    pub what: String,
    /// The planned amount of it by volume, in litres.
    pub volume_l: f64,
    /// The planned amount of it by weight, in kilograms.
    pub mass_kg: f64,
    /// The number on its can.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub lot: String,
}

impl PourRecord {
    /// A pour of a product, as it was planned.
    pub fn of(product: &ProductRecord, pour: &Pour) -> Self {
        Self {
            what: product.name_of(pour.what).to_owned(),
            volume_l: pour.volume.get::<unit::liter>(),
            mass_kg: pour.mass.get::<unit::kilogram>(),
            lot: String::new(),
        }
    }
}

/// A moment that was told afterwards, and what stood there before.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ToldRecord {
    /// When it was told, in milliseconds since 1970, UTC.
    pub told_at_ms: f64,
    /// The stage whose moment was told afterwards.
    pub stage: Stage,
    /// What stood there; nothing where it had not been tapped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub before_ms: Option<f64>,
}

/// A batch under way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RunRecord {
    /// Names the kind of record, here a batch under way; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// Its name among the batches.
    pub id: String,
    /// When A met B, in milliseconds of the phone's clock since 1970, UTC.
    pub met_at_ms: f64,
    /// What it was planned from; temperatures as last corrected.
    pub job: JobRecord,
    /// How much of it there is.
    pub mixed_l: f64,
    /// What it was mixed of.
    pub pours: Vec<PourRecord>,
    /// Where in the floor's plan it belongs, if it came from there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<BandRecord>,
    /// When each stage was done.
    #[serde(default)]
    pub done: BTreeMap<Stage, f64>,
    /// Moments that were told afterwards.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub told: Vec<ToldRecord>,
    /// So much of it went onto the floor, where that was not all of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub poured_l: Option<f64>,
    /// Stages that were over by the time a later one was tapped; when, nobody noted.
    #[serde(rename = "over", default, skip_serializing_if = "BTreeSet::is_empty")]
    pub done_untimed: BTreeSet<Stage>,
    /// It stood past a limit when its temperatures were corrected: what is lost stays lost.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub alarmed: Option<Alarmed>,
    /// The temperatures before each correction, and when that was.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub corrected: Vec<(f64, ConditionsRecord)>,
    /// So many times as fast as planned it runs, by a reading of its pail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pace: Option<f64>,
    /// When somebody said that the next one is being mixed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub next_called_ms: Option<f64>,
}

impl BandRecord {
    /// Whether it belongs to a floor, the one in hand.
    pub fn is_of(&self, floor: u64) -> bool {
        self.floor == 0 || self.floor == floor
    }
}

impl RunRecord {
    /// A batch of a job, A meeting B now.
    pub fn start(
        now_ms: f64,
        job: JobRecord,
        mixed_l: f64,
        pours: Vec<PourRecord>,
        place: Option<BandRecord>,
    ) -> Self {
        Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
            id: format!("{now_ms:015.0}"),
            met_at_ms: now_ms,
            job,
            mixed_l,
            pours,
            place,
            done: BTreeMap::new(),
            told: Vec::new(),
            poured_l: None,
            done_untimed: BTreeSet::new(),
            alarmed: None,
            corrected: Vec::new(),
            pace: None,
            next_called_ms: None,
        }
    }

    /// Whether it can be taken from another hand: its id names a key of storage, its moments are of
    /// a calendar, its amounts fit.
    ///
    /// # Errors
    /// [`Error`] naming the first that does not.
    pub fn check(&self) -> Result<(), Error> {
        let moment = |ms: f64| {
            // A calendar goes no further (ECMA-262, time values).
            if (0.0..=8.64e15).contains(&ms) {
                Ok(())
            } else {
                Err(Error::NotANumber { field: Field::MetAgo })
            }
        };
        let digits = !self.id.is_empty() && self.id.bytes().all(|byte| byte.is_ascii_digit());
        if !digits || self.id.len() > 20 || self.pours.len() > 12 {
            return Err(Error::NoSolution);
        }
        moment(self.met_at_ms)?;
        self.done.values().copied().try_for_each(moment)?;
        self.next_called_ms.into_iter().try_for_each(moment)?;
        for told in &self.told {
            moment(told.told_at_ms)?;
            told.before_ms.into_iter().try_for_each(moment)?;
        }
        self.corrected.iter().try_for_each(|(at, _)| moment(*at))?;
        let amounts = [Some(self.mixed_l), self.poured_l];
        for liters in amounts.into_iter().flatten() {
            Field::PotLifeVolume.check(Volume::new::<unit::liter>(liters))?;
        }
        self.running().map(drop)
    }

    /// Its deadlines, and when its film closes as the pail was really emptied.
    ///
    /// # Errors
    /// As [`Job::try_from`] and [`Job::running`].
    pub fn running(&self) -> Result<Running, Error> {
        let mut job = Job::try_from(&self.job)?;
        // A factor that cannot be is none: storage is not to be trusted.
        if let Some(pace) = self.pace.filter(|pace| (0.1..=10.0).contains(pace)) {
            job.product = job.product.at_pace(pace);
        }
        let at = |stage| self.done.get(&stage).map(|at| self.since(*at));
        let poured = Poured {
            began: at(Stage::Pour),
            emptied: at(Stage::Empty),
            volume: self.poured_l.map(Volume::new::<unit::liter>),
        };
        job.running(Volume::new::<unit::liter>(self.mixed_l), &poured)
    }

    /// When the next batch is mixed, counted from A meets B, where one comes after this and must
    /// meet its edge: as the floor's plan has it, or as this batch itself asks for.
    pub fn next_mix(&self, running: &Running) -> Option<Time> {
        let bare = &self.job.bare;
        if self.job.product.role == Role::Filler {
            return None;
        }
        if let Some(place) = self.place {
            return place.next_after_min.map(minutes);
        }
        let rest = running.area.value < bare.area_m2 * (1.0 - 1e-6);
        (rest && !bare.ends_at_joint).then_some(running.next_mix)
    }

    /// How long ago A met B.
    pub fn since(&self, now_ms: f64) -> Time {
        Time::new::<unit::millisecond>((now_ms - self.met_at_ms).max(0.0))
    }

    /// Whether a stage is done.
    pub fn is_done(&self, stage: Stage) -> bool {
        self.done.contains_key(&stage) || self.done_untimed.contains(&stage)
    }

    /// The first stage that is not done.
    pub fn due(&self, running: &Running) -> Option<Due> {
        running.next(|stage| self.is_done(stage))
    }

    /// How late the stage that is next is.
    pub fn late(&self, running: &Running, now_ms: f64) -> Time {
        let due = self.due(running).map_or(Time::default(), |due| self.since(now_ms) - due.by);
        due.max(Time::default())
    }

    /// Whether its film closed before it was rolled and flaked.
    pub fn film_closed(&self, running: &Running) -> bool {
        let late =
            |stage| self.done.get(&stage).is_some_and(|at| self.since(*at) >= running.closes);
        late(Stage::Roll) || late(Stage::Flake)
    }

    /// Returns its status now; an alarm stands until the pail is empty.
    pub fn status(&self, running: &Running, now_ms: f64) -> Status {
        let now = running.status(self.since(now_ms), |stage| self.is_done(stage));
        let before = match self.alarmed {
            Some(Alarmed::PotLife) => Status::PastPotLife,
            Some(Alarmed::PourOut) => Status::PourOutNow,
            None => return now,
        };
        if self.is_done(Stage::Empty) { now } else { now.max(before) }
    }

    /// The same with a stage done now; those before are over, whenever that was.
    #[must_use]
    pub fn with_done(mut self, running: &Running, stage: Stage, now_ms: f64) -> Self {
        for due in running.stages.iter().filter(|due| due.stage < stage) {
            if !self.is_done(due.stage) {
                self.done_untimed.insert(due.stage);
            }
        }
        self.done.entry(stage).or_insert(now_ms);
        self
    }

    /// The same with only so much of it poured, the rest being out of the pail elsewhere.
    #[must_use]
    pub fn poured_in_part(mut self, volume: Volume) -> Self {
        self.poured_l = Some(volume.get::<unit::liter>());
        self
    }

    /// The same with a stage done at a moment that is told afterwards: no sooner than A met B, no
    /// later than now. What stood there before is kept, and those before it are over.
    #[must_use]
    pub fn told(mut self, running: &Running, stage: Stage, at_ms: f64, now_ms: f64) -> Self {
        let at = at_ms.max(self.met_at_ms).min(now_ms.max(self.met_at_ms));
        let before_ms = self.done.get(&stage).copied();
        self.told.push(ToldRecord { told_at_ms: now_ms, stage, before_ms });
        // What was over, nobody knew when, is known now.
        self.done_untimed.remove(&stage);
        self = self.with_done(running, stage, at);
        self.done.insert(stage, at);
        self
    }

    /// The same, its pail read to run so many times as fast as planned; what was past its limit
    /// stays so.
    #[must_use]
    pub fn at_pace(mut self, pace: f64, now_ms: f64) -> Self {
        self.note_alarm(now_ms);
        self.pace = Some(pace);
        self
    }

    /// Keeps what limit it has passed by now.
    fn note_alarm(&mut self, now_ms: f64) {
        if let Ok(running) = self.running() {
            self.alarmed = match self.status(&running, now_ms) {
                Status::PastPotLife => Some(Alarmed::PotLife),
                Status::PourOutNow => self.alarmed.max(Some(Alarmed::PourOut)),
                _ => self.alarmed,
            };
        }
    }

    /// The same with other temperatures from now on; the deadlines are worked out anew from when A
    /// met B, as if it had been so warm from the start where it is warmer.
    #[must_use]
    pub fn corrected(mut self, conditions: ConditionsRecord, now_ms: f64) -> Self {
        self.note_alarm(now_ms);
        self.corrected.push((now_ms, self.job.conditions));
        self.job.conditions = conditions;
        self
    }

    /// The same on a clock that was set back by so much: no time that has gone by comes back.
    #[must_use]
    pub fn set_back(mut self, by_ms: f64) -> Self {
        self.met_at_ms -= by_ms;
        for at in self.done.values_mut() {
            *at -= by_ms;
        }
        for (at, _) in &mut self.corrected {
            *at -= by_ms;
        }
        for told in &mut self.told {
            told.told_at_ms -= by_ms;
            told.before_ms = told.before_ms.map(|at| at - by_ms);
        }
        self.next_called_ms = self.next_called_ms.map(|at| at - by_ms);
        self
    }
}

/// By how much a clock was set back: what it shows now against the latest it has shown.
pub fn set_back(now_ms: f64, latest_ms: f64) -> Option<f64> {
    // Clocks are put right by a fraction of a second all the time.
    const ALWAYS: f64 = 2000.0;
    let by = latest_ms - now_ms;
    (by > ALWAYS).then_some(by)
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::demo;

    const MET: f64 = 1.7e12;

    fn run() -> RunRecord {
        RunRecord::start(MET, demo::job(), 5.0, Vec::new(), None)
    }

    #[test]
    fn a_batch_that_is_kept_and_read_again_stands_as_it_stood() {
        let run = run();
        let running = run.running().unwrap();
        let run = run.with_done(&running, Stage::Empty, MET + 240_000.0);
        let text = serde_json::to_string(&run).unwrap();
        let again: RunRecord = pailwise_calc::record::read(&text, RunRecord::FORMAT).unwrap();
        assert_eq!(again, run);
        for minute in 0..120 {
            let now = MET + f64::from(minute) * 60_000.0;
            assert_eq!(again.status(&running, now), run.status(&running, now));
        }
        assert_eq!(
            (again.done.len(), again.done_untimed.len()),
            (1, 1),
            "emptied; mixed, nobody knows when"
        );
        assert!(again.is_done(Stage::Mix));
    }

    #[test]
    fn a_clock_set_back_gives_no_time_back() {
        let (run, hour) = (run(), 3_600_000.0);
        let running = run.running().unwrap();
        let latest = MET + running.pour_out.get::<unit::millisecond>();
        assert_eq!(run.status(&running, latest), Status::PourOutNow);
        let now = latest - hour;
        assert_eq!(set_back(now, latest), Some(hour));
        let run = run.set_back(hour);
        assert_eq!(run.status(&running, now), Status::PourOutNow);
        assert_eq!(set_back(latest + 5.0, latest), None);
    }

    #[test]
    fn a_pail_read_to_run_ahead_has_less_time_and_one_that_lags_not_past_its_sheet() {
        let planned = run().running().unwrap();
        let fast = run().at_pace(1.4, MET).running().unwrap();
        assert!(fast.pour_out < planned.pour_out * 0.75 && fast.closes < planned.closes);
        let absurd = run().at_pace(f64::NAN, MET).running().unwrap();
        assert_eq!(absurd.pour_out, planned.pour_out);
    }

    #[test]
    fn what_was_forgotten_is_told_afterwards_and_what_stood_there_is_kept() {
        let run = run();
        let running = run.running().unwrap();
        let late = MET + running.pot_life.get::<unit::millisecond>();
        assert_eq!(run.status(&running, late), Status::PastPotLife);
        // It was poured in time; nobody had a clean hand.
        let poured = MET + running.stages[1].by.get::<unit::millisecond>();
        let told = run.clone().told(&running, Stage::Empty, poured, late);
        let again = told.running().unwrap();
        assert!(told.status(&again, late) < Status::PartOnly);
        assert!(told.is_done(Stage::Mix) && !told.done.contains_key(&Stage::Mix));
        assert_eq!(told.told[0].before_ms, None);
        let corrected = told.told(&again, Stage::Empty, poured + 60_000.0, late + 1.0);
        assert_eq!(corrected.told[1].before_ms, Some(poured));
        assert_eq!(corrected.done[&Stage::Empty], poured + 60_000.0);
        // Nothing happened before A met B, and nothing will have happened after now.
        let wild = run.clone().told(&running, Stage::Mix, 0.0, late);
        assert_eq!(wild.done[&Stage::Mix], MET);
        let ahead = run.told(&running, Stage::Mix, late * 2.0, late);
        assert_eq!(ahead.done[&Stage::Mix], late);
    }

    #[test]
    fn what_was_past_its_limit_is_not_brought_back_by_a_cooler_reading() {
        let run = run();
        let running = run.running().unwrap();
        let late = MET + running.pot_life.get::<unit::millisecond>();
        let cold =
            ConditionsRecord { slab_c: 8.0, air_c: 8.0, material_c: 8.0, ..demo::conditions() };
        let run = run.corrected(cold, late);
        let running = run.running().unwrap();
        assert_eq!(run.status(&running, late), Status::PastPotLife);
        // Out of the pail, its pot life is no longer what counts.
        let run = run.with_done(&running, Stage::Empty, late);
        assert!(run.status(&running, late) <= Status::Late);
    }

    #[test]
    fn the_next_one_is_mixed_as_the_floor_s_plan_has_it() {
        let at = |next_after_min| {
            let place = BandRecord { floor: 0, coat: 0, bay: 0, to_m: Some(2.0), next_after_min };
            let mut run = run();
            run.place = Some(place);
            run.next_mix(&run.running().unwrap())
        };
        assert_eq!(at(Some(12.0)), Some(minutes(12.0)));
        assert_eq!(at(None), None, "the last batch of a floor has no next");
        let run = run();
        let running = run.running().unwrap();
        assert_eq!(run.next_mix(&running), Some(running.next_mix));
    }

    #[test]
    fn a_correction_is_kept_with_what_was_there_before() {
        let cool = run();
        let warm = ConditionsRecord { material_c: 30.0, ..demo::conditions() };
        let run = cool.clone().corrected(warm, MET + 1000.0);
        assert_eq!(run.corrected, [(MET + 1000.0, demo::conditions())]);
        let life = |run: &RunRecord| run.running().unwrap().pot_life;
        assert!(life(&run) < life(&cool) - minutes(1.0));
    }
}
