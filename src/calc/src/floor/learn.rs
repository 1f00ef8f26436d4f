//! What the batches that are down tell about those to come.

use super::{Coat, Done, Floor};
use crate::quantity::{Area, Length, Pace, Time, Volume};

/// What was learnt from where batches really ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Learnt {
    /// How far the material really went, over how far it should: below 1 it is laid thicker.
    pub yield_ratio: f64,
    /// How fast it really was rolled, over how fast it should; `None` where nobody looked.
    pub pace: Option<f64>,
    /// How fast that is.
    pub expected: Pace,
    /// Of how many batches that was seen.
    pub seen: u32,
    /// The area that is down.
    pub laid: Area,
    /// The area that what was mixed should have covered.
    pub meant_area: Area,
    /// What was rolled while somebody looked, and the time it took.
    pub timed: (Area, Time),
    /// How much has been mixed.
    pub mixed: Volume,
}

/// A crew may be quicker than it thought, but no batch is planned on more than this of it.
const MOST_PACE: f64 = 1.25;

/// So many batches that were quicker than thought must have been seen for all of that to count; a
/// slower one counts at once.
const AGREEING: f64 = 3.0;

impl Learnt {
    /// Whether it went between a third and twice as far as it should; else a figure is likely wrong.
    pub fn believable(&self) -> bool {
        (1.0 / 3.0..=2.0).contains(&self.yield_ratio)
    }

    /// What is planned with: material never thinner than it should be, a pace within reason.
    ///
    /// A batch that went further than it should left a thin film; that is said, not repeated.
    pub fn planned(&self) -> (f64, f64) {
        let went = if self.believable() { self.yield_ratio.min(1.0) } else { 1.0 };
        let seen = f64::from(self.seen).min(AGREEING) / AGREEING;
        let pace = self.pace.map_or(1.0, |pace| pace.min(1.0 + (pace - 1.0) * seen));
        (went, pace.clamp(0.2, MOST_PACE))
    }
}

impl Floor {
    /// What each batch covered that is down, in order.
    ///
    /// ```
    /// use pailwise_calc::record::DoneRecord;
    /// use pailwise_calc::{demo, floor::Floor};
    /// let mut record = demo::floor(); // 6.1 m wide
    /// record.coats[0].done =
    ///     vec![DoneRecord { ended_at_m: 2.0, mixed_l: 6.0, bay: 0, rolled_in_min: None, begun_min: None, film_closed: false }];
    /// let floor = Floor::try_from(&record).unwrap();
    /// let covered = floor.covered(&floor.coats[0]);
    /// assert!((covered[0].value - 12.2).abs() < 1e-9);
    /// ```
    pub fn covered(&self, coat: &Coat) -> Vec<Area> {
        let mut reached: Vec<Length> =
            (0..coat.bays.len()).map(|bay| self.begin(coat, bay)).collect();
        let one = |done: &Done| {
            let Some(from) = reached.get_mut(done.bay) else { return Area::default() };
            let to = done.ended_at.max(*from);
            let area = self.between(coat, done.bay, (*from, to));
            *from = to;
            area
        };
        coat.done.iter().map(one).collect()
    }

    /// What was learnt on a coat; `None` before the first batch is down.
    pub(super) fn learnt(&self, coat: &Coat) -> Option<Learnt> {
        if coat.done.is_empty() {
            return None;
        }
        let (mut laid, mut meant) = (Area::default(), Area::default());
        let (mut rolled, mut time, mut count) = (Area::default(), Time::default(), 0);
        // What rolling should have taken.
        let mut should = Time::default();
        for (done, area) in coat.done.iter().zip(self.covered(coat)) {
            laid += area;
            meant += coat.coverage.area_from(done.mixed);
            if let Some(took) = done.rolled_in {
                rolled += area;
                time += took;
                should += area / self.hands(coat, done.bay).all_rolling();
                count += 1;
            }
        }
        let seen = time > Time::default() && rolled > Area::default();
        Some(Learnt {
            yield_ratio: if meant > Area::default() { (laid / meant).value } else { 1.0 },
            pace: seen.then(|| (should / time).value),
            expected: if seen { rolled / should } else { self.hands(coat, 0).all_rolling() },
            seen: count,
            laid,
            meant_area: meant,
            timed: (rolled, time),
            mixed: coat.done.iter().map(|done| done.mixed).sum(),
        })
    }
}
