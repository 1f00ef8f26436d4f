//! Safe directions, over random jobs: what is worse for the crew never makes the answer larger.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::demo;
use pailwise_calc::job::Job;
use pailwise_calc::kit::Portions;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Mass, celsius, unit};
use pailwise_calc::record::{ConditionsRecord, CrewRecord, JobRecord, KitRecord, MeasureRecord};
use pailwise_calc::vessel::Generic;
use pailwise_tests::jobs::{conditions, jobs, products};
use proptest::prelude::*;

/// What a pot life may be off by: the design asks the solver for 0.01 %.
const TOLERANCE: f64 = 1e-4;

/// The area of the next batch; nothing when none fits.
fn area(record: &JobRecord) -> f64 {
    let job = Job::try_from(record).expect("a random job is within range");
    job.next_batch().map_or(0.0, |batch| batch.area.value)
}

/// No larger, but for the measure's own step and the search's own tolerance.
fn no_larger(worse: f64, than: f64) -> Result<(), TestCaseError> {
    prop_assert!(worse <= than * 1.001 + 0.01, "{worse} m² after, {than} m² before");
    Ok(())
}

/// Pot life in seconds of so many kilograms in a five-gallon pail.
fn pot_life(product: &Product, kg: f64, c: ConditionsRecord) -> f64 {
    let mass = Mass::new::<unit::kilogram>(kg);
    let (material, air) = (celsius(c.material_c), celsius(c.air_c));
    let pail = product.pail(mass, &Generic::FiveGallon.vessel(), material, air);
    pail.and_then(|pail| pail.pot_life()).expect("a random pail is within range").value
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    #[test]
    fn more_mass_never_lasts_longer(
        product in products(), c in conditions(), kg in 0.01..20.0_f64, more in 1.0..1.5_f64,
    ) {
        let product = Product::try_from(&product).expect("within range");
        let (less, more) = (pot_life(&product, kg, c), pot_life(&product, (kg * more).min(20.0), c));
        prop_assert!(more <= less * (1.0 + TOLERANCE), "{more} s for more, {less} s for less");
    }

    #[test]
    fn hotter_never_lasts_longer(
        product in products(), c in conditions(), kg in 0.05..20.0_f64, by in 0.0..8.0_f64,
    ) {
        let product = Product::try_from(&product).expect("within range");
        let cool = pot_life(&product, kg, c);
        for hot in [
            ConditionsRecord { material_c: c.material_c + by, ..c },
            ConditionsRecord { air_c: c.air_c + by, ..c },
        ] {
            let hot = pot_life(&product, kg, hot);
            prop_assert!(hot <= cool * (1.0 + TOLERANCE), "{hot} s hotter, {cool} s cooler");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    #[test]
    fn hotter_never_gives_a_larger_batch(job in jobs(), by in 0.0..8.0_f64) {
        let before = area(&job);
        let c = job.conditions;
        for conditions in [
            ConditionsRecord { slab_c: c.slab_c + by, ..c },
            ConditionsRecord { air_c: c.air_c + by, ..c },
            ConditionsRecord { material_c: c.material_c + by, ..c },
        ] {
            no_larger(area(&JobRecord { conditions, ..job.clone() }), before)?;
        }
    }

    #[test]
    fn less_crew_never_gives_a_larger_batch(job in jobs()) {
        let before = area(&job);
        let crew = job.crew;
        let mut lesser = vec![CrewRecord { mixers: crew.mixers.saturating_sub(1), ..crew }];
        if crew.rollers > 1 {
            lesser.push(CrewRecord { rollers: crew.rollers - 1, ..crew });
        }
        // From one flaker to none the way of working changes; that is another comparison.
        if crew.flakers > 1 {
            lesser.push(CrewRecord { flakers: crew.flakers - 1, ..crew });
        }
        for crew in lesser {
            no_larger(area(&JobRecord { crew, ..job.clone() }), before)?;
        }
    }

    #[test]
    fn less_usable_time_never_gives_a_larger_batch(job in jobs(), share in 0.7..1.0_f64) {
        let reserve_percent = (job.crew.reserve_percent * share).max(30.0);
        let crew = CrewRecord { reserve_percent, ..job.crew };
        no_larger(area(&JobRecord { crew, ..job.clone() }), area(&job))?;
    }

    #[test]
    fn a_batch_keeps_every_bound_it_names(job in jobs()) {
        let checked = Job::try_from(&job).expect("within range");
        if let Ok(batch) = checked.next_batch() {
            let t = &batch.timeline;
            prop_assert!(t.emptied.value <= batch.pour_out.value * (1.0 + 1e-6));
            prop_assert!(t.pour <= t.emptied && t.pour <= t.rolled && t.rolled <= t.done);
            prop_assert!(batch.measured.volume <= checked.gear.vessel.working_capacity() * (1.0 + 1e-9));
            prop_assert!(batch.area <= checked.bare.area * (1.0 + 1e-9));
            let covers = checked.bare.coverage.area_from(batch.measured.volume);
            prop_assert!(batch.area <= covers * (1.0 + 1e-9), "thinner than it should be");
            let needs = checked.bare.coverage.volume_for(batch.area);
            prop_assert!(needs <= batch.measured.volume * (1.0 + 1e-9), "less than it takes");
        }
    }

    /// Rounded to a coarse measure, or to kits, it still keeps them: on ratio, out of the pail, and
    /// met at its edge, in time.
    #[test]
    fn what_is_rounded_keeps_every_bound(
        job in jobs(), step in 1.0..1000.0_f64, kit in proptest::option::of((2.0..20.0_f64, any::<bool>())),
    ) {
        let mut job = job;
        job.gear.measure = MeasureRecord::Jug { jug_step_ml: step };
        if let Some((volume_l, half)) = kit {
            job.product.kits = vec![KitRecord { volume_l: Some(volume_l), mass_kg: None, price: None }];
            job.gear.kits = Some(if half { Portions::Half } else { Portions::Whole });
        }
        let checked = Job::try_from(&job).expect("within range");
        if let Ok(batch) = checked.next_batch() {
            let t = &batch.timeline;
            let hair = 1.0 + 1e-6;
            prop_assert!(batch.measured.off_by.abs() <= checked.product.tolerance() * hair);
            prop_assert!(batch.measured.volume <= checked.gear.vessel.working_capacity() * hair);
            prop_assert!(t.emptied.value <= batch.pour_out.value * hair);
            if !batch.finishes && !checked.bare.ends_at_joint {
                let met = t.next_pour;
                prop_assert!(met.value <= batch.edge_until.value * hair, "{met:?} after {:?}", batch.edge_until);
            }
        }
    }
}

/// A paste worked from the pail, degree by degree: nothing hotter gives more.
#[test]
fn a_hotter_day_never_fills_more_crack() {
    let mut job = demo::job();
    job.product = demo::record_filler();
    job.bare.crack_depth_mm = Some(12.7);
    job.bare.width_m = 0.006_35;
    job.bare.area_m2 = 120.0 * job.bare.width_m;
    job.crew.roll_m2_per_min = 1.2 * job.bare.width_m;
    job.crew.ribbon = false;
    job.gear.measure = MeasureRecord::Scale { scale_step_g: 5.0 };
    let mut last = [f64::INFINITY; 3];
    for degrees in 5..50 {
        for (i, last) in last.iter_mut().enumerate() {
            let mut c = demo::conditions();
            *[&mut c.slab_c, &mut c.air_c, &mut c.material_c][i] = f64::from(degrees);
            let now = area(&JobRecord { conditions: c, ..job.clone() });
            assert!(now <= *last * 1.001, "{degrees} °C, reading {i}: {now} after {last}");
            *last = now;
        }
    }
    assert!(last.iter().all(|area| area.is_finite()));
}
