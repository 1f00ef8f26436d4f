//! The last pour: until when what stands in its pail can still be laid, all of it or a part.
//!
//! A pour that begins at `s` is in time when the way in which this crew does best has
//!
//! ```text
//! emptied(s) ≤ u · t_p          and, for every patch,   done − leaves ≤ left(α(leaves), T_slab)
//! ```
//!
//! with `u` the usable share of the pot life `t_p`, `α` the conversion in the pail and `left` the
//! time the film has ([`crate::film`]). The plan keeps a reserve of both; what is late may use that
//! of the film up, not that of the pail. Both sides fall as `s` grows, so there is one last `s` for
//! each share of the batch, and a smaller share never has an earlier one.

use crate::job::Job;
use crate::pail::CuringPail;
use crate::quantity::{Area, Time, Volume, unit};
use crate::solve::largest_feasible;
use crate::timeline::{Timeline, Work};

/// Until when a share of a batch can still be poured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LastPour {
    /// So much of it.
    pub volume: Volume,
    /// How much of the bare floor that volume covers.
    pub area: Area,
    /// Its pour begins no later than this, counted from when A met B.
    pub by: Time,
}

/// A pail laid on the floor.
pub(crate) struct Laid {
    /// How much of the bare floor the pail covers.
    pub(crate) area: Area,
    /// When it is poured, rolled and flaked.
    pub(crate) timeline: Timeline,
    /// When the first of its film closes, if all of the work runs late.
    pub(crate) closes: Time,
}

/// The shares that are looked at, the whole first: what an eye can tell in a pail. Less than a tenth
/// is not worth a roller.
const SHARES: [f64; 5] = [1.0, 0.75, 0.5, 0.25, 0.1];

/// A last pour is found to this, in seconds, from the side that holds.
const HAIR: f64 = 0.5;

impl Job {
    /// Until when all of a pail, three quarters of it, and so on, can be poured; the largest share
    /// first, and only those that can be poured at all.
    pub(crate) fn last_pours(&self, volume: Volume, stand: &CuringPail) -> Vec<LastPour> {
        let product = &self.product;
        let ready = product.ready() + self.crew.carry;
        let pour_out = stand.pot_life() * self.crew.usable;
        let mut pours: Vec<LastPour> = Vec::new();
        for share in SHARES {
            let volume = volume * share;
            let area = self.bare.coverage.area_from(volume).min(self.bare.area);
            let full = Work::new(self, area, volume);
            // The way that has most to spare at first is kept to.
            let at = |way: &Work| self.spare_at(way, stand, ready);
            let ways = std::iter::once(full).chain(self.ways(&full)).map(|way| (at(&way), way));
            let first = (at(&full), full);
            let (_, way) = ways.fold(first, |a, b| if b.0 > a.0 { b } else { a });
            let spare = |s: f64| self.spare_at(&way, stand, Time::new::<unit::second>(s));
            // Of what could be poured whole, a part can.
            let known = pours.last().map(|larger| larger.by);
            let from = known.unwrap_or(ready);
            let by = largest_feasible(from.value, pour_out.value, HAIR, spare);
            let Some(by) = by.map(Time::new::<unit::second>).or(known) else { continue };
            pours.push(LastPour { volume, area, by });
        }
        pours
    }

    /// What a way has to spare if the pour begins at a moment, in seconds.
    fn spare_at(&self, way: &Work, stand: &CuringPail, begins: Time) -> f64 {
        let film = self.product.film_in(&self.conditions).on(self.conditions.slab);
        let pail = stand.pot_life() * self.crew.usable;
        let work = way.ready_at(begins);
        let open = work.patches().into_iter().map(|patch| {
            let left = film(stand.conversion_at(patch.leaves));
            (left - (patch.done - patch.leaves)).value
        });
        open.fold((pail - work.timeline().emptied).value, f64::min)
    }

    /// What a pail is laid on as planned: all of it, or what of it can be laid in time.
    pub(crate) fn planned(
        &self,
        volume: Volume,
        stand: &CuringPail,
        pours: &[LastPour],
    ) -> Option<Laid> {
        let planned = self.salvage(volume, stand, None).map(|late| Laid {
            area: late.area,
            timeline: late.timeline,
            closes: late.closes.closes,
        });
        planned.or_else(|| Some(self.laid(pours.first()?.volume, stand, None)))
    }

    /// So much of it laid, its pour beginning at a moment, or as soon as it is mixed and carried.
    pub(crate) fn laid(&self, volume: Volume, stand: &CuringPail, began: Option<Time>) -> Laid {
        let area = self.bare.coverage.area_from(volume).min(self.bare.area);
        let work = Work::new(self, area, volume);
        let trial = self.best_way(area, stand, &began.map_or(work, |began| work.ready_at(began)));
        Laid { area, timeline: trial.timeline, closes: trial.closes.closes }
    }

    /// By when what is used from the pail since a moment must be out of it: within the usable part
    /// of its pot life, and while what leaves it last can still be finished in so much time.
    pub(crate) fn last_patch(&self, stand: &CuringPail, began: Option<Time>, takes: Time) -> Time {
        let pour_out = stand.pot_life() * self.crew.usable;
        let film = self.product.film_in(&self.conditions);
        let spare = |leaves: f64| {
            let at = stand.conversion_at(Time::new::<unit::second>(leaves));
            (film.spare(at, self.conditions.slab) - takes).value
        };
        let began = began.unwrap_or_default().min(pour_out);
        let last = largest_feasible(began.value, pour_out.value, HAIR, spare);
        last.map_or(began, Time::new::<unit::second>)
    }
}
