//! What a product is mixed of: its ratio, its kits and the equivalent weights of its parts.

use crate::error::Error;
use crate::field::Field;
use crate::quantity::{Mass, MassDensity, Volume, unit};
use crate::ratio::{Additive, Basis, Component, Onto, Ratio};
use crate::record::{AdditiveRecord, KitRecord, ProductRecord};
use crate::stoichiometry::EquivalentWeights;

/// The ratio with its additives, and the kits, which a dose may be given by.
pub(super) fn ratio_and_kits(record: &ProductRecord) -> Result<(Ratio, Vec<Volume>), Error> {
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
    Ok((ratio, kits))
}

/// The equivalent weights of the sheet, which only a product of two parts has.
pub(super) fn equivalents(record: &ProductRecord) -> Result<Option<EquivalentWeights>, Error> {
    match record.equivalent_weights {
        None => Ok(None),
        Some(_) if record.components.len() != 2 => {
            let (field, other) = (Field::EquivalentWeight, Field::Components);
            Err(Error::Contradiction { field, other })
        }
        Some(w) => EquivalentWeights::new(w.a_g_per_mol, w.b_g_per_mol).map(Some),
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
