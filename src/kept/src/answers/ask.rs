//! From what was typed to what the calculation is asked.

use pailwise_calc::crew;
use pailwise_calc::record::{
    BareRecord, ConditionsRecord, CrewRecord, GearRecord, JobRecord, OwnVesselRecord,
    ProductRecord, Role, VERSION, VesselRecord,
};

use crate::entry::Invalid;
use crate::records::mix::{Ask, MixRecord};
use crate::units::Units;

/// A field that keeps the answer from being there.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Which.
    pub ask: Ask,
    /// What is the matter with it.
    pub unfit: Invalid,
}

/// The fields of a product that are unfit, in order.
pub fn faults(mix: &MixRecord, product: &ProductRecord) -> Vec<Fault> {
    let wants = mix.wants(Some(product));
    Ask::ALL
        .into_iter()
        .filter(|ask| ask.concerns(wants))
        .filter_map(|ask| Some(Fault { ask, unfit: value(mix, ask).err()? }))
        .collect()
}

fn value(mix: &MixRecord, ask: Ask) -> Result<Option<f64>, Invalid> {
    let (field, kind) = ask.field();
    let entry = mix.entry(ask);
    if ask.optional() && entry.text.trim().is_empty() {
        return Ok(None);
    }
    let typed = entry.value(kind, field)?;
    Ok(Some(mix.exact(ask).unwrap_or(typed)))
}

/// The job that the Mix screen asks about.
///
/// # Errors
/// The fields that are unfit, all of them.
pub fn job(
    mix: &MixRecord,
    product: &ProductRecord,
    units: Units,
) -> Result<JobRecord, Vec<Fault>> {
    let faults = faults(mix, product);
    if !faults.is_empty() {
        return Err(faults);
    }
    // Fields the product does not ask for may be unfit; whatever stands for them is not used.
    let number = |ask: Ask| value(mix, ask).ok().flatten().unwrap_or(0.0);
    let count = |ask: Ask| number(ask) as u32;
    let filler = product.role == Role::Filler;
    let plan = mix.plan();
    // What ends at no tape is brushed on walls and steps, by all who roll or cut in.
    let brushed = plan.filter(|_| mix.place().is_some_and(|place| place.to_m.is_none()));
    // Of several crews the one that lays it.
    let team = plan.and_then(|plan| plan.team).filter(|team| team.of == mix.people());
    let crack_width_m = number(Ask::CrackWidth) / 1000.0;
    let vessel = match mix.vessel.generic() {
        Some(generic) => VesselRecord::Generic(generic),
        None => VesselRecord::Own(OwnVesselRecord {
            bottom_diameter_mm: number(Ask::OwnBottom),
            top_diameter_mm: number(Ask::OwnTop),
            height_mm: number(Ask::OwnHeight),
        }),
    };
    let read_in = mix.read_in(units);
    Ok(JobRecord {
        format: JobRecord::FORMAT.to_owned(),
        version: VERSION,
        product: product.clone(),
        conditions: ConditionsRecord {
            slab_c: number(Ask::Slab),
            air_c: number(Ask::Air),
            material_c: number(Ask::Material),
            read_after_mixing: mix.read_after_mixing,
            humidity_percent: value(mix, Ask::Humidity).ok().flatten(),
        },
        crew: CrewRecord {
            rollers: team.map_or(count(Ask::Rollers), |team| team.rollers)
                + brushed.map_or(0, |plan| plan.cutters),
            flakers: if product.flaked {
                team.map_or(count(Ask::Flakers), |team| team.flakers)
            } else {
                0
            },
            mixers: team.map_or(mix.mixers, |team| team.mixers),
            // Edges and walls are the Floor screen's.
            cutters: plan.filter(|_| brushed.is_none()).map_or(0, |plan| plan.cutters),
            cut_m2_per_min: plan.map_or(crew::USUAL_CUT, |plan| plan.cut_m2_per_min),
            // The usual pace where this product asks for none and what stands there is unfit.
            crack_m_per_min: value(mix, Ask::CrackPace).ok().flatten().unwrap_or(crew::USUAL_CRACK),
            roll_m2_per_min: if filler {
                number(Ask::CrackPace) * crack_width_m
            } else if let Some(plan) = brushed {
                plan.cut_m2_per_min
            } else {
                number(Ask::RollPace)
            },
            // Not used without flake; any pace in range will do.
            flake_m2_per_min: if product.flaked { number(Ask::FlakePace) } else { 1.0 },
            spikes: mix.spikes,
            same_wall: mix.same_wall,
            throw_m: if product.flaked { number(Ask::Throw) } else { 1.0 },
            carry_min: number(Ask::Carry),
            reading_min: number(Ask::Reading),
            clean_pail_min: number(Ask::CleanPail),
            measured_ahead: mix.measured_ahead,
            settle_min: if product.flaked { number(Ask::Settle) } else { 0.0 },
            // Paste and what is brushed is always worked from the pail, or from a board.
            ribbon: mix.ribbon && !filler && brushed.is_none(),
            pour_l_per_min: crew::USUAL_POUR,
            reserve_percent: number(Ask::Usable),
        },
        bare: BareRecord {
            area_m2: if filler {
                number(Ask::CrackLength) * crack_width_m
            } else {
                number(Ask::Area)
            },
            width_m: if filler { crack_width_m } else { number(Ask::Width) },
            crack_depth_mm: filler.then(|| number(Ask::CrackDepth)),
            take_up_percent: if filler || plan.is_some_and(|plan| !plan.soaks) {
                0.0
            } else {
                number(Ask::TakeUp)
            },
            loss_percent: number(Ask::Loss),
            ends_at_joint: mix.ends_at_joint || plan.is_some_and(|plan| plan.ends_at_joint),
            in_plan: plan.map(|plan| plan.in_plan),
        },
        gear: GearRecord {
            vessel,
            measure: read_in.usual.into(),
            finer: read_in.finer.map(Into::into),
            kits: mix.kits.filter(|_| !product.kits.is_empty()),
            largest_mass_kg: value(mix, Ask::LargestMass).ok().flatten(),
        },
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::{Entry, Kind};
    use crate::records::mix::{PailPick, Way};
    use pailwise_calc::{demo, field::Field, job::Job};

    #[test]
    fn the_first_figures_of_every_product_give_a_batch_in_both_units() {
        for product in demo::records() {
            for units in Units::ALL {
                for way in [Way::Jug, Way::Stick, Way::Scale] {
                    let mix = MixRecord { way, ..MixRecord::first(&product.id, units) };
                    let record = job(&mix, &product, units).unwrap();
                    let batch = Job::try_from(&record).unwrap().next_batch();
                    assert!(batch.is_ok(), "{} {units:?} {way:?}: {batch:?}", product.id);
                }
            }
        }
    }

    #[test]
    fn a_pail_of_their_own_is_asked_for_and_used() {
        let product = demo::record_base();
        let mut mix = MixRecord::first(&product.id, Units::Us);
        mix.vessel = PailPick::Own;
        mix.entries.insert(Ask::OwnHeight, Entry::as_typed("tall", Units::Us));
        let wrong = job(&mix, &product, Units::Us).unwrap_err();
        assert_eq!(wrong, [Fault { ask: Ask::OwnHeight, unfit: Invalid::Unreadable }]);
        mix.entries.insert(Ask::OwnHeight, Entry::as_typed("20", Units::Us));
        let tall = Job::try_from(&job(&mix, &product, Units::Us).unwrap()).unwrap();
        assert!((tall.gear.vessel.height().value - 0.508).abs() < 1e-9);
    }

    #[test]
    fn all_unfit_fields_are_named_and_none_that_does_not_matter() {
        let product = demo::record_base();
        let mut mix = MixRecord::first(&product.id, Units::Us);
        mix.entries.insert(Ask::Slab, Entry::as_typed("hot", Units::Us));
        mix.entries.insert(Ask::Area, Entry::as_typed("-4", Units::Us));
        mix.entries.insert(Ask::CrackDepth, Entry::as_typed("", Units::Us));
        let wrong = job(&mix, &product, Units::Us).unwrap_err();
        assert_eq!(
            wrong,
            [
                Fault { ask: Ask::Slab, unfit: Invalid::Unreadable },
                Fault {
                    ask: Ask::Area,
                    unfit: Invalid::OutOfRange { kind: Kind::Area, field: Field::AreaLeft }
                },
            ]
        );
    }
}
