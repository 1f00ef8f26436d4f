//! Random jobs over the whole range that crews meet.

use pailwise_calc::demo;
use pailwise_calc::product::Product;
use pailwise_calc::record::{
    BareRecord, ConditionsRecord, CrewRecord, JobRecord, MeasureRecord, OpenTimeRecord,
    PotLifeRecord, ProductRecord, VesselRecord,
};
use pailwise_calc::vessel::Generic;
use proptest::prelude::*;

/// A data sheet: pot life at one temperature or two, with a mass or without, open time or none.
pub fn products() -> impl Strategy<Value = ProductRecord> {
    let second = proptest::option::of(0.42..0.68_f64);
    let mass = proptest::option::of(0.1..4.0_f64);
    let open = proptest::option::of(10.0..120.0_f64);
    (12.0..120.0_f64, 15.0..30.0_f64, second, mass, open, any::<bool>(), any::<bool>())
        .prop_map(|(time_min, temperature_c, second, mass_kg, open, flaked, aspartic)| {
            let mut product = if aspartic { demo::record_topcoat() } else { demo::record_base() };
            product.pot_life =
                vec![PotLifeRecord { time_min, temperature_c, mass_kg, volume_l: None }];
            product.pot_life.extend(second.map(|share| PotLifeRecord {
                time_min: time_min * share,
                temperature_c: temperature_c + 10.0,
                mass_kg,
                volume_l: None,
            }));
            product.open_time = open
                .map(|time_min| OpenTimeRecord { time_min, temperature_c: 25.0 })
                .into_iter()
                .collect();
            product.flaked = flaked;
            product
        })
        .prop_filter("a sheet that no resin could have", |product| {
            Product::try_from(product).is_ok()
        })
}

/// Slab, air and material, each on its own.
pub fn conditions() -> impl Strategy<Value = ConditionsRecord> {
    let c = || 2.0..42.0_f64;
    (c(), c(), c()).prop_map(|(slab_c, air_c, material_c)| ConditionsRecord {
        slab_c,
        air_c,
        material_c,
        humidity_percent: None,
    })
}

/// From one person alone to a crew.
pub fn crews() -> impl Strategy<Value = CrewRecord> {
    (
        (1..5_u32, 0..4_u32, any::<bool>(), any::<bool>()),
        (0.5..2.5_f64, 1.0..5.0_f64, 1.5..3.5_f64, 0.0..4.0_f64),
        (2.0..20.0_f64, 50.0..95.0_f64),
    )
        .prop_map(
            |(
                (rollers, flakers, mixer, ribbon),
                (roll_m2_per_min, flake_m2_per_min, throw_m, carry_min),
                (pour_l_per_min, reserve_percent),
            )| CrewRecord {
                rollers,
                flakers,
                mixer,
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
