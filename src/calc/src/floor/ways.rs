//! What would make a batch possible where there is none: each way is tried, not guessed.

use super::Coat;
use super::lay::{Place, at_its_hour};
use crate::batch::Change;
use crate::field::Field;
use crate::job::Job;
use crate::quantity::{Area, Time, unit};
use crate::ranked::ranked;

/// A way on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// A change on the spot.
    Change(Change),
    /// More people rolling than one more.
    MoreRollers(u32),
    /// Laid in so many bays, one after the other, with tape lines between them.
    InBays(u32),
    /// Starting later by so much, when it is cooler.
    Later(Time),
}

/// A way on, and the area one batch then covers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WayOut {
    /// What.
    pub way: Way,
    /// How much one batch covers then.
    pub covers: Area,
}

impl Coat {
    /// Ways on from a job that has no batch, the largest batch first.
    pub(super) fn ways_out(&self, job: &Job, place: Place, start: Time) -> Vec<WayOut> {
        let mut ways: Vec<WayOut> = job
            .moves(None)
            .into_iter()
            .map(|found| WayOut { way: Way::Change(found.change), covers: found.adds })
            .collect();
        let covers = |alter: &dyn Fn(&mut Job), start: Time| {
            let mut job = job.clone();
            alter(&mut job);
            at_its_hour(self, &mut job, start).ok().map(|batch| batch.area)
        };
        let more = (2..=4_u32).filter(|more| Field::Rollers.check(job.crew.rollers + more).is_ok());
        ways.extend(more.into_iter().find_map(|more| {
            let covers = covers(&|job| job.crew.rollers += more, start)?;
            Some(WayOut { way: Way::MoreRollers(more), covers })
        }));
        // What is begun keeps its bays.
        let begun = !self.done.is_empty() || !self.under_way.is_empty();
        let whole = matches!(place, Place::Flat { .. }) && self.bays.len() == 1 && !begun;
        let parts = (2..=4_u32).filter(|_| whole);
        ways.extend(parts.into_iter().find_map(|bays| {
            let covers = covers(&|job| job.bare = job.bare.parted(bays), start)?;
            Some(WayOut { way: Way::InBays(bays), covers })
        }));
        ways.extend((1..24_u32).find_map(|hours| {
            let later = Time::new::<unit::hour>(f64::from(hours));
            // Slab and material have cooled with the air by then, as a crew will measure.
            let conditions = self.course.expected(start + later);
            let covers = covers(&|job| job.conditions = conditions, start + later)?;
            Some(WayOut { way: Way::Later(later), covers })
        }));
        ranked(ways, |way| -way.covers.value)
    }
}
