//! The lot learns: how fast the material in hand really goes, against its data sheet.
//!
//! A cup tried on site, a pail that went off, a pail that was read while it stood: each is a time
//! with its mass and its temperatures, and says how many times as fast as its sheet the lot runs.
//! The product's rate is taken so many times. Shorter counts at once; longer only when three or
//! more agree within 15 %, and never past what the sheet may mean at the longest.

use serde::{Deserialize, Serialize};

use crate::calibrate::{PotLifePoint, Sample};
use crate::error::Error;
use crate::field::Field;
use crate::job::Job;
use crate::pail::Pail;
use crate::product::Product;
use crate::quantity::{
    Mass, TemperatureInterval, ThermodynamicTemperature, Time, Volume, above, celsius, minutes,
    unit,
};
use crate::record::{LearntRecord, ProductRecord};
use crate::solve::largest_feasible;
use crate::vessel::Vessel;

/// How something was learnt of a lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum LearntBy {
    /// A cup set aside on site, until it strings or gets hot.
    Cup,
    /// A pail that went off.
    WentOff,
    /// A pail whose temperature was read while it stood.
    Reading,
}

/// One thing seen of a lot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// Whether it was seen in a cup, a spoilt pail or a temperature reading.
    pub by: LearntBy,
    /// How long after A met B.
    pub time: Time,
    /// Mass of mixed material in the cup or pail that was watched.
    pub mass: Mass,
    /// How warm the material was once it was mixed.
    pub mixed: ThermodynamicTemperature,
    /// How warm the air around it was.
    pub air: ThermodynamicTemperature,
    /// How warm it was read then; of a reading only.
    pub read: Option<ThermodynamicTemperature>,
}

/// What is known of a lot.
#[derive(Clone, Debug, PartialEq)]
pub struct Lot {
    /// How many times as fast as its sheet it is taken to run.
    pub times: f64,
    /// What each thing seen of it says.
    pub seen: Vec<f64>,
}

/// The cup set aside on site: four US fluid ounces, about what a coffee cup holds half full.
pub fn site_cup() -> Volume {
    Volume::new::<unit::milliliter>(4.0 * 29.573_529_562_5)
}

/// A pail that is less than this much warmer than when it was mixed says nothing of its rate yet:
/// an infrared thermometer is off by as much.
fn tells() -> TemperatureInterval {
    TemperatureInterval::new::<unit::kelvin_change>(3.0)
}

/// So many must agree, and within this share, before a lot is taken to be slower than its sheet.
const AGREE: (usize, f64) = (3, 0.15);
/// A rate further off than this is a slip, in log: some seven times as fast or slow.
const FURTHEST: f64 = 2.0;

impl Default for Lot {
    /// Nothing seen: as its sheet.
    fn default() -> Self {
        Self { times: 1.0, seen: Vec::new() }
    }
}

impl Lot {
    /// The lot by what its things seen say, `slowest` being the least that its sheet allows.
    fn of(seen: Vec<f64>, slowest: f64) -> Self {
        let quickest = seen.iter().copied().reduce(f64::max);
        let least = seen.iter().copied().reduce(f64::min);
        let times = match (quickest, least) {
            (Some(quickest), _) if quickest >= 1.0 => quickest,
            (Some(quickest), Some(least))
                if seen.len() >= AGREE.0 && quickest <= least * (1.0 + AGREE.1) =>
            {
                quickest.max(slowest.min(1.0))
            }
            _ => 1.0,
        };
        Self { times, seen }
    }

    /// How far apart the things seen are: the most over the least, less 1.
    pub fn spread(&self) -> f64 {
        let most = self.seen.iter().copied().fold(f64::MIN, f64::max);
        let least = self.seen.iter().copied().fold(f64::MAX, f64::min);
        if self.seen.is_empty() { 0.0 } else { most / least - 1.0 }
    }
}

impl TryFrom<&LearntRecord> for Seen {
    type Error = Error;

    /// Checks each figure.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::NotANumber`], naming the one that is off;
    /// [`Error::Missing`] for a reading without its temperature.
    fn try_from(record: &LearntRecord) -> Result<Self, Error> {
        let read = record.read_c.map(|read| Field::PailReading.check(celsius(read))).transpose()?;
        if record.by == LearntBy::Reading && read.is_none() {
            return Err(Error::Missing { field: Field::PailReading });
        }
        Ok(Self {
            by: record.by,
            time: Field::LearntTime.check(minutes(record.time_min))?,
            mass: Field::PotLifeMass.check(Mass::new::<unit::kilogram>(record.mass_kg))?,
            mixed: Field::Mixed.check(celsius(record.mixed_c))?,
            air: Field::Air.check(celsius(record.air_c))?,
            read,
        })
    }
}

impl Product {
    /// How many times as fast as this product is taken to be something was that was seen of it;
    /// `None` where it says nothing yet, as of a pail that is hardly warm.
    ///
    /// ```
    /// use pailwise_calc::{demo, lot::{LearntBy, Seen}};
    /// use pailwise_calc::quantity::{celsius, Mass, unit};
    /// use pailwise_calc::vessel::{Generic, Vessel};
    /// let base = demo::base().unwrap();
    /// let (kg, at) = (Mass::new::<unit::kilogram>(4.0), celsius(25.0));
    /// let pail = base.pail(kg, &Generic::FiveGallon.vessel(), at, at).unwrap();
    /// let seen = |share: f64| Seen {
    ///     by: LearntBy::WentOff, time: pail.pot_life().unwrap() * share, mass: kg,
    ///     mixed: at, air: at, read: None,
    /// };
    /// let times = |share| base.pace_by(&seen(share)).unwrap().unwrap();
    /// assert!((times(1.0) - 1.0).abs() < 0.03);
    /// // Gone in half the time, a pail that keeps its heat runs twice as fast.
    /// assert!((times(0.5) / times(1.0) - 2.0).abs() < 0.05);
    /// ```
    ///
    /// # Errors
    /// As [`Pail::pot_life`].
    pub fn pace_by(&self, seen: &Seen) -> Result<Option<f64>, Error> {
        Ok(pace_of(&self.seen_pail(seen)?, seen))
    }

    /// The pail or the cup that was seen.
    fn seen_pail(&self, seen: &Seen) -> Result<Pail, Error> {
        let kinetics = self.calibration().kinetics;
        let thermal = self.thermal();
        if seen.by == LearntBy::Cup {
            let cup = PotLifePoint {
                time: seen.time,
                temperature: seen.air,
                mass: seen.mass,
                sample: Some(Sample::Cup),
            };
            let loss = self.calibration().loss.value();
            let mut stands = cup.stands(&kinetics, &thermal, Some(loss))?;
            stands.material = seen.mixed;
            return Ok(stands);
        }
        let vessel = Vessel::compact(seen.mass / thermal.density);
        Pail::new(kinetics, &thermal, seen.mass, &vessel, seen.mixed, seen.air)
    }

    /// The slowest that its sheet may mean, against how fast it is taken to be: where the sheet
    /// gives only a cup whose heat nobody knows.
    pub fn slowest_pace(&self) -> f64 {
        let planned = self.calibration().kinetics.rate;
        let Ok(longest) = self.at_longest() else { return 1.0 };
        let known = self.calibration().temperatures.iter();
        known.map(|t| (longest.rate.at(*t) / planned.at(*t)).value).fold(0.0, f64::max).min(1.0)
    }

    /// What is known of the lot in hand by what the crew saw of it.
    pub(crate) fn lot_of(&self, record: &ProductRecord) -> Result<Lot, Error> {
        let mut seen = Vec::new();
        for learnt in record.learnt.iter().filter(|learnt| learnt.lot == record.lot) {
            seen.extend(self.pace_by(&Seen::try_from(learnt)?)?);
        }
        let slowest = if seen.iter().all(|times| *times < 1.0) { self.slowest_pace() } else { 1.0 };
        Ok(Lot::of(seen, slowest))
    }
}

impl Job {
    /// How many times as fast as planned a batch of this job runs, by a reading of its pail so long
    /// after A met B; 1 where that says nothing yet. Never slower than its sheet may mean.
    ///
    /// ```
    /// use pailwise_calc::{demo, job::Job, quantity::{celsius, minutes}};
    /// let job = Job::try_from(&demo::job()).unwrap();
    /// let volume = job.next_batch().unwrap().measured.volume;
    /// // 25 °C once mixed: at 40 °C after ten minutes it is far ahead.
    /// let hot = job.pace_by_reading(volume, minutes(10.0), celsius(40.0)).unwrap();
    /// assert!(hot > 1.2);
    /// let cool = job.pace_by_reading(volume, minutes(10.0), celsius(25.5)).unwrap();
    /// assert_eq!(cool, 1.0);
    /// ```
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a reading that no pail has; else as [`Product::pail`].
    pub fn pace_by_reading(
        &self,
        volume: Volume,
        since: Time,
        read: ThermodynamicTemperature,
    ) -> Result<f64, Error> {
        let (mixed, air) = (self.conditions.mixed(), self.conditions.air);
        let seen = Seen {
            by: LearntBy::Reading,
            time: Field::LearntTime.check(since)?,
            mass: volume * self.product.ratio().density(),
            mixed,
            air,
            read: Some(Field::PailReading.check(read)?),
        };
        let pail = self.product.pail(seen.mass, &self.gear.vessel, mixed, air)?;
        Ok(pace_of(&pail, &seen).map_or(1.0, |pace| pace.max(self.product.slowest_pace())))
    }
}

/// How many times as fast as a pail is taken to be something was that was seen of it.
fn pace_of(pail: &Pail, seen: &Seen) -> Option<f64> {
    if seen.read.is_some_and(|read| above(read, seen.mixed) < tells()) {
        return None;
    }
    // Below zero once it runs faster than what was seen.
    let slower = |log: f64| -> Result<f64, Error> {
        let mut pail = *pail;
        pail.kinetics.rate = pail.kinetics.rate.times(log.exp());
        match seen.read {
            Some(read) => Ok(above(read, pail.stand()?.temperature_at(seen.time)).value),
            None => Ok((pail.pot_life()? / seen.time).value.ln()),
        }
    };
    let margin = |log: f64| slower(log).unwrap_or(f64::NAN);
    let found = largest_feasible(-FURTHEST, FURTHEST, 1e-6, margin);
    Some(found.unwrap_or(-FURTHEST).exp())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    fn learnt(by: LearntBy, time_min: f64, mass_kg: f64, read_c: Option<f64>) -> LearntRecord {
        LearntRecord {
            lot: "77".to_owned(),
            at: "2026-11-27T10:00:00Z".to_owned(),
            by,
            time_min,
            mass_kg,
            mixed_c: 25.0,
            air_c: 25.0,
            read_c,
        }
    }

    fn product(learnt: Vec<LearntRecord>) -> Product {
        let lot = "77".to_owned();
        Product::try_from(&ProductRecord { lot, learnt, ..demo::record_base() }).unwrap()
    }

    fn life(product: &Product) -> Time {
        let kg = Mass::new::<unit::kilogram>(4.0);
        let vessel = Vessel::compact(kg / product.thermal().density);
        product.pail(kg, &vessel, celsius(25.0), celsius(25.0)).unwrap().pot_life().unwrap()
    }

    #[test]
    fn what_runs_faster_counts_at_once_and_is_met() {
        let sheet = life(&product(Vec::new()));
        let seen = sheet * 0.7;
        let lot = product(vec![learnt(LearntBy::WentOff, seen.get::<unit::minute>(), 4.0, None)]);
        assert!((lot.lot().times - 1.0 / 0.7).abs() < 0.03, "{:?}", lot.lot());
        assert!(((life(&lot) / seen).value - 1.0).abs() < 1e-3);
        let film = |product: &Product| product.film().left(0.0, celsius(25.0));
        assert!(film(&lot) < film(&product(Vec::new())), "the film of a fast lot closes sooner");
    }

    #[test]
    fn what_runs_slower_counts_when_three_agree_and_never_past_the_sheet() {
        let sheet = life(&product(Vec::new()));
        let slow =
            |share: f64| learnt(LearntBy::WentOff, sheet.get::<unit::minute>() * share, 4.0, None);
        assert_eq!(product(vec![slow(1.5), slow(1.5)]).lot().times, 1.0);
        assert_eq!(product(vec![slow(1.2), slow(1.5), slow(2.0)]).lot().times, 1.0);
        let agreed = product(vec![slow(1.5), slow(1.55), slow(1.6)]);
        let slowest = product(Vec::new()).slowest_pace();
        assert!(agreed.lot().times < 1.0 && agreed.lot().times >= slowest, "{:?}", agreed.lot());
        // One that ran faster outweighs them.
        let one_fast = product(vec![slow(1.5), slow(1.55), slow(1.6), slow(0.9)]);
        assert!(one_fast.lot().times > 1.05);
    }

    #[test]
    fn a_reading_tells_the_pace_it_was_made_at() {
        let base = product(Vec::new());
        let kg = Mass::new::<unit::kilogram>(4.0);
        let vessel = Vessel::compact(kg / base.thermal().density);
        let mut fast = base.pail(kg, &vessel, celsius(25.0), celsius(25.0)).unwrap();
        fast.kinetics.rate = fast.kinetics.rate.times(1.3);
        let at = minutes(12.0);
        let read = fast.stand().unwrap().temperature_at(at);
        let read_c = Some(read.get::<unit::degree_celsius>());
        let lot = product(vec![learnt(LearntBy::Reading, 12.0, 4.0, read_c)]);
        assert!((lot.lot().times - 1.3).abs() < 1e-3, "{:?} at {read_c:?}", lot.lot());
        // Hardly warm says nothing.
        assert!(
            product(vec![learnt(LearntBy::Reading, 12.0, 4.0, Some(26.0))]).lot().seen.is_empty()
        );
    }

    #[test]
    fn another_lot_starts_from_its_sheet() {
        let record = ProductRecord {
            lot: "78".to_owned(),
            learnt: vec![learnt(LearntBy::Cup, 5.0, 0.15, None)],
            ..demo::record_base()
        };
        assert_eq!(Product::try_from(&record).unwrap().lot().times, 1.0);
        let record = ProductRecord { lot: "77".to_owned(), ..record };
        assert!(Product::try_from(&record).unwrap().lot().times > 2.0);
    }
}
