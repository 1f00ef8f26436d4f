//! How long the rolled film still takes flake.
//!
//! A film on concrete is at the temperature of the slab. The data sheet's open time `t_o` at
//! `T_o` is turned into reduced time, `F_o = k(T_o)·t_o`; a patch that stood in the pail until
//! conversion `α_p` has `(F_o − F(α_p)) / k(T_slab)` left, or nothing.
//!
//! With no open time on the sheet, pot life stands in for it: a film reacts more slowly than a
//! pail, but its surface skins over, so it is never taken to last longer.

use crate::cure::Kinetics;
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{ThermodynamicTemperature, Time};

/// One open time as a data sheet prints it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenTimePoint {
    /// How long the film takes flake.
    pub time: Time,
    /// Temperature of the film.
    pub temperature: ThermodynamicTemperature,
}

/// The film of one product.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Film {
    kinetics: Kinetics,
    /// Reduced time at which the film closes.
    closes: f64,
}

impl Film {
    /// The film from the sheet's open times; of several, the one that closes first holds.
    ///
    /// # Errors
    /// [`Error::Missing`] without a point, [`Error::OutOfRange`] for one outside its range.
    pub fn new(kinetics: Kinetics, points: &[OpenTimePoint]) -> Result<Self, Error> {
        let mut closes: Option<f64> = None;
        for point in points {
            Field::OpenTime.check(point.time)?;
            Field::OpenTimeTemperature.check(point.temperature)?;
            let reduced = kinetics.k(point.temperature).value * point.time.value;
            closes = Some(closes.map_or(reduced, |least| least.min(reduced)));
        }
        let closes = closes.ok_or(Error::Missing { field: Field::OpenTime })?;
        Ok(Self { kinetics, closes })
    }

    /// How long a patch stays open on the slab, having reached `conversion` in the pail.
    ///
    /// ```
    /// use pailwise_calc::{cure::Kinetics, film::*};
    /// use pailwise_calc::quantity::{celsius, minutes, Frequency, MolarEnergy, unit};
    /// let cure = Kinetics {
    ///     k_ref: Frequency::new::<unit::hertz>(5e-4),
    ///     activation_energy: MolarEnergy::new::<unit::joule_per_mole>(52_950.0),
    ///     kappa: 0.1,
    ///     balance: 1.0,
    /// };
    /// let sheet = OpenTimePoint { time: minutes(40.0), temperature: celsius(25.0) };
    /// let film = Film::new(cure, &[sheet]).unwrap();
    /// // Poured at once: the sheet's own time at 25 °C, half of it at 35 °C (the halving rule).
    /// assert!((film.left(0.0, celsius(25.0)) - minutes(40.0)).value.abs() < 1e-6);
    /// assert!((film.left(0.0, celsius(35.0)) - minutes(20.0)).value.abs() < 1.0);
    /// ```
    pub fn left(&self, conversion: f64, slab: ThermodynamicTemperature) -> Time {
        self.spare(conversion, slab).max(Time::default())
    }

    /// As [`Film::left`], and below zero for what has closed already.
    pub(crate) fn spare(&self, conversion: f64, slab: ThermodynamicTemperature) -> Time {
        (self.closes - self.kinetics.progress(conversion)) / self.kinetics.k(slab)
    }
}
