//! What a pail that stands already can still be laid on.

use super::{Bound, FilmDeadline, Trial};
use crate::error::Error;
use crate::job::Job;
use crate::pail::{CuringPail, warm_enough};
use crate::quantity::{Area, Mass, ThermodynamicTemperature, Time, Volume, unit};
use crate::solve::largest_feasible;
use crate::timeline::{Timeline, Work};
use crate::vessel::Vessel;

/// What is left of a pail that has lost time. Times count from when A met B.
#[derive(Clone, Debug, PartialEq)]
pub struct Salvage {
    /// The area that can still be laid.
    pub area: Area,
    /// What of the pail that does not need: thrown away.
    pub rest: Volume,
    /// When it is poured, rolled and flaked.
    pub timeline: Timeline,
    /// How long this mass stays usable.
    pub pot_life: Time,
    /// The moment by which it must have left the pail.
    pub pour_out: Time,
    /// When the first of its film closes, if all of the work runs late.
    pub(crate) closes: FilmDeadline,
    /// The next batch still meets a wet edge; else this one must end at a joint or a tape line.
    pub edge_holds: bool,
}

impl Job {
    /// So much of the product in a vessel, over its pot life.
    ///
    /// The whole mass is taken to have reacted from the start, `rate_factor` times quicker than on ratio:
    /// an off-ratio pail may run ahead.
    pub(crate) fn curing_pail(
        &self,
        mass: Mass,
        vessel: &Vessel,
        rate_factor: f64,
    ) -> Result<CuringPail, Error> {
        let (material, air) = (self.conditions.mixed(), self.conditions.air);
        let mut pail = self.product.pail(mass, vessel, material, air)?;
        pail.kinetics.balance = rate_factor;
        pail.stand()
    }

    /// As warm as this a pail of this job is to be poured out, whatever the clock says.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job, quantity::celsius};
    /// // 23 °C in the cans, 2 more by the drill.
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// assert!((job.out_at().value - celsius(40.0).value).abs() < 1e-9);
    /// ```
    pub fn out_at(&self) -> ThermodynamicTemperature {
        self.conditions.mixed() + warm_enough()
    }

    /// How long so much in the crew's pail may last at the longest, where its sheet leaves a span: a
    /// cup whose heat nobody knows. To be said, not to be planned by.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job, quantity::{Mass, unit}};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let batch = job.next_batch().unwrap();
    /// let longest = job.pot_life_at_longest(batch.measured.mass, batch.pot_life);
    /// assert!(longest.is_none_or(|longest| longest > batch.pot_life));
    /// ```
    pub fn pot_life_at_longest(&self, mass: Mass, planned: Time) -> Option<Time> {
        let (mixed, air) = (self.conditions.mixed(), self.conditions.air);
        let pail = self.product.pail(mass, &self.gear.vessel, mixed, air).ok()?;
        self.product.pot_life_at_longest(&pail, planned)
    }

    /// What a volume that stands in a pail can still be laid on, when A met B so long ago and it is
    /// mixed again now, or not yet; `None` when there is no time for even half of it.
    pub(crate) fn salvage(
        &self,
        volume: Volume,
        stand: &CuringPail,
        met: Option<Time>,
    ) -> Option<Salvage> {
        let product = &self.product;
        let ready = met.map(|since| {
            let mixed_again = since + product.mixing_in_all();
            mixed_again.max(product.ready()) + self.crew.carry
        });
        let whole = self.bare.coverage.area_from(volume).min(self.bare.area);
        let trial = |area: Area| -> Trial {
            let share = (area / self.bare.coverage.area_from(volume)).value;
            let work = Work::new(self, area, volume * share);
            self.best_way(area, stand, &ready.map_or(work, |ready| work.ready_at(ready)))
        };
        // The next batch's edge is no reason to throw this one away.
        let spare = |x: f64| {
            let trial = trial(Area::new::<unit::square_meter>(x));
            let limits = trial.limits.iter().filter(|race| !race.bound.is_of_an_edge());
            limits.map(super::TimeBound::spare).fold(f64::INFINITY, f64::min)
        };
        // What saves less than half of itself is not worth a larger pail of what is reacting.
        let low = 0.5 * whole.value;
        let area = if spare(whole.value) >= 0.0 {
            Some(whole.value)
        } else {
            largest_feasible(low, whole.value, 1e-4 * whole.value, spare)
        };
        area.map(|area| {
            let area = Area::new::<unit::square_meter>(area);
            let laid = self.bare.coverage.volume_for(area);
            let trial = trial(area);
            let edge = trial.limits.iter().find(|race| race.bound == Bound::WetEdge);
            Salvage {
                edge_holds: edge.is_none_or(|race| race.spare() >= 0.0),
                area,
                rest: (volume - laid).max(Volume::default()),
                timeline: trial.timeline,
                closes: trial.closes,
                pot_life: stand.pot_life(),
                pour_out: stand.pot_life() * self.crew.usable,
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::edge_before::EdgeBefore;
    use crate::quantity::minutes;

    /// An edge that has dried is no reason to throw away a pail that can still be laid.
    #[test]
    fn a_dry_edge_before_it_throws_nothing_away() {
        let mut job = Job::try_from(&demo::job()).unwrap();
        let volume = job.next_batch().unwrap().measured.volume;
        let stand =
            job.curing_pail(volume * job.product.ratio().density(), &job.gear.vessel, 1.0).unwrap();
        let fresh = job.salvage(volume, &stand, None).unwrap();
        let none = Time::default();
        job.bare.meets =
            Some(EdgeBefore { until: minutes(-30.0), brushing: none, first_strip: none });
        let again = job.salvage(volume, &stand, None).unwrap();
        assert!((again.area / fresh.area).value > 0.999, "{:?}", again.area);
    }
}
