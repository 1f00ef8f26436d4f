//! How long a pail of mixed resin stays usable, and how hot it gets if it is left.
//!
//! The pail is taken as well stirred (it stirs itself until it gels) and follows
//!
//! ```text
//! dα/dt = k(T)·(κ + α)(1 − α)(B − α)
//! dT/dt = (H/cp)·dα/dt − U·S/(m·cp)·(T − T_air)
//! ```
//!
//! `U` is the heat lost from the outside, about 10 W/(m²·K): free convection 3 to 5 (Churchill &
//! Chu, Int. J. Heat Mass Transfer 18 (1975) 1323) plus grey radiation 6.
//! Conversion always advances, so the equations are walked along `α` instead of `t`: reaching a
//! given conversion then needs no search.
//!
//! Two doubts go to the safe side. No pail is taken to cool better than the laboratory cup in
//! which pot life is measured. And a pail colder than the air is taken to warm as fast as that
//! cup, however large it is, so that more mass never looks like more time.

mod curing;
mod walk;

use crate::cure::Kinetics;
use crate::error::Error;
use crate::quantity::{
    AvailableEnergy, Frequency, HeatTransfer, Mass, MassDensity, SpecificHeatCapacity,
    TemperatureInterval, ThermodynamicTemperature, Time, unit,
};
use crate::vessel::Vessel;
pub use curing::CuringPail;
use walk::{between, cubic};

/// Mass of a laboratory cup, taken where a data sheet names none: the smallest that is usual, since
/// a larger sample would mean a slower resin.
pub fn laboratory_cup() -> Mass {
    Mass::new::<unit::kilogram>(0.10)
}

/// How far a mix would heat itself if it lost nothing: `H/cp`.
pub(crate) fn heat_rise(thermal: &Thermal) -> TemperatureInterval {
    TemperatureInterval::new::<unit::kelvin_change>(
        thermal.heat_of_reaction.value / thermal.heat_capacity.value,
    )
}

/// Heat lost from the outside of a pail in still air.
pub fn still_air() -> HeatTransfer {
    HeatTransfer::new::<unit::watt_per_square_meter_kelvin>(10.0)
}

/// A pail that is so much warmer than when A met B is to be poured out, whatever the clock says.
///
/// It is at 0.6 to 0.9 of its true pot life over every set of constants and every pace that was
/// tried (`tests/hidden.rs`), since it is its own heat that ends it. Trade glossaries go by a
/// thermometer in the pail too.
pub fn warm_enough() -> TemperatureInterval {
    TemperatureInterval::new::<unit::kelvin_change>(15.0)
}

/// What a mix does with its heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thermal {
    /// Heat of reaction `H` of the mix.
    pub heat_of_reaction: AvailableEnergy,
    /// Heat capacity `cp` of the mix.
    pub heat_capacity: SpecificHeatCapacity,
    /// Density of the mix.
    pub density: MassDensity,
    /// Rate of heat loss through the pail's surface, per area and kelvin (`U`).
    pub heat_loss: HeatTransfer,
}

/// A mass of mixed resin standing in a vessel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pail {
    /// How fast the mix reacts, and the conversion that ends its pot life.
    pub kinetics: Kinetics,
    /// `H/cp`: how far it would heat itself if it lost nothing.
    pub rise: TemperatureInterval,
    /// `U·S/(m·cp)` while it is warmer than the air.
    pub cooling: Frequency,
    /// `U·S/(m·cp)` while it is colder than the air.
    pub warming: Frequency,
    /// Temperature of the material when A meets B.
    pub material: ThermodynamicTemperature,
    /// Temperature of the air around it.
    pub air: ThermodynamicTemperature,
    /// Colder than its sheet knows it, it is held to what the sheet knows
    /// ([`crate::product::Product::pail`]).
    pub cold: Option<Cold>,
}

/// What a pail is held to that is colder than its sheet knows: at no moment further behind than the
/// same pail begun so much warmer, in air so much warmer, so many times as slow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cold {
    /// How much warmer that one begins.
    pub begins_warmer: TemperatureInterval,
    /// How much warmer its air is.
    pub in_warmer: TemperatureInterval,
    /// So many times as long it takes for everything.
    pub longer: f64,
}

/// The hottest the pail gets, and when.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// The highest temperature the pail reaches.
    pub temperature: ThermodynamicTemperature,
    /// How long after A met B.
    pub after: Time,
}

impl Pail {
    /// A mass of a mix in a vessel.
    ///
    /// # Errors
    /// [`Error::DoesNotFit`] when the vessel does not hold it.
    pub fn new(
        kinetics: Kinetics,
        thermal: &Thermal,
        mass: Mass,
        vessel: &Vessel,
        material: ThermodynamicTemperature,
        air: ThermodynamicTemperature,
    ) -> Result<Self, Error> {
        let rate = |mass: Mass, vessel: &Vessel| -> Result<Frequency, Error> {
            let surface = vessel.outside_surface(mass / thermal.density)?;
            Ok(thermal.heat_loss * surface / (mass * thermal.heat_capacity))
        };
        let cup = laboratory_cup();
        let cup_rate = rate(cup, &Vessel::compact(cup / thermal.density))?;
        let own_rate = rate(mass, vessel)?;
        Ok(Self {
            kinetics,
            rise: heat_rise(thermal),
            cooling: own_rate.min(cup_rate),
            warming: cup_rate,
            material,
            air,
            cold: None,
        })
    }

    /// The pail that one colder than its sheet is held to.
    fn held_to(&self) -> Option<Self> {
        let Cold { begins_warmer, in_warmer, longer } = self.cold?;
        let mut held = *self;
        held.kinetics.rate = held.kinetics.rate.times(1.0 / longer);
        held.cooling /= longer;
        held.warming /= longer;
        held.material += begins_warmer;
        held.air += in_warmer;
        held.cold = None;
        Some(held)
    }

    /// How much warmer the pail begins that it is held to.
    fn begins_warmer(&self) -> f64 {
        self.cold.map_or(0.0, |cold| cold.begins_warmer.value)
    }

    /// How long it stays usable: until the conversion that ends it.
    ///
    /// ```
    /// use pailwise_calc::{cure::Chemistry, demo, pail::Pail, vessel::Generic};
    /// use pailwise_calc::quantity::{celsius, Mass, unit};
    /// let base = demo::base().unwrap();
    /// let pail = |kg| {
    ///     let mass = Mass::new::<unit::kilogram>(kg);
    ///     base.pail(mass, &Generic::FiveGallon.vessel(), celsius(25.0), celsius(25.0)).unwrap()
    /// };
    /// // ISO 9514 and ASTM D2471: the more is mixed, the shorter it lasts.
    /// assert!(pail(10.0).pot_life().unwrap() < pail(2.0).pot_life().unwrap());
    /// ```
    ///
    /// # Errors
    /// [`Error::NoSolution`] if the walk did not settle, which no input in range is known to cause.
    pub fn pot_life(&self) -> Result<Time, Error> {
        self.time_to(self.kinetics.end)
    }

    /// How long until a conversion is reached, such as the gel point of [`crate::stoichiometry::gel`].
    ///
    /// # Errors
    /// As [`Pail::pot_life`].
    pub fn time_to(&self, conversion: f64) -> Result<Time, Error> {
        let time = |pail: &Self| -> Result<Time, Error> {
            Ok(Time::new::<unit::second>(pail.walk(conversion, |_, _| false)?.state[0]))
        };
        let own = time(self)?;
        Ok(match self.held_to() {
            Some(held) => own.min(time(&held)?),
            None => own,
        })
    }

    /// The pail from A meets B to the end of its pot life, for asking what it is at a moment.
    ///
    /// # Errors
    /// As [`Pail::pot_life`].
    pub fn stand(&self) -> Result<CuringPail, Error> {
        let nodes = |pail: &Self| -> Result<Vec<walk::Node>, Error> {
            let mut nodes = Vec::with_capacity(24);
            let end = pail.walk(pail.kinetics.end, |before, _| {
                nodes.push(*before);
                false
            })?;
            nodes.push(end);
            Ok(nodes)
        };
        Ok(CuringPail {
            nodes: nodes(self)?,
            held: self.held_to().map(|held| nodes(&held)).transpose()?,
            begins_warmer: self.begins_warmer(),
        })
    }

    /// The hottest it gets if it is left standing, and when.
    ///
    /// The temperature of a pail rises at most once (the shape of the rate is log-concave), so
    /// the first summit is the highest. A pail that only cools is hottest when A meets B.
    ///
    /// # Errors
    /// As [`Pail::pot_life`].
    pub fn peak(&self) -> Result<Peak, Error> {
        let own = self.own_peak()?;
        let Some(held) = self.held_to() else { return Ok(own) };
        let held = held.own_peak()?;
        let hotter = if held.temperature > own.temperature { held } else { own };
        Ok(Peak { after: own.after.min(held.after), ..hotter })
    }

    /// As [`Pail::peak`], without what it is held to.
    fn own_peak(&self) -> Result<Peak, Error> {
        let mut summit = None;
        let mut hottest = [0.0, self.material.value];
        let last = 0.999 * self.kinetics.ceiling();
        let end = self.walk(last, |before, after| {
            if before.slope[1] > 0.0 && after.slope[1] <= 0.0 {
                summit = Some(between(before, after));
            }
            if after.state[1] > hottest[1] {
                hottest = after.state;
            }
            // While the rate falls of itself, a pail that cools never rises again, and one that
            // holds next to its air's temperature has no summit worth finding.
            let fading =
                self.kinetics.shape(after.conversion) < self.kinetics.shape(before.conversion);
            let holds = self.rise.value / after.slope[0] / self.cooling.value;
            let level = holds < 0.01 && (after.state[1] - self.air.value).abs() < 0.01;
            summit.is_some() || (fading && (after.slope[1] <= 0.0 || level))
        })?;
        let [after, hottest] = match summit {
            Some(state) => state,
            // Still rising at the end: what is left to react goes into heat.
            None if end.conversion >= last && end.slope[1] > 0.0 => {
                [end.state[0], end.state[1] + self.rise.value * (self.kinetics.ceiling() - last)]
            }
            None => hottest,
        };
        // A pail warmer than its air may be hottest at the start.
        let (hottest, after) = if self.material.value >= hottest {
            (self.material.value, 0.0)
        } else {
            (hottest, after)
        };
        Ok(Peak {
            temperature: ThermodynamicTemperature::new::<unit::kelvin>(hottest),
            after: Time::new::<unit::second>(after),
        })
    }

    /// The temperature of the pail while it is left standing, from A meets B until it has cooled
    /// off a quarter of the way from its summit, or for six hours where it never gets warm.
    ///
    /// For drawing: points close enough together that straight lines between them look smooth.
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::{celsius, Mass, unit}, vessel::Generic};
    /// let vessel = Generic::FiveGallon.vessel();
    /// let mass = Mass::new::<unit::kilogram>(8.0);
    /// let pail = demo::base().unwrap().pail(mass, &vessel, celsius(25.0), celsius(25.0)).unwrap();
    /// let curve = pail.heat_curve().unwrap();
    /// let hottest = curve.iter().map(|(_, t)| t.value).fold(0.0, f64::max);
    /// assert!((hottest - pail.peak().unwrap().temperature.value).abs() < 0.5);
    /// ```
    ///
    /// # Errors
    /// As [`Pail::pot_life`].
    pub fn heat_curve(&self) -> Result<Vec<(Time, ThermodynamicTemperature)>, Error> {
        const BETWEEN: u32 = 4;
        const LONGEST: f64 = 6.0 * 3600.0;
        // Of the two, the one that goes first; drawn from the temperature it really begins at.
        if let Some(held) = self.held_to() {
            let alone = Self { cold: None, ..*self };
            if alone.pot_life()? <= held.pot_life()? {
                return alone.heat_curve();
            }
            let down = self.begins_warmer();
            let lower = |(t, temperature): (Time, ThermodynamicTemperature)| {
                (t, ThermodynamicTemperature::new::<unit::kelvin>(temperature.value - down))
            };
            return Ok(held.heat_curve()?.into_iter().map(lower).collect());
        }
        let point = |[t, temperature]: [f64; 2]| {
            (
                Time::new::<unit::second>(t),
                ThermodynamicTemperature::new::<unit::kelvin>(temperature),
            )
        };
        let mut curve = Vec::with_capacity(128);
        let mut hottest = self.material.value;
        let end = self.walk(0.998 * self.kinetics.ceiling(), |before, after| {
            let shares = (0..BETWEEN).map(|i| f64::from(i) / f64::from(BETWEEN));
            curve.extend(shares.map(|share| point(cubic(before, after, share))));
            hottest = hottest.max(after.state[1]);
            let cooled = after.state[1] < hottest - 0.25 * (hottest - self.air.value).max(1.0);
            let warmed = hottest > self.material.value + 1.0;
            (warmed && cooled) || after.state[0] > LONGEST
        })?;
        curve.push(point(end.state));
        Ok(curve)
    }

    /// The hottest it could get if it lost no heat at all: what the core of a big pail does.
    ///
    /// `T + H/cp` times the share that can react.
    pub fn adiabatic_bound(&self) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<unit::kelvin>(
            self.material.value + self.rise.value * self.kinetics.ceiling(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cure::Rate;
    use crate::quantity::{MolarEnergy, celsius};
    use approx::{assert_abs_diff_eq, assert_relative_eq};

    fn pail(cooling: f64, rise: f64) -> Pail {
        Pail {
            kinetics: Kinetics {
                rate: Rate::single(
                    Frequency::new::<unit::hertz>(5e-4),
                    MolarEnergy::new::<unit::kilojoule_per_mole>(53.0),
                ),
                kappa: 0.1,
                balance: 1.0,
                end: 0.2,
            },
            rise: TemperatureInterval::new::<unit::kelvin_change>(rise),
            cooling: Frequency::new::<unit::hertz>(cooling),
            warming: Frequency::new::<unit::hertz>(cooling),
            material: celsius(25.0),
            air: celsius(25.0),
            cold: None,
        }
    }

    #[test]
    fn without_heat_it_is_the_closed_form() {
        let cold = pail(1e-4, 0.0);
        let kinetics = cold.kinetics;
        let exact = kinetics.progress(kinetics.end) / kinetics.k(celsius(25.0));
        assert_relative_eq!(cold.pot_life().unwrap().value, exact.value, max_relative = 1e-7);
        assert_eq!(cold.peak().unwrap().temperature, celsius(25.0));
    }

    #[test]
    fn without_loss_all_heat_stays() {
        let hot = pail(0.0, 150.0);
        assert_relative_eq!(
            hot.peak().unwrap().temperature.value,
            hot.adiabatic_bound().value,
            max_relative = 1e-6
        );
    }

    #[test]
    fn a_moment_in_the_pail_agrees_with_the_way_there() {
        let p = pail(1e-4, 150.0);
        let stand = p.stand().unwrap();
        for conversion in [0.03, 0.1, 0.17] {
            let time = p.time_to(conversion).unwrap();
            assert_abs_diff_eq!(stand.conversion_at(time), conversion, epsilon = 5e-6);
        }
        assert_eq!(stand.conversion_at(stand.pot_life() * 2.0), p.kinetics.end);
    }
}
