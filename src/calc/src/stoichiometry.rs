//! Whether two sides react up, and what an off-ratio pail leaves.
//!
//! A data sheet may give how many grams of each part carry one mole of its reactive groups: the
//! epoxide equivalent weight (EEW) of A and the amine hydrogen equivalent weight (AHEW) of B, or
//! in the same way for a polyol and an isocyanate. Then
//!
//! ```text
//! phr = 100 · AHEW / EEW                     parts of B by weight for 100 of A, in balance
//! β   = (m_B / AHEW) / (m_A / EEW)           groups of B for each group of A
//! left over: 1 − 1/β of B's groups (β > 1)   or 1 − β of A's (β < 1)
//! gels at α_A = √(β / ((f − 1)(g − 1)))      or never, when the short side runs out first
//! ```
//!
//! Sources: H. Lee & K. Neville, *Handbook of Epoxy Resins*, 1967 (from memory); P. J. Flory,
//! *Principles of Polymer Chemistry*, 1953; W. H. Stockmayer, J. Chem. Phys. 11 (1943) 45.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::Mass;

/// How many grams of each part carry one mole of reactive groups.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EquivalentWeights {
    a: f64,
    b: f64,
}

/// One side of the reaction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Part A: epoxide, or polyol.
    A,
    /// Part B: amine, or isocyanate.
    B,
}

/// What stays unreacted, however long it cures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unreacted {
    /// The side of the reaction that has groups left over.
    pub side: Side,
    /// The share of that side's groups.
    pub share: f64,
}

impl EquivalentWeights {
    /// From a data sheet, in grams a mole of groups.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::NotANumber`] outside 10 to 10 000.
    pub fn new(a: f64, b: f64) -> Result<Self, Error> {
        Field::EquivalentWeight.check(a)?;
        Field::EquivalentWeight.check(b)?;
        Ok(Self { a, b })
    }

    /// Of part A, g/mol.
    pub fn a(&self) -> f64 {
        self.a
    }

    /// Of part B, g/mol.
    pub fn b(&self) -> f64 {
        self.b
    }

    /// Parts of B by weight for 100 of A when both sides react up.
    ///
    /// ```
    /// use pailwise_calc::stoichiometry::EquivalentWeights;
    /// // Liquid resin of EEW 190 with DETA, 103.17 g/mol and five hydrogens: about 10.8 phr
    /// // (Lee & Neville, from memory).
    /// let deta = EquivalentWeights::new(190.0, 103.17 / 5.0).unwrap();
    /// assert!((deta.phr() - 10.8).abs() < 0.1);
    /// ```
    pub fn phr(&self) -> f64 {
        100.0 * self.b / self.a
    }

    /// `β`: groups of B for each group of A. `None` without any A.
    pub fn balance(&self, a: Mass, b: Mass) -> Option<f64> {
        (a.value > 0.0).then(|| (b.value / self.b) / (a.value / self.a))
    }
}

/// What a balance leaves unreacted for good; nothing when both sides react up.
///
/// ```
/// use pailwise_calc::stoichiometry::{Side, unreacted};
/// // A quarter too much hardener: 1 − 1/1.25 = 20 % of it never reacts.
/// let left = unreacted(1.25).unwrap();
/// assert!(left.side == Side::B && (left.share - 0.2).abs() < 1e-12);
/// assert_eq!(unreacted(1.0), None);
/// ```
pub fn unreacted(balance: f64) -> Option<Unreacted> {
    if balance > 1.0 {
        Some(Unreacted { side: Side::B, share: 1.0 - 1.0 / balance })
    } else if balance < 1.0 {
        Some(Unreacted { side: Side::A, share: 1.0 - balance.max(0.0) })
    } else {
        None
    }
}

/// The conversion of A's groups at which a mix gels, or `None` when the short side runs out first.
///
/// `√(β / ((f − 1)(g − 1)))` with `f` and `g` the groups on a molecule of A and of B (Flory,
/// Stockmayer). It never gels when that exceeds `min(1, β)`.
///
/// ```
/// use pailwise_calc::stoichiometry::gel;
/// // Difunctional epoxide, four amine hydrogens: 0.577 in balance; never below 1/3 or above 3.
/// assert!((gel(1.0, (2.0, 4.0)).unwrap() - 0.577).abs() < 1e-3);
/// assert_eq!((gel(0.33, (2.0, 4.0)), gel(3.01, (2.0, 4.0))), (None, None));
/// ```
pub fn gel(balance: f64, (f, g): (f64, f64)) -> Option<f64> {
    let gel = (balance / ((f - 1.0) * (g - 1.0))).sqrt();
    (gel < balance.min(1.0)).then_some(gel)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit;

    #[test]
    fn phr_of_b_to_a_is_in_balance() {
        let weights = EquivalentWeights::new(190.0, 24.4).unwrap();
        let kg = Mass::new::<unit::kilogram>;
        let balance = weights.balance(kg(100.0), kg(weights.phr())).unwrap();
        assert!((balance - 1.0).abs() < 1e-12);
        assert_eq!(weights.balance(kg(0.0), kg(1.0)), None);
    }

    #[test]
    fn what_is_left_and_what_reacts_are_all_of_it() {
        // One of each group meets; β = 0.5 leaves half of A, β = 2 half of B.
        for (balance, side) in [(0.5, Side::A), (2.0, Side::B)] {
            assert_eq!(unreacted(balance), Some(Unreacted { side, share: 0.5 }));
        }
    }
}
