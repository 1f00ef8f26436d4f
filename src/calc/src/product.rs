//! A product, checked and calibrated: what the rest of the crate works with.

mod check;
mod explain;

use crate::after::After;
use crate::calibrate::{Calibration, PotLifePoint};
use crate::coverage::Coverage;
use crate::cure::Typical;
use crate::error::Error;
use crate::field::Field;
use crate::film::Film;
use crate::limits::Limits;
use crate::order::Sold;
use crate::pail::{Pail, Thermal};
use crate::quantity::{Length, Mass, ThermodynamicTemperature, Time, Volume, minutes, unit};
use crate::ratio::{Ingredient, Pour, Ratio};
use crate::record::Role;
use crate::stoichiometry::{self, EquivalentWeights};
use crate::vessel::Vessel;

/// Something a data sheet leaves out, and what is taken instead.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Gap {
    /// No mass beside a pot life: a laboratory cup is taken, the safe side.
    PotLifeMass,
    /// Pot life at one temperature only: the typical activation energy, about "halves for each
    /// 10 °C", is taken.
    SecondTemperature,
    /// No open time: pot life stands in for it.
    OpenTime,
}

/// A product ready for calculation.
#[derive(Clone, Debug, PartialEq)]
pub struct Product {
    role: Role,
    ratio: Ratio,
    tolerance: f64,
    pot_life: Vec<PotLifePoint>,
    thermal: Thermal,
    heat_is_typical: bool,
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
}

impl Product {
    /// What it is for.
    pub fn role(&self) -> Role {
        self.role
    }

    /// Its ratio.
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

    /// How its film closes.
    pub fn film(&self) -> Film {
        self.film
    }

    /// How long to mix it, by its data sheet.
    pub fn mixing(&self) -> Time {
        self.mixing
    }

    /// How long mixing takes in all: by the data sheet, then a minute more in a second pail
    /// (common practice, no source), which the clock must not leave out.
    ///
    /// ```
    /// use pailwise_calc::{demo, quantity::minutes};
    /// let base = demo::base().unwrap();
    /// assert_eq!(base.mixing_in_all(), base.mixing() + minutes(1.0));
    /// ```
    pub fn mixing_in_all(&self) -> Time {
        self.mixing + minutes(1.0)
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

    /// The conversion at which it gels, or `None` when it never does.
    pub fn gel(&self) -> Option<f64> {
        stoichiometry::gel(self.calibration.kinetics.balance, self.typical.functionality)
    }

    /// A mass of it, mixed, in a vessel.
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
        Field::Material.check(material)?;
        Field::Air.check(air)?;
        Pail::new(self.calibration.kinetics, &self.thermal, mass, vessel, material, air)
    }
}
