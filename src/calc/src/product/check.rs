//! A product from its record, checked field by field.

mod cure;
mod mix;

use super::{Gap, Product};
use crate::after::{After, SheetTimes};
use crate::calibrate::{Calibration, calibrate};
use crate::coverage::{wet_from_dry, wet_from_spread};
use crate::error::Error;
use crate::field::Field;
use crate::limits::Limits;
use crate::lot::Lot;
use crate::order::Sold;
use crate::quantity::{Figure, Length, minutes, unit};
use crate::record::{ProductRecord, Role};

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
        let (ratio, kits) = mix::ratio_and_kits(record)?;
        let equivalents = mix::equivalents(record)?;
        let tolerance =
            Field::RatioTolerance.check_share(record.ratio_tolerance_percent / 100.0)?;
        let pot_life = cure::pot_lives(record, &ratio, &kits)?;
        let thermal = cure::thermal(record, ratio.density())?;
        let assumed = cure::assumed(record)?;
        let calibration = calibrate(&pot_life, assumed, &thermal)?;
        let product = Self {
            role: record.role,
            tolerance,
            film: cure::film(record, &calibration, &pot_life)?,
            gaps: gaps(record, &calibration),
            pot_life,
            thermal,
            heat_is_typical: record.heat_of_reaction_j_per_g.is_none(),
            assumed,
            calibration,
            typical: record.chemistry.typical(),
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
            ratio,
            lot: Lot::default(),
        };
        let lot = product.lot_of(record)?;
        let mut product = product.at_pace(lot.times);
        product.lot = lot;
        Ok(product)
    }
}

/// What the sheet leaves out, in the order in which it is said.
fn gaps(record: &ProductRecord, calibration: &Calibration) -> Vec<Gap> {
    let points = &record.pot_life;
    let one_temperature = calibration.temperatures.len() < 2;
    let cases = [
        (points.iter().any(|p| p.mass_kg.is_none() && p.volume_l.is_none()), Gap::PotLifeMass),
        (one_temperature && record.activation_energy_kj_per_mol.is_none(), Gap::SecondTemperature),
        (points.iter().any(|point| point.measured.is_none()), Gap::Measured),
        (record.open_time.is_empty(), Gap::OpenTime),
    ];
    cases.into_iter().filter_map(|(is, gap)| is.then_some(gap)).collect()
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
    use crate::quantity::{Mass, celsius};
    use crate::record::PotLifeRecord;

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
