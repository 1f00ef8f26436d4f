//! From the pot life a data sheet prints to the rate constants behind it.
//!
//! A sheet gives the time `t*` for a sample `m*` at a temperature `T*`. The rate constant at `T*`
//! is solved so that *the sample itself*, with its own heat and its own losses ([`Sample`]), is
//! used up at `t*`. Each temperature of the sheet gets its own rate constant, and the cure follows
//! the pieces between them ([`crate::cure::Rate`]). A cup and a larger sample at one temperature tell how much
//! heat the cup lost. Where the sheet's figures cannot be had together, the shortest holds: no
//! point is ever promised more time than the sheet gives it.

mod knots;
mod sample;

use crate::cure::{Beyond, Kinetics};
use crate::error::Error;
use crate::field::Field;
use crate::pail::Thermal;
use crate::quantity::{HeatTransfer, Mass, ThermodynamicTemperature, Time};

use knots::{Knots, known_temperatures};
pub use sample::{Sample, bench_cup, iso_9514_sample};

/// One pot life as a data sheet prints it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PotLifePoint {
    /// How long the sample stayed usable, or until it gelled ([`Sample::Gel`]).
    pub time: Time,
    /// Temperature of the sample and the air around it.
    pub temperature: ThermodynamicTemperature,
    /// Mass of the sample.
    pub mass: Mass,
    /// How it was measured, where the sheet says so.
    pub sample: Option<Sample>,
}

/// What a data sheet does not give of the cure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assumed {
    /// The slopes beyond the only temperature of a sheet.
    pub beyond: Beyond,
    /// `κ` of [`Kinetics`]: uncatalysed over autocatalysed rate, without a unit.
    pub kappa: f64,
    /// `B` of [`Kinetics`], the balance of reactive groups; 1 is on ratio.
    pub balance: f64,
    /// The conversion that ends its pot life.
    pub end: f64,
    /// The conversion at which it gels.
    pub gel: f64,
}

/// What the sheet's points lead to.
#[derive(Clone, Debug, PartialEq)]
pub struct Calibration {
    /// The cure to plan by.
    pub kinetics: Kinetics,
    /// The sheet's temperatures, coldest first; those within [`DISTINCT`] count as one.
    pub temperatures: Vec<ThermodynamicTemperature>,
    /// How much heat the sheet's cups lost, and where that comes from.
    pub loss: CupLoss,
    /// For each point, the logarithm of the promised time over the sheet's. Never above 0 by more
    /// than the solver's tolerance.
    pub residuals: Vec<f64>,
}

/// How much heat the cups of a sheet lost, from all of their surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CupLoss {
    /// There is no cup among its samples.
    NoCup,
    /// A usual one: the sheet does not tell.
    Usual(HeatTransfer),
    /// That which lets a cup and a larger sample both last as long as they are said to.
    Fitted(HeatTransfer),
    /// No believable loss does; the shorter of the two holds.
    Contradicted(HeatTransfer),
}

impl CupLoss {
    /// The loss to calculate with.
    pub fn value(self) -> HeatTransfer {
        match self {
            Self::NoCup => bench_cup(),
            Self::Usual(loss) | Self::Fitted(loss) | Self::Contradicted(loss) => loss,
        }
    }
}

/// Temperatures closer than this, in kelvin, are one.
pub const DISTINCT: f64 = 3.0;

/// Solves the rate constant at each temperature of the sheet, and the loss of its cups where it
/// has two masses at one temperature.
///
/// Range: each point within [`Field::PotLife`], [`Field::PotLifeTemperature`] and
/// [`Field::PotLifeMass`]. Nothing that can be printed is refused: a warmer sample that lasts
/// longer, two masses that no heat loss explains, are planned by the shorter time, and named by
/// [`crate::sheet::doubts`].
///
/// # Errors
/// [`Error::Missing`] without a point; [`Error::OutOfRange`] for a point outside its range.
///
/// ```
/// use pailwise_calc::{calibrate::*, cure::Chemistry, demo};
/// use pailwise_calc::quantity::{celsius, minutes, Mass, unit};
/// let sheet = |min, c| PotLifePoint {
///     time: minutes(min), temperature: celsius(c), mass: Mass::new::<unit::kilogram>(0.15),
///     sample: Some(Sample::Insulated),
/// };
/// let typical = Chemistry::AmineEpoxy.typical();
/// let assumed = Assumed { beyond: typical.beyond, kappa: 0.1, balance: 1.0, end: 0.55, gel: 0.577 };
/// let thermal = demo::base().unwrap().thermal();
/// // Half the time at 35 °C is 53 kJ/mol to the eye; the samples' own heat has its part in that.
/// let fit = calibrate(&[sheet(40.0, 25.0), sheet(20.0, 35.0)], assumed, &thermal).unwrap();
/// let energy = fit.kinetics.rate.energy_at(celsius(30.0)).get::<unit::kilojoule_per_mole>();
/// assert!((25.0..53.0).contains(&energy), "{energy}");
/// assert!(fit.residuals.iter().all(|off| off.abs() < 1e-6));
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
    let temperatures = known_temperatures(points);
    let knots = |loss| Knots::new(points, &temperatures, assumed, thermal, loss);
    let loss = knots(None).cup_loss();
    let planned = knots(Some(loss.value()));
    let kinetics = planned.solve()?;
    Ok(Calibration { residuals: planned.residuals(&kinetics)?, temperatures, kinetics, loss })
}

/// The cure if every cup of the sheet kept its heat as a pail does: what the sheet may mean at the
/// longest. To be said, not to be planned by.
///
/// # Errors
/// As [`calibrate`].
pub fn at_longest(
    points: &[PotLifePoint],
    assumed: Assumed,
    thermal: &Thermal,
) -> Result<Kinetics, Error> {
    Knots::new(points, &known_temperatures(points), assumed, thermal, None).solve()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cure::Chemistry;
    use crate::demo;
    use crate::quantity::{celsius, minutes, unit};
    use approx::assert_relative_eq;

    fn point(time: f64, temperature: f64, mass: f64) -> PotLifePoint {
        PotLifePoint {
            time: minutes(time),
            temperature: celsius(temperature),
            mass: Mass::new::<unit::kilogram>(mass),
            sample: None,
        }
    }

    fn assumed() -> Assumed {
        let typical = Chemistry::AmineEpoxy.typical();
        Assumed {
            beyond: typical.beyond,
            kappa: typical.kappa,
            balance: 1.0,
            end: typical.end,
            gel: 0.577,
        }
    }

    fn run(points: &[PotLifePoint]) -> Calibration {
        calibrate(points, assumed(), &demo::base().unwrap().thermal()).unwrap()
    }

    fn longest(points: &[PotLifePoint]) -> Kinetics {
        at_longest(points, assumed(), &demo::base().unwrap().thermal()).unwrap()
    }

    fn met(fit: &Calibration) -> bool {
        fit.residuals.iter().all(|r| r.abs() < 1e-6)
    }

    #[test]
    fn one_point_is_met_exactly() {
        let sheet = [point(40.0, 25.0, 0.45)];
        let fit = run(&sheet);
        assert!(met(&fit));
        assert!(matches!(fit.loss, CupLoss::Usual(_)));
        // A cup that kept its heat means a slower resin.
        let at = |kinetics: Kinetics| kinetics.k(celsius(25.0));
        assert!(at(longest(&sheet)) < at(fit.kinetics));
    }

    #[test]
    fn a_kit_leaves_no_doubt_of_its_loss() {
        let kit = PotLifePoint { sample: Some(Sample::Kit), ..point(25.0, 25.0, 5.0) };
        let fit = run(&[kit]);
        assert_eq!(fit.loss, CupLoss::NoCup);
        assert_eq!(fit.kinetics, longest(&[kit]));
    }

    #[test]
    fn two_and_three_temperatures_are_met_exactly() {
        let two = [point(60.0, 20.0, 0.45), point(22.0, 30.0, 0.45)];
        let three = [point(90.0, 15.0, 0.5), point(40.0, 25.0, 0.5), point(19.0, 35.0, 0.5)];
        for sheet in [&two[..], &three[..]] {
            assert!(met(&run(sheet)), "{sheet:?}: {:?}", run(sheet).residuals);
        }
    }

    #[test]
    fn a_cup_and_a_kit_at_one_temperature_tell_what_the_cup_lost() {
        let kit = PotLifePoint { sample: Some(Sample::Kit), ..point(30.0, 24.0, 5.0) };
        let fit = run(&[point(45.0, 25.0, 0.06), kit]);
        let CupLoss::Fitted(loss) = fit.loss else { panic!("{:?}", fit.loss) };
        assert!((5.0..60.0).contains(&loss.value), "{loss:?}");
        // They are one temperature, the colder: what is printed a degree up is promised there.
        assert!(fit.residuals.iter().all(|r| (-0.1..1e-6).contains(r)), "{:?}", fit.residuals);
    }

    #[test]
    fn where_no_loss_explains_two_masses_the_shorter_holds() {
        for sheet in [
            [point(60.0, 25.0, 0.1), point(5.0, 25.0, 5.0)],
            [point(20.0, 25.0, 0.1), point(40.0, 25.0, 5.0)],
        ] {
            let fit = run(&sheet);
            assert!(matches!(fit.loss, CupLoss::Contradicted(_)), "{:?}", fit.loss);
            assert!(fit.residuals.iter().all(|r| *r < 1e-6), "{:?}", fit.residuals);
            assert!(fit.residuals.iter().any(|r| r.abs() < 1e-6), "{:?}", fit.residuals);
        }
    }

    #[test]
    fn a_flat_pair_is_met_and_one_that_slows_with_heat_holds_by_its_shorter_time() {
        let fit = run(&[point(25.0, 21.1, 0.1), point(20.0, 32.2, 0.1)]);
        assert!(fit.residuals.iter().all(|r| (-0.6..1e-6).contains(r)), "{:?}", fit.residuals);
        let fit = run(&[point(40.0, 20.0, 0.5), point(45.0, 30.0, 0.5)]);
        assert!(fit.residuals[0].abs() < 1e-6 && fit.residuals[1] < -0.1, "{:?}", fit.residuals);
        assert_relative_eq!(
            fit.kinetics.k(celsius(20.0)).value,
            fit.kinetics.k(celsius(30.0)).value,
            max_relative = 1e-9
        );
    }

    #[test]
    fn slopes_no_resin_has_are_calculated_too() {
        let sheet = [point(1440.0, 20.0, 200.0), point(1.0, 23.0, 0.01), point(1440.0, 30.0, 0.01)];
        let fit = run(&sheet);
        assert!(fit.residuals.iter().all(|r| *r < 1e-6), "{:?}", fit.residuals);
        let none = calibrate(&[], assumed(), &demo::base().unwrap().thermal());
        assert!(matches!(none, Err(Error::Missing { field: Field::PotLife })));
    }
}
