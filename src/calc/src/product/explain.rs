//! The steps from a data sheet to what the calculation takes from it.

use super::Product;
use crate::quantity::{ThermodynamicTemperature, Time, above, unit};
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

    /// What the rule of thumb would say: half the sheet's first pot life for each 10 °C more,
    /// whatever the mass (common practice, no source). To show what it leaves out, not to work by.
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::{celsius, minutes}};
    /// // 45 min at 20 °C by the sheet.
    /// let rule = demo::base().unwrap().rule_of_thumb(celsius(30.0)).unwrap();
    /// assert!((rule - minutes(22.5)).value.abs() < 1e-6);
    /// ```
    pub fn rule_of_thumb(&self, at: ThermodynamicTemperature) -> Option<Time> {
        let sheet = self.pot_life.first()?;
        let tens = above(sheet.temperature, at).get::<unit::celsius_change>() / 10.0;
        Some(sheet.time * 2_f64.powf(tens))
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
