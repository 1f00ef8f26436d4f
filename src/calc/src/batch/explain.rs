//! The working of a batch, from the trial that decided it.

use super::{Batch, Bound};
use crate::conditions::Conditions;
use crate::film::UNREAD_HUMIDITY;
use crate::job::Job;
use crate::kit::Kits;
use crate::measure::Measured;
use crate::quantity::{Area, Figure, Mass, Time, Volume};
use crate::timeline::Timeline;
use crate::working::{Sentence, Source, Step};

impl Job {
    /// How a batch of this job came about: the steps from data sheet and floor to it.
    ///
    /// What each limit alone would allow is looked for anew, which takes longer than the batch did.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job, working::Sentence};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let batch = job.next_batch().unwrap();
    /// let steps = job.explain_batch(&batch);
    /// let area = steps.iter().find(|step| step.sentence == Sentence::Area).unwrap();
    /// assert_eq!(area.figures[0], batch.area.into());
    /// ```
    pub fn explain_batch(&self, batch: &Batch) -> Vec<Step> {
        let (measured, area) = (&batch.measured, batch.area);
        let mut steps = self.explain_pail(measured.mass, batch.pot_life);
        self.explain_times((area, measured.volume), &batch.timeline, &mut steps);
        steps.extend(self.explain_damp_air());
        steps.push(self.explain_open_left(batch.edge_left));
        self.explain_bounds_of_size(&mut steps);
        self.explain_bounds_of_time(&mut steps);
        self.explain_volume(area, &mut steps);
        steps.extend(measured.kits.map(|kits| explain_kits(&kits, measured.volume)));
        steps.extend(self.explain_least(measured));
        self.explain_split(measured, &mut steps);
        steps
    }

    /// The step from the humidity to how much sooner damp air closes the film, if it does.
    fn explain_damp_air(&self) -> Option<Step> {
        let damp = self.product.film().damp()?;
        let Conditions { air, humidity, .. } = self.conditions;
        let figures = vec![
            air.into(),
            Figure::Share(humidity.unwrap_or(UNREAD_HUMIDITY)),
            Figure::Number(damp.sooner(air, humidity)),
        ];
        Some(Step::new(Sentence::DampAir, Source::Published, figures))
    }

    /// The step from what is left of the open time to the part of it that may be planned.
    fn explain_open_left(&self, left: Time) -> Step {
        let usable = left * self.crew.usable;
        let part = Figure::Share(self.crew.usable);
        let figures = vec![self.conditions.slab.into(), left.into(), part, usable.into()];
        Step::new(Sentence::OpenLeft, Source::Published, figures)
    }

    /// The areas that floor, pail and the owner's limit allow, each alone.
    fn explain_bounds_of_size(&self, steps: &mut Vec<Step>) {
        let mut say = |sentence, source, figures| steps.push(Step::new(sentence, source, figures));
        let by_volume = |volume| self.bare.coverage.area_from(volume).into();
        say(Sentence::BoundFloor, Source::Entered, vec![self.bare.area.into()]);
        say(
            Sentence::BoundVessel,
            Source::Practice,
            vec![by_volume(self.gear.vessel.working_capacity())],
        );
        if let Some(limit) = self.gear.largest_mass {
            let volume = limit / self.product.ratio().density();
            say(Sentence::BoundMass, Source::Entered, vec![by_volume(volume)]);
        }
    }

    /// The areas that pot life, open time and the wet edges allow, each alone.
    fn explain_bounds_of_time(&self, steps: &mut Vec<Step>) {
        for (bound, sentence) in [
            (Bound::PailLife, Sentence::BoundPail),
            (Bound::OpenTime, Sentence::BoundOpen),
            (Bound::WetEdge, Sentence::BoundLap),
            (Bound::EdgeBefore, Sentence::BoundBefore),
        ] {
            let asked = match bound {
                Bound::WetEdge => !self.bare.ends_at_joint,
                Bound::EdgeBefore => self.bare.meets.is_some(),
                _ => true,
            };
            if !asked {
                continue;
            }
            if let Some(alone) = self.area_by(bound) {
                steps.push(Step::new(sentence, Source::Arithmetic, vec![alone.into()]));
            }
        }
    }

    /// The steps from the area of the batch to its volume.
    fn explain_volume(&self, area: Area, steps: &mut Vec<Step>) {
        let coverage = &self.bare.coverage;
        steps.push(Step::new(Sentence::Area, Source::Arithmetic, vec![area.into()]));
        let figures = vec![
            area.into(),
            Figure::Thickness(coverage.wet()),
            Figure::Share(coverage.take_up()),
            Figure::Share(coverage.loss()),
            coverage.volume_for(area).into(),
        ];
        steps.push(Step::new(Sentence::Volume, Source::Arithmetic, figures));
    }

    /// The least that can be measured within tolerance, unless all of it comes in whole kits.
    fn explain_least(&self, measured: &Measured) -> Option<Step> {
        if measured.kits.is_some_and(|kits| kits.whole()) {
            return None;
        }
        let least = self.gear.smallest(self.product.ratio(), self.product.tolerance()).ok()?;
        Some(Step::new(Sentence::LeastMeasured, Source::Practice, vec![least.into()]))
    }

    /// The steps to the pot life of so much in the pail, and the part of it that may be used.
    pub(crate) fn explain_pail(&self, mass: Mass, pot_life: Time) -> Vec<Step> {
        let mut steps = self.product.explain_pot_life();
        let (mixed, air) = (self.conditions.mixed(), self.conditions.air);
        steps.push(self.explain_mixed());
        steps.push(Step::pot_life(mass, mixed, air, pot_life));
        if let Some(longest) = self.pot_life_at_longest(mass, pot_life) {
            steps.push(Step::new(Sentence::AtLongest, Source::DataSheet, vec![longest.into()]));
        }
        let pour_out = pot_life * self.crew.usable;
        let part = Figure::Share(self.crew.usable);
        let figures = vec![part, pot_life.into(), pour_out.into()];
        steps.push(Step::new(Sentence::PourOut, Source::Practice, figures));
        steps
    }

    /// How warm the material is once it is mixed.
    fn explain_mixed(&self) -> Step {
        let (read, mixed) = (self.conditions.material.into(), self.conditions.mixed().into());
        if self.conditions.read_after_mixing {
            Step::new(Sentence::ReadMixed, Source::Entered, vec![mixed])
        } else {
            Step::new(Sentence::DrillHeat, Source::Practice, vec![read, mixed])
        }
    }

    /// The steps to each moment of the batch.
    pub(crate) fn explain_times(
        &self,
        (area, volume): (Area, Volume),
        timeline: &Timeline,
        steps: &mut Vec<Step>,
    ) {
        let mut say = |sentence, source, figures| steps.push(Step::new(sentence, source, figures));
        say(Sentence::Emptied, Source::Arithmetic, vec![timeline.emptied.into()]);
        let rolling = timeline.rolling.into();
        say(
            Sentence::Rolled,
            Source::Arithmetic,
            vec![area.into(), rolling, timeline.rolled.into()],
        );
        if self.product.flaked() {
            let flaking = self.crew.all_flaking().into();
            let figures = vec![area.into(), flaking, timeline.done.into()];
            say(Sentence::Flaked, Source::Arithmetic, figures);
        }
        let reach = area / self.bare.width;
        let figures = vec![area.into(), self.bare.width.into(), reach.into()];
        say(Sentence::Reach, Source::Arithmetic, figures);
        if area < self.bare.area * (1.0 - 1e-6) {
            let setting_up = timeline.setting_up.into();
            if self.crew.measured_ahead {
                say(Sentence::SettingUpAhead, Source::Entered, vec![setting_up]);
            } else {
                let readings = Figure::Number(self.gear.readings(self.product.ratio(), volume));
                let (pail, each) = (self.crew.clean_pail.into(), self.crew.reading.into());
                let figures = vec![pail, readings, each, setting_up];
                say(Sentence::SettingUp, Source::Practice, figures);
            }
            say(Sentence::MixerBack, Source::Arithmetic, vec![timeline.mixer_back.into()]);
            let figures =
                vec![timeline.free.into(), timeline.pour.into(), timeline.next_mix.into()];
            say(Sentence::NextMix, Source::Arithmetic, figures);
        }
    }

    /// The steps from the ratio to each pour.
    fn explain_split(&self, measured: &Measured, steps: &mut Vec<Step>) {
        if let (Some(weights), Some(balance)) =
            (self.product.equivalents(), self.product.nominal_balance())
        {
            let figures = vec![weights.a().into(), weights.b().into(), weights.phr().into()];
            steps.push(Step::new(Sentence::InBalance, Source::Published, figures));
            let figures = vec![balance.into()];
            steps.push(Step::new(Sentence::NominalBalance, Source::Arithmetic, figures));
        }
        steps.extend(self.product.explain_shares());
        steps.extend(measured.pours.iter().map(|poured| poured.pour.explain()));
        let off_by = Figure::Share(measured.off_by);
        let figures = vec![measured.volume.into(), measured.mass.into(), off_by];
        steps.push(Step::new(Sentence::Measured, Source::Arithmetic, figures));
        let tolerance = Figure::Share(self.product.tolerance());
        let figures = vec![Figure::Share(measured.off_at_most), tolerance];
        steps.push(Step::new(Sentence::OffAtMost, Source::Practice, figures));
    }
}

/// The step from the kits of a batch to the volume they make.
fn explain_kits(kits: &Kits, volume: Volume) -> Step {
    let figures =
        vec![Figure::Number(f64::from(kits.halves) / 2.0), kits.each.into(), volume.into()];
    Step::new(Sentence::InKits, Source::DataSheet, figures)
}
