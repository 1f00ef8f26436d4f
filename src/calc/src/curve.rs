//! Pot life against temperature, as a curve to draw.

use crate::error::Error;
use crate::pail::laboratory_cup;
use crate::product::Product;
use crate::quantity::{Mass, ThermodynamicTemperature, Time, Volume, celsius};
use crate::vessel::{Generic, Vessel};

/// Pot life of one filled vessel against temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct PotLifeCurve {
    /// How much is in it.
    pub volume: Volume,
    /// Temperature of material and air alike, and the pot life there; coldest first.
    pub points: Vec<(ThermodynamicTemperature, Time)>,
}

impl Product {
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

    /// The curves of three sizes far enough apart to see: the laboratory cup in which pot life is
    /// measured, a five-quart and a five-gallon pail, the pails as full as a drill allows; between
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
        let cup = laboratory_cup() / self.ratio().density();
        let curve = |vessel: Vessel, volume| self.pot_life_curve(&vessel, volume, between, steps);
        let pail = |generic: Generic| {
            let vessel = generic.vessel();
            curve(vessel, vessel.working_capacity())
        };
        Ok([
            curve(Vessel::compact(cup), cup)?,
            pail(Generic::FiveQuart)?,
            pail(Generic::FiveGallon)?,
        ])
    }
}
