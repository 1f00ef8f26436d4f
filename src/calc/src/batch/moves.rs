//! What would move the batch: each change is tried, not guessed.

use super::{Batch, Bound, cooler_by};
use crate::crew::{Pouring, USUAL_POUR};
use crate::field::Field;
use crate::job::Job;
use crate::kit::{KitRule, Portions};
use crate::measure::Measure;
use crate::measure::steps::ScaleMark;
use crate::mixing::Mixing;
use crate::quantity::{Area, TemperatureInterval, Time, VolumeRate, minutes, unit};
use crate::record::Role;
use crate::sorted::sorted_by;
use crate::working::{Sentence, Source, Step};

/// A change that a crew can make on the spot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// One more person rolling.
    OneMoreRoller,
    /// One more person flaking.
    OneMoreFlaker,
    /// One more person who mixes and nothing else.
    OneMoreMixer,
    /// Every batch measured out before the first is mixed.
    MeasuredAhead,
    /// What the usual measure cannot hold on ratio is weighed on a small scale.
    OnAScale,
    /// Mixed for so long only, where the sheet allows it.
    MixFor(Time),
    /// Material kept cooler by so much.
    CoolerMaterial(TemperatureInterval),
    /// Poured out in a ribbon at once.
    PourRibbon,
    /// Every strip begins at the same wall.
    SameWall,
    /// Who throws flake walks the wet film on spikes.
    Spikes,
    /// The edge ends at a joint or a tape line.
    EndAtJoint,
    /// Half kits as well as whole ones.
    HalfKits,
    /// Kits split by measuring.
    SplitKits,
}

impl Change {
    /// Whether it is one of how the crew works, and needs nobody and nothing more.
    pub(crate) fn of_the_way(self) -> bool {
        matches!(self, Self::SameWall | Self::MeasuredAhead | Self::PourRibbon | Self::EndAtJoint)
    }
}

/// A change, and the area it adds to the next batch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Move {
    /// What the crew would do differently.
    pub change: Change,
    /// How much floor one batch then covers.
    pub covers: Area,
    /// How much more that is than now.
    pub adds: Area,
}

impl Move {
    /// The step to what it adds.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let batch = job.next_batch().unwrap();
    /// let step = job.moves(Some(&batch))[0].explain();
    /// let [with, now, adds] = [0, 1, 2].map(|i| step.figures[i].si());
    /// assert!((now - batch.area.value).abs() < 1e-9 && (with - now - adds).abs() < 1e-9);
    /// ```
    pub fn explain(&self) -> Step {
        let figures = vec![self.covers.into(), (self.covers - self.adds).into(), self.adds.into()];
        Step::new(Sentence::Adds, Source::Arithmetic, figures)
    }
}

impl Job {
    /// What would make the next batch larger, most first; nothing that adds less than a
    /// fiftieth, and nothing at all when the floor itself is the bound.
    ///
    /// `now` is the next batch; where there is none, what would make one possible.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let batch = job.next_batch().unwrap();
    /// assert!(job.moves(Some(&batch)).iter().all(|m| m.adds > 0.02 * batch.area));
    /// ```
    pub fn moves(&self, now: Option<&Batch>) -> Vec<Move> {
        if now.is_some_and(|batch| batch.bound == Bound::Floor) {
            return Vec::new();
        }
        let covers_now = now.map_or(Area::default(), |batch| batch.area);
        let moves: Vec<Move> = self
            .changes(now.is_none())
            .into_iter()
            .filter_map(|(change, job)| {
                let (_, covers, _, _) = job.sized().ok()?;
                let adds = covers - covers_now;
                (adds > 0.02 * covers_now).then_some(Move { change, covers, adds })
            })
            .collect();
        sorted_by(moves, |change| -change.adds.value)
    }

    pub(super) fn changes(&self, no_batch: bool) -> Vec<(Change, Job)> {
        let mut changes = Vec::with_capacity(12);
        let mut offer = |change, alter: &dyn Fn(&mut Job)| {
            let mut job = self.clone();
            alter(&mut job);
            changes.push((change, job));
        };
        if Field::Rollers.check(self.crew.rollers + 1).is_ok() {
            offer(Change::OneMoreRoller, &|job| job.crew.rollers += 1);
        }
        if self.product.flaked() && Field::Flakers.check(self.crew.flakers + 1).is_ok() {
            offer(Change::OneMoreFlaker, &|job| job.crew.flakers += 1);
        }
        if Field::Mixers.check(self.crew.mixers + 1).is_ok() {
            offer(Change::OneMoreMixer, &|job| {
                job.crew.mixers += 1;
                job.mixing = Mixing::default();
            });
        }
        if !self.crew.measured_ahead {
            offer(Change::MeasuredAhead, &|job| job.crew.measured_ahead = true);
        }
        if self.gear.kits.is_none() && !matches!(self.gear.finer, Some(Measure::Scale { .. })) {
            let step = ScaleMark::Gram.step();
            offer(Change::OnAScale, &|job| job.gear.finer = Some(Measure::Scale { step }));
        }
        // What is mixed too short does not cure: of a paste that is stirred on a board, or of what
        // cannot be laid at all.
        let short = no_batch || self.product.role() == Role::Filler;
        let least = minutes(1.0);
        if short && self.product.mixing() > least {
            offer(Change::MixFor(least), &|job| job.product = job.product.mixed_for(least));
        }
        let cooler = self.conditions.material - cooler_by();
        if Field::Material.check(cooler).is_ok() {
            offer(Change::CoolerMaterial(cooler_by()), &|job| job.conditions.material = cooler);
        }
        // Paste is worked from a board.
        if self.crew.pouring == Pouring::FromPail && self.product.role() != Role::Filler {
            let usual = VolumeRate::new::<unit::liter_per_minute>(USUAL_POUR);
            offer(Change::PourRibbon, &|job| job.crew.pouring = Pouring::Ribbon(usual));
        }
        if let Some(rule) = &self.gear.kits {
            if rule.portions() == Portions::Whole
                && let Some(halves) = KitRule::new(self.product.kits(), Portions::Half)
            {
                offer(Change::HalfKits, &|job| job.gear.kits = Some(halves.clone()));
            }
            offer(Change::SplitKits, &|job| job.gear.kits = None);
        }
        if !self.bare.ends_at_joint && !self.crew.same_wall {
            offer(Change::SameWall, &|job| job.crew.same_wall = true);
        }
        if self.product.flaked() && self.crew.flakers > 0 && !self.crew.spikes {
            offer(Change::Spikes, &|job| job.crew.spikes = true);
        }
        if !self.bare.ends_at_joint {
            offer(Change::EndAtJoint, &|job| job.bare.ends_at_joint = true);
        }
        changes
    }
}
