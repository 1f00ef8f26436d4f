//! Parts A and B: what a ratio means by volume and by weight, and the split of a batch.
//!
//! With parts `p_i` and densities `ρ_i`, volume shares `φ_i` and mass shares `w_i` follow from
//! each other, assuming that volumes add on mixing (ideal mixing):
//!
//! ```text
//! by volume: φ_i = p_i / Σp        by mass: φ_i = (p_i/ρ_i) / Σ(p_j/ρ_j)
//! w_i = φ_i ρ_i / Σ φ_j ρ_j        ρ = Σ φ_i ρ_i
//! ```
//!
//! An additive is dosed on one part, or on the whole mix, and the ratio is held on the parts
//! *without* it: what is poured grows by the dose. It is stirred into its part before that part
//! meets the others, so a part after the first that takes an additive is measured *apart*, in a
//! pail of its own.

use serde::{Deserialize, Serialize};

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Figure, Mass, MassDensity, Volume};
use crate::working::{Sentence, Source, Step};

/// Whether parts, or a dose, are counted by volume or by weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Basis {
    /// Parts or dose are counted by volume, as with a jug.
    Volume,
    /// Parts or dose are counted by weight, as on a scale.
    Mass,
}

/// One part of the mix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Component {
    /// Its parts in the ratio.
    pub parts: f64,
    /// Mass per volume of this part, used to turn volume into weight.
    pub density: MassDensity,
}

/// What an additive is stirred into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Onto {
    /// One part, before the others meet it; counted from 0.
    Component(usize),
    /// The whole mix, last.
    Mix,
}

/// Something stirred in beside the parts: a UV absorber, a tint, an accelerator.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Additive {
    /// What it goes into.
    pub onto: Onto,
    /// How much, as a share of what it goes into.
    pub dose: f64,
    /// Whether that share is by volume or by weight.
    pub by: Basis,
    /// Mass per volume of the additive, used to turn volume into weight.
    pub density: MassDensity,
}

/// What one pour is of: a part of the mix or an additive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ingredient {
    /// A part, counted from 0: 0 is A.
    Component(usize),
    /// An additive, counted from 0.
    Additive(usize),
}

/// One pour, in the order of pouring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pour {
    /// Which part or additive is poured.
    pub what: Ingredient,
    /// How much, by volume.
    pub volume: Volume,
    /// How much, by weight.
    pub mass: Mass,
    /// Measured in a pail of its own: an additive is stirred in there before it meets the rest.
    pub apart: bool,
}

impl Pour {
    /// The step that names it.
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::{Volume, unit}};
    /// let base = demo::base().unwrap();
    /// let pour = base.ratio().split(Volume::new::<unit::liter>(3.0))[0];
    /// let step = pour.explain();
    /// assert_eq!((step.about, step.figures[1]), (Some(pour.what), pour.mass.into()));
    /// ```
    pub fn explain(&self) -> Step {
        let figures = vec![self.volume.into(), self.mass.into()];
        Step::new(Sentence::Poured, Source::Arithmetic, figures).about(self.what)
    }
}

/// One pour's place in the mix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Portion {
    pub(crate) what: Ingredient,
    /// Its share of the mixed volume.
    pub(crate) share: f64,
    pub(crate) density: MassDensity,
    pub(crate) apart: bool,
}

impl Portion {
    /// The step to what it is of the mix, by volume and by weight.
    pub(crate) fn explain(&self, mass_share: f64) -> Step {
        let by_volume = Figure::Share(self.share);
        let figures = vec![by_volume, self.density.into(), Figure::Share(mass_share)];
        Step::new(Sentence::ShareOf, Source::DataSheet, figures).about(self.what)
    }

    /// So much of it, as a pour.
    pub(crate) fn pour(&self, volume: Volume) -> Pour {
        Pour { what: self.what, volume, mass: volume * self.density, apart: self.apart }
    }
}

/// A checked ratio with its additives.
#[derive(Clone, Debug, PartialEq)]
pub struct Ratio {
    components: Vec<Component>,
    additives: Vec<Additive>,
    /// In the order of pouring.
    order: Vec<Portion>,
}

impl Ratio {
    /// A ratio of two to four parts, with additives or none.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::NotANumber`] for parts, density or dose;
    /// [`Error::Contradiction`] for an additive onto a part that is not there.
    pub fn new(
        basis: Basis,
        components: Vec<Component>,
        additives: Vec<Additive>,
    ) -> Result<Self, Error> {
        Field::Components.check(u32::try_from(components.len()).unwrap_or(u32::MAX))?;
        for component in &components {
            Field::Parts.check(component.parts)?;
            Field::Density.check(component.density)?;
        }
        for additive in &additives {
            Field::Dose.check(Figure::Share(additive.dose))?;
            Field::Density.check(additive.density)?;
            if let Onto::Component(i) = additive.onto
                && i >= components.len()
            {
                return Err(Error::Contradiction { field: Field::Dose, other: Field::Components });
            }
        }
        // Volumes for one unit of parts; their sum scales out at the end.
        let volume = |c: &Component| match basis {
            Basis::Volume => c.parts,
            Basis::Mass => c.parts / c.density.value,
        };
        let dosed = |additive: &Additive, volume: f64, mass: f64| match additive.by {
            Basis::Volume => additive.dose * volume,
            Basis::Mass => additive.dose * mass / additive.density.value,
        };
        let mut order = Vec::with_capacity(components.len() + additives.len());
        for (i, component) in components.iter().enumerate() {
            let v = volume(component);
            let into = |additive: &Additive| additive.onto == Onto::Component(i);
            let apart = i > 0 && additives.iter().any(into);
            let density = component.density;
            order.push(Portion { what: Ingredient::Component(i), share: v, density, apart });
            for (j, additive) in additives.iter().enumerate().filter(|(_, a)| into(a)) {
                let share = dosed(additive, v, v * component.density.value);
                let density = additive.density;
                order.push(Portion { what: Ingredient::Additive(j), share, density, apart });
            }
        }
        let mix_volume: f64 = components.iter().map(volume).sum();
        let mix_mass: f64 = components.iter().map(|c| volume(c) * c.density.value).sum();
        for (j, additive) in additives.iter().enumerate() {
            if additive.onto == Onto::Mix {
                let share = dosed(additive, mix_volume, mix_mass);
                let density = additive.density;
                order.push(Portion { what: Ingredient::Additive(j), share, density, apart: false });
            }
        }
        let total: f64 = order.iter().map(|portion| portion.share).sum();
        for portion in &mut order {
            portion.share /= total;
        }
        Ok(Self { components, additives, order })
    }

    /// The parts, in order.
    pub fn components(&self) -> &[Component] {
        &self.components
    }

    /// The additives, in order.
    pub fn additives(&self) -> &[Additive] {
        &self.additives
    }

    /// Density of the mix, additives included.
    pub fn density(&self) -> MassDensity {
        self.order.iter().map(|portion| portion.density * portion.share).sum()
    }

    /// The share of the mixed volume that is parts, the rest being additives.
    ///
    /// A kit is named for its parts; what is stirred in comes on top.
    pub fn parts_share(&self) -> f64 {
        let parts = self.order.iter().filter(|p| matches!(p.what, Ingredient::Component(_)));
        parts.map(|portion| portion.share).sum()
    }

    /// The share of the mixed mass that each pour is, in the order of pouring.
    ///
    /// `w_i = φ_i ρ_i / Σ φ_j ρ_j`.
    ///
    /// ```
    /// use pailwise_calc::demo;
    /// // 2 × 1.38 to 1 × 1.02: 73 % of the weight is A, though only 67 % of the volume.
    /// let shares = demo::base().unwrap().ratio().mass_shares();
    /// assert!((shares[0] - 2.76 / 3.78).abs() < 1e-12);
    /// ```
    pub fn mass_shares(&self) -> Vec<f64> {
        let density = self.density();
        self.order.iter().map(|p| (p.density * p.share / density).value).collect()
    }

    /// The pours that make up a mixed volume, in order: each part followed by what goes into it.
    ///
    /// ```
    /// use pailwise_calc::ratio::{Basis, Component, Ratio};
    /// use pailwise_calc::quantity::{MassDensity, Volume, unit};
    /// let part = |parts, kg_per_l: f64| Component {
    ///     parts,
    ///     density: MassDensity::new::<unit::kilogram_per_cubic_meter>(kg_per_l * 1000.0),
    /// };
    /// // Two to one by volume: a common proportion (common practice, no source). By weight it is
    /// // not two to one: 2 × 1.50 to 1 × 1.00 is three to one.
    /// let ratio = Ratio::new(Basis::Volume, vec![part(2.0, 1.5), part(1.0, 1.0)], vec![]).unwrap();
    /// let pours = ratio.split(Volume::new::<unit::liter>(3.0));
    /// assert!((pours[0].volume.get::<unit::liter>() - 2.0).abs() < 1e-12);
    /// assert!(((pours[0].mass / pours[1].mass).value - 3.0).abs() < 1e-12);
    /// ```
    pub fn split(&self, mixed: Volume) -> Vec<Pour> {
        self.order.iter().map(|portion| portion.pour(mixed * portion.share)).collect()
    }

    /// How far pours are off ratio: of the parts after A, the largest `(B/A)/(B/A)nominal − 1` by
    /// size, with its sign. `None` without any A.
    ///
    /// Additives do not count: the ratio is held on the parts without them.
    pub fn off_by(&self, pours: &[Pour]) -> Option<f64> {
        self.furthest_off(pours).map(|(_, off)| off)
    }

    /// Which part after A is furthest off, counted from 0, and by how much: see [`Ratio::off_by`].
    pub fn furthest_off(&self, pours: &[Pour]) -> Option<(usize, f64)> {
        let nominal = self.split(Volume::new::<crate::quantity::unit::liter>(1.0));
        let of = |pours: &[Pour], i: usize| -> f64 {
            let part = pours.iter().filter(|p| p.what == Ingredient::Component(i));
            part.map(|p| p.volume.value).sum()
        };
        let (a, nominal_a) = (of(pours, 0), of(&nominal, 0));
        if a.is_nan() || a <= 0.0 {
            return None;
        }
        (1..self.components.len())
            .map(|i| (i, (of(pours, i) / a) / (of(&nominal, i) / nominal_a) - 1.0))
            .max_by(|x, y| x.1.abs().total_cmp(&y.1.abs()))
    }

    /// The pours in order, with the share of the mixed volume and the density of each.
    pub(crate) fn order(&self) -> &[Portion] {
        &self.order
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit;
    use approx::assert_relative_eq;

    fn density(kg_per_l: f64) -> MassDensity {
        MassDensity::new::<unit::kilogram_per_cubic_meter>(kg_per_l * 1000.0)
    }

    fn part(parts: f64, kg_per_l: f64) -> Component {
        Component { parts, density: density(kg_per_l) }
    }

    fn liter(x: f64) -> Volume {
        Volume::new::<unit::liter>(x)
    }

    #[test]
    fn by_mass_and_by_volume_say_the_same() {
        let by_volume =
            Ratio::new(Basis::Volume, vec![part(2.0, 1.4), part(1.0, 1.0)], vec![]).unwrap();
        let by_mass =
            Ratio::new(Basis::Mass, vec![part(2.8, 1.4), part(1.0, 1.0)], vec![]).unwrap();
        for (v, m) in by_volume.split(liter(6.0)).iter().zip(by_mass.split(liter(6.0))) {
            assert_relative_eq!(v.volume.value, m.volume.value, max_relative = 1e-12);
        }
        assert_relative_eq!(by_mass.density().value, 3800.0 / 3.0, max_relative = 1e-12);
    }

    #[test]
    fn an_additive_comes_on_top_of_the_part_it_goes_into() {
        let uv = Additive {
            onto: Onto::Component(0),
            dose: 0.05,
            by: Basis::Volume,
            density: density(1.0),
        };
        let ratio =
            Ratio::new(Basis::Volume, vec![part(1.0, 1.1), part(1.0, 1.1)], vec![uv]).unwrap();
        let pours = ratio.split(liter(2.05));
        let what: Vec<_> = pours.iter().map(|p| p.what).collect();
        assert_eq!(
            what,
            [Ingredient::Component(0), Ingredient::Additive(0), Ingredient::Component(1)]
        );
        assert_relative_eq!(pours[0].volume.value, liter(1.0).value, max_relative = 1e-12);
        assert_relative_eq!(pours[1].volume.value, liter(0.05).value, max_relative = 1e-12);
        assert_eq!(ratio.off_by(&pours).map(|off| off.abs() < 1e-12), Some(true));
    }

    #[test]
    fn a_later_part_with_an_additive_is_measured_apart() {
        let tint = Additive {
            onto: Onto::Component(1),
            dose: 0.1,
            by: Basis::Mass,
            density: density(2.0),
        };
        let ratio =
            Ratio::new(Basis::Mass, vec![part(1.0, 1.0), part(1.0, 1.0)], vec![tint]).unwrap();
        let pours = ratio.split(liter(1.0));
        let apart: Vec<_> = pours.iter().map(|p| p.apart).collect();
        assert_eq!(apart, [false, true, true]);
        assert_relative_eq!((pours[2].mass / pours[1].mass).value, 0.1, max_relative = 1e-12);
    }

    #[test]
    fn too_much_b_shows_as_such() {
        let ratio =
            Ratio::new(Basis::Volume, vec![part(2.0, 1.4), part(1.0, 1.0)], vec![]).unwrap();
        let mut pours = ratio.split(liter(3.0));
        pours[1].volume *= 1.1;
        assert_relative_eq!(ratio.off_by(&pours).unwrap(), 0.1, max_relative = 1e-9);
        assert_eq!(ratio.off_by(&[]), None);
    }

    #[test]
    fn nonsense_is_refused_by_name() {
        let two =
            |parts, d| Ratio::new(Basis::Volume, vec![part(parts, d), part(1.0, 1.0)], vec![]);
        assert!(matches!(two(0.0, 1.0), Err(Error::OutOfRange { field: Field::Parts, .. })));
        assert!(matches!(two(f64::NAN, 1.0), Err(Error::NotANumber { field: Field::Parts })));
        assert!(matches!(two(1.0, -1.0), Err(Error::OutOfRange { field: Field::Density, .. })));
        let alone = Ratio::new(Basis::Volume, vec![part(1.0, 1.0)], vec![]);
        assert!(matches!(alone, Err(Error::OutOfRange { field: Field::Components, .. })));
    }
}
