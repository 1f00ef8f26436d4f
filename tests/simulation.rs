//! The plan against a slow, simple simulation ([`pailwise_tests::simulated`]): no plan breaks its
//! own bounds, and a batch 3 % larger would.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::cell::Cell;

use pailwise_calc::batch::Bound;
use pailwise_calc::floor::Floor;
use pailwise_calc::job::Job;
use pailwise_calc::measure::Measure;
use pailwise_calc::quantity::{Volume, unit};
use pailwise_calc::record::{FloorRecord, JobRecord};
use pailwise_tests::floors::floors;
use pailwise_tests::jobs::jobs;
use pailwise_tests::simulated::{Laying, Pail, STEP, spare};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

/// The batches of a floor's first coat, measured so finely that rounding hides nothing.
fn batches(record: &FloorRecord) -> Vec<pailwise_calc::floor::Placed> {
    let mut floor = Floor::try_from(record).expect("a floor within range");
    let step = Volume::new::<unit::milliliter>(0.01);
    floor.coats[0].gear.measure = Measure::Jug { step };
    floor.plan(&floor.coats[0]).batches
}

#[test]
fn no_plan_breaks_its_bounds_and_three_per_cent_more_would() {
    let mut runner = TestRunner::new(Config { cases: 1_000, ..Config::default() });
    let bound = Cell::new((0, 0, 0));
    runner
        .run(&floors(), |record| {
            let sheet = &record.coats[0].product;
            let planned = batches(&record);
            // Each as it is planned, and the largest that could be laid there and then.
            let largest = planned.iter().take(3).filter(|placed| placed.share.is_some());
            let largest = largest.map(|placed| (&placed.job, placed.job.next_batch().unwrap()));
            let as_planned = planned.iter().take(3);
            let as_planned = as_planned.map(|placed| (&placed.job, placed.batch.clone()));
            for (job, batch) in as_planned.chain(largest) {
                let batch = &batch;
                let (area, volume) = (batch.area.value, batch.measured.volume.value);
                let spare = |area: f64, volume: f64| {
                    let laying = Laying {
                        area,
                        volume,
                        another_follows: !batch.finishes,
                        next: None,
                        late: 0.0,
                        of_film: job.crew.usable,
                        told: batch.timeline.rolling.value,
                    };
                    spare(job, sheet, &Pail::walk(job, volume), &laying)
                };
                // Rounding in the simulation: a step where brushing ends, one where flaking begins.
                let now = spare(area, volume);
                prop_assert!(now > -2.5 * STEP, "{now} s to spare in {batch:?}\n{job:?}");
                let larger = volume * 1.03;
                let breaks = match batch.bound {
                    Bound::Floor | Bound::Kit => continue,
                    Bound::Vessel => larger > job.gear.vessel.working_capacity().value,
                    Bound::Mass => {
                        larger * job.product.ratio().density().value > job.gear.largest_mass().value
                    }
                    _ => spare(area * 1.03, larger) < 0.5,
                };
                // Of hands that roll and flake in turns the last strip counts as a whole one.
                let turns = job.product.flaked() && job.crew.flakers == 0;
                prop_assert!(breaks || turns, "3 % more would do: {batch:?}\n{job:?}");
                let (seen, tight, loose) = bound.get();
                let timed = usize::from(batch.bound >= Bound::PailLife);
                bound.set((seen + 1, tight + timed, loose + usize::from(!breaks)));
            }
            Ok(())
        })
        .unwrap();
    let (seen, tight, loose) = bound.get();
    println!("{seen} batches with a bound, {tight} bound by time; {loose} could be 3 % larger");
    assert!(seen > 300 && tight > 100, "{seen} batches with a bound, {tight} bound by time");
    assert!(loose * 20 <= seen, "{loose} of {seen} could be 3 % larger");
}

/// What gives a crew more room never plans a smaller batch: a farther throw, spikes. To begin at one
/// wall is not more room but another order, and is offered only where it allows more. Of crews with
/// somebody who flakes and nothing else.
#[test]
fn a_farther_throw_and_spikes_never_make_a_smaller_batch() {
    let mut runner = TestRunner::new(Config { cases: 3_000, ..Config::default() });
    let seen = Cell::new(0);
    runner
        .run(&(jobs(), 1.05..2.5_f64), |(mut record, farther)| {
            // Hands that roll and flake in turns lose time with each strip: which depth is best for
            // them depends on how the batch ends.
            record.crew.flakers = record.crew.flakers.max(1);
            let next = |record: &JobRecord| {
                let job = Job::try_from(record).unwrap();
                job.next_batch().map_or(0.0, |batch| batch.area.value)
            };
            let now = next(&record);
            let changes: [fn(&mut JobRecord, f64); 2] = [
                |job, by| job.crew.throw_m = (job.crew.throw_m * by).min(6.0),
                |job, _| job.crew.spikes = true,
            ];
            for (i, change) in changes.into_iter().enumerate() {
                let mut changed = record.clone();
                change(&mut changed, farther);
                let then = next(&changed);
                // The search ends within a hundred thousandth; a jug of a millilitre hides no more.
                let hair = 1e-3 * now;
                prop_assert!(then >= now - hair, "change {i}: {now} m², then {then} m²");
                seen.set(seen.get() + usize::from(now > 0.0));
            }
            Ok(())
        })
        .unwrap();
    let kept = seen.get();
    assert!(kept > 4_000, "{kept} batches were compared");
}
