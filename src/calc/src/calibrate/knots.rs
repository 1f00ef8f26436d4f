//! Solving the rate constants at the temperatures of a sheet, and the loss of its cups.

use super::{Assumed, CupLoss, DISTINCT, PotLifePoint, Sample, bench_cup};
use crate::cure::{Beyond, Kinetics, Rate};
use crate::error::Error;
use crate::pail::Thermal;
use crate::quantity::{Frequency, HeatTransfer, MolarEnergy, ThermodynamicTemperature, unit};
use crate::solve::largest_feasible;
use crate::sorted::sorted_by;

/// A point is met this closely in log time.
const FITTED: f64 = 3e-8;
/// The steepest slope that is looked for beyond the warmest temperature, J/mol.
const STEEPEST: f64 = 150_000.0;
/// A larger sample is one of at least so many times the mass.
const LARGER: f64 = 1.5;
/// Losses of a cup that are believed, W/(m²·K): from one in foam to one in a draught.
const LOSSES: (f64, f64) = (5.0, 60.0);

/// The temperatures of a sheet, coldest first, each the coldest of those within [`DISTINCT`].
pub(super) fn known_temperatures(points: &[PotLifePoint]) -> Vec<ThermodynamicTemperature> {
    let all = sorted_by(points.iter().map(|point| point.temperature).collect(), |t| t.value);
    let mut known: Vec<ThermodynamicTemperature> = Vec::new();
    for temperature in all {
        if known.last().is_none_or(|last| temperature.value >= last.value + DISTINCT) {
            known.push(temperature);
        }
    }
    known
}

/// The sheet's points, and all that its rate constants are solved with.
pub(super) struct Knots<'a> {
    points: &'a [PotLifePoint],
    temperatures: &'a [ThermodynamicTemperature],
    assumed: Assumed,
    thermal: &'a Thermal,
    cup_loss: Option<HeatTransfer>,
    beyond: Beyond,
}

impl<'a> Knots<'a> {
    pub(super) fn new(
        points: &'a [PotLifePoint],
        temperatures: &'a [ThermodynamicTemperature],
        assumed: Assumed,
        thermal: &'a Thermal,
        cup_loss: Option<HeatTransfer>,
    ) -> Self {
        let beyond = if temperatures.len() > 1 { Beyond::of_several() } else { assumed.beyond };
        Self { points, temperatures, assumed, thermal, cup_loss, beyond }
    }

    /// The points at one of the sheet's temperatures.
    fn at(&self, knot: usize) -> impl Iterator<Item = &'a PotLifePoint> {
        let from = self.temperatures[knot].value;
        let below = self.temperatures.get(knot + 1).map_or(f64::INFINITY, |next| next.value);
        self.points.iter().filter(move |p| (from..below).contains(&p.temperature.value))
    }

    fn kinetics(&self, rate: &Rate) -> Kinetics {
        let Assumed { kappa, balance, end, .. } = self.assumed;
        Kinetics { rate: *rate, kappa, balance, end }
    }

    /// Log of promised over printed time for one point.
    fn residual(
        &self,
        kinetics: &Kinetics,
        point: &PotLifePoint,
        cup_loss: Option<HeatTransfer>,
    ) -> Result<f64, Error> {
        let pail = point.stands(kinetics, self.thermal, cup_loss)?;
        let lasts = pail.time_to(point.ends_at(self.assumed.end, self.assumed.gel))?;
        Ok((lasts.value / point.time.value).ln())
    }

    pub(super) fn residuals(&self, kinetics: &Kinetics) -> Result<Vec<f64>, Error> {
        self.points.iter().map(|point| self.residual(kinetics, point, self.cup_loss)).collect()
    }

    /// The law through log rates at some of the sheet's temperatures, from `first` on.
    fn law(&self, first: usize, log: &[f64], beyond: Beyond) -> Rate {
        let known = self.temperatures.iter().zip(log).skip(first);
        let known = known.map(|(t, log)| (*t, Frequency::new::<unit::hertz>(log.exp())));
        Rate::through(known, beyond)
    }

    /// The log rate at a temperature of the sheet that lets one of its points last as long as it
    /// is printed, the rates at warmer ones being known.
    fn meet(
        &self,
        knot: usize,
        log: &[f64],
        point: &PotLifePoint,
        beyond: Beyond,
        cup_loss: Option<HeatTransfer>,
    ) -> Result<f64, Error> {
        let mut log = log.to_vec();
        let mut off = |x: f64| {
            log[knot] = x;
            // Beyond the warmest it is as steep as is tried, whatever this pair would say: else a
            // slower rate here could mean a faster sample.
            let law = self.law(knot, &log, beyond).steep_beyond(beyond.warm);
            self.residual(&self.kinetics(&law), point, cup_loss)
        };
        // Kept at its temperature it would last longest: no rate above that is needed.
        let flat = Rate::single(Frequency::new::<unit::hertz>(1.0), MolarEnergy::default());
        let steady =
            self.kinetics(&flat).progress(point.ends_at(self.assumed.end, self.assumed.gel));
        let fastest = steady.ln() - point.time.value.ln() + 1e-6;
        // Log time falls about as log rate grows, so that a secant is there in a few steps.
        let (mut x, mut r) = (fastest, off(fastest)?);
        let mut slope = -1.0;
        for _ in 0..12 {
            if r.abs() < FITTED {
                return Ok(x);
            }
            let next = (x - r / slope).min(fastest);
            let there = off(next)?;
            slope = ((there - r) / (next - x)).clamp(-20.0, -0.3);
            (x, r) = (next, there);
        }
        let spare = |x: f64| off(-x).map_or(f64::NAN, |r| -r);
        largest_feasible(-fastest, 12.0 - fastest, FITTED, spare)
            .map(|x| -x)
            .ok_or(Error::NoSolution)
    }

    /// The log rates at every temperature of the sheet, from the warmest down, with some slopes
    /// beyond them. The fastest of the points at a temperature holds.
    fn rates(&self, beyond: Beyond) -> Result<Vec<f64>, Error> {
        let mut log = vec![0.0; self.temperatures.len()];
        for knot in (0..log.len()).rev() {
            let mut fastest = f64::NEG_INFINITY;
            for point in self.at(knot) {
                fastest = fastest.max(self.meet(knot, &log, point, beyond, self.cup_loss)?);
            }
            log[knot] = fastest;
        }
        Ok(log)
    }

    /// The cure that meets every point it can, and promises none of them more than is printed.
    pub(super) fn solve(&self) -> Result<Kinetics, Error> {
        // A steep last pair is steep beyond it too, which the warmest sample then feels: the slope
        // at which it comes out as it went in, if that is steeper than the least.
        let with = |warm: f64| {
            let warm = MolarEnergy::new::<unit::joule_per_mole>(warm);
            Beyond { warm, ..self.beyond }
        };
        let steeper = |warm: f64| -> Result<f64, Error> {
            let log = self.rates(with(warm))?;
            Ok(self.law(0, &log, self.beyond).beyond().warm.value - warm)
        };
        let least = self.beyond.warm.value;
        let mut warm = least;
        if self.temperatures.len() > 1 && steeper(least)? > 1.0 {
            let spare = |warm: f64| steeper(warm).unwrap_or(f64::NAN);
            warm = largest_feasible(least, STEEPEST, 0.1, spare).ok_or(Error::NoSolution)?;
        }
        let log = self.rates(with(warm))?;
        self.held_to_the_sheet(self.kinetics(&self.law(0, &log, self.beyond)))
    }

    /// Speeds the cure up until no point is promised more time than its sheet gives.
    fn held_to_the_sheet(&self, mut kinetics: Kinetics) -> Result<Kinetics, Error> {
        for _ in 0..20 {
            let over = self.residuals(&kinetics)?.into_iter().fold(f64::MIN, f64::max);
            if over <= 10.0 * FITTED {
                return Ok(kinetics);
            }
            // Time falls about as the rate grows, or faster.
            kinetics.rate = kinetics.rate.times((1.2 * over).exp());
        }
        Err(Error::NoSolution)
    }

    /// The loss at which a cup and a larger sample at one temperature both last as long as they
    /// are said to; of several such pairs the greatest, which makes the resin the quickest.
    pub(super) fn cup_loss(&self) -> CupLoss {
        if !self.points.iter().any(|point| Sample::is_cup(point.sample)) {
            return CupLoss::NoCup;
        }
        let mut found: Option<CupLoss> = None;
        for knot in 0..self.temperatures.len() {
            for cup in self.at(knot).filter(|point| Sample::is_cup(point.sample)) {
                for larger in self.at(knot).filter(|point| point.mass > cup.mass * LARGER) {
                    let loss = self.loss_of(knot, cup, larger);
                    if found.is_none_or(|found| loss.value() > found.value()) {
                        found = Some(loss);
                    }
                }
            }
        }
        found.unwrap_or(CupLoss::Usual(bench_cup()))
    }

    /// The loss by one cup and one larger sample.
    fn loss_of(&self, knot: usize, cup: &PotLifePoint, larger: &PotLifePoint) -> CupLoss {
        let loss = |log: f64| HeatTransfer::new::<unit::watt_per_square_meter_kelvin>(log.exp());
        // Only this temperature is known, as far as these two go.
        let alone = Self { temperatures: &self.temperatures[knot..=knot], ..*self };
        let spare = |log: f64| {
            let rate = alone.meet(0, &[0.0], larger, self.beyond, Some(loss(log)));
            let lasts = rate.and_then(|rate| {
                let kinetics = alone.kinetics(&alone.law(0, &[rate], self.beyond));
                alone.residual(&kinetics, cup, Some(loss(log)))
            });
            lasts.map_or(f64::NAN, |off| -off)
        };
        let (least, most) = (LOSSES.0.ln(), LOSSES.1.ln());
        match largest_feasible(least, most, 1e-6, spare) {
            None => CupLoss::Contradicted(loss(least)),
            Some(log) if log >= most => CupLoss::Contradicted(loss(most)),
            Some(log) => CupLoss::Fitted(loss(log)),
        }
    }
}
