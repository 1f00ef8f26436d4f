//! The steps from a data sheet to what the calculation takes from it.

use super::Product;
use crate::calibrate::{CupLoss, Sample};
use crate::error::Error;
use crate::pail::Pail;
use crate::quantity::{
    Figure, Mass, TemperatureInterval, ThermodynamicTemperature, Time, Volume, above, unit,
};
use crate::ratio::Pour;
use crate::working::{Sentence, Source, Step};

impl Product {
    /// What the sheet says of pot life, and what follows from it.
    ///
    /// ```
    /// use pailwise_calc::{demo, working::Sentence};
    /// let steps = demo::base().unwrap().explain_pot_life();
    /// assert_eq!(steps[0].sentence, Sentence::SheetPotLife);
    /// assert!(steps.iter().any(|step| step.sentence == Sentence::CupUsual));
    /// ```
    pub fn explain_pot_life(&self) -> Vec<Step> {
        let sheet = self.pot_life.iter().map(|point| {
            let sentence = match point.sample {
                Some(Sample::Kit) => Sentence::SheetKit,
                Some(Sample::Insulated) => Sentence::SheetInsulated,
                Some(Sample::Gel) => Sentence::SheetGel,
                Some(Sample::Cup) => Sentence::SheetCup,
                None => Sentence::SheetPotLife,
            };
            let figures = vec![point.time.into(), point.temperature.into(), point.mass.into()];
            Step::new(sentence, Source::DataSheet, figures)
        });
        let heat = vec![self.thermal.heat_of_reaction.into()];
        let heat = if self.heat_is_typical {
            Step::new(Sentence::HeatTypical, Source::Typical, heat)
        } else {
            Step::new(Sentence::HeatGiven, Source::DataSheet, heat)
        };
        let loss = match self.calibration.loss {
            CupLoss::NoCup => None,
            CupLoss::Usual(_) => Some(Step::new(Sentence::CupUsual, Source::Published, vec![])),
            CupLoss::Fitted(_) => Some(Step::new(Sentence::CupFitted, Source::DataSheet, vec![])),
            CupLoss::Contradicted(_) => {
                Some(Step::new(Sentence::CupContradicted, Source::Practice, vec![]))
            }
        };
        let lot = (self.lot.times - 1.0).abs() > 0.005;
        let lot = lot.then(|| {
            let seen = Figure::Count(u32::try_from(self.lot.seen.len()).unwrap_or(u32::MAX));
            let figures = vec![Figure::Number(self.lot.times), seen];
            Step::new(Sentence::LotRuns, Source::Entered, figures)
        });
        sheet.chain(loss).chain(self.explain_slopes()).chain(lot).chain([heat]).collect()
    }

    /// How its pot life goes between the temperatures of the sheet and beyond them, as what ten
    /// kelvin make of it.
    fn explain_slopes(&self) -> Vec<Step> {
        let rate = &self.calibration.kinetics.rate;
        let known = &self.calibration.temperatures;
        let (Some(coldest), Some(warmest)) = (known.first(), known.last()) else {
            return Vec::new();
        };
        let ten = TemperatureInterval::new::<unit::kelvin_change>(10.0);
        let times = |from: ThermodynamicTemperature, to: ThermodynamicTemperature| {
            Figure::Number((rate.at(from) / rate.at(to)).value)
        };
        let mut steps = Vec::new();
        if known.len() > 1 {
            let figures = vec![(*coldest).into(), (*warmest).into()];
            steps.push(Step::new(Sentence::OwnBetween, Source::DataSheet, figures));
        }
        let colder = vec![(*coldest).into(), times(*coldest, *coldest - ten)];
        steps.push(Step::new(Sentence::ColderThan, Source::Published, colder));
        let warmer = vec![(*warmest).into(), times(*warmest, *warmest + ten)];
        steps.push(Step::new(Sentence::WarmerThan, Source::Published, warmer));
        steps
    }

    /// The steps to how hot a pail of it gets that is left standing, and to when it gels.
    ///
    /// ```
    /// use pailwise_calc::{demo, vessel::Generic, working::Sentence};
    /// use pailwise_calc::quantity::{celsius, Mass, unit};
    /// let base = demo::base().unwrap();
    /// let air = celsius(25.0);
    /// let kg = Mass::new::<unit::kilogram>(8.0);
    /// let pail = base.pail(kg, &Generic::FiveGallon.vessel(), air, air).unwrap();
    /// let steps = base.explain_heat(&pail, kg).unwrap();
    /// let peak = steps.iter().find(|step| step.sentence == Sentence::Peak).unwrap();
    /// assert_eq!(peak.figures[1], base.can_pass(&pail, kg).unwrap().temperature.into());
    /// ```
    ///
    /// # Errors
    /// As [`Pail::peak`].
    pub fn explain_heat(&self, pail: &Pail, mass: Mass) -> Result<Vec<Step>, Error> {
        let mut steps = self.explain_pot_life();
        let mut say = |sentence, source, figures| steps.push(Step::new(sentence, source, figures));
        let reacts = Figure::Share(pail.kinetics.ceiling());
        let core = pail.adiabatic_bound().into();
        let figures = vec![pail.material.into(), pail.rise.into(), reacts, core];
        say(Sentence::Core, Source::Published, figures);
        let peak = self.can_pass(pail, mass)?;
        let figures = vec![pail.air.into(), peak.temperature.into(), peak.after.into()];
        say(Sentence::Peak, Source::Published, figures);
        if let Some(gel) = self.gel() {
            // Where it never gets so far, nothing gels.
            if let Ok(time) = pail.time_to(gel) {
                let figures = vec![Figure::Share(gel), time.into()];
                say(Sentence::GelsAfter, Source::Published, figures);
            }
        }
        Ok(steps)
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

    /// What each part and additive is of the mix, by volume and by weight, and the mix's density.
    ///
    /// ```
    /// use pailwise_calc::{demo, working::Sentence};
    /// let steps = demo::base().unwrap().explain_shares();
    /// let shares = steps.iter().filter(|step| step.sentence == Sentence::ShareOf);
    /// let whole: f64 = shares.map(|step| step.figures[2].si()).sum();
    /// assert!((whole - 1.0).abs() < 1e-12);
    /// ```
    pub fn explain_shares(&self) -> Vec<Step> {
        let ratio = self.ratio();
        let shares = ratio.order().iter().zip(ratio.mass_shares());
        let shares = shares.map(|(portion, mass_share)| portion.explain(mass_share));
        let density = vec![ratio.density().into()];
        shares.chain([Step::new(Sentence::MixDensity, Source::Arithmetic, density)]).collect()
    }

    /// The steps to a split of so much mix.
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::{Volume, unit}, working::Sentence};
    /// let steps = demo::base().unwrap().explain_split(Volume::new::<unit::liter>(3.0));
    /// let poured = steps.iter().filter(|step| step.sentence == Sentence::Poured);
    /// let liters: f64 = poured.map(|step| step.figures[0].si() * 1000.0).sum();
    /// assert!((liters - 3.0).abs() < 1e-9);
    /// ```
    pub fn explain_split(&self, whole: Volume) -> Vec<Step> {
        let mut steps = self.explain_shares();
        steps.extend(self.ratio().split(whole).iter().map(Pour::explain));
        steps
    }
}
