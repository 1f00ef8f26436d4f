//! From the pot life a data sheet prints to the rate constants behind it.
//!
//! A sheet gives the time `t*` for a mass `m*` at a temperature `T*`. The rate constant is solved
//! so that *the pail itself*, `m*` at `T*` with its own heat, reaches the end of pot life at
//! `t*`. With points at two or more temperatures the activation energy is fitted too, by least
//! squares in log time through the same simulation, and the fit is then shifted so that it
//! nowhere promises more time than the sheet does.

use crate::cure::{END_OF_POT_LIFE, Kinetics, arrhenius, reference_temperature};
use crate::error::Error;
use crate::field::Field;
use crate::pail::{Pail, Thermal};
use crate::quantity::{Figure, Frequency, Mass, MolarEnergy, ThermodynamicTemperature, Time, unit};
use crate::solve::last_holding;
use crate::vessel::Vessel;

/// One pot life as a data sheet prints it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PotLifePoint {
    /// How long the sample stayed usable.
    pub time: Time,
    /// Temperature of the sample and the air around it.
    pub temperature: ThermodynamicTemperature,
    /// Mass of the sample.
    pub mass: Mass,
}

/// The constants of the cure that a data sheet does not give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assumed {
    /// Activation energy, used when the sheet has pot life at one temperature only.
    pub activation_energy: MolarEnergy,
    /// `κ` of [`Kinetics`].
    pub kappa: f64,
    /// `B` of [`Kinetics`].
    pub balance: f64,
}

/// What the sheet's points lead to.
#[derive(Clone, Debug, PartialEq)]
pub struct Calibration {
    /// The cure, ready to use.
    pub kinetics: Kinetics,
    /// Whether the activation energy came from the sheet rather than from [`Assumed`].
    pub energy_fitted: bool,
    /// For each point, the logarithm of the fitted time over the sheet's. Never above 0 by more
    /// than the solver's tolerance.
    pub residuals: Vec<f64>,
}

/// Temperatures closer than this, in kelvin, say nothing about the activation energy.
const DISTINCT: f64 = 3.0;
/// Points further apart than this share from the common fit contradict each other.
const AGREEMENT: f64 = 0.20;
/// A point met this closely, in log time, is met.
const FITTED: f64 = 1e-8;

/// Solves the rate constant, and with points at two temperatures the activation energy.
///
/// Range: each point within [`Field::PotLife`], [`Field::PotLifeTemperature`] and
/// [`Field::PotLifeMass`].
///
/// # Errors
/// [`Error::Missing`] without a point; [`Error::OutOfRange`] for a point outside its range;
/// [`Error::WarmerLonger`] or [`Error::ImplausibleFit`] when the energy falls outside 30 to 90 kJ/mol;
/// [`Error::Inconsistent`] when a point is more than a fifth off what the others say.
///
/// ```
/// use pailwise_calc::{calibrate::*, cure::Chemistry, demo};
/// use pailwise_calc::quantity::{celsius, minutes, Mass, MassDensity, unit};
/// let sheet = |min, c| PotLifePoint {
///     time: minutes(min), temperature: celsius(c), mass: Mass::new::<unit::kilogram>(0.15),
/// };
/// let typical = Chemistry::AmineEpoxy.typical();
/// let assumed = Assumed { activation_energy: typical.activation_energy, kappa: 0.1, balance: 1.0 };
/// let thermal = demo::base().unwrap().thermal();
/// // Half the time at 35 °C is about the rule of thumb, so about 53 kJ/mol.
/// let fit = calibrate(&[sheet(40.0, 25.0), sheet(20.0, 35.0)], assumed, &thermal).unwrap();
/// let ea = fit.kinetics.activation_energy.get::<unit::kilojoule_per_mole>();
/// assert!(fit.energy_fitted && (48.0..58.0).contains(&ea), "{ea}");
/// ```
pub fn calibrate(
    points: &[PotLifePoint],
    assumed: Assumed,
    thermal: &Thermal,
) -> Result<Calibration, Error> {
    if points.is_empty() {
        return Err(Error::Missing { field: Field::PotLife });
    }
    for point in points {
        Field::PotLife.check(point.time)?;
        Field::PotLifeTemperature.check(point.temperature)?;
        Field::PotLifeMass.check(point.mass)?;
    }
    let (fit, energy_fitted) = fit(points, assumed, thermal)?;
    let (low, high) = Field::ActivationEnergy.range();
    let fitted: Figure = fit.activation_energy.into();
    if energy_fitted && (fitted.si() < low.si() || fitted.si() > high.si()) {
        return Err(warmer_longer(points).unwrap_or(Error::ImplausibleFit { fitted, low, high }));
    }
    let residuals = residuals(&fit, points, thermal)?;
    if residuals.iter().any(|r| r.abs() > (1.0 + AGREEMENT).ln()) {
        return Err(odd_one_out(points, &residuals, assumed, thermal)?);
    }
    let kinetics = shift_to_safe_side(fit, points, &residuals, thermal)?;
    let residuals = self::residuals(&kinetics, points, thermal)?;
    Ok(Calibration { kinetics, energy_fitted, residuals })
}

/// Two points of which the warmer, of no smaller a mass, lasts no shorter: what nobody calls an
/// energy.
fn warmer_longer(points: &[PotLifePoint]) -> Option<Error> {
    let pairs = points.iter().flat_map(|cold| points.iter().map(move |warm| (cold, warm)));
    let mut pairs = pairs.filter(|(cold, warm)| {
        let warmer = warm.temperature.value >= cold.temperature.value + DISTINCT;
        warmer && warm.mass >= cold.mass && warm.time >= cold.time
    });
    let of = |point: &PotLifePoint| (point.time, point.temperature);
    pairs.next().map(|(cold, warm)| Error::WarmerLonger {
        field: Field::PotLife,
        colder: of(cold),
        warmer: of(warm),
    })
}

/// Log of simulated over printed time for one point.
fn residual(kinetics: &Kinetics, point: &PotLifePoint, thermal: &Thermal) -> Result<f64, Error> {
    let vessel = Vessel::compact(point.mass / thermal.density);
    let (t, m) = (point.temperature, point.mass);
    let life = Pail::new(*kinetics, thermal, m, &vessel, t, t)?.pot_life()?;
    Ok((life.value / point.time.value).ln())
}

fn residuals(
    kinetics: &Kinetics,
    points: &[PotLifePoint],
    thermal: &Thermal,
) -> Result<Vec<f64>, Error> {
    points.iter().map(|point| residual(kinetics, point, thermal)).collect()
}

/// Least squares without the checks on what comes out.
fn fit(
    points: &[PotLifePoint],
    assumed: Assumed,
    thermal: &Thermal,
) -> Result<(Kinetics, bool), Error> {
    let inverse = points.iter().map(|p| 1.0 / p.temperature.value);
    let middle = points.len() as f64 / inverse.sum::<f64>();
    let middle = ThermodynamicTemperature::new::<unit::kelvin>(middle);
    let (coldest, hottest) = points.iter().fold((f64::MAX, f64::MIN), |(low, high), p| {
        (low.min(p.temperature.value), high.max(p.temperature.value))
    });
    let energy_fitted = hottest - coldest >= DISTINCT;

    // Unknowns: the log of the rate constant at the middle temperature, and Ea in 10 kJ/mol.
    // Taken at the middle they hardly lean on each other, and log time is nearly linear in both.
    let kinetics = |x: [f64; 2]| {
        let activation_energy = MolarEnergy::new::<unit::joule_per_mole>(x[1] * 1e4);
        let at_middle = arrhenius(activation_energy, middle, reference_temperature());
        Kinetics {
            k_ref: Frequency::new::<unit::hertz>(x[0].exp() / at_middle),
            activation_energy,
            kappa: assumed.kappa,
            balance: assumed.balance,
        }
    };
    let energy = assumed.activation_energy.value / 1e4;
    let isothermal = kinetics([0.0, energy]).progress(END_OF_POT_LIFE);
    let mean_log_time = points
        .iter()
        .map(|p| (p.time.value * arrhenius(assumed.activation_energy, p.temperature, middle)).ln())
        .sum::<f64>()
        / points.len() as f64;
    let mut x = [isothermal.ln() - mean_log_time, energy];
    for _ in 0..40 {
        let r = residuals(&kinetics(x), points, thermal)?;
        let along = |x: [f64; 2], h: f64| -> Result<Vec<f64>, Error> {
            let moved = residuals(&kinetics(x), points, thermal)?;
            Ok(moved.iter().zip(&r).map(|(m, r)| (m - r) / h).collect())
        };
        let h = 1e-4;
        let by_k = along([x[0] + h, x[1]], h)?;
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        let (kk, kr) = (dot(&by_k, &by_k), dot(&by_k, &r));
        let (dx, de) = if energy_fitted {
            let by_e = along([x[0], x[1] + h], h)?;
            let (ee, ke, er) = (dot(&by_e, &by_e), dot(&by_k, &by_e), dot(&by_e, &r));
            let determinant = kk * ee - ke * ke;
            ((ke * er - ee * kr) / determinant, (ke * kr - kk * er) / determinant)
        } else {
            (-kr / kk, 0.0)
        };
        if !(dx.is_finite() && de.is_finite()) {
            return Err(Error::NoSolution);
        }
        x = [x[0] + dx.clamp(-2.0, 2.0), (x[1] + de.clamp(-2.0, 2.0)).clamp(0.1, 30.0)];
        if dx.abs() < 1e-9 && (de.abs() < 1e-8 || x[1] <= 0.1 || x[1] >= 30.0) {
            return Ok((kinetics(x), energy_fitted));
        }
    }
    // Points that contradict each other may keep least squares wandering; what it has is judged
    // by the caller's checks.
    Ok((kinetics(x), energy_fitted))
}

/// Speeds the cure up until no point is promised more time than its sheet gives.
fn shift_to_safe_side(
    kinetics: Kinetics,
    points: &[PotLifePoint],
    residuals: &[f64],
    thermal: &Thermal,
) -> Result<Kinetics, Error> {
    let worst = |of: &[f64]| of.iter().copied().fold(f64::MIN, f64::max);
    let over = worst(residuals);
    if over <= FITTED {
        return Ok(kinetics);
    }
    let faster = |log: f64| Kinetics { k_ref: kinetics.k_ref * log.exp(), ..kinetics };
    let spare =
        |log: f64| self::residuals(&faster(log), points, thermal).map_or(f64::NAN, |r| -worst(&r));
    // Twice the excess is enough: time falls at least half as fast as the rate grows.
    let shift = last_holding(-2.0 * over, 0.0, 1e-7, |x| spare(-x)).ok_or(Error::NoSolution)?;
    Ok(faster(-shift))
}

/// The point that the others contradict most, as an error.
fn odd_one_out(
    points: &[PotLifePoint],
    residuals: &[f64],
    assumed: Assumed,
    thermal: &Thermal,
) -> Result<Error, Error> {
    let mut worst = (0, f64::MAX, residuals.first().copied().unwrap_or(0.0));
    for left_out in 0..points.len() {
        let mut others = points.to_vec();
        let point = others.remove(left_out);
        let (rest, _) = fit(&others, assumed, thermal)?;
        let misfit = self::residuals(&rest, &others, thermal)?.iter().map(|r| r * r).sum::<f64>();
        if misfit < worst.1 {
            worst = (left_out, misfit, residual(&rest, &point, thermal)?);
        }
    }
    let (point, _, off) = worst;
    let given = points[point].time;
    Ok(Error::Inconsistent { point, given: given.into(), expected: (given * off.exp()).into() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cure::Chemistry;
    use crate::demo;
    use crate::quantity::{celsius, minutes};
    use approx::assert_relative_eq;

    fn point(time: f64, temperature: f64, mass: f64) -> PotLifePoint {
        PotLifePoint {
            time: minutes(time),
            temperature: celsius(temperature),
            mass: Mass::new::<unit::kilogram>(mass),
        }
    }

    fn assumed() -> Assumed {
        let typical = Chemistry::AmineEpoxy.typical();
        Assumed { activation_energy: typical.activation_energy, kappa: 0.1, balance: 1.0 }
    }

    fn run(points: &[PotLifePoint]) -> Result<Calibration, Error> {
        calibrate(points, assumed(), &demo::base().unwrap().thermal())
    }

    #[test]
    fn one_point_is_met_exactly() {
        let p = point(40.0, 25.0, 0.45);
        let fit = run(&[p]).unwrap();
        assert!(!fit.energy_fitted);
        assert!(fit.residuals[0].abs() < 1e-6);
    }

    #[test]
    fn two_temperatures_are_met_exactly() {
        let fit = run(&[point(45.0, 20.0, 0.45), point(22.0, 30.0, 0.45)]).unwrap();
        assert!(fit.residuals.iter().all(|r| r.abs() < 1e-6));
        assert_relative_eq!(fit.kinetics.activation_energy.value, 50_000.0, max_relative = 0.15);
    }

    #[test]
    fn no_point_is_promised_more_than_the_sheet() {
        let sheet = [point(62.0, 15.0, 0.5), point(40.0, 25.0, 0.5), point(19.0, 35.0, 0.5)];
        let fit = run(&sheet).unwrap();
        assert!(fit.residuals.iter().all(|r| *r < 1e-6), "{:?}", fit.residuals);
        assert!(fit.residuals.iter().any(|r| r.abs() < 1e-3));
    }

    #[test]
    fn the_point_that_disagrees_is_named() {
        let sheet = [
            point(80.0, 15.0, 0.5),
            point(40.0, 25.0, 0.5),
            point(90.0, 30.0, 0.5),
            point(20.0, 35.0, 0.5),
        ];
        match run(&sheet) {
            Err(Error::Inconsistent { point: 2, given, expected }) => {
                assert_eq!(given, minutes(90.0).into());
                assert!((1500.0..2000.0).contains(&expected.si()), "{expected}");
            }
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_sheet_that_slows_with_heat_is_refused() {
        let sheet = [point(40.0, 20.0, 0.5), point(45.0, 30.0, 0.5)];
        let warmer = (minutes(45.0), celsius(30.0));
        assert!(matches!(run(&sheet), Err(Error::WarmerLonger { warmer: at, .. }) if at == warmer));
        // Shorter, but by far too little; and a larger sample may last shorter where it is colder.
        for sheet in [
            [point(40.0, 20.0, 0.5), point(39.0, 30.0, 0.5)],
            [point(40.0, 20.0, 5.0), point(45.0, 30.0, 0.01)],
        ] {
            assert!(!matches!(run(&sheet), Err(Error::WarmerLonger { .. })), "{sheet:?}");
        }
        assert!(matches!(run(&[]), Err(Error::Missing { field: Field::PotLife })));
    }
}
