//! The times of a data sheet at other temperatures, steady ones and those of a slab through the
//! nights.

use crate::calibrate::DISTINCT;
use crate::cure::{GAS_CONSTANT, arrhenius};
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{MolarEnergy, ThermodynamicTemperature, Time, celsius, unit};
use crate::record::AfterRecord;
use crate::sorted::sorted_by;
use crate::working::{Sentence, Source, Step};

/// A time at a temperature, as the data sheet prints it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetTime {
    /// How long after the coat is down.
    pub time: Time,
    /// At what temperature of the floor.
    pub temperature: ThermodynamicTemperature,
}

/// The times of one thing, coldest first; at least one.
///
/// What a sheet prints is kept as it stands. Where it says that something takes longer on a warmer
/// floor, what must wait goes by the longer time, and what ends by the shorter, at both.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetTimes(Vec<SheetTime>);

/// The least activation energy that a wait is lengthened by on a floor colder than its sheet says,
/// kJ/mol, and the end of a window shortened by on a warmer one.
///
/// Published cure charts of epoxies have 47 to 49 for dry and recoat, and 83 for hardness, which
/// steepens in the cold; below about 10 °C amine epoxies stall.
const LEAST_ENERGY: f64 = 60.0;

/// More than this no film is known to have, kJ/mol; a sheet's two times that say more are taken to
/// say this beyond them.
const MOST_ENERGY: f64 = 120.0;

impl SheetTimes {
    /// Times from a record; `None` where the sheet gives none.
    ///
    /// Range: each within [`Field::AfterTime`] and [`Field::AfterTemperature`].
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for one that is not.
    pub fn new(records: &[AfterRecord]) -> Result<Option<Self>, Error> {
        let mut times = Vec::new();
        for record in records {
            let time = Field::AfterTime.check(Time::new::<unit::hour>(record.time_h))?;
            let temperature = Field::AfterTemperature.check(celsius(record.temperature_c))?;
            times.push(SheetTime { time, temperature });
        }
        let times = sorted_by(times, |time| time.temperature.value);
        Ok((!times.is_empty()).then_some(Self(times)))
    }

    /// The sheet's own times, coldest first.
    pub fn times(&self) -> &[SheetTime] {
        &self.0
    }

    /// Two of them of which the warmer is the longer, or two at one temperature that differ.
    pub fn longer_where_warmer(&self) -> Option<(SheetTime, SheetTime)> {
        let pairs = self.0.iter().zip(self.0.iter().skip(1));
        let odd = |(colder, warmer): &(&SheetTime, &SheetTime)| {
            let one_temperature = colder.temperature == warmer.temperature;
            colder.time < warmer.time || (one_temperature && colder.time != warmer.time)
        };
        pairs.into_iter().find(odd).map(|(colder, warmer)| (*colder, *warmer))
    }

    /// The longest at a temperature of the sheet or warmer: what must wait is not ready before.
    fn waits_from(&self, known: ThermodynamicTemperature) -> Time {
        let no_colder = self.0.iter().filter(|point| point.temperature >= known);
        no_colder.map(|point| point.time).fold(Time::default(), Time::max)
    }

    /// The shortest at a temperature of the sheet or colder: what ends does not last longer.
    fn ends_up_to(&self, known: ThermodynamicTemperature) -> Time {
        let no_warmer = self.0.iter().filter(|point| point.temperature <= known);
        no_warmer.map(|point| point.time).reduce(Time::min).unwrap_or_default()
    }

    /// The energy of the pair of times at one end of the sheet, and no less than
    /// [`LEAST_ENERGY`].
    fn energy(colder: Option<&SheetTime>, warmer: Option<&SheetTime>) -> MolarEnergy {
        let least = MolarEnergy::new::<unit::kilojoule_per_mole>(LEAST_ENERGY);
        let (Some(colder), Some(warmer)) = (colder, warmer) else { return least };
        if warmer.temperature.value < colder.temperature.value + DISTINCT {
            return least;
        }
        let run = 1.0 / colder.temperature.value - 1.0 / warmer.temperature.value;
        let slope = (colder.time / warmer.time).value.ln() / run;
        let own = MolarEnergy::new::<unit::joule_per_mole>(slope * GAS_CONSTANT);
        least.max(own.min(MolarEnergy::new::<unit::kilojoule_per_mole>(MOST_ENERGY)))
    }

    /// How long it takes at a steady temperature until the floor is surely ready for it.
    ///
    /// Of the sheet's times at `T` or colder the nearest counts as it stands; colder than all of
    /// them, the coldest is lengthened to `T` by the energy of the coldest pair, and by no less
    /// than 60 kJ/mol.
    ///
    /// ```
    /// use pailwise_calc::{after::SheetTimes, record::AfterRecord};
    /// use pailwise_calc::quantity::{celsius, unit};
    /// let sheet = [AfterRecord { time_h: 12.0, temperature_c: 25.0 }];
    /// let light = SheetTimes::new(&sheet).unwrap().unwrap();
    /// let hours = |c| light.ready(celsius(c)).get::<unit::hour>();
    /// // exp(60 000/8.314 46 × (1/288.15 − 1/298.15)) = 2.316 times as long 10 °C colder…
    /// assert!((hours(15.0) / 12.0 - 2.316).abs() < 1e-3);
    /// // … and no sooner where it is warmer.
    /// assert_eq!(hours(35.0), 12.0);
    /// ```
    pub fn ready(&self, at: ThermodynamicTemperature) -> Time {
        if let Some(nearest) = self.0.iter().rfind(|point| point.temperature <= at) {
            return self.waits_from(nearest.temperature);
        }
        let Some(coldest) = self.0.first() else { return Time::default() };
        let energy = Self::energy(Some(coldest), self.0.get(1));
        self.waits_from(coldest.temperature) * arrhenius(energy, coldest.temperature, at)
    }

    /// Until when it surely still holds at a steady temperature.
    ///
    /// Of the sheet's times at `T` or warmer the nearest counts as it stands; warmer than all of
    /// them, the warmest is shortened to `T`, likewise.
    ///
    /// ```
    /// use pailwise_calc::{after::SheetTimes, record::AfterRecord};
    /// use pailwise_calc::quantity::{celsius, unit};
    /// let sheet = [AfterRecord { time_h: 24.0, temperature_c: 25.0 }];
    /// let closes = SheetTimes::new(&sheet).unwrap().unwrap();
    /// // exp(60 000/8.314 46 × (1/308.15 − 1/298.15)) = 0.456
    /// assert!((closes.over(celsius(35.0)).get::<unit::hour>() - 10.94).abs() < 0.01);
    /// assert_eq!(closes.over(celsius(10.0)).get::<unit::hour>(), 24.0);
    /// ```
    pub fn over(&self, at: ThermodynamicTemperature) -> Time {
        if let Some(nearest) = self.0.iter().find(|point| point.temperature >= at) {
            return self.ends_up_to(nearest.temperature);
        }
        let Some(warmest) = self.0.last() else { return Time::default() };
        let colder = self.0.len().checked_sub(2).and_then(|before| self.0.get(before));
        let energy = Self::energy(colder, Some(warmest));
        self.ends_up_to(warmest.temperature) * arrhenius(energy, warmest.temperature, at)
    }

    /// The steps to [`SheetTimes::ready`].
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::celsius};
    /// let base = demo::base().unwrap();
    /// let light = base.after().light_use.as_ref().unwrap();
    /// let steps = light.explain_ready(celsius(15.0));
    /// assert_eq!(steps.last().unwrap().figures[1], light.ready(celsius(15.0)).into());
    /// ```
    pub fn explain_ready(&self, at: ThermodynamicTemperature) -> Vec<Step> {
        self.explain_steady(Sentence::SteadyReady, at, self.ready(at))
    }

    /// The steps to [`SheetTimes::over`].
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::celsius};
    /// let base = demo::base().unwrap();
    /// let closes = base.after().recoat_closes.as_ref().unwrap();
    /// let steps = closes.explain_over(celsius(35.0));
    /// assert_eq!(steps.last().unwrap().figures[1], closes.over(celsius(35.0)).into());
    /// ```
    pub fn explain_over(&self, at: ThermodynamicTemperature) -> Vec<Step> {
        self.explain_steady(Sentence::SteadyOver, at, self.over(at))
    }

    /// What the sheet says, and the time that comes of it.
    fn explain_steady(
        &self,
        sentence: Sentence,
        at: ThermodynamicTemperature,
        time: Time,
    ) -> Vec<Step> {
        let mut steps = self.explain_sheet();
        steps.push(Step::new(sentence, Source::Published, vec![at.into(), time.into()]));
        steps
    }

    /// What the sheet says.
    pub(super) fn explain_sheet(&self) -> Vec<Step> {
        let step = |point: &SheetTime| {
            let figures = vec![point.time.into(), point.temperature.into()];
            Step::new(Sentence::SheetAfter, Source::DataSheet, figures)
        };
        self.0.iter().map(step).collect()
    }

    /// As [`SheetTimes::ready`] on a floor whose temperature changes: the equivalent age of
    /// ASTM C1074, with the sheet's own pace as the fastest. The time `t` at which
    /// `∫ dt / ready(T(t))` has come to 1.
    ///
    /// The floor is given by seconds since the coat is down; after `settled` it comes back every
    /// 24 hours.
    ///
    /// ```
    /// use pailwise_calc::{after::SheetTimes, record::AfterRecord};
    /// use pailwise_calc::quantity::{celsius, Time, unit};
    /// let sheet = [AfterRecord { time_h: 12.0, temperature_c: 25.0 }];
    /// let light = SheetTimes::new(&sheet).unwrap().unwrap();
    /// // Six hours at 25 °C are half of it; the other half takes 2.316 times as long at 15 °C.
    /// let floor = |t: Time| celsius(if t < Time::new::<unit::hour>(6.0) { 25.0 } else { 15.0 });
    /// let ready = light.ready_through(floor, Time::new::<unit::hour>(6.0));
    /// assert!((ready.get::<unit::hour>() - (6.0 + 6.0 * 2.316)).abs() < 0.05);
    /// ```
    pub fn ready_through(
        &self,
        floor: impl Fn(Time) -> ThermodynamicTemperature,
        settled: Time,
    ) -> Time {
        lived(|t| 1.0 / self.ready(floor(t)).value, settled)
    }

    /// As [`SheetTimes::over`] on a floor whose temperature changes, with the sheet's own pace as
    /// the slowest, in air that brings the end so many times sooner ([`crate::film::Damp`]).
    pub fn over_through(
        &self,
        floor: impl Fn(Time) -> ThermodynamicTemperature,
        settled: Time,
        sooner: f64,
    ) -> Time {
        lived(|t| sooner / self.over(floor(t)).value, settled)
    }
}

/// The time by which a pace, in parts of the whole a second, has come to the whole; after
/// `settled` the pace comes back every 24 hours.
fn lived(pace: impl Fn(Time) -> f64, settled: Time) -> Time {
    const DAY: f64 = 86_400.0;
    const STEP: f64 = 600.0;
    let done = |from: f64, step: f64| lived_in(&pace, from, step, HALVINGS);
    let steps = |from: f64, to: f64| {
        let count = ((to - from) / STEP).ceil().max(1.0);
        let step = (to - from) / count;
        (0..count as u32).map(move |i| (from + f64::from(i) * step, step))
    };
    let (mut at, mut left) = (0.0, 1.0);
    let settled = settled.value.max(0.0);
    let whole_day: f64 = steps(settled, settled + DAY).map(|(from, step)| done(from, step)).sum();
    loop {
        let end = if at < settled { settled } else { at + DAY };
        for (from, step) in steps(at, end) {
            let more = done(from, step);
            if more >= left {
                return Time::new::<unit::second>(from + within(&done, from, step, left));
            }
            left -= more;
        }
        at = end;
        // Whole days that are gone through the same way.
        let days = (left / whole_day).floor().max(0.0);
        at += days * DAY;
        left -= days * whole_day;
    }
}

/// So often a step is halved in which the pace jumps, as it does where the slab passes a temperature
/// of the sheet.
const HALVINGS: u32 = 7;

/// What is done in one step, by Simpson's rule.
fn lived_in(pace: &impl Fn(Time) -> f64, from: f64, step: f64, halvings: u32) -> f64 {
    let at = |share: f64| pace(Time::new::<unit::second>(from + share * step));
    let (first, middle, last) = (at(0.0), at(0.5), at(1.0));
    let straight = 0.5 * (first + last);
    if halvings > 0 && (middle - straight).abs() > 1e-3 * straight {
        let half = 0.5 * step;
        return lived_in(pace, from, half, halvings - 1)
            + lived_in(pace, from + half, half, halvings - 1);
    }
    step * (first + 4.0 * middle + last) / 6.0
}

/// How far into a step what is left is done, by halving.
fn within(done: &impl Fn(f64, f64) -> f64, from: f64, step: f64, left: f64) -> f64 {
    let (mut low, mut high) = (0.0, step);
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if done(from, middle) < left { low = middle } else { high = middle }
    }
    high
}

#[cfg(test)]
mod tests {
    use super::*;

    fn times(points: &[(f64, f64)]) -> SheetTimes {
        let record = |&(time_h, temperature_c)| AfterRecord { time_h, temperature_c };
        let records: Vec<_> = points.iter().map(record).collect();
        SheetTimes::new(&records).unwrap().unwrap()
    }

    #[test]
    fn between_two_of_the_sheet_s_times_the_safer_one_holds() {
        let sheet = times(&[(8.0, 30.0), (24.0, 10.0), (12.0, 20.0)]);
        let ready = |c| sheet.ready(celsius(c)).get::<unit::hour>();
        assert_eq!((ready(10.0), ready(20.0), ready(30.0), ready(45.0)), (24.0, 12.0, 8.0, 8.0));
        assert_eq!(ready(25.0), 12.0);
        // 24 h × exp(60 000/8.314 46 × (1/278.15 − 1/283.15)) = 37.96 h, by hand; the pair's own
        // energy, 47.8 kJ/mol, is gentler.
        assert!((ready(5.0) - 37.96).abs() < 0.02, "{}", ready(5.0));
        // 36 h at 10 °C and 12 h at 20 °C are 75.8 kJ/mol: × 1.585 at 5 °C.
        let steep = times(&[(36.0, 10.0), (12.0, 20.0)]);
        let hours = steep.ready(celsius(5.0)).get::<unit::hour>();
        assert!((hours - 64.3).abs() < 0.2, "{hours}");
    }

    #[test]
    fn a_steady_floor_takes_what_it_takes_steadily() {
        let sheet = times(&[(168.0, 25.0), (400.0, 10.0)]);
        for c in [-5.0, 8.0, 10.0, 18.0, 25.0, 40.0] {
            for settled in [0.0, 5.0, 48.0] {
                let settled = Time::new::<unit::hour>(settled);
                let through = sheet.ready_through(|_| celsius(c), settled);
                let steady = sheet.ready(celsius(c));
                assert!(((through / steady).value - 1.0).abs() < 1e-9, "{c} {settled:?}");
                let through = sheet.over_through(|_| celsius(c), settled, 1.0);
                let steady = sheet.over(celsius(c));
                assert!(((through / steady).value - 1.0).abs() < 1e-9, "{c} {settled:?}");
            }
        }
    }

    #[test]
    fn a_sheet_that_takes_longer_where_it_is_warmer_holds_by_its_safe_end() {
        let sheet = times(&[(8.0, 10.0), (12.0, 20.0), (9.0, 20.0)]);
        assert!(sheet.longer_where_warmer().is_some());
        let hours = |time: Time| time.get::<unit::hour>();
        for c in [10.0, 15.0, 20.0] {
            assert_eq!(hours(sheet.ready(celsius(c))), 12.0, "{c}");
            assert_eq!(hours(sheet.over(celsius(c))), 8.0, "{c}");
        }
        assert!(hours(sheet.ready(celsius(5.0))) > 12.0);
        assert!(hours(sheet.over(celsius(25.0))) < 8.0);
        assert_eq!(times(&[(12.0, 10.0), (8.0, 20.0)]).longer_where_warmer(), None);
    }
}
