//! How fast the resin cures.
//!
//! The rate is the autocatalytic amine–epoxy form of Horie, Hiura, Sawada, Mita and Kambe
//! (J. Polym. Sci. A-1, 8 (1970) 1357), with `α` the conversion of the limiting side:
//!
//! ```text
//! dα/dt = k(T) · (κ + α)(1 − α)(B − α)
//! k(T)  = k_ref · exp(−Ea/R · (1/T − 1/T_ref))
//! ```
//!
//! `B` is the reactive balance (1 = stoichiometric) and `κ` the ratio of the uncatalysed to the
//! autocatalysed rate. A large `κ` leaves plain second order, which serves urethane and aspartic.
//! Over one pail at one temperature the time between two conversions has a closed form,
//! [`Kinetics::progress`].

use serde::{Deserialize, Serialize};

use crate::quantity::{
    AvailableEnergy, Frequency, MolarEnergy, SpecificHeatCapacity, ThermodynamicTemperature,
    celsius, unit,
};

/// Molar gas constant, J/(mol·K): exact since the SI of 2019 (BIPM SI Brochure, 9th edition).
pub const GAS_CONSTANT: f64 = 8.314_462_618_153_24;

/// The conversion called the end of pot life.
///
/// A convention of this crate: calibration absorbs it, so that halving or doubling it moves the
/// answers by little (`tests/hidden.rs`).
pub const END_OF_POT_LIFE: f64 = 0.20;

/// The temperature at which `k_ref` is stated.
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
/// The epoxy activation energy is what "halves for each 10 °C" means between 25 and 35 °C;
/// published amine–epoxy values run 44 to 60 kJ/mol (Barral et al., J. Appl. Polym. Sci. 56
/// (1995) 1029; Sbirrazzuoli et al., Thermochim. Acta 447 (2006) 167).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Typical {
    /// Activation energy `Ea`.
    pub activation_energy: MolarEnergy,
    /// `κ`: uncatalysed over autocatalysed rate.
    pub kappa: f64,
    /// Heat of reaction of the pigmented mix.
    pub heat_of_reaction: AvailableEnergy,
    /// Heat capacity of the mix.
    pub heat_capacity: SpecificHeatCapacity,
    /// Reactive groups on a molecule of each part, for the gel point.
    pub functionality: (f64, f64),
}

impl Chemistry {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::AmineEpoxy, Self::Urethane, Self::Aspartic];

    /// The typical constants.
    ///
    /// ```
    /// use pailwise_calc::{cure::Chemistry, quantity::unit};
    /// let epoxy = Chemistry::AmineEpoxy.typical();
    /// assert_eq!(epoxy.activation_energy.get::<unit::kilojoule_per_mole>(), 53.0);
    /// ```
    pub fn typical(self) -> Typical {
        let (ea, kappa, heat, functionality) = match self {
            Self::AmineEpoxy => (53.0, 0.1, 300.0, (2.0, 4.0)),
            Self::Urethane => (53.0, 1000.0, 180.0, (3.0, 3.0)),
            Self::Aspartic => (48.0, 1000.0, 180.0, (2.0, 3.0)),
        };
        Typical {
            activation_energy: MolarEnergy::new::<unit::kilojoule_per_mole>(ea),
            kappa,
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
    /// Rate constant at [`reference_temperature`].
    pub k_ref: Frequency,
    /// Activation energy `Ea`.
    pub activation_energy: MolarEnergy,
    /// `κ`, above 0.
    pub kappa: f64,
    /// `B`, reactive groups of the second side per group of the first; 1 is on ratio.
    pub balance: f64,
}

impl Kinetics {
    /// The rate constant at a temperature.
    pub fn k(&self, temperature: ThermodynamicTemperature) -> Frequency {
        self.k_ref * arrhenius(self.activation_energy, temperature, reference_temperature())
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
    /// use pailwise_calc::{cure::Kinetics, quantity::{Frequency, MolarEnergy, unit}};
    /// let cure = Kinetics {
    ///     k_ref: Frequency::new::<unit::hertz>(1.0),
    ///     activation_energy: MolarEnergy::new::<unit::kilojoule_per_mole>(53.0),
    ///     kappa: 0.1,
    ///     balance: 1.0,
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
        Kinetics {
            k_ref: Frequency::new::<unit::hertz>(1e-3),
            activation_energy: MolarEnergy::new::<unit::kilojoule_per_mole>(53.0),
            kappa,
            balance,
        }
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
