//! The rate constant against temperature: straight pieces of `ln k` over `1/T`.
//!
//! One activation energy serves a whole range of temperatures only in a textbook. A data sheet
//! that prints several temperatures gives each neighbouring pair its own, and beyond the outermost
//! ones the safe slope is not the same both ways: towards the cold a gentle one (it never promises
//! much more time), towards the heat a steep one (it never promises much of what is there).

use super::{GAS_CONSTANT, reference_temperature};
use crate::field::Field;
use crate::quantity::{Figure, Frequency, MolarEnergy, ThermodynamicTemperature, unit};

/// As many temperatures as a data sheet may have rows.
const MOST: usize = 12;

/// The slopes beyond the coldest and the warmest temperature that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beyond {
    /// Colder than the coldest: no steeper than this.
    pub cold: MolarEnergy,
    /// Warmer than the warmest: no gentler than this.
    pub warm: MolarEnergy,
}

impl Beyond {
    /// Beyond the temperatures of a sheet that has several, or gives its own energy: 30 kJ/mol to
    /// the cold, 60 to the heat.
    pub(crate) fn of_several() -> Self {
        Self::kilojoules(30.0, 60.0)
    }

    /// Two energies in kJ/mol.
    pub(crate) fn kilojoules(cold: f64, warm: f64) -> Self {
        let energy = MolarEnergy::new::<unit::kilojoule_per_mole>;
        Self { cold: energy(cold), warm: energy(warm) }
    }
}

/// A rate constant at every temperature.
///
/// ```text
/// ln k(T) = ln k_i − E/R · (1/T − 1/T_i)
/// ```
///
/// with `T_i` a known temperature, and `E` the slope of the piece that `T` lies in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rate {
    /// Known temperatures, coldest first: `1/T_i`.
    inverse: [f64; MOST],
    /// The logarithm of the rate constant there, in 1/s.
    log: [f64; MOST],
    /// `E/R` of each piece: below the first, between each two, above the last.
    slopes: [f64; MOST + 1],
    count: usize,
}

impl Rate {
    /// One activation energy everywhere, and the rate at [`reference_temperature`].
    ///
    /// ```
    /// use pailwise_calc::{cure::Rate, quantity::{celsius, Frequency, MolarEnergy, unit}};
    /// let energy = MolarEnergy::new::<unit::kilojoule_per_mole>(52.95);
    /// let rate = Rate::single(Frequency::new::<unit::hertz>(1.0), energy);
    /// assert!((rate.at(celsius(35.0)).value - 2.0).abs() < 1e-3);
    /// ```
    pub fn single(at_reference: Frequency, energy: MolarEnergy) -> Self {
        let beyond = Beyond { cold: energy, warm: energy };
        Self::through([(reference_temperature(), at_reference)], beyond)
    }

    /// The law through rates at known temperatures, coldest first, of which there is at least one
    /// and no more than a data sheet has rows.
    ///
    /// Between two neighbours goes their own slope; beyond the coldest the gentler of that pair's
    /// and `beyond.cold`, beyond the warmest the steeper of that pair's and `beyond.warm`. What is
    /// warmer is never slower: a rate below that of a colder neighbour is raised to it.
    ///
    /// ```
    /// use pailwise_calc::cure::{Beyond, Rate};
    /// use pailwise_calc::quantity::{celsius, Frequency, MolarEnergy, unit};
    /// let hertz = Frequency::new::<unit::hertz>;
    /// let energy = MolarEnergy::new::<unit::kilojoule_per_mole>;
    /// let beyond = Beyond { cold: energy(30.0), warm: energy(60.0) };
    /// let known = [(celsius(20.0), hertz(1.0)), (celsius(30.0), hertz(2.0))];
    /// let rate = Rate::through(known, beyond);
    /// assert!((rate.at(celsius(30.0)).value - 2.0).abs() < 1e-12);
    /// // exp(−30 000/8.314 46 × (1/283.15 − 1/293.15)) = 0.6475: gentler than the pair's.
    /// assert!((rate.at(celsius(10.0)).value - 0.6475).abs() < 1e-4);
    /// // 60 is steeper than the pair's 51.2: 2 · exp(−60 000/8.314 46 × (1/313.15 − 1/303.15)).
    /// assert!((rate.at(celsius(40.0)).value - 4.278).abs() < 1e-3);
    /// ```
    pub fn through(
        known: impl IntoIterator<Item = (ThermodynamicTemperature, Frequency)>,
        beyond: Beyond,
    ) -> Self {
        let mut law =
            Self { inverse: [0.0; MOST], log: [0.0; MOST], slopes: [0.0; MOST + 1], count: 0 };
        let mut slowest = f64::NEG_INFINITY;
        for (slot, (temperature, rate)) in known.into_iter().take(MOST).enumerate() {
            slowest = rate.value.ln().max(slowest);
            (law.inverse[slot], law.log[slot]) = (1.0 / temperature.value, slowest);
            law.count = slot + 1;
        }
        let (mut cold, mut warm) =
            (beyond.cold.value / GAS_CONSTANT, beyond.warm.value / GAS_CONSTANT);
        for right in 1..law.count {
            let run = law.inverse[right - 1] - law.inverse[right];
            let slope = (law.log[right] - law.log[right - 1]) / run.max(f64::MIN_POSITIVE);
            law.slopes[right] = slope;
            if right == 1 {
                cold = cold.min(slope);
            }
            if right == law.count - 1 {
                warm = warm.max(slope.min(steepest()));
            }
        }
        (law.slopes[0], law.slopes[law.count]) = (cold, warm);
        law
    }

    /// The same law with a slope of one's own beyond the warmest temperature.
    #[must_use]
    pub(crate) fn steep_beyond(mut self, warm: MolarEnergy) -> Self {
        self.slopes[self.count] = warm.value / GAS_CONSTANT;
        self
    }

    /// The rate constant at a temperature.
    pub fn at(&self, temperature: ThermodynamicTemperature) -> Frequency {
        Frequency::new::<unit::hertz>(self.per_second(temperature.value))
    }

    /// The same in plain numbers: kelvin to 1/s.
    pub(crate) fn per_second(&self, kelvin: f64) -> f64 {
        let inverse = 1.0 / kelvin;
        // Pieces are few, and nearly always it is the last.
        let mut piece = self.count;
        while piece > 0 && inverse > self.inverse[piece - 1] {
            piece -= 1;
        }
        let known = piece.saturating_sub(1);
        (self.log[known] - self.slopes[piece] * (inverse - self.inverse[known])).exp()
    }

    /// The known temperature, in kelvin, that is met first on the way from one to another.
    pub(crate) fn bend_between(&self, from: f64, to: f64) -> Option<f64> {
        let bends = self.inverse.iter().take(self.count).map(|inverse| 1.0 / inverse);
        if from < to {
            bends.into_iter().find(|bend| *bend > from && *bend < to)
        } else {
            bends.rev().find(|bend| *bend < from && *bend > to)
        }
    }

    /// The same law, so many times as fast.
    #[must_use]
    pub fn times(mut self, faster: f64) -> Self {
        let log = faster.ln();
        self.log.iter_mut().take(self.count).for_each(|known| *known += log);
        self
    }

    /// The slope of the piece that a temperature lies in, as an activation energy.
    pub fn energy_at(&self, temperature: ThermodynamicTemperature) -> MolarEnergy {
        let inverse = 1.0 / temperature.value;
        let piece = self.inverse.iter().take(self.count).filter(|known| inverse <= **known).count();
        MolarEnergy::new::<unit::joule_per_mole>(self.slopes[piece] * GAS_CONSTANT)
    }

    /// The slope below the coldest known temperature, and that above the warmest.
    pub fn beyond(&self) -> Beyond {
        let energy = |slope: f64| MolarEnergy::new::<unit::joule_per_mole>(slope * GAS_CONSTANT);
        Beyond { cold: energy(self.slopes[0]), warm: energy(self.slopes[self.count]) }
    }
}

/// The steepest slope that is believed beyond the warmest known temperature, as `E/R`: the most
/// that a product's own energy may be.
fn steepest() -> f64 {
    let (_, most): (Figure, Figure) = Field::ActivationEnergy.range();
    most.si() / GAS_CONSTANT
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::celsius;
    use approx::assert_relative_eq;

    fn law(known: &[(f64, f64)]) -> Rate {
        let hertz = Frequency::new::<unit::hertz>;
        let known = known.iter().map(|(c, k)| (celsius(*c), hertz(*k)));
        Rate::through(known, Beyond::kilojoules(30.0, 60.0))
    }

    #[test]
    fn every_known_rate_is_met_and_the_law_has_no_jump() {
        let points = [(5.0, 1.0), (20.0, 2.0), (25.0, 5.0), (35.0, 5.5)];
        let rate = law(&points);
        for (c, k) in points {
            assert_relative_eq!(rate.at(celsius(c)).value, k, max_relative = 1e-12);
            let (below, above) = (rate.at(celsius(c - 1e-7)), rate.at(celsius(c + 1e-7)));
            assert_relative_eq!(below.value, above.value, max_relative = 1e-6);
        }
    }

    #[test]
    fn warmer_is_never_slower() {
        let rate = law(&[(10.0, 3.0), (20.0, 2.0), (30.0, 4.0)]);
        assert_relative_eq!(rate.at(celsius(10.0)).value, 3.0, max_relative = 1e-12);
        assert_relative_eq!(rate.at(celsius(20.0)).value, 3.0, max_relative = 1e-12);
        // Where the pair says nothing of the cold, nothing is promised for it.
        assert_relative_eq!(rate.at(celsius(0.0)).value, 3.0, max_relative = 1e-12);
        let mut last = 0.0;
        for c in 0..50 {
            let now = rate.at(celsius(f64::from(c))).value;
            assert!(now >= last * (1.0 - 1e-12), "{c} °C");
            last = now;
        }
    }

    #[test]
    fn the_slope_is_told_for_each_piece() {
        let rate = law(&[(20.0, 1.0), (30.0, 2.0)]);
        let energy = |c| rate.energy_at(celsius(c)).get::<unit::kilojoule_per_mole>();
        assert_relative_eq!(energy(10.0), 30.0, max_relative = 1e-12);
        assert_relative_eq!(energy(25.0), 51.22, max_relative = 1e-3);
        assert_relative_eq!(energy(40.0), 60.0, max_relative = 1e-12);
        assert_relative_eq!(rate.times(3.0).at(celsius(30.0)).value, 6.0, max_relative = 1e-12);
    }
}
