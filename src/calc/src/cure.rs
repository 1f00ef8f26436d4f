//! How fast the resin cures.
//!
//! The rate is the autocatalytic amine–epoxy form of Horie, Hiura, Sawada, Mita and Kambe
//! (J. Polym. Sci. A-1, 8 (1970) 1357), with `α` the conversion of the limiting side:
//!
//! ```text
//! dα/dt = k(T) · (κ + α)(1 − α)(B − α)
//! ```
//!
//! `k(T)` follows Arrhenius in pieces, [`Rate`]. `B` is the reactive balance (1 = stoichiometric) and `κ` the ratio of the uncatalysed to the
//! autocatalysed rate. A large `κ` leaves plain second order, which serves urethane and aspartic.
//! Over one pail at one temperature the time between two conversions has a closed form,
//! [`Kinetics::progress`].

mod rate;

use serde::{Deserialize, Serialize};

use crate::quantity::{
    AvailableEnergy, Frequency, MolarEnergy, SpecificHeatCapacity, ThermodynamicTemperature,
    celsius, unit,
};
pub use rate::{Beyond, Rate};

/// Molar gas constant, J/(mol·K): exact since the SI of 2019 (BIPM SI Brochure, 9th edition).
pub const GAS_CONSTANT: f64 = 8.314_462_618_153_24;

/// The temperature at which a rate constant is stated that holds for none in particular.
pub fn reference_temperature() -> ThermodynamicTemperature {
    celsius(25.0)
}

/// The family a product belongs to, which decides the constants a data sheet leaves out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Chemistry {
    /// Epoxy resin with an amine hardener.
    AmineEpoxy,
    /// Polyol with an isocyanate.
    Urethane,
    /// Polyaspartic ester with an isocyanate.
    Aspartic,
}

/// Constants of a chemistry: typical, from memory, to be overridden by a product's own.
///
/// Published amine–epoxy activation energies run 44 to 60 kJ/mol (Barral et al., J. Appl. Polym.
/// Sci. 56 (1995) 1029; Sbirrazzuoli et al., Thermochim. Acta 447 (2006) 167); pot lives of data
/// sheets give anything from 13 up, so one energy is not safe both ways (see [`Beyond`]).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Typical {
    /// How pot life changes beyond the one temperature of a sheet: 27 kJ/mol to the cold, from
    /// published hardeners whose gel time in the cold is known too; less for aspartic, of which one
    /// sheet has 25 min at 70 °F and 20 at 90; 60 to the heat.
    pub beyond: Beyond,
    /// `κ`: uncatalysed over autocatalysed rate.
    pub kappa: f64,
    /// The conversion that ends a pot life. With `κ` and the heat that a cup loses
    /// ([`crate::calibrate::bench_cup`]) by the joint fit over published figures
    /// (`tests/reference/FIT.md`): of an epoxy nearly its gel point; of second order, which serves
    /// the other two, the fit's own for that.
    pub end: f64,
    /// Heat of reaction of the pigmented mix.
    pub heat_of_reaction: AvailableEnergy,
    /// Heat capacity of the mix.
    pub heat_capacity: SpecificHeatCapacity,
    /// Reactive groups on a molecule of each part, for the gel point.
    pub functionality: (f64, f64),
}

impl Chemistry {
    /// Every chemistry, in the order in which the product form offers them.
    pub const ALL: [Self; 3] = [Self::AmineEpoxy, Self::Urethane, Self::Aspartic];

    /// Whether its film cures by the water of the air too.
    pub fn minds_damp(self) -> bool {
        matches!(self, Self::Urethane | Self::Aspartic)
    }

    /// The typical constants.
    ///
    /// ```
    /// use pailwise_calc::{cure::Chemistry, quantity::unit};
    /// let epoxy = Chemistry::AmineEpoxy.typical();
    /// assert_eq!(epoxy.beyond.warm.get::<unit::kilojoule_per_mole>(), 60.0);
    /// ```
    pub fn typical(self) -> Typical {
        let (cold, kappa, end, heat, functionality) = match self {
            Self::AmineEpoxy => (27.0, 0.1, 0.55, 300.0, (2.0, 4.0)),
            Self::Urethane => (27.0, 1000.0, 0.3, 180.0, (3.0, 3.0)),
            Self::Aspartic => (15.0, 1000.0, 0.3, 180.0, (2.0, 3.0)),
        };
        Typical {
            beyond: Beyond::kilojoules(cold, 60.0),
            kappa,
            end,
            heat_of_reaction: AvailableEnergy::new::<unit::joule_per_gram>(heat),
            heat_capacity: SpecificHeatCapacity::new::<unit::joule_per_kilogram_kelvin>(1900.0),
            functionality,
        }
    }
}

/// How many times faster a reaction runs at `temperature` than at `reference`.
///
/// `exp(−Ea/R · (1/T − 1/T_ref))`, Arrhenius.
///
/// ```
/// use pailwise_calc::{cure::arrhenius, quantity::{celsius, MolarEnergy, unit}};
/// // The rule of thumb: twice as fast at 35 °C as at 25 °C means Ea = 52.95 kJ/mol.
/// let ea = MolarEnergy::new::<unit::kilojoule_per_mole>(52.95);
/// assert!((arrhenius(ea, celsius(35.0), celsius(25.0)) - 2.0).abs() < 1e-3);
/// ```
pub fn arrhenius(
    activation_energy: MolarEnergy,
    temperature: ThermodynamicTemperature,
    reference: ThermodynamicTemperature,
) -> f64 {
    (activation_energy.value / GAS_CONSTANT * (1.0 / reference.value - 1.0 / temperature.value))
        .exp()
}

/// The cure of one product: everything that decides how fast it goes at a temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kinetics {
    /// The rate constant at every temperature.
    pub rate: Rate,
    /// `κ`, uncatalysed over autocatalysed rate: above 0, without a unit.
    pub kappa: f64,
    /// `B`, reactive groups of the second side per group of the first; 1 is on ratio.
    pub balance: f64,
    /// The conversion that ends its pot life.
    pub end: f64,
}

impl Kinetics {
    /// The rate constant at a temperature.
    pub fn k(&self, temperature: ThermodynamicTemperature) -> Frequency {
        self.rate.at(temperature)
    }

    /// `(κ + α)(1 − α)(B − α)`: the rate at a conversion, as a multiple of `k`.
    pub fn shape(&self, conversion: f64) -> f64 {
        (self.kappa + conversion) * (1.0 - conversion) * (self.balance - conversion)
    }

    /// The conversion that the short side allows, and that is never quite reached.
    pub fn ceiling(&self) -> f64 {
        self.balance.min(1.0)
    }

    /// Reduced time `F(α) = k·t` to reach a conversion from fresh at one temperature.
    ///
    /// The integral of `1 / ((κ + α)(1 − α)(B − α))` from 0, by partial fractions, with
    /// `δ = B − 1`, `y = α / ((1 − α)·B)` and `X = (κ + α) / ((1 − α)·κ)`:
    ///
    /// ```text
    /// F = [ (κ + 1)·ln(1 + δ·y)/δ + ln X ] / ((κ + 1)(κ + B))
    /// ```
    ///
    /// Written so, `B = 1` is the limit `ln(1 + δ·y)/δ → y` and nothing cancels near it.
    /// Range: `α` from 0 to just under [`Kinetics::ceiling`]; outside, infinite.
    ///
    /// ```
    /// use pailwise_calc::{cure::{Kinetics, Rate}, quantity::{Frequency, MolarEnergy, unit}};
    /// let energy = MolarEnergy::new::<unit::kilojoule_per_mole>(53.0);
    /// let cure = Kinetics {
    ///     rate: Rate::single(Frequency::new::<unit::hertz>(1.0), energy),
    ///     kappa: 0.1,
    ///     balance: 1.0,
    ///     end: 0.55,
    /// };
    /// // scipy.integrate.quad(lambda a: 1/((0.1+a)*(1-a)**2), 0, 0.2)
    /// assert!((cure.progress(0.2) - 1.319_632_925_605_222_6).abs() < 1e-12);
    /// ```
    pub fn progress(&self, conversion: f64) -> f64 {
        if conversion <= 0.0 {
            return 0.0;
        }
        if conversion >= self.ceiling() {
            return f64::INFINITY;
        }
        let (kappa, balance, delta) = (self.kappa, self.balance, self.balance - 1.0);
        let y = conversion / ((1.0 - conversion) * balance);
        let spread = if (delta * y).abs() < 1e-9 {
            y * (1.0 - 0.5 * delta * y)
        } else {
            (delta * y).ln_1p() / delta
        };
        let x_less_one = conversion * (1.0 + kappa) / ((1.0 - conversion) * kappa);
        ((kappa + 1.0) * spread + x_less_one.ln_1p()) / ((kappa + 1.0) * (kappa + balance))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn cure(kappa: f64, balance: f64) -> Kinetics {
        let energy = MolarEnergy::new::<unit::kilojoule_per_mole>(53.0);
        let rate = Rate::single(Frequency::new::<unit::hertz>(1e-3), energy);
        Kinetics { rate, kappa, balance, end: 0.55 }
    }

    #[test]
    fn the_closed_form_has_the_rate_as_its_slope() {
        for kappa in [0.02, 0.1, 1.0, 1000.0] {
            for balance in [0.7, 0.999_999, 1.0, 1.000_1, 1.5] {
                let c = cure(kappa, balance);
                for alpha in [0.05, 0.3, 0.6] {
                    let h = 1e-5;
                    let slope = (c.progress(alpha + h) - c.progress(alpha - h)) / (2.0 * h);
                    assert_relative_eq!(slope, 1.0 / c.shape(alpha), max_relative = 1e-6);
                }
            }
        }
    }
}
