//! Random jobs over the whole range that crews meet.

use pailwise_calc::calibrate::Sample;
use pailwise_calc::demo;
use pailwise_calc::record::{
    BareRecord, ConditionsRecord, CrewRecord, JobRecord, MeasureRecord, OpenTimeRecord,
    PotLifeRecord, ProductRecord, VesselRecord,
};
use pailwise_calc::vessel::Generic;
use proptest::prelude::*;

/// A data sheet: pot life at one temperature or two, flat or steep, or a cup and a kit, with a mass
/// or without, measured in every way, open time or none.
pub fn products() -> impl Strategy<Value = ProductRecord> {
    let second = proptest::option::of(0.35..1.1_f64);
    let kit = proptest::option::of((3.0..12.0_f64, 0.3..1.2_f64));
    let mass = proptest::option::of(0.05..4.0_f64);
    let open = proptest::option::of(10.0..120.0_f64);
    let pot_life = (12.0..120.0_f64, 15.0..30.0_f64, second, kit, mass, 0..5_usize);
    (pot_life, open, any::<bool>(), any::<bool>()).prop_map(|(pot_life, open, flaked, aspartic)| {
        let (time_min, temperature_c, second, kit, mass_kg, how) = pot_life;
        let mut product = if aspartic { demo::record_topcoat() } else { demo::record_base() };
        let measured = Sample::ALL.get(how).copied();
        let first = PotLifeRecord {
            time_min,
            temperature_c,
            mass_kg,
            measured,
            ..PotLifeRecord::default()
        };
        product.pot_life = vec![first];
        product.pot_life.extend(second.map(|share| PotLifeRecord {
            time_min: time_min * share,
            temperature_c: temperature_c + 10.0,
            ..first
        }));
        product.pot_life.extend(kit.map(|(kg, share)| PotLifeRecord {
            time_min: time_min * share,
            mass_kg: Some(kg),
            measured: Some(Sample::Kit),
            ..first
        }));
        product.open_time = open
            .map(|time_min| OpenTimeRecord {
                time_min,
                temperature_c: 25.0,
                ..OpenTimeRecord::default()
            })
            .into_iter()
            .collect();
        product.flaked = flaked;
        product
    })
}

/// Slab, air and material, each on its own.
pub fn conditions() -> impl Strategy<Value = ConditionsRecord> {
    let c = || 2.0..42.0_f64;
    let humidity = proptest::option::of(10.0..100.0_f64);
    (c(), c(), c(), any::<bool>(), humidity).prop_map(
        |(slab_c, air_c, material_c, read_after_mixing, humidity_percent)| ConditionsRecord {
            slab_c,
            air_c,
            material_c,
            read_after_mixing,
            humidity_percent,
        },
    )
}

/// From one person alone to a crew.
pub fn crews() -> impl Strategy<Value = CrewRecord> {
    let mixers = prop_oneof![3 => Just(0_u32), 3 => Just(1_u32), 2 => 2..4_u32];
    (
        (1..5_u32, 0..4_u32, mixers, any::<bool>()),
        (0.5..2.5_f64, 1.0..5.0_f64, 1.5..3.5_f64, 0.0..4.0_f64),
        (2.0..20.0_f64, 50.0..95.0_f64),
    )
        .prop_map(
            |(
                (rollers, flakers, mixers, ribbon),
                (roll_m2_per_min, flake_m2_per_min, throw_m, carry_min),
                (pour_l_per_min, reserve_percent),
            )| CrewRecord {
                rollers,
                flakers,
                mixers,
                roll_m2_per_min,
                flake_m2_per_min,
                throw_m,
                carry_min,
                settle_min: 0.0,
                ribbon,
                pour_l_per_min,
                reserve_percent,
                ..demo::crew()
            },
        )
}

/// A whole job, measured finely so that rounding does not hide what is compared.
pub fn jobs() -> impl Strategy<Value = JobRecord> {
    let vessel =
        prop_oneof![Just(Generic::FiveQuart), Just(Generic::TwoGallon), Just(Generic::FiveGallon)];
    (products(), conditions(), crews(), vessel, 5.0..400.0_f64, 2.0..15.0_f64, any::<bool>())
        .prop_map(|(product, conditions, crew, vessel, area_m2, width_m, ends_at_joint)| {
            let mut job = demo::job();
            job.product = product;
            job.conditions = conditions;
            job.crew = crew;
            job.bare = BareRecord { area_m2, width_m, ends_at_joint, ..demo::bare() };
            job.gear.vessel = VesselRecord::Generic(vessel);
            job.gear.measure = MeasureRecord::Jug { jug_step_ml: 1.0 };
            job
        })
}
