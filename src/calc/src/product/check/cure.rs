//! How a product cures, by its sheet: pot lives, open times, and what it does with its heat.

use crate::calibrate::{Assumed, Calibration, PotLifePoint, Sample, iso_9514_sample};
use crate::cure::Beyond;
use crate::error::Error;
use crate::field::Field;
use crate::film::{Film, OpenTimePoint};
use crate::pail::{Thermal, laboratory_cup, still_air};
use crate::quantity::{
    AvailableEnergy, Mass, MassDensity, MolarEnergy, SpecificHeatCapacity, Volume, celsius,
    minutes, unit,
};
use crate::ratio::Ratio;
use crate::record::{PotLifeRecord, ProductRecord};
use crate::stoichiometry;

/// What it does with its heat: its own figures, or typical ones.
pub(super) fn thermal(record: &ProductRecord, density: MassDensity) -> Result<Thermal, Error> {
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

/// What the calibration takes for granted: the product's own constants, or typical ones.
pub(super) fn assumed(record: &ProductRecord) -> Result<Assumed, Error> {
    let typical = record.chemistry.typical();
    let kappa = match record.kappa {
        Some(kappa) => Field::Kappa.check(kappa)?,
        None => typical.kappa,
    };
    let beyond = match record.activation_energy_kj_per_mol {
        Some(energy) => beyond_own(energy)?,
        None => typical.beyond,
    };
    let gel = stoichiometry::gel(1.0, typical.functionality).ok_or(Error::NoSolution)?;
    Ok(Assumed { beyond, kappa, balance: 1.0, end: typical.end, gel })
}

/// The slopes beyond the temperatures of a sheet by the product's own activation energy: it counts
/// as that of a pair of temperatures does.
fn beyond_own(kilojoules: f64) -> Result<Beyond, Error> {
    let own = MolarEnergy::new::<unit::kilojoule_per_mole>(kilojoules);
    let own = Field::ActivationEnergy.check(own)?;
    let several = Beyond::of_several();
    Ok(Beyond { cold: several.cold.min(own), warm: several.warm.max(own) })
}

/// The film by the open times of the sheet; pot life stands in where it gives none.
pub(super) fn film(
    record: &ProductRecord,
    calibration: &Calibration,
    pot_life: &[PotLifePoint],
) -> Result<Film, Error> {
    let minds_damp = record.chemistry.minds_damp();
    let mut open = open_times(record)?;
    if open.is_empty() {
        let part = if minds_damp { 0.5 } else { 1.0 };
        open.extend(pot_life.iter().map(|p| OpenTimePoint {
            time: (p.time * part).max(minutes(1.0)),
            temperature: p.temperature,
            humidity: None,
        }));
    }
    Film::new(calibration.kinetics, &open, minds_damp)
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

/// The pot lives of the sheet, each with the mass of its sample.
pub(super) fn pot_lives(
    record: &ProductRecord,
    ratio: &Ratio,
    kits: &[Volume],
) -> Result<Vec<PotLifePoint>, Error> {
    record.pot_life.iter().map(|p| pot_life(*p, ratio, kits)).collect()
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
