//! A product, checked and calibrated: what the rest of the crate works with.

mod check;
mod explain;

use crate::after::After;
use crate::calibrate::{Assumed, Calibration, PotLifePoint, at_longest};
use crate::conditions::Conditions;
use crate::coverage::Coverage;
use crate::cure::{Kinetics, Typical, arrhenius};
use crate::error::Error;
use crate::field::Field;
use crate::film::Film;
use crate::limits::Limits;
use crate::lot::Lot;
use crate::order::Sold;
use crate::pail::{Cold, Pail, Peak, Thermal};
use crate::quantity::{
    Length, Mass, ThermodynamicTemperature, Time, Volume, above, celsius, minutes, unit,
};
use crate::ratio::{Ingredient, Pour, Ratio};
use crate::record::Role;
use crate::stoichiometry::{self, EquivalentWeights};
use crate::vessel::Vessel;

/// Something a data sheet leaves out, and what is taken instead.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Gap {
    /// No mass beside a pot life: the usual sample of its method is taken, 100 g in a cup.
    PotLifeMass,
    /// Pot life at one temperature only: colder it is taken to gain little, warmer to lose much.
    SecondTemperature,
    /// Not said how a pot life was measured: a cup on the bench is taken, which loses its heat.
    Measured,
    /// No open time: pot life stands in for it, and half of it where the air cures the film too.
    OpenTime,
}

/// A span narrower than this is not said.
const WORTH_SAYING: f64 = 1.08;

/// A product ready for calculation.
#[derive(Clone, Debug, PartialEq)]
pub struct Product {
    role: Role,
    ratio: Ratio,
    tolerance: f64,
    pot_life: Vec<PotLifePoint>,
    thermal: Thermal,
    heat_is_typical: bool,
    assumed: Assumed,
    calibration: Calibration,
    typical: Typical,
    film: Film,
    mixing: Time,
    induction: Time,
    wet_film: Option<Length>,
    flaked: bool,
    kits: Vec<Volume>,
    sold: Vec<Sold>,
    equivalents: Option<EquivalentWeights>,
    after: After,
    limits: Limits,
    gaps: Vec<Gap>,
    lot: Lot,
}

impl Product {
    /// What it is for.
    pub fn role(&self) -> Role {
        self.role
    }

    /// Gives the mix ratio of its parts, with densities and additives.
    pub fn ratio(&self) -> &Ratio {
        &self.ratio
    }

    /// How far off ratio it may be, as a share.
    pub fn tolerance(&self) -> f64 {
        self.tolerance
    }

    /// The data sheet's pot lives.
    pub fn pot_life(&self) -> &[PotLifePoint] {
        &self.pot_life
    }

    /// What it does with its heat.
    pub fn thermal(&self) -> Thermal {
        self.thermal
    }

    /// Whether the heat of reaction is the chemistry's typical one rather than the product's own.
    pub fn heat_is_typical(&self) -> bool {
        self.heat_is_typical
    }

    /// What its data sheet led to.
    pub fn calibration(&self) -> &Calibration {
        &self.calibration
    }

    /// The cure that its data sheet may mean at the longest, where it gives only a cup whose heat
    /// nobody knows. To be said, not to be planned by.
    ///
    /// # Errors
    /// As [`crate::calibrate::at_longest`].
    pub fn at_longest(&self) -> Result<Kinetics, Error> {
        at_longest(&self.pot_life, self.assumed, &self.thermal)
    }

    /// How long a pail of it may last at the longest, where its sheet leaves that open by enough to
    /// be worth saying: the other end of a span whose lower end is planned on.
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::{celsius, Mass, unit}, vessel::Generic};
    /// let base = demo::base().unwrap();
    /// let pail = Generic::FiveGallon.vessel();
    /// let kg = Mass::new::<unit::kilogram>(6.0);
    /// let pail = base.pail(kg, &pail, celsius(24.0), celsius(24.0)).unwrap();
    /// let planned = pail.pot_life().unwrap();
    /// assert!(base.pot_life_at_longest(&pail, planned).is_none_or(|most| most > planned));
    /// ```
    pub fn pot_life_at_longest(&self, pail: &Pail, planned: Time) -> Option<Time> {
        // What the crew saw of the lot outweighs what its sheet may mean.
        self.lot.seen.is_empty().then_some(())?;
        let longest = Pail { kinetics: self.at_longest().ok()?, ..*pail }.pot_life().ok()?;
        (longest > planned * WORTH_SAYING).then_some(longest)
    }

    /// How its film closes in air as its sheet's own.
    pub fn film(&self) -> Film {
        self.film
    }

    /// How its film closes in this air.
    pub fn film_in(&self, conditions: &Conditions) -> Film {
        self.film.in_air(conditions.air, conditions.humidity)
    }

    /// How long to mix it, by its data sheet.
    pub fn mixing(&self) -> Time {
        self.mixing
    }

    /// How long mixing takes in all: by the data sheet, then a minute more in a second pail, which
    /// the clock must not leave out. Paste is stirred where it was measured (common practice, no
    /// source).
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::minutes};
    /// let base = demo::base().unwrap();
    /// assert_eq!(base.mixing_in_all(), base.mixing() + minutes(1.0));
    /// ```
    pub fn mixing_in_all(&self) -> Time {
        match self.role {
            Role::Filler => self.mixing,
            _ => self.mixing + minutes(1.0),
        }
    }

    /// From A meets B until it may be carried to the floor: mixed, and stood as long as it must.
    pub(crate) fn ready(&self) -> Time {
        self.mixing_in_all() + self.induction
    }

    /// The same, mixed so long.
    pub(crate) fn mixed_for(&self, mixing: Time) -> Self {
        Self { mixing, ..self.clone() }
    }

    /// How long it must stand before use.
    pub fn induction(&self) -> Time {
        self.induction
    }

    /// The wet film to lay; a filler has none of its own, the crack decides.
    pub fn wet_film(&self) -> Option<Length> {
        self.wet_film
    }

    /// What a floor takes of it, with take-up and loss as shares of 1; of a filler, what cracks of
    /// a depth take, and `None` where that depth is not known.
    ///
    /// # Errors
    /// As [`Coverage::new`] and [`Coverage::crack`].
    pub fn coverage(
        &self,
        take_up: f64,
        loss: f64,
        crack_depth: Option<Length>,
    ) -> Result<Option<Coverage>, Error> {
        match (self.wet_film, crack_depth) {
            (Some(wet), _) if self.role != Role::Filler => {
                Coverage::new(wet, take_up, loss).map(Some)
            }
            (_, Some(depth)) => Coverage::crack(depth, loss).map(Some),
            (_, None) => Ok(None),
        }
    }

    /// Whether flake is broadcast into it.
    pub fn flaked(&self) -> bool {
        self.flaked
    }

    /// The kits it comes in: the parts of each together, by volume.
    pub fn kits(&self) -> &[Volume] {
        &self.kits
    }

    /// The same with what each costs.
    pub fn sold(&self) -> &[Sold] {
        &self.sold
    }

    /// Its equivalent weights, where the sheet gives them.
    pub fn equivalents(&self) -> Option<EquivalentWeights> {
        self.equivalents
    }

    /// Groups of B for each of A at the ratio the sheet prescribes; 1 when both react up.
    ///
    /// A sheet may prescribe a little off balance for good reasons. Far off, a figure of the
    /// profile is more likely wrong.
    ///
    /// ```
    /// use pailwise_calc::demo;
    /// // 2 × 1.38 g of A to 1 × 1.02 g of B: (1.02/107) / (2.76/290) = 1.0016.
    /// let balance = demo::base().unwrap().nominal_balance().unwrap();
    /// assert!((balance - 1.0016).abs() < 1e-4);
    /// ```
    pub fn nominal_balance(&self) -> Option<f64> {
        self.balance(&self.ratio.split(Volume::new::<unit::liter>(1.0)))
    }

    /// Groups of B for each of A in what was poured.
    pub fn balance(&self, pours: &[Pour]) -> Option<f64> {
        let part = |i| {
            let of = pours.iter().filter(|p| p.what == Ingredient::Component(i));
            of.map(|p| p.mass).sum::<Mass>()
        };
        self.equivalents.and_then(|weights| weights.balance(part(0), part(1)))
    }

    /// Reactive groups on a molecule of each part, for the gel point: typical of its chemistry.
    pub fn functionality(&self) -> (f64, f64) {
        self.typical.functionality
    }

    /// What the sheet says about the time after it is down.
    pub fn after(&self) -> &After {
        &self.after
    }

    /// What it may be laid in and on.
    pub fn limits(&self) -> Limits {
        self.limits
    }

    /// What its data sheet leaves out.
    pub fn gaps(&self) -> &[Gap] {
        &self.gaps
    }

    /// How the lot in hand runs; the product's rate has it in.
    pub fn lot(&self) -> &Lot {
        &self.lot
    }

    /// The same product, its cure so many times as fast: as of a lot, or of a pail that was read.
    /// Its film closes sooner with it, and never later.
    #[must_use]
    pub fn at_pace(mut self, times: f64) -> Self {
        self.calibration.kinetics.rate = self.calibration.kinetics.rate.times(times);
        self.film = self.film.at_pace(times);
        self
    }

    /// The conversion at which it gels, or `None` when it never does.
    pub fn gel(&self) -> Option<f64> {
        stoichiometry::gel(self.calibration.kinetics.balance, self.typical.functionality)
    }

    /// How long a sample as data sheets have them is told to last, or to gel.
    ///
    /// ```
    /// use pailwise_calc::demo;
    /// let base = demo::base().unwrap();
    /// let told = base.sample_lasts(&base.pot_life()[0]).unwrap();
    /// assert!(told <= base.pot_life()[0].time * (1.0 + 1e-6));
    /// ```
    ///
    /// # Errors
    /// As [`Pail::pot_life`].
    pub fn sample_lasts(&self, sample: &PotLifePoint) -> Result<Time, Error> {
        let loss = self.calibration.loss.value();
        let pail = sample.stands(&self.calibration.kinetics, &self.thermal, Some(loss))?;
        pail.time_to(sample.ends_at(self.assumed.end, self.assumed.gel))
    }

    /// How hot a pail of it left standing can get, and from when on: what to warn of.
    ///
    /// A pigmented mix in a big pail goes past what a cup of it does, and its hottest differs by
    /// product far more than its pot life (peaks of four published hardeners in one resin run from
    /// 178 to 300 °F in 100 to 150 g). So more than a kilogram is always said to be able to pass
    /// 150 °C (300 °F), and from when it gels, if the model has its summit later.
    ///
    /// ```
    /// use pailwise_calc::{demo, vessel::Generic};
    /// use pailwise_calc::quantity::{celsius, Mass, unit};
    /// let base = demo::base().unwrap();
    /// let kg = Mass::new::<unit::kilogram>(8.0);
    /// let pail =
    ///     base.pail(kg, &Generic::FiveGallon.vessel(), celsius(25.0), celsius(25.0)).unwrap();
    /// let (can_pass, model) = (base.can_pass(&pail, kg).unwrap(), pail.peak().unwrap());
    /// assert!(can_pass.temperature >= celsius(150.0) && can_pass.temperature >= model.temperature);
    /// assert!(can_pass.after <= model.after);
    /// ```
    ///
    /// # Errors
    /// As [`Pail::peak`].
    pub fn can_pass(&self, pail: &Pail, mass: Mass) -> Result<Peak, Error> {
        let mut peak = pail.peak()?;
        if mass > Mass::new::<unit::kilogram>(1.0) && peak.temperature < celsius(150.0) {
            peak.temperature = celsius(150.0);
        }
        if let Some(gels) = self.gel().and_then(|gel| pail.time_to(gel).ok()) {
            peak.after = peak.after.min(gels);
        }
        Ok(peak)
    }

    /// A mass of it, mixed, in a vessel.
    ///
    /// Colder than the coldest temperature of its sheet it is promised little more than there: it is
    /// taken to go no slower than it would go there, slowed by the gentle slope of
    /// [`crate::cure::Beyond`], and nothing for its air. A cup's figures say nothing of how a pail that keeps its heat fares
    /// in the cold.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for mass or temperature; [`Error::DoesNotFit`] when the vessel does
    /// not hold it.
    pub fn pail(
        &self,
        mass: Mass,
        vessel: &Vessel,
        material: ThermodynamicTemperature,
        air: ThermodynamicTemperature,
    ) -> Result<Pail, Error> {
        Field::BatchMass.check(mass)?;
        Field::Mixed.check(material)?;
        Field::Air.check(air)?;
        let kinetics = self.calibration.kinetics;
        let from = |material, air| Pail::new(kinetics, &self.thermal, mass, vessel, material, air);
        let pail = from(material, air)?;
        let Some(coldest) = self.calibration.temperatures.first().copied() else {
            return Ok(pail);
        };
        if material >= coldest && air >= coldest {
            return Ok(pail);
        }
        let (known, in_air) = (warmer_of(material, coldest), warmer_of(air, coldest));
        let longer = arrhenius(kinetics.rate.beyond().cold, known, material);
        let (begins_warmer, in_warmer) = (above(known, material), above(in_air, air));
        Ok(Pail { cold: Some(Cold { begins_warmer, in_warmer, longer }), ..pail })
    }
}

fn warmer_of(
    one: ThermodynamicTemperature,
    other: ThermodynamicTemperature,
) -> ThermodynamicTemperature {
    if one > other { one } else { other }
}
