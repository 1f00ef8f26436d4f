//! From what was typed on the Mix screen to what the calculation is asked.

use std::collections::BTreeMap;

use pailwise_calc::crew;
use pailwise_calc::record::{
    BareRecord, ConditionsRecord, CrewRecord, GearRecord, JobRecord, OwnVesselRecord,
    ProductRecord, Role, VERSION, VesselRecord,
};

use super::reading::{self, Reading};
use crate::records::mix::{Ask, MixRecord, PlanInputsRecord, Wants};
use crate::units::Units;

/// A field that keeps the answer from being there.
pub type Fault = reading::Fault<Ask>;

/// Fields of the Mix screen, each read once.
#[derive(Clone, Debug, PartialEq)]
struct Read {
    /// What was read; nothing for what was left empty.
    values: BTreeMap<Ask, Option<f64>>,
    reading: Reading<Ask>,
}

impl Read {
    /// The fields that are asked for.
    fn of(mix: &MixRecord, asked: impl Fn(Ask) -> bool) -> Self {
        let mut reading = Reading::default();
        let mut values = BTreeMap::new();
        for ask in Ask::ALL.into_iter().filter(|ask| asked(*ask)) {
            let (field, kind) = ask.field();
            let entry = mix.entry(ask);
            let value = if ask.optional() {
                reading.optional(&entry, (kind, field), ask)
            } else {
                reading.value(&entry, (kind, field), ask).map(Some)
            };
            // What the floor's plan wrote stands for it exactly.
            let value = value.map(|typed| typed.map(|typed| mix.exact(ask).unwrap_or(typed)));
            values.extend(value.map(|value| (ask, value)));
        }
        Self { values, reading }
    }

    fn value(&self, ask: Ask) -> Option<f64> {
        self.values.get(&ask).copied().flatten()
    }

    fn count(&self, ask: Ask) -> Option<u32> {
        self.value(ask).map(|count| count as u32)
    }
}

/// What the Mix screen says of the crew and its gear, whatever they lay.
pub(super) struct CrewAlone {
    pub(super) crew: CrewRecord,
    pub(super) gear: GearRecord,
    pub(super) take_up_percent: f64,
    pub(super) loss_percent: f64,
}

/// The crew and its gear for all of some products.
///
/// # Errors
/// The fields that are invalid, all of them.
pub(super) fn crew_alone(
    mix: &MixRecord,
    products: &[&ProductRecord],
    units: Units,
) -> Result<CrewAlone, Vec<Fault>> {
    let wants: Vec<Wants> = products.iter().map(|product| mix.wants(Some(product))).collect();
    let asked = |ask: Ask| !ask.is_of_batch() && wants.iter().any(|of| ask.concerns(*of));
    let read = Read::of(mix, asked);
    let take_up = if asked(Ask::TakeUp) { read.value(Ask::TakeUp) } else { Some(0.0) };
    let built = || {
        Some(CrewAlone {
            crew: crew(mix, &read, &asked)?,
            gear: gear(mix, &read, units)?,
            take_up_percent: take_up?,
            loss_percent: read.value(Ask::Loss)?,
        })
    };
    let built = built();
    read.reading.done(built)
}

/// The job that the Mix screen asks about.
///
/// # Errors
/// The fields that are invalid, all of them.
pub fn job(
    mix: &MixRecord,
    product: &ProductRecord,
    units: Units,
) -> Result<JobRecord, Vec<Fault>> {
    let wants = mix.wants(Some(product));
    let asked = |ask: Ask| ask.concerns(wants);
    let read = Read::of(mix, asked);
    let built = || {
        let crew = crew(mix, &read, &asked)?;
        let (crew, bare) = match product.role {
            Role::Filler => in_cracks(crew, &read)?,
            _ => (crew, on_floor(&read)?),
        };
        let (crew, bare) = match mix.plan() {
            Some(plan) => as_planned((mix, &plan), &asked, (crew, bare)),
            None => (crew, bare),
        };
        let gear = gear(mix, &read, units)?;
        Some(JobRecord {
            format: JobRecord::FORMAT.to_owned(),
            version: VERSION,
            product: product.clone(),
            conditions: ConditionsRecord {
                slab_c: read.value(Ask::Slab)?,
                air_c: read.value(Ask::Air)?,
                material_c: read.value(Ask::Material)?,
                read_after_mixing: mix.read_after_mixing,
                humidity_percent: read.value(Ask::Humidity),
            },
            crew,
            bare: BareRecord {
                loss_percent: read.value(Ask::Loss)?,
                ends_at_joint: mix.ends_at_joint || bare.ends_at_joint,
                ..bare
            },
            gear: GearRecord { kits: gear.kits.filter(|_| !product.kits.is_empty()), ..gear },
        })
    };
    let built = built();
    read.reading.done(built)
}

/// The people as they are typed. What none of the products asks for is as it usually is.
fn crew(mix: &MixRecord, read: &Read, asked: &impl Fn(Ask) -> bool) -> Option<CrewRecord> {
    let or = |ask: Ask, usual: f64| if asked(ask) { read.value(ask) } else { Some(usual) };
    Some(CrewRecord {
        rollers: read.count(Ask::Rollers)?,
        flakers: or(Ask::Flakers, 0.0)? as u32,
        mixers: mix.mixers,
        // Edges and walls are the Floor screen's.
        cutters: 0,
        cut_m2_per_min: crew::USUAL_CUT,
        crack_m_per_min: or(Ask::CrackPace, crew::USUAL_CRACK)?,
        roll_m2_per_min: or(Ask::RollPace, crew::USUAL_ROLL)?,
        flake_m2_per_min: or(Ask::FlakePace, crew::USUAL_FLAKE)?,
        spikes: mix.spikes,
        same_wall: mix.same_wall,
        throw_m: or(Ask::Throw, crew::USUAL_THROW)?,
        carry_min: read.value(Ask::Carry)?,
        reading_min: read.value(Ask::Reading)?,
        clean_pail_min: read.value(Ask::CleanPail)?,
        measured_ahead: mix.measured_ahead,
        settle_min: or(Ask::Settle, 0.0)?,
        ribbon: mix.ribbon,
        pour_l_per_min: crew::USUAL_POUR,
        reserve_percent: read.value(Ask::Usable)?,
    })
}

/// The pail, and how the crew measures.
fn gear(mix: &MixRecord, read: &Read, units: Units) -> Option<GearRecord> {
    let vessel = match mix.vessel.generic() {
        Some(generic) => VesselRecord::Generic(generic),
        None => VesselRecord::Own(OwnVesselRecord {
            bottom_diameter_mm: read.value(Ask::OwnBottom)?,
            top_diameter_mm: read.value(Ask::OwnTop)?,
            height_mm: read.value(Ask::OwnHeight)?,
        }),
    };
    let read_in = mix.read_in(units);
    Some(GearRecord {
        vessel,
        measure: read_in.usual.into(),
        finer: read_in.finer.map(Into::into),
        kits: mix.kits,
        largest_mass_kg: read.value(Ask::LargestMass),
    })
}

/// Floor that is left, as it is typed.
fn on_floor(read: &Read) -> Option<BareRecord> {
    Some(BareRecord {
        area_m2: read.value(Ask::Area)?,
        width_m: read.value(Ask::Width)?,
        crack_depth_mm: None,
        take_up_percent: read.value(Ask::TakeUp)?,
        loss_percent: 0.0,
        ends_at_joint: false,
        in_plan: None,
    })
}

/// Cracks that are left: paste is worked along them, from a board.
fn in_cracks(crew: CrewRecord, read: &Read) -> Option<(CrewRecord, BareRecord)> {
    let width_m = read.value(Ask::CrackWidth)? / 1000.0;
    let roll_m2_per_min = crew.crack_m_per_min * width_m;
    let bare = BareRecord {
        area_m2: read.value(Ask::CrackLength)? * width_m,
        width_m,
        crack_depth_mm: Some(read.value(Ask::CrackDepth)?),
        take_up_percent: 0.0,
        loss_percent: 0.0,
        ends_at_joint: false,
        in_plan: None,
    };
    Some((CrewRecord { roll_m2_per_min, ribbon: false, ..crew }, bare))
}

/// What the floor's plan knows beside it: who of several crews lays it, what is brushed, and the edges
/// of its place.
fn as_planned(
    (mix, plan): (&MixRecord, &PlanInputsRecord),
    asked: &impl Fn(Ask) -> bool,
    (crew, bare): (CrewRecord, BareRecord),
) -> (CrewRecord, BareRecord) {
    let people = match plan.team.filter(|team| team.of == mix.people()) {
        Some(team) => CrewRecord {
            rollers: team.rollers,
            flakers: if asked(Ask::Flakers) { team.flakers } else { 0 },
            mixers: team.mixers,
            ..crew
        },
        None => crew,
    };
    let crew = CrewRecord { cut_m2_per_min: plan.cut_m2_per_min, ..people };
    // What ends at no tape is brushed on walls and steps, by all who roll or cut in, from the pail.
    let on_walls = mix.place().is_some_and(|place| place.to_m.is_none());
    let crew = if on_walls {
        CrewRecord {
            rollers: crew.rollers + plan.cutters,
            roll_m2_per_min: plan.cut_m2_per_min,
            ribbon: false,
            ..crew
        }
    } else {
        CrewRecord { cutters: plan.cutters, ..crew }
    };
    let bare = BareRecord {
        take_up_percent: if plan.soaks { bare.take_up_percent } else { 0.0 },
        ends_at_joint: plan.ends_at_joint,
        in_plan: Some(plan.in_plan),
        ..bare
    };
    (crew, bare)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::{Entry, Invalid, Kind};
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
        assert_eq!(wrong, [Fault { place: Ask::OwnHeight, invalid: Invalid::Unreadable }]);
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
                Fault { place: Ask::Slab, invalid: Invalid::Unreadable },
                Fault {
                    place: Ask::Area,
                    invalid: Invalid::OutOfRange { kind: Kind::Area, field: Field::AreaLeft }
                },
            ]
        );
    }
}
