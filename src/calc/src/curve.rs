//! Pot life against temperature, as a curve to draw.

use crate::calibrate::{PotLifePoint, Sample};
use crate::error::Error;
use crate::pail::laboratory_cup;
use crate::product::Product;
use crate::quantity::{Mass, ThermodynamicTemperature, Time, Volume, celsius, unit};
use crate::vessel::{Generic, Vessel};

/// Pot life of one filled vessel against temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct PotLifeCurve {
    /// How much is in it.
    pub volume: Volume,
    /// Temperature of material and air alike, and the pot life there; coldest first.
    pub points: Vec<(ThermodynamicTemperature, Time)>,
}

/// What the size of a pail does to its pot life.
#[derive(Clone, Debug, PartialEq)]
pub struct Sizes {
    /// Of a cup of 100 g on a bench.
    pub cup: Time,
    /// How much a five-gallon pail holds, as full as a drill allows.
    pub full: Volume,
    /// Pot life of a five-gallon pail as full as a drill allows.
    pub pail: Time,
    /// Whether a pail lasts shorter than the cup by more than anybody would overlook.
    pub matters: bool,
}

/// A pail that lasts this much shorter than a cup is seen to.
const SEEN: f64 = 1.15;

impl Product {
    /// What the size of a pail does to its pot life, pail and air at one temperature. Of a fast
    /// product hardly anything: it is through before a cup has lost its heat.
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::celsius};
    /// let sizes = demo::base().unwrap().sizes(celsius(24.0)).unwrap();
    /// assert!(sizes.pail < sizes.cup && sizes.matters);
    /// ```
    ///
    /// # Errors
    /// As [`Product::pail`].
    pub fn sizes(&self, at: ThermodynamicTemperature) -> Result<Sizes, Error> {
        let vessel = Generic::FiveGallon.vessel();
        let full = vessel.working_capacity();
        let pail = self.pail(full * self.ratio().density(), &vessel, at, at)?.pot_life()?;
        let cup = self.cup_lasts(at)?;
        Ok(Sizes { cup, full, pail, matters: cup >= pail * SEEN })
    }

    /// How long a cup on a bench lasts, its material as warm as the air.
    fn cup_lasts(&self, at: ThermodynamicTemperature) -> Result<Time, Error> {
        self.sample_lasts(&PotLifePoint {
            time: Time::default(),
            temperature: at,
            mass: laboratory_cup(),
            sample: Some(Sample::Cup),
        })
    }

    /// The curve of one vessel with so much in it, between two temperatures.
    ///
    /// Range: `steps` of at least 1; temperatures within [`crate::field::Field::Material`].
    ///
    /// # Errors
    /// As [`Product::pail`].
    pub fn pot_life_curve(
        &self,
        vessel: &Vessel,
        volume: Volume,
        (coldest, hottest): (f64, f64),
        steps: u32,
    ) -> Result<PotLifeCurve, Error> {
        let mass: Mass = volume * self.ratio().density();
        let points = (0..=steps).map(|i| {
            let share = f64::from(i) / f64::from(steps.max(1));
            let temperature = celsius(coldest + (hottest - coldest) * share);
            let life = self.pail(mass, vessel, temperature, temperature)?.pot_life()?;
            Ok((temperature, life))
        });
        Ok(PotLifeCurve { volume, points: points.collect::<Result<_, Error>>()? })
    }

    /// The curves of three sizes far enough apart to see: the cup on a bench in which pot life is
    /// measured, which loses its heat, a five-quart and a five-gallon pail, the pails as full as a drill allows; between
    /// two temperatures in degrees Celsius.
    ///
    /// ```
    /// use pailwise_calc::demo;
    /// let curves = demo::base().unwrap().pot_life_of_sizes((10.0, 35.0), 10).unwrap();
    /// // A fuller, larger pail lies below a smaller one at every temperature (ISO 9514).
    /// for pair in curves.windows(2) {
    ///     assert!(pair[0].points.iter().zip(&pair[1].points).all(|(s, l)| s.1 > l.1));
    /// }
    /// ```
    ///
    /// # Errors
    /// As [`Product::pail`].
    pub fn pot_life_of_sizes(
        &self,
        between: (f64, f64),
        steps: u32,
    ) -> Result<[PotLifeCurve; 3], Error> {
        let pail = |generic: Generic| {
            let vessel = generic.vessel();
            self.pot_life_curve(&vessel, vessel.working_capacity(), between, steps)
        };
        let quart = pail(Generic::FiveQuart)?;
        let in_cup = |(at, _): &(_, _)| Ok((*at, self.cup_lasts(*at)?));
        let cup = PotLifeCurve {
            volume: laboratory_cup() / self.ratio().density(),
            points: quart.points.iter().map(in_cup).collect::<Result<_, Error>>()?,
        };
        Ok([cup, quart, pail(Generic::FiveGallon)?])
    }

    /// Pot life in a five-gallon pail over a square grid of temperatures, 5 to 40 °C, and masses,
    /// 0.5 to 15 kg: a row a temperature, coldest first, lightest first in each.
    ///
    /// ```
    /// use pailwise_calc::demo;
    /// let grid = demo::base().unwrap().pot_life_grid(8).unwrap();
    /// assert!(grid[0][0] > grid[7][7]);
    /// ```
    ///
    /// # Errors
    /// As [`Product::pail`].
    pub fn pot_life_grid(&self, side: u32) -> Result<Vec<Vec<Time>>, Error> {
        let vessel = Generic::FiveGallon.vessel();
        let at = |low: f64, high: f64, i: u32| {
            low + (high - low) * f64::from(i) / f64::from(side.max(2) - 1)
        };
        let life = |row: u32, column: u32| {
            let temperature = celsius(at(5.0, 40.0, row));
            let mass = Mass::new::<unit::kilogram>(at(0.5, 15.0, column));
            self.pail(mass, &vessel, temperature, temperature)?.pot_life()
        };
        (0..side).map(|row| (0..side).map(|column| life(row, column)).collect()).collect()
    }
}
