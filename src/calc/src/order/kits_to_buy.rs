//! Which kits to buy: the cheapest that are enough, of any sizes.

use std::cmp::Ordering;

use crate::quantity::Volume;
use crate::sorted::sorted_by;

/// A kit as it is sold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sold {
    /// Volume of all parts of one kit, without what is stirred in.
    pub each: Volume,
    /// Price of one kit, in the product's currency, where it is known.
    pub price: Option<f64>,
}

/// Kits that are enough.
#[derive(Clone, Debug, PartialEq)]
pub struct Pick {
    /// How many of each size, in the order they were given in.
    pub counts: Vec<u32>,
    /// Volume of all parts in the chosen kits added up.
    pub parts: Volume,
    /// What they cost, where all of them are priced.
    pub cost: Option<f64>,
}

/// Of so many sizes the best mixture is found; of more, those that go furthest and the smallest.
pub const SIZES: usize = 8;

/// Amounts closer than this share of what is needed are the same.
const HAIR: f64 = 1e-9;

/// Of more mixtures than this one is kept of those that hold nearly the same. Sizes as they are sold
/// have far fewer different sums.
const MOST: usize = 300_000;

/// The kits that hold at least so much: the cheapest where all are priced, else those that leave
/// the least; then those that leave the least, then the fewest.
///
/// A dynamic programme over what mixtures hold, a size after the other, the one that goes furthest
/// for its money last: it fills up what the others leave. A mixture is dropped when another holds
/// as much or more for less, or when the rest at the best price there is would make it dearer than
/// the best mixture so far; neither can drop the best one.
///
/// ```
/// use pailwise_calc::order::{enough, Sold};
/// use pailwise_calc::quantity::{unit, Volume};
/// let gal = Volume::new::<unit::gallon>;
/// let sold = |size, price| Sold { each: gal(size), price };
/// // Three small ones leave one gallon, a large one two.
/// let pick = enough(&[sold(3.0, None), sold(10.0, None)], gal(8.0)).unwrap();
/// assert_eq!(pick.counts, [3, 0]);
/// // With prices the large one is cheaper.
/// let priced = [sold(3.0, Some(180.0)), sold(10.0, Some(450.0))];
/// assert_eq!(enough(&priced, gal(8.0)).unwrap().counts, [0, 1]);
/// ```
pub fn enough(sold: &[Sold], parts: Volume) -> Option<Pick> {
    let priced = sold.iter().all(|kit| kit.price.is_some());
    let price = |kit: &Sold| if priced { kit.price } else { None };
    let kits = sold.iter().enumerate().filter(|(_, kit)| kit.each > Volume::default());
    let kits = kits.map(|(at, kit)| Size {
        at,
        holds: kit.each.value,
        costs: price(kit).unwrap_or(kit.each.value).max(0.0),
    });
    // What goes furthest last.
    let mut sizes = sorted_by(kits.collect(), |size| -size.rate());
    if sizes.len() > SIZES {
        let smallest = sizes.iter().copied().min_by(|a, b| a.holds.total_cmp(&b.holds));
        sizes.drain(..=sizes.len() - SIZES);
        sizes.splice(0..0, smallest);
        sizes.dedup_by_key(|size| size.at);
    }
    let mut search = Search { need: parts.value, filler: *sizes.last()?, best: None };
    let mut mixtures = vec![Mixture::default()];
    search.offer(&mixtures, sizes.len() - 1);
    for (place, size) in sizes.iter().enumerate().take(sizes.len() - 1) {
        mixtures = search.with_any(&mixtures, size, place);
        search.offer(&mixtures, sizes.len() - 1);
        search.thin(&mut mixtures);
    }
    let mut counts = vec![0; sold.len()];
    let best = search.best?;
    for (size, count) in sizes.iter().zip(best.counts) {
        if let Some(place) = counts.get_mut(size.at) {
            *place = count;
        }
    }
    let each = || sold.iter().zip(&counts).map(|(kit, n)| (kit, f64::from(*n)));
    let cost = each().map(|(kit, n)| kit.price.unwrap_or(0.0) * n).sum();
    let parts = each().map(|(kit, n)| kit.each * n).sum();
    Some(Pick { cost: priced.then_some(cost), parts, counts })
}

/// A size among those that are looked at.
#[derive(Clone, Copy)]
struct Size {
    /// Its place among those given.
    at: usize,
    holds: f64,
    /// Its price; without prices what it holds, so that the least that is left is the cheapest.
    costs: f64,
}

impl Size {
    /// What so much of it costs.
    fn rate(&self) -> f64 {
        self.costs / self.holds
    }
}

/// So many of each size.
#[derive(Clone, Copy, Default)]
struct Mixture {
    holds: f64,
    costs: f64,
    kits: u32,
    counts: [u32; SIZES],
}

impl Mixture {
    /// With so many more of a size.
    fn plus(&self, size: &Size, place: usize, count: u32) -> Self {
        let mut more = *self;
        more.holds += size.holds * f64::from(count);
        more.costs += size.costs * f64::from(count);
        more.kits += count;
        if let Some(there) = more.counts.get_mut(place) {
            *there += count;
        }
        more
    }
}

/// Which of two numbers is smaller; within a hair they are the same.
fn apart(a: f64, b: f64) -> Ordering {
    if (a - b).abs() <= HAIR * a.abs().max(b.abs()) { Ordering::Equal } else { a.total_cmp(&b) }
}

struct Search {
    need: f64,
    /// The size that goes furthest.
    filler: Size,
    best: Option<Mixture>,
}

impl Search {
    fn is_enough(&self, mixture: &Mixture) -> bool {
        mixture.holds >= self.need * (1.0 - HAIR)
    }

    /// All mixtures with none, one and more of a size, by what they hold, as long as they are not
    /// enough; those that are, once.
    fn with_any(&self, old: &[Mixture], size: &Size, place: usize) -> Vec<Mixture> {
        let mut grain = HAIR;
        loop {
            if let Some(all) = self.with(old, (size, place), grain) {
                return all;
            }
            grain *= 10.0;
        }
    }

    /// The same, of those closer together than a share of what is needed the cheapest; `None` where
    /// that are too many.
    fn with(
        &self,
        old: &[Mixture],
        (size, place): (&Size, usize),
        grain: f64,
    ) -> Option<Vec<Mixture>> {
        let mut all: Vec<Mixture> = Vec::with_capacity(2 * old.len());
        let (mut next_old, mut next_more) = (old.iter().peekable(), 0);
        loop {
            // The shortest that one more can be added to.
            let more = all.get(next_more).filter(|mixture| !self.is_enough(mixture));
            let more = more.map(|mixture| mixture.plus(size, place, 1));
            let mixture = match (next_old.peek(), more) {
                (Some(old), Some(more)) if more.holds < old.holds => {
                    next_more += 1;
                    more
                }
                (Some(_), _) => match next_old.next() {
                    Some(old) => *old,
                    None => break,
                },
                (None, Some(more)) => {
                    next_more += 1;
                    more
                }
                (None, None) => break,
            };
            match all.last_mut() {
                Some(last) if (mixture.holds - last.holds).abs() <= grain * self.need => {
                    let cheaper = apart(mixture.costs, last.costs);
                    if cheaper.then(mixture.kits.cmp(&last.kits)).is_lt() {
                        *last = mixture;
                    }
                }
                _ => all.push(mixture),
            }
            if all.len() > MOST {
                return None;
            }
        }
        Some(all)
    }

    /// Fills every mixture up and keeps the best.
    fn offer(&mut self, mixtures: &[Mixture], place: usize) {
        for mixture in mixtures {
            let rest = (self.need - mixture.holds) / self.filler.holds;
            let count = (rest - HAIR * self.need / self.filler.holds).ceil().clamp(0.0, 1e6) as u32;
            let full = mixture.plus(&self.filler, place, count);
            let better = self.best.is_none_or(|best| {
                let order = apart(full.costs, best.costs).then(apart(full.holds, best.holds));
                order.then(full.kits.cmp(&best.kits)).is_lt()
            });
            if better {
                self.best = Some(full);
            }
        }
    }

    /// Drops what can no longer become the best.
    fn thin(&self, mixtures: &mut Vec<Mixture>) {
        let most = self.best.map_or(f64::INFINITY, |best| best.costs) * (1.0 + HAIR);
        let mut cheapest = f64::INFINITY;
        let mut kept: Vec<Mixture> = Vec::with_capacity(mixtures.len());
        for mixture in mixtures.iter().rev() {
            let at_least = mixture.costs + (self.need - mixture.holds) * self.filler.rate();
            let dearer = apart(mixture.costs, cheapest).is_gt();
            if !self.is_enough(mixture) && at_least <= most && !dearer {
                cheapest = cheapest.min(mixture.costs);
                kept.push(*mixture);
            }
        }
        kept.reverse();
        *mixtures = kept;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit;

    fn gal(x: f64) -> Volume {
        Volume::new::<unit::gallon>(x)
    }

    #[test]
    fn a_kit_that_is_just_enough_is_one_kit() {
        let three = [Sold { each: gal(3.0), price: None }];
        assert_eq!(enough(&three, gal(3.0)).unwrap().counts, [1]);
        assert_eq!(enough(&three, gal(6.0)).unwrap().counts, [2]);
        assert_eq!(enough(&three, gal(6.001)).unwrap().counts, [3]);
        assert_eq!(enough(&three, gal(0.0)).unwrap().counts, [0]);
        assert_eq!(enough(&[], gal(1.0)), None);
    }

    #[test]
    fn of_four_sizes_the_small_one_may_be_the_cheapest_many_times_over() {
        let liter = Volume::new::<unit::liter>;
        let sold = [(2.0, 96.07), (7.57, 343.78), (15.0, 628.81), (20.0, 791.40)];
        let sold = sold.map(|(l, price)| Sold { each: liter(l), price: Some(price) });
        assert_eq!(enough(&sold, liter(9.72)).unwrap().counts, [5, 0, 0, 0]);
    }

    /// Sums of eight sizes that share no step: more than are kept, and still enough.
    #[test]
    fn where_there_are_too_many_mixtures_the_answer_is_still_enough() {
        let liter = Volume::new::<unit::liter>;
        let sizes =
            [0.513_127, 0.617_391, 0.731_713, 0.829_177, 0.947_221, 1.069_439, 1.187_3, 1.301_9];
        let sold = sizes.map(|l| Sold { each: liter(l), price: None });
        let pick = enough(&sold, liter(25.123_456)).unwrap();
        let over = (pick.parts / liter(25.123_456)).value - 1.0;
        assert!((-1e-9..1e-5).contains(&over), "{over}");
    }
}
