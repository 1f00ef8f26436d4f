//! How long the rolled film still takes flake.
//!
//! A film on concrete is at the temperature of the slab. The data sheet's open time `t_o` at
//! `T_o` is turned into reduced time, `F_o = k(T_o)·t_o`; a patch that stood in the pail until
//! conversion `α_p` has `(F_o − F(α_p)) / k(T_slab)` left, or nothing.
//!
//! With no open time on the sheet, pot life stands in for it: a film reacts more slowly than a
//! pail, but its surface skins over, so it is never taken to last longer.

use crate::conditions::Drift;
use crate::cure::Kinetics;
use crate::error::Error;
use crate::field::Field;
use crate::quantity::{ThermodynamicTemperature, Time, unit};

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

    /// As [`Film::left`], on a slab whose temperature drifts.
    ///
    /// Solves `∫ k(T(t)) dt = F_o − F(α_p)` by Simpson's rule in steps of at most five minutes.
    /// Looks two days ahead; a film that would stay open longer is said to close then, the safe
    /// side.
    ///
    /// ```
    /// use pailwise_calc::{conditions::Drift, demo};
    /// use pailwise_calc::quantity::{celsius, TemperatureInterval, unit};
    /// let film = demo::base().unwrap().film();
    /// let warming = Drift {
    ///     start: celsius(20.0),
    ///     per_hour: TemperatureInterval::new::<unit::celsius_change>(4.0),
    /// };
    /// assert!(film.left_on(0.0, warming) < film.left(0.0, celsius(20.0)));
    /// ```
    pub fn left_on(&self, conversion: f64, slab: Drift) -> Time {
        const STEP: f64 = 300.0;
        const LONGEST: f64 = 48.0 * 3600.0;
        let rate = |t: f64| self.kinetics.k(slab.after(Time::new::<unit::second>(t))).value;
        let lived = |from: f64, for_: f64| {
            for_ / 6.0 * (rate(from) + 4.0 * rate(from + 0.5 * for_) + rate(from + for_))
        };
        let mut left = (self.closes - self.kinetics.progress(conversion)).max(0.0);
        let mut t = 0.0;
        while t < LONGEST {
            let whole = lived(t, STEP);
            if whole >= left {
                // The last step is short enough for Newton's method from its start.
                let mut part = STEP * left / whole;
                for _ in 0..20 {
                    let off = lived(t, part) - left;
                    part = (part - off / rate(t + part)).clamp(0.0, STEP);
                    if off.abs() <= 1e-13 * self.closes {
                        break;
                    }
                }
                return Time::new::<unit::second>(t + part);
            }
            left -= whole;
            t += STEP;
        }
        Time::new::<unit::second>(LONGEST)
    }
}
