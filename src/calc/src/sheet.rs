//! Reading a data sheet with a wary eye: figures that can be but hardly are, and figures that are
//! not there.
//!
//! What cannot be is an [`crate::error::Error`] of [`Product`]; what hardly is, is a [`Doubt`]: a
//! figure most often mistyped or read in the wrong unit. The bounds of the usual are common
//! practice, no source; a product may well lie outside them.

mod usual;

use crate::after::SheetTimes;
use crate::calibrate::{CupLoss, DISTINCT};
use crate::cure::GAS_CONSTANT;
use crate::field::Field;
use crate::product::Product;
use crate::quantity::{Figure, ThermodynamicTemperature, Time, celsius};
use crate::record::{AdditiveRecord, ProductRecord, Role};

/// A figure outside what is usual.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubt {
    /// Which figure of the data sheet is doubtful.
    pub field: Field,
    /// The row it stands in, counted from 0, where there are several.
    pub row: usize,
    /// What the sheet says.
    pub given: Figure,
    /// Why it is doubtful.
    pub why: Why,
}

/// Why a figure is doubtful.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Why {
    /// Usual is this much.
    Unusual {
        /// The least that is usual.
        low: Figure,
        /// The most that is usual for this figure.
        high: Figure,
    },
    /// The equivalent weights say that one side is left over: a weight, a density or the ratio is
    /// most likely wrong. The figure is groups of B for each of A.
    OffBalance,
    /// It hardly shortens where it is warmer, or lasts longer there. The shorter time holds.
    HardlyShorter {
        /// The colder time and its temperature.
        colder: (Figure, Figure),
        /// The warmer one and its.
        warmer: (Figure, Figure),
    },
    /// It shortens more with the heat than any resin is known to.
    MuchShorter {
        /// The colder time and its temperature.
        colder: (Figure, Figure),
        /// The warmer one and its.
        warmer: (Figure, Figure),
    },
    /// No heat that a cup may lose lets both samples of one temperature last as they are said to.
    /// The shorter holds.
    MassesDisagree,
    /// An additive is dosed by the kit, and there are kits of several sizes: this one is taken, the
    /// first.
    OfFirstKit {
        /// The size of the kit that the dose is taken to be for.
        kit: Figure,
    },
    /// On a slab this warm, the recoat window is closed by the time it opens.
    WindowShut {
        /// How warm: a temperature at which the sheet gives one of the two.
        at: Figure,
    },
    /// Status before use takes this much of the pot life.
    StandsTooLong {
        /// The shortest pot life that the sheet gives.
        pot_life: Figure,
    },
    /// It comes before what should come before it.
    BeforeEarlier {
        /// What should come first.
        earlier: Field,
        /// And when that is.
        at: Figure,
    },
}

/// What a data sheet often says and this one does not, and the tool then cannot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Absent {
    /// No kits: nothing is said of whole kits or of how many to buy.
    Kits,
    /// No time from which the next coat may go on.
    RecoatOpens,
    /// No time until which it may.
    RecoatCloses,
    /// No time for light use.
    LightUse,
    /// No time for vehicles.
    Vehicles,
    /// No coldest or warmest slab: nothing is said when it is too cold or too warm.
    SlabLimits,
    /// No limit of moisture in the slab.
    Moisture,
    /// No name or date of the sheet: nobody can tell later where the figures came from.
    Sheet,
}

/// What hardly can be on a sheet whose product can.
///
/// ```
/// use pailwise_calc::{demo, field::Field, product::Product, sheet::doubts};
/// let mut record = demo::record_base();
/// assert!(doubts(&record, &Product::try_from(&record).unwrap()).is_empty());
/// // 11.5 lb/gal typed into a field that takes kg/L cannot be; 0.6 kg/L hardly can.
/// record.components[1].density_kg_per_l = 0.6;
/// let doubts = doubts(&record, &Product::try_from(&record).unwrap());
/// assert_eq!((doubts[0].field, doubts[0].row), (Field::Density, 1));
/// ```
pub fn doubts(record: &ProductRecord, product: &Product) -> Vec<Doubt> {
    let mut doubts = usual::unusual(record, product);
    doubts.extend(sides_left_over(product));
    doubts.extend(stands_too_long(product));
    doubts.extend(of_first_kit(record, product));
    doubts.extend(pot_life_pairs(product));
    doubts.extend(masses_disagree(product));
    doubts.extend(longer_where_warmer(product));
    doubts.extend(window_shut(product));
    doubts.extend(out_of_order(product));
    doubts
}

/// The groups of B for each of A at the ratio the sheet prescribes, where that is further off than
/// formulators have good reasons to go (0.85 to 1.18; from memory).
///
/// ```
/// use pailwise_calc::{demo, sheet::off_balance};
/// assert_eq!(off_balance(&demo::base().unwrap()), None);
/// ```
pub fn off_balance(product: &Product) -> Option<f64> {
    product.nominal_balance().filter(|balance| !(0.85..=1.18).contains(balance))
}

/// Equivalent weights by which one side is left over.
fn sides_left_over(product: &Product) -> Option<Doubt> {
    let given = Figure::Number(off_balance(product)?);
    Some(Doubt { field: Field::EquivalentWeight, row: 0, given, why: Why::OffBalance })
}

/// An induction that takes more than half of the shortest pot life.
fn stands_too_long(product: &Product) -> Option<Doubt> {
    let pot_life = shortest_pot_life(product)?;
    let why = Why::StandsTooLong { pot_life: pot_life.into() };
    let given = product.induction().into();
    let too_long = product.induction() > 0.5 * pot_life;
    too_long.then_some(Doubt { field: Field::Induction, row: 0, given, why })
}

/// A dose by the kit where there are kits of several sizes.
fn of_first_kit(record: &ProductRecord, product: &Product) -> Option<Doubt> {
    let by_kit = |a: &AdditiveRecord| a.dose_ml_per_kit.is_some() || a.dose_g_per_kit.is_some();
    let (sizes, first) = (product.kits(), *product.kits().first()?);
    let several = sizes.iter().any(|kit| (*kit - first).value.abs() > 1e-3 * first.value);
    let why = Why::OfFirstKit { kit: first.into() };
    let doubt = Doubt { field: Field::PerKit, row: 0, given: first.into(), why };
    (several && record.additives.iter().any(by_kit)).then_some(doubt)
}

/// Samples of one temperature that no loss of heat brings together.
fn masses_disagree(product: &Product) -> Option<Doubt> {
    let CupLoss::Contradicted(_) = product.calibration().loss else { return None };
    let given = shortest_pot_life(product).unwrap_or_default().into();
    Some(Doubt { field: Field::PotLife, row: 0, given, why: Why::MassesDisagree })
}

/// The shortest pot life that the sheet gives.
fn shortest_pot_life(product: &Product) -> Option<Time> {
    product.pot_life().iter().map(|point| point.time).reduce(Time::min)
}

/// Apparent activation energies of pot life between two temperatures that are usual, kJ/mol:
/// published tables have 13 (a flat pair) to 83 (in the cold).
const USUAL_ENERGY: (f64, f64) = (25.0, 90.0);

/// Neighbouring temperatures of the sheet between which pot life hardly changes, or far too much.
fn pot_life_pairs(product: &Product) -> Vec<Doubt> {
    let points = product.pot_life();
    let mut doubts = Vec::new();
    for (row, warm) in points.iter().enumerate() {
        // The nearest of those that are colder and no smaller.
        let colder = points.iter().filter(|cold| {
            let distinct = warm.temperature.value >= cold.temperature.value + DISTINCT;
            distinct && cold.mass >= warm.mass * 0.7 && cold.mass <= warm.mass * 1.5
        });
        let Some(cold) = colder.max_by(|a, b| a.temperature.value.total_cmp(&b.temperature.value))
        else {
            continue;
        };
        let run = 1.0 / cold.temperature.value - 1.0 / warm.temperature.value;
        let energy = (cold.time / warm.time).value.ln() * GAS_CONSTANT / run / 1000.0;
        let pair = (
            (cold.time.into(), cold.temperature.into()),
            (warm.time.into(), warm.temperature.into()),
        );
        let why = if energy < USUAL_ENERGY.0 {
            Why::HardlyShorter { colder: pair.0, warmer: pair.1 }
        } else if energy > USUAL_ENERGY.1 {
            Why::MuchShorter { colder: pair.0, warmer: pair.1 }
        } else {
            continue;
        };
        doubts.push(Doubt { field: Field::PotLife, row, given: warm.time.into(), why });
    }
    doubts
}

/// Times after the coat is down that the sheet says are longer on a warmer floor.
fn longer_where_warmer(product: &Product) -> Vec<Doubt> {
    let after = product.after();
    let all = [
        (Field::RecoatOpens, &after.recoat_opens),
        (Field::RecoatCloses, &after.recoat_closes),
        (Field::LightUse, &after.light_use),
        (Field::Vehicles, &after.vehicles),
        (Field::FullCure, &after.full_cure),
    ];
    let odd = all.into_iter().filter_map(|(field, times)| {
        let (colder, warmer) = times.as_ref()?.longer_where_warmer()?;
        let colder = (colder.time.into(), colder.temperature.into());
        let why =
            Why::HardlyShorter { colder, warmer: (warmer.time.into(), warmer.temperature.into()) };
        Some(Doubt { field, row: 0, given: warmer.time.into(), why })
    });
    odd.collect()
}

/// A recoat window that is shut at a temperature at which the sheet gives one of its ends.
fn window_shut(product: &Product) -> Option<Doubt> {
    let after = product.after();
    let times = [after.recoat_opens.as_ref(), after.recoat_closes.as_ref()];
    let at = times.into_iter().flatten().flat_map(SheetTimes::times).map(|time| time.temperature);
    let shut = at.into_iter().find(|at| after.recoat(*at).is_some_and(|w| w.shut()))?;
    let given = after.recoat(shut)?.opens.into();
    let why = Why::WindowShut { at: shut.into() };
    Some(Doubt { field: Field::RecoatCloses, row: 0, given, why })
}

/// Things after the coat is down that come before what should come before them, all at the
/// temperature of the sheet's first time.
fn out_of_order(product: &Product) -> Vec<Doubt> {
    let after = product.after();
    let at: Option<ThermodynamicTemperature> =
        after.light_use.as_ref().and_then(|light| Some(light.times().first()?.temperature));
    let at = at.unwrap_or(celsius(25.0));
    let order = [
        (Field::LightUse, &after.light_use),
        (Field::Vehicles, &after.vehicles),
        (Field::FullCure, &after.full_cure),
    ];
    let known: Vec<(Field, Time)> = order
        .into_iter()
        .filter_map(|(field, times)| Some((field, times.as_ref()?.ready(at))))
        .collect();
    let pairs = known.iter().zip(known.iter().skip(1));
    pairs
        .filter(|((_, earlier), (_, later))| later < earlier)
        .map(|((first, earlier), (field, later))| {
            let why = Why::BeforeEarlier { earlier: *first, at: (*earlier).into() };
            Doubt { field: *field, row: 0, given: (*later).into(), why }
        })
        .collect()
}

/// What the sheet does not say.
///
/// ```
/// use pailwise_calc::{demo, sheet::{Absent, absent}};
/// let record = demo::record_filler();
/// assert!(absent(&record).contains(&Absent::Kits));
/// assert!(!absent(&record).contains(&Absent::Vehicles), "nobody drives on a filled crack");
/// ```
pub fn absent(record: &ProductRecord) -> Vec<Absent> {
    let coat = record.role != Role::Filler;
    let last = matches!(record.role, Role::Topcoat | Role::Other);
    let limits = &record.limits;
    let cases = [
        (record.kits.is_empty(), Absent::Kits),
        (record.recoat_opens.is_empty(), Absent::RecoatOpens),
        (coat && record.recoat_closes.is_empty(), Absent::RecoatCloses),
        (last && record.light_use.is_empty(), Absent::LightUse),
        (last && record.vehicles.is_empty(), Absent::Vehicles),
        (limits.slab_min_c.is_none() || limits.slab_max_c.is_none(), Absent::SlabLimits),
        (
            coat && limits.slab_humidity_max_percent.is_none()
                && limits.vapor_emission_max_g_per_m2_day.is_none(),
            Absent::Moisture,
        ),
        (record.sheet.name.trim().is_empty(), Absent::Sheet),
    ];
    cases.into_iter().filter_map(|(is, absent)| is.then_some(absent)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::record::{AfterRecord, KitRecord};

    fn fields(record: &ProductRecord) -> Vec<Field> {
        let product = Product::try_from(record).unwrap();
        doubts(record, &product).into_iter().map(|doubt| doubt.field).collect()
    }

    #[test]
    fn usual_sheets_raise_no_doubt() {
        for record in demo::records() {
            assert_eq!(fields(&record), [], "{}", record.name);
        }
    }

    #[test]
    fn usual_slips_are_seen() {
        type Slip = fn(&mut ProductRecord);
        let slips: [(Field, Slip); 13] = [
            // Fahrenheit read as Celsius, as far as it fits at all.
            (Field::PotLifeTemperature, |r| {
                r.pot_life.truncate(1);
                r.pot_life[0].temperature_c = 45.0;
            }),
            // Hours read as minutes.
            (Field::PotLife, |r| r.pot_life.iter_mut().for_each(|p| p.time_min *= 10.0)),
            // Grams read as kilograms.
            (Field::PotLifeMass, |r| r.pot_life[0].mass_kg = Some(150.0)),
            (Field::RatioTolerance, |r| r.ratio_tolerance_percent = 15.0),
            // Mils read as micrometres.
            (Field::WetFilm, |r| r.wet_film_um = Some(15.0)),
            // The ratio the wrong way round.
            (Field::EquivalentWeight, |r| {
                (r.components[0].parts, r.components[1].parts) = (1.0, 2.0);
            }),
            (Field::Induction, |r| r.induction_min = 20.0),
            // Days read as hours.
            (Field::Vehicles, |r| {
                r.vehicles = vec![AfterRecord { time_h: 3.0, temperature_c: 25.0 }];
            }),
            (Field::Mixing, |r| r.mixing_min = 30.0),
            // °C read as °F: 24 °F is −4 °C.
            (Field::AfterTemperature, |r| r.light_use[0].temperature_c = -4.0),
            (Field::Parts, |r| r.components[0].parts = 200.0),
            (Field::RecoatCloses, |r| {
                r.recoat_closes = vec![AfterRecord { time_h: 5.0, temperature_c: 22.0 }];
            }),
            (Field::PerKit, |r| {
                r.kits.push(KitRecord { volume_l: Some(50.0), ..KitRecord::default() });
                r.additives.push(AdditiveRecord {
                    dose_percent: None,
                    dose_ml_per_kit: Some(30.0),
                    ..demo::record_topcoat().additives[0].clone()
                });
            }),
        ];
        for (field, slip) in slips {
            let mut record = demo::record_base();
            slip(&mut record);
            if record.induction_min == 0.0 && field == Field::PotLifeMass {
                record.pot_life.truncate(1);
            }
            assert!(fields(&record).contains(&field), "{field:?}: {:?}", fields(&record));
        }
    }
}
