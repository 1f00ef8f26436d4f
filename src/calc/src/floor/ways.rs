//! What would make a batch possible where there is none: each way is tried, not guessed.

use super::lay::at_its_hour;
use super::{Coat, Floor, Place, bays};
use crate::batch::Change;
use crate::crew::Crew;
use crate::field::Field;
use crate::job::Job;
use crate::mixing::Mixing;
use crate::quantity::{Area, Time, unit};
use crate::sorted::sorted_by;

/// One thing to change so that a batch becomes possible where there is none.
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
    /// The change that makes a batch possible.
    pub way: Way,
    /// How much one batch covers then.
    pub covers: Area,
}

impl Floor {
    /// Ways on from a job of a coat that has no batch at a place and hour, the largest batch first.
    pub(super) fn ways_out(
        &self,
        coat: &Coat,
        job: &Job,
        (place, start): (Place, Time),
    ) -> Vec<WayOut> {
        let covers = |alter: &dyn Fn(&mut Job), start: Time| {
            let mut job = job.clone();
            alter(&mut job);
            at_its_hour(coat, &mut job, start).ok().map(|batch| batch.area)
        };
        let team = coat.one_of_several(place);
        // Who comes to help is shared out among all crews.
        let with = |change: Change, more: u32| match team {
            Some(team) => {
                let crew = one_more(change, more, &self.crew);
                let helped = coat.helped(job, &crew, team)?;
                let reached = (helped.crew, helped.mixing) != (job.crew, job.mixing);
                reached.then(|| covers(&|job| job.clone_from(&helped), start))?
            }
            None => covers(&|job| job.crew = one_more(change, more, &job.crew), start),
        };
        let helps = |change: &Change| one_more(*change, 1, &self.crew) != self.crew;
        let moves = job.moves(None).into_iter().filter(|m| team.is_none() || !helps(&m.change));
        let mut ways: Vec<WayOut> = moves
            .map(|found| WayOut { way: Way::Change(found.change), covers: found.adds })
            .collect();
        if team.is_some() {
            let people = [Change::OneMoreRoller, Change::OneMoreFlaker, Change::OneMoreMixer];
            ways.extend(people.into_iter().filter_map(|change| {
                Some(WayOut { way: Way::Change(change), covers: with(change, 1)? })
            }));
        }
        let here = if team.is_some() { self.crew.rollers } else { job.crew.rollers };
        let most = 4 * u32::try_from(team.map_or(1, |_| coat.teams.len())).unwrap_or(1);
        let more = (2..=most).filter(|more| Field::Rollers.check(here + more).is_ok());
        ways.extend(more.into_iter().find_map(|more| {
            let covers = with(Change::OneMoreRoller, more)?;
            Some(WayOut { way: Way::MoreRollers(more), covers })
        }));
        // What is begun keeps its bays.
        let begun = !coat.done.is_empty() || !coat.under_way.is_empty();
        let whole = matches!(place, Place::Flat { .. }) && coat.bays.len() == 1 && !begun;
        let parts = (2..=4_u32).filter(|_| whole);
        ways.extend(parts.into_iter().find_map(|bays| {
            let covers = covers(&|job| job.bare = job.bare.parted(bays), start)?;
            Some(WayOut { way: Way::InBays(bays), covers })
        }));
        ways.extend((1..24_u32).find_map(|hours| {
            let later = Time::new::<unit::hour>(f64::from(hours));
            // Slab and material have cooled with the air by then, as a crew will measure.
            let conditions = coat.course.expected(start + later);
            let covers = covers(&|job| job.conditions = conditions, start + later)?;
            Some(WayOut { way: Way::Later(later), covers })
        }));
        sorted_by(ways, |way| -way.covers.value)
    }
}

/// A crew with so many more of those that a change brings; as it is, where it brings nobody.
fn one_more(change: Change, more: u32, crew: &Crew) -> Crew {
    let Crew { rollers, flakers, mixers, .. } = *crew;
    match change {
        Change::OneMoreRoller => Crew { rollers: rollers + more, ..*crew },
        Change::OneMoreFlaker => Crew { flakers: flakers + more, ..*crew },
        Change::OneMoreMixer => Crew { mixers: mixers + more, ..*crew },
        _ => *crew,
    }
}

impl Coat {
    /// Which crew lays a place, where it is one of several.
    fn one_of_several(&self, place: Place) -> Option<usize> {
        match place {
            Place::Flat { bay, .. } if self.teams.len() > 1 => Some(self.bays.get(bay)?.team),
            _ => None,
        }
    }

    /// A job of one of its crews with other people here, shared out among all of them.
    fn helped(&self, job: &Job, everybody: &Crew, team: usize) -> Option<Job> {
        let teams = bays::teams(everybody, &self.bays).ok()?;
        let team = teams.get(team)?;
        let Crew { rollers, flakers, mixers, .. } = team.crew;
        let crew = Crew { rollers, flakers, mixers, ..job.crew };
        let mixing = Mixing { another_back: None, wait: self.waits(team) };
        let changed = mixers != job.crew.mixers;
        let mixing = if changed { mixing } else { Mixing { wait: mixing.wait, ..job.mixing } };
        Some(Job { crew, mixing, ..job.clone() })
    }
}
