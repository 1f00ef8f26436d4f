//! A product taken apart into what a person would look at as one thing: for showing what two
//! versions of it differ in, and taking some of that over.

use super::ProductRecord;

/// One thing about a product.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "each is the part of the data sheet of that name")]
pub enum Aspect {
    Name,
    Role,
    Chemistry,
    Ratio,
    Tolerance,
    Additives,
    Kits,
    EquivalentWeights,
    PotLife,
    Lot,
    OpenTime,
    Mixing,
    Film,
    Flake,
    Recoat,
    Service,
    Limits,
    Thermal,
    Notes,
    Sheet,
}

impl Aspect {
    /// All of them, in the order of a data sheet.
    pub const ALL: [Self; 20] = [
        Self::Name,
        Self::Role,
        Self::Chemistry,
        Self::Ratio,
        Self::Tolerance,
        Self::Additives,
        Self::Kits,
        Self::EquivalentWeights,
        Self::PotLife,
        Self::Lot,
        Self::OpenTime,
        Self::Mixing,
        Self::Film,
        Self::Flake,
        Self::Recoat,
        Self::Service,
        Self::Limits,
        Self::Thermal,
        Self::Notes,
        Self::Sheet,
    ];

    /// Takes this much over from another version of the product.
    ///
    /// ```
    /// use pailwise_calc::{demo, record::Aspect};
    /// let mine = demo::record_base();
    /// let mut theirs = mine.clone();
    /// theirs.pot_life[0].time_min = 40.0;
    /// theirs.notes = "Stir the pigment up first.".to_owned();
    /// assert_eq!(Aspect::differences(&mine, &theirs), [Aspect::PotLife, Aspect::Notes]);
    /// let mut merged = mine.clone();
    /// Aspect::PotLife.take(&theirs, &mut merged);
    /// assert_eq!(merged.pot_life, theirs.pot_life);
    /// assert_eq!(merged.notes, mine.notes);
    /// ```
    pub fn take(self, from: &ProductRecord, to: &mut ProductRecord) {
        let from = from.clone();
        match self {
            Self::Name => to.name = from.name,
            Self::Role => to.role = from.role,
            Self::Chemistry => to.chemistry = from.chemistry,
            Self::Ratio => (to.ratio_by, to.components) = (from.ratio_by, from.components),
            Self::Tolerance => to.ratio_tolerance_percent = from.ratio_tolerance_percent,
            Self::Additives => to.additives = from.additives,
            Self::Kits => (to.kits, to.currency) = (from.kits, from.currency),
            Self::EquivalentWeights => to.equivalent_weights = from.equivalent_weights,
            Self::PotLife => to.pot_life = from.pot_life,
            Self::Lot => (to.lot, to.learnt) = (from.lot, from.learnt),
            Self::OpenTime => to.open_time = from.open_time,
            Self::Mixing => {
                (to.mixing_min, to.induction_min) = (from.mixing_min, from.induction_min);
            }
            Self::Film => {
                (to.wet_film_um, to.dry_film_um) = (from.wet_film_um, from.dry_film_um);
                to.solids_by_volume_percent = from.solids_by_volume_percent;
                to.spread_m2_per_l = from.spread_m2_per_l;
            }
            Self::Flake => {
                (to.flaked, to.flake_kg_per_m2) = (from.flaked, from.flake_kg_per_m2);
            }
            Self::Recoat => {
                (to.recoat_opens, to.recoat_closes) = (from.recoat_opens, from.recoat_closes);
            }
            Self::Service => {
                (to.light_use, to.vehicles) = (from.light_use, from.vehicles);
                to.full_cure = from.full_cure;
            }
            Self::Limits => to.limits = from.limits,
            Self::Thermal => {
                to.activation_energy_kj_per_mol = from.activation_energy_kj_per_mol;
                to.heat_of_reaction_j_per_g = from.heat_of_reaction_j_per_g;
                to.heat_capacity_j_per_g_k = from.heat_capacity_j_per_g_k;
                to.kappa = from.kappa;
            }
            Self::Notes => to.notes = from.notes,
            Self::Sheet => to.sheet = from.sheet,
        }
    }

    /// Whether two versions of a product agree in this.
    pub fn same(self, one: &ProductRecord, other: &ProductRecord) -> bool {
        let mut merged = one.clone();
        self.take(other, &mut merged);
        merged == *one
    }

    /// What two versions of a product differ in.
    pub fn differences(one: &ProductRecord, other: &ProductRecord) -> Vec<Self> {
        Self::ALL.into_iter().filter(|aspect| !aspect.same(one, other)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    #[test]
    fn all_aspects_together_are_the_whole_product() {
        for mine in demo::records() {
            for theirs in demo::records() {
                let mut merged = mine.clone();
                for aspect in Aspect::differences(&mine, &theirs) {
                    aspect.take(&theirs, &mut merged);
                }
                // What is left is which record it is, and when it was changed.
                let (id, revised) = (mine.id.clone(), mine.revised.clone());
                let wanted = ProductRecord { id, revised, invented: mine.invented, ..theirs };
                assert_eq!(merged, wanted);
            }
        }
    }
}
