//! The steps from a data sheet to what the calculation takes from it.

use super::Product;
use crate::working::{Sentence, Source, Step};

impl Product {
    /// What the sheet says of pot life, and what follows from it.
    ///
    /// ```
    /// use pailwise_calc::{demo, working::Sentence};
    /// let steps = demo::base().unwrap().explain_pot_life();
    /// assert_eq!(steps[0].sentence, Sentence::SheetPotLife);
    /// assert!(steps.iter().any(|step| step.sentence == Sentence::EnergyFitted));
    /// ```
    pub fn explain_pot_life(&self) -> Vec<Step> {
        let sheet = self.pot_life.iter().map(|point| {
            let figures = vec![point.time.into(), point.temperature.into(), point.mass.into()];
            Step::new(Sentence::SheetPotLife, Source::DataSheet, figures)
        });
        let heat = vec![self.thermal.heat_of_reaction.into()];
        let heat = if self.heat_is_typical {
            Step::new(Sentence::HeatTypical, Source::Typical, heat)
        } else {
            Step::new(Sentence::HeatGiven, Source::DataSheet, heat)
        };
        sheet.chain([self.explain_energy(), heat]).collect()
    }

    /// Where the activation energy comes from.
    pub(crate) fn explain_energy(&self) -> Step {
        let energy = vec![self.calibration.kinetics.activation_energy.into()];
        if self.calibration.energy_fitted {
            Step::new(Sentence::EnergyFitted, Source::Published, energy)
        } else {
            Step::new(Sentence::EnergyTypical, Source::Typical, energy)
        }
    }
}
