//! A product from its record, checked field by field.

use super::{Gap, Product};
use crate::after::{After, SheetTimes};
use crate::calibrate::{Assumed, PotLifePoint, Sample, calibrate, iso_9514_sample};
use crate::coverage::{wet_from_dry, wet_from_spread};
use crate::cure::Beyond;
use crate::error::Error;
use crate::field::Field;
use crate::film::{Film, OpenTimePoint};
use crate::limits::Limits;
use crate::lot::Lot;
use crate::order::Sold;
use crate::pail::{Thermal, laboratory_cup, still_air};
use crate::quantity::{
    AvailableEnergy, Figure, Length, Mass, MassDensity, MolarEnergy, SpecificHeatCapacity, Volume,
    celsius, minutes, unit,
};
use crate::ratio::{Additive, Basis, Component, Onto, Ratio};
use crate::record::{AdditiveRecord, KitRecord, PotLifeRecord, ProductRecord, Role};
use crate::stoichiometry::{self, EquivalentWeights};

impl TryFrom<&ProductRecord> for Product {
    type Error = Error;

    /// Checks a record field by field and calibrates it.
    ///
    /// # Errors
    /// The first thing that is wrong, naming its field.
    ///
    /// ```
    /// use pailwise_calc::{demo, field::Field, error::Error, product::Product};
    /// let mut record = demo::record_base();
    /// record.components[1].density_kg_per_l = -1.0;
    /// let wrong = Product::try_from(&record).unwrap_err();
    /// assert!(matches!(wrong, Error::OutOfRange { field: Field::Density, .. }));
    /// ```
    fn try_from(record: &ProductRecord) -> Result<Self, Error> {
        record.check_words()?;
        record.check_rows()?;
        let typical = record.chemistry.typical();
        let components: Vec<_> = record
            .components
            .iter()
            .map(|c| Component { parts: c.parts, density: kg_per_l(c.density_kg_per_l) })
            .collect();
        let plain = Ratio::new(record.ratio_by, components.clone(), Vec::new())?;
        let kits = record.kits.iter().map(|k| kit(*k, &plain)).collect::<Result<Vec<_>, _>>()?;
        let additives =
            record.additives.iter().map(|a| additive(a, record, &plain, kits.first().copied()));
        let ratio = Ratio::new(record.ratio_by, components, additives.collect::<Result<_, _>>()?)?;
        let equivalents = match record.equivalent_weights {
            None => None,
            Some(_) if record.components.len() != 2 => {
                let (field, other) = (Field::EquivalentWeight, Field::Components);
                return Err(Error::Contradiction { field, other });
            }
            Some(w) => Some(EquivalentWeights::new(w.a_g_per_mol, w.b_g_per_mol)?),
        };
        let tolerance =
            Field::RatioTolerance.check_share(record.ratio_tolerance_percent / 100.0)?;

        let mut gaps = Vec::new();
        if record.pot_life.iter().any(|p| p.mass_kg.is_none() && p.volume_l.is_none()) {
            gaps.push(Gap::PotLifeMass);
        }
        let pot_life = record.pot_life.iter().map(|p| pot_life(*p, &ratio, &kits));
        let pot_life = pot_life.collect::<Result<Vec<_>, _>>()?;
        let thermal = thermal(record, ratio.density())?;
        let kappa = match record.kappa {
            Some(kappa) => Field::Kappa.check(kappa)?,
            None => typical.kappa,
        };
        let beyond = match record.activation_energy_kj_per_mol {
            Some(energy) => beyond_own(energy)?,
            None => typical.beyond,
        };
        let gel = stoichiometry::gel(1.0, typical.functionality).ok_or(Error::NoSolution)?;
        let assumed = Assumed { beyond, kappa, balance: 1.0, end: typical.end, gel };
        let calibration = calibrate(&pot_life, assumed, &thermal)?;
        if calibration.temperatures.len() < 2 && record.activation_energy_kj_per_mol.is_none() {
            gaps.push(Gap::SecondTemperature);
        }
        if record.pot_life.iter().any(|point| point.measured.is_none()) {
            gaps.push(Gap::Measured);
        }

        let minds_damp = record.chemistry.minds_damp();
        let mut open = open_times(record)?;
        if open.is_empty() {
            gaps.push(Gap::OpenTime);
            let part = if minds_damp { 0.5 } else { 1.0 };
            open.extend(pot_life.iter().map(|p| OpenTimePoint {
                time: (p.time * part).max(minutes(1.0)),
                temperature: p.temperature,
                humidity: None,
            }));
        }
        let product = Self {
            role: record.role,
            tolerance,
            film: Film::new(calibration.kinetics, &open, minds_damp)?,
            pot_life,
            thermal,
            heat_is_typical: record.heat_of_reaction_j_per_g.is_none(),
            assumed,
            calibration,
            typical,
            mixing: Field::Mixing.check(minutes(record.mixing_min))?,
            induction: Field::Induction.check(minutes(record.induction_min))?,
            wet_film: wet_film(record)?,
            flaked: record.flaked,
            sold: kits
                .iter()
                .zip(&record.kits)
                .map(|(each, kit)| Sold { each: *each, price: kit.price })
                .collect(),
            kits,
            equivalents,
            after: after(record)?,
            limits: Limits::try_from(&record.limits)?,
            gaps,
            ratio,
            lot: Lot::default(),
        };
        let lot = product.lot_of(record)?;
        let mut product = product.at_pace(lot.times);
        product.lot = lot;
        Ok(product)
    }
}

fn kg_per_l(value: f64) -> MassDensity {
    MassDensity::new::<unit::kilogram_per_cubic_meter>(value * 1000.0)
}

/// The parts of a kit together, by volume.
fn kit(record: KitRecord, plain: &Ratio) -> Result<Volume, Error> {
    if let Some(price) = record.price {
        Field::Price.check(price)?;
    }
    Field::Kit.check(match (record.volume_l, record.mass_kg) {
        (Some(liters), None) => Volume::new::<unit::liter>(liters),
        (None, Some(kg)) => {
            Field::KitMass.check(Mass::new::<unit::kilogram>(kg))? / plain.density()
        }
        (None, None) => return Err(Error::Missing { field: Field::Kit }),
        _ => return Err(Error::Contradiction { field: Field::Kit, other: Field::Kit }),
    })
}

/// What it does with its heat: its own figures, or typical ones.
fn thermal(record: &ProductRecord, density: MassDensity) -> Result<Thermal, Error> {
    let typical = record.chemistry.typical();
    let heat_of_reaction = match record.heat_of_reaction_j_per_g {
        Some(heat) => {
            Field::HeatOfReaction.check(AvailableEnergy::new::<unit::joule_per_gram>(heat))?
        }
        None => typical.heat_of_reaction,
    };
    let heat_capacity = match record.heat_capacity_j_per_g_k {
        Some(cp) => SpecificHeatCapacity::new::<unit::joule_per_kilogram_kelvin>(
            Field::HeatCapacity.check(cp)? * 1000.0,
        ),
        None => typical.heat_capacity,
    };
    Ok(Thermal { heat_of_reaction, heat_capacity, density, heat_loss: still_air() })
}

/// The slopes beyond the temperatures of a sheet by the product's own activation energy: it counts
/// as that of a pair of temperatures does.
fn beyond_own(kilojoules: f64) -> Result<Beyond, Error> {
    let own = MolarEnergy::new::<unit::kilojoule_per_mole>(kilojoules);
    let own = Field::ActivationEnergy.check(own)?;
    let several = Beyond::of_several();
    Ok(Beyond { cold: several.cold.min(own), warm: several.warm.max(own) })
}

/// The open times of the sheet.
fn open_times(record: &ProductRecord) -> Result<Vec<OpenTimePoint>, Error> {
    let humidity = |percent: f64| Field::OpenTimeHumidity.check_share(percent / 100.0);
    let points = record.open_time.iter().map(|p| {
        Ok(OpenTimePoint {
            time: minutes(p.time_min),
            temperature: celsius(p.temperature_c),
            humidity: p.humidity_percent.map(humidity).transpose()?,
        })
    });
    points.collect()
}

/// A kit whose size the sheet does not give: a US quart, small, the safe side.
const SMALL_KIT_L: f64 = 0.946_352_946;

/// A pot life of the sheet, with the mass of its sample.
fn pot_life(record: PotLifeRecord, ratio: &Ratio, kits: &[Volume]) -> Result<PotLifePoint, Error> {
    let mass = match (record.mass_kg, record.volume_l) {
        (Some(kg), None) => Mass::new::<unit::kilogram>(kg),
        (None, Some(liters)) => {
            let volume = Field::PotLifeVolume.check(Volume::new::<unit::liter>(liters))?;
            volume * ratio.density()
        }
        (None, None) => match record.measured {
            Some(Sample::Kit) => {
                let smallest = kits.iter().copied().reduce(Volume::min);
                let small = Volume::new::<unit::liter>(SMALL_KIT_L);
                smallest.unwrap_or(small) * ratio.density()
            }
            Some(Sample::Insulated) => iso_9514_sample() * ratio.density(),
            Some(Sample::Cup | Sample::Gel) | None => laboratory_cup(),
        },
        _ => {
            let (field, other) = (Field::PotLifeMass, Field::PotLifeVolume);
            return Err(Error::Contradiction { field, other });
        }
    };
    let (time, temperature) = (minutes(record.time_min), celsius(record.temperature_c));
    Ok(PotLifePoint { time, temperature, mass, sample: record.measured })
}

/// What the sheet says about the time after it is down.
fn after(record: &ProductRecord) -> Result<After, Error> {
    let after = After {
        recoat_opens: SheetTimes::new(&record.recoat_opens)?,
        recoat_closes: SheetTimes::new(&record.recoat_closes)?,
        light_use: SheetTimes::new(&record.light_use)?,
        vehicles: SheetTimes::new(&record.vehicles)?,
        full_cure: SheetTimes::new(&record.full_cure)?,
    };
    if let Some(cover) = record.flake_kg_per_m2 {
        Field::FlakeCover.check(cover)?;
    }
    Ok(after)
}

/// An additive; so much a kit becomes a share of what it goes into.
fn additive(
    additive: &AdditiveRecord,
    record: &ProductRecord,
    plain: &Ratio,
    kit: Option<Volume>,
) -> Result<Additive, Error> {
    let onto = if additive.onto == "mix" {
        Onto::Mix
    } else {
        let found = record.components.iter().position(|c| c.label == additive.onto);
        Onto::Component(
            found.ok_or(Error::Contradiction { field: Field::Dose, other: Field::Components })?,
        )
    };
    let density = kg_per_l(additive.density_kg_per_l);
    Field::Density.check(density)?;
    let a_kit = |dose: Volume| -> Result<(f64, Basis), Error> {
        let kit = kit.ok_or(Error::Missing { field: Field::Kits })?;
        let into = match onto {
            Onto::Mix => kit,
            Onto::Component(i) => plain.split(kit).get(i).map_or(kit, |pour| pour.volume),
        };
        Ok(((Field::PerKit.check(dose)? / into).value, Basis::Volume))
    };
    let (dose, by) =
        match (additive.dose_percent, additive.dose_ml_per_kit, additive.dose_g_per_kit) {
            (Some(percent), None, None) => (percent / 100.0, additive.dose_by),
            (None, Some(ml), None) => a_kit(Volume::new::<unit::milliliter>(ml))?,
            (None, None, Some(g)) => {
                a_kit(Field::PerKitMass.check(Mass::new::<unit::gram>(g))? / density)?
            }
            (None, None, None) => return Err(Error::Missing { field: Field::Dose }),
            _ => return Err(Error::Contradiction { field: Field::Dose, other: Field::PerKit }),
        };
    Ok(Additive { onto, dose, by, density })
}

/// The wet film from whichever of the three ways the record gives it; a filler needs none.
fn wet_film(record: &ProductRecord) -> Result<Option<Length>, Error> {
    let um = |x: f64| Length::new::<unit::micrometer>(x);
    match (record.wet_film_um, record.dry_film_um, record.spread_m2_per_l) {
        (Some(wet), None, None) => {
            Field::WetFilm.check(Figure::Thickness(um(wet)))?;
            Ok(Some(um(wet)))
        }
        (None, Some(dry), None) => {
            let solids =
                record.solids_by_volume_percent.ok_or(Error::Missing { field: Field::Solids })?;
            wet_from_dry(um(dry), solids / 100.0).map(Some)
        }
        (None, None, Some(spread)) => wet_from_spread(spread).map(Some),
        (None, None, None) if record.role == Role::Filler => Ok(None),
        (None, None, None) => Err(Error::Missing { field: Field::WetFilm }),
        (Some(_), Some(_), _) => {
            Err(Error::Contradiction { field: Field::WetFilm, other: Field::DryFilm })
        }
        (_, _, Some(_)) => {
            Err(Error::Contradiction { field: Field::Spread, other: Field::WetFilm })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    #[test]
    fn what_the_sheet_leaves_out_is_listed() {
        let mut record = demo::record_base();
        record.pot_life = vec![PotLifeRecord {
            time_min: 30.0,
            temperature_c: 25.0,
            mass_kg: None,
            volume_l: None,
            measured: None,
        }];
        record.open_time.clear();
        let product = Product::try_from(&record).unwrap();
        let gaps = [Gap::PotLifeMass, Gap::SecondTemperature, Gap::Measured, Gap::OpenTime];
        assert_eq!(product.gaps(), gaps);
    }

    #[test]
    fn three_ways_to_a_film_agree_and_two_at_once_are_refused() {
        let mut record = demo::record_base();
        (record.wet_film_um, record.spread_m2_per_l) = (Some(400.0), None);
        let wet = Product::try_from(&record).unwrap().wet_film().unwrap();
        (record.wet_film_um, record.spread_m2_per_l) = (None, Some(2.5));
        assert!(
            (Product::try_from(&record).unwrap().wet_film().unwrap() - wet).abs().value < 1e-12
        );
        record.wet_film_um = Some(400.0);
        assert!(matches!(
            Product::try_from(&record),
            Err(Error::Contradiction { field: Field::Spread, .. })
        ));
        (record.wet_film_um, record.spread_m2_per_l) = (None, None);
        (record.dry_film_um, record.solids_by_volume_percent) = (Some(320.0), Some(80.0));
        assert!(
            (Product::try_from(&record).unwrap().wet_film().unwrap() - wet).abs().value < 1e-12
        );
        record.solids_by_volume_percent = None;
        assert!(matches!(Product::try_from(&record), Err(Error::Missing { field: Field::Solids })));
    }

    #[test]
    fn typical_constants_give_way_to_the_product_s_own() {
        let mut record = demo::record_base();
        let pot_life = |record: &crate::record::ProductRecord| {
            let product = Product::try_from(record).unwrap();
            let vessel = crate::vessel::Generic::FiveGallon.vessel();
            let mass = Mass::new::<unit::kilogram>(8.0);
            let pail = product.pail(mass, &vessel, celsius(25.0), celsius(25.0)).unwrap();
            (pail.pot_life().unwrap(), pail.adiabatic_bound(), product.heat_is_typical())
        };
        let typical = pot_life(&record);
        record.heat_of_reaction_j_per_g = Some(400.0);
        record.heat_capacity_j_per_g_k = Some(1.7);
        record.kappa = Some(0.3);
        let own = pot_life(&record);
        assert!(own.1 > typical.1 && own.0 != typical.0);
        assert_eq!((typical.2, own.2), (true, false));
        record.kappa = Some(-1.0);
        let wrong = Product::try_from(&record);
        assert!(matches!(wrong, Err(Error::OutOfRange { field: Field::Kappa, .. })));
    }

    #[test]
    fn so_much_a_kit_is_so_much_of_what_it_goes_into() {
        let mut record = demo::record_topcoat();
        let dose = |record: &ProductRecord| {
            Product::try_from(record).map(|product| product.ratio().additives()[0].dose)
        };
        let additive = &mut record.additives[0];
        (additive.dose_percent, additive.dose_ml_per_kit) = (None, Some(75.708_235_68));
        // A gallon of A in the two-gallon kit: 75.7 mL is 2 % of it.
        assert!((dose(&record).unwrap() - 0.02).abs() < 1e-12);
        let additive = &mut record.additives[0];
        (additive.dose_ml_per_kit, additive.dose_g_per_kit) = (None, Some(75.708_235_68));
        assert!((dose(&record).unwrap() - 0.02).abs() < 1e-12);
        record.additives[0].dose_percent = Some(2.0);
        assert!(matches!(dose(&record), Err(Error::Contradiction { .. })));
        record.additives[0].dose_percent = None;
        record.kits.clear();
        assert_eq!(dose(&record), Err(Error::Missing { field: Field::Kits }));
    }

    #[test]
    fn equivalent_weights_are_for_two_parts() {
        let mut record = demo::record_base();
        record.components.push(record.components[1].clone());
        assert!(matches!(Product::try_from(&record), Err(Error::Contradiction { .. })));
    }

    #[test]
    fn an_additive_onto_nothing_is_refused() {
        let mut record = demo::record_topcoat();
        record.additives[0].onto = "C".to_owned();
        assert!(matches!(Product::try_from(&record), Err(Error::Contradiction { .. })));
    }
}
