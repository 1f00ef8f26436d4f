//! What comes after each coat of a floor, and how the next one meets it.

use pailwise_calc::after::{Ahead, Meets};
use pailwise_calc::quantity::{Time, minutes};
use pailwise_calc::record::Role;
use pailwise_kept::answers::floor::Good;

/// A coat with what comes after it. All times from when it begins.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct CoatAhead {
    /// Place of the coat among those of the floor, counted from 0.
    pub(super) coat: usize,
    /// When it begins, from midnight of the first day.
    pub(super) begins: Time,
    /// When the last of it is down.
    pub(super) down: Time,
    /// Recoat window, light use, vehicles and full cure, from when the coat begins.
    pub(super) ahead: Ahead,
    /// Its course says how cold the nights are.
    pub(super) knows_a_night: bool,
    /// When the next coat begins and is down, and how that meets the recoat window.
    pub(super) next: Option<Next>,
}

/// The next coat as it is planned, from when the coat before begins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Next {
    pub(super) begins: Time,
    pub(super) ends: Time,
    /// Nothing where the sheet of the coat before gives no window.
    pub(super) meets: Option<Meets>,
}

impl Next {
    /// Whether it misses the window at either end.
    pub(super) fn misses(self) -> bool {
        self.meets.is_some_and(|meets| meets != Meets::InTime)
    }
}

/// How long a coat takes from its beginning, where its plan goes through.
pub(super) fn takes(good: &Good, coat: usize) -> Option<Time> {
    let (plan, coat) = (good.plans.get(coat)?, good.floor.coats.get(coat)?);
    if plan.stopped.is_some() {
        return None;
    }
    Some(plan.finished().unwrap_or(coat.resumes))
}

/// How long a coat takes at least: all of it, or as far as its plan goes.
pub(super) fn takes_at_least(good: &Good, coat: usize) -> Time {
    let stops = || Some(good.plans.get(coat)?.stopped.as_ref()?.at);
    takes(good, coat).or_else(stops).unwrap_or_default()
}

/// When a coat is down, from midnight of the first day, where its plan goes through.
pub(super) fn down_at(good: &Good, coat: usize) -> Option<Time> {
    Some(good.floor.coats.get(coat)?.begins + takes(good, coat)?)
}

/// Every coat whose plan goes through, in order. `between` is the real time from one time on the
/// wall to another, both from midnight of the first day.
pub(super) fn ahead(good: &Good, between: impl Fn(Time, Time) -> Time) -> Vec<CoatAhead> {
    let one = |(i, coat): (usize, &pailwise_calc::floor::Coat)| {
        let down = takes(good, i)?;
        // The first patch of a coat is down soon after it begins; counting from its beginning is
        // the safe side.
        let damp = coat.product.film().damp();
        let ahead = coat.product.after().ahead(&coat.course, (minutes(0.0), down), damp);
        let next = good.floor.coats.get(i + 1).map(|next| {
            let begins = between(coat.begins, next.begins);
            let ends = begins + takes_at_least(good, i + 1);
            Next { begins, ends, meets: ahead.recoat.map(|window| window.meets(begins, ends)) }
        });
        // No time of the sheet's counts from a filler.
        let filler = coat.product.role() == Role::Filler;
        let knows_a_night = filler || coat.course.knows_a_night();
        Some(CoatAhead { coat: i, begins: coat.begins, down, ahead, knows_a_night, next })
    };
    good.floor.coats.iter().enumerate().filter_map(one).collect()
}

/// So long after a coat begins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Moment {
    /// The place of its coat among those with something ahead.
    pub(super) of: usize,
    /// When that coat begins, from midnight of the first day.
    pub(super) begins: Time,
    /// So long after that.
    pub(super) since: Time,
}

impl Moment {
    fn at(self) -> Time {
        self.begins + self.since
    }
}

/// When the whole floor may be used: light use, vehicles, full cure; each only where the sheet of
/// the last coat says it, and no earlier than that of any other.
pub(super) fn in_use(all: &[CoatAhead]) -> [Option<Moment>; 3] {
    let times = |(of, one): (usize, &CoatAhead)| {
        let Ahead { light_use, vehicles, full_cure, .. } = &one.ahead;
        let moment = |since: Time| Moment { of, begins: one.begins, since };
        [*light_use, *vehicles, *full_cure].map(|time| time.map(moment))
    };
    let last = |a: &(usize, &CoatAhead), b: &(usize, &CoatAhead)| {
        (a.1.begins + a.1.down).value.total_cmp(&(b.1.begins + b.1.down).value)
    };
    let Some(last) = all.iter().enumerate().max_by(last).map(times) else { return [None; 3] };
    let later = |a: Moment, b: Moment| if b.at() > a.at() { b } else { a };
    let latest = |i: usize, of_last: Moment| {
        all.iter().enumerate().filter_map(|one| times(one)[i]).fold(of_last, later)
    };
    [0, 1, 2].map(|i| last[i].map(|time| latest(i, time)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::demo;
    use pailwise_calc::quantity::unit;
    use pailwise_kept::answers::floor::{Checked, Found, ask, plan};
    use pailwise_kept::records::floor::FloorFormRecord;
    use pailwise_kept::records::mix::MixRecord;
    use pailwise_kept::units::Units;

    /// No clock is changed.
    fn wall(from: Time, to: Time) -> Time {
        to - from
    }

    fn good(change: impl Fn(&mut FloorFormRecord)) -> Good {
        let shelf = demo::records();
        let mut form = FloorFormRecord::first(&shelf, Units::Us);
        change(&mut form);
        let mix = MixRecord::first(&shelf[0].id, Units::Us);
        let asked = ask(&form, &mix, &shelf, (Units::Us, &[]));
        match plan(&asked, &mut Checked::default()) {
            Found::Plans(good) => *good,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn the_next_day_s_topcoat_meets_the_window_of_the_base() {
        let meets = |starts: &str, day: u32| {
            let good = good(|form| {
                form.coats[1].starts = starts.to_owned();
                form.coats[1].day = day;
            });
            ahead(&good, wall)[0].next.unwrap().meets.unwrap()
        };
        // 74 °F slab: opens some 13 h after the base is down, closes 36 h after it is begun at 8.
        assert_eq!(meets("08:00", 1), Meets::InTime);
        assert_eq!(meets("18:00", 0), Meets::TooEarly);
        assert_eq!(meets("20:30", 1), Meets::TooLate);
        assert_eq!(meets("19:45", 1), Meets::EndsTooLate);
    }

    #[test]
    fn a_floor_is_used_when_every_coat_lets_it() {
        let good = good(|_| {});
        let all = ahead(&good, wall);
        let [light, vehicles, cure] = in_use(&all);
        let top = all[1].begins + all[1].down;
        let at = |moment: Option<Moment>| moment.unwrap().at();
        assert!(at(light) > top + Time::new::<unit::hour>(24.0));
        assert!(at(vehicles) > top + Time::new::<unit::hour>(72.0));
        assert!(cure.is_some());
        // Where the last coat's sheet says nothing, the one below does not answer for it.
        let mut silent = all;
        silent[1].ahead.light_use = None;
        assert_eq!(in_use(&silent)[0], None);
    }
}
