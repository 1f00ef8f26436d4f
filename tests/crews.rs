//! What a crew really works with: quick pastes, measures that hold the ratio, hands that do one thing
//! at a time, kits first, and an ordinary garage on a warm day.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::cell::Cell;

use pailwise_calc::batch::{Bound, Change, NoBatch, Takes};
use pailwise_calc::calibrate::Sample;
use pailwise_calc::demo;
use pailwise_calc::error::Error;
use pailwise_calc::floor::{Floor, Place, Way};
use pailwise_calc::job::Job;
use pailwise_calc::kit::Portions;
use pailwise_calc::quantity::{Area, Length, Volume, unit};
use pailwise_calc::record::{
    CoatRecord, CourseRecord, CrackRecord, CrewRecord, DoneRecord, FloorRecord, GearRecord,
    JobRecord, MeasureRecord, PotLifeRecord, ProductRecord, RectangleRecord, VesselRecord,
};
use pailwise_calc::vessel::Generic;
use pailwise_tests::floors::floors;
use pailwise_tests::jobs::jobs;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

const QUARTER_QUART: MeasureRecord = MeasureRecord::Jug { jug_step_ml: 236.588_236_5 };
const CUP: MeasureRecord = MeasureRecord::Jug { jug_step_ml: 29.573_529_562_5 };

/// A paste as its sheet prints it, with the mixing time that stands there first, and cracks.
fn pastes() -> impl Strategy<Value = FloorRecord> {
    let sheet = (4.0..20.0_f64, 18.0..27.0_f64, prop::sample::select(vec![1.0, 2.0, 3.0]));
    let crack = (2.0..80.0_f64, 3.0..25.0_f64, 5.0..40.0_f64);
    let gear = prop::option::of(Just(CUP));
    (sheet, crack, gear, 10.0..38.0_f64).prop_map(|(sheet, crack, finer, warm)| {
        let (time_min, temperature_c, mixing_min) = sheet;
        let (length_m, width_mm, depth_mm) = crack;
        let mut floor = demo::floor();
        floor.cracks = vec![CrackRecord { length_m, width_mm, depth_mm }];
        floor.gear = GearRecord { measure: QUARTER_QUART, finer, ..floor.gear };
        let mut conditions = demo::conditions();
        (conditions.slab_c, conditions.air_c, conditions.material_c) = (warm, warm, warm);
        let point = PotLifeRecord { time_min, temperature_c, ..demo::record_filler().pot_life[0] };
        let product = ProductRecord {
            pot_life: vec![point],
            open_time: Vec::new(),
            mixing_min,
            ..demo::record_filler()
        };
        floor.coats = vec![CoatRecord { product, conditions, ..floor.coats[0].clone() }];
        floor
    })
}

/// A quick paste is planned, or refused with a reason that holds and, where mixing it for one minute
/// would do, with that. Nothing is refused for an input that nobody made.
#[test]
fn quick_pastes_are_planned_or_refused_with_a_way_out() {
    let mut runner = TestRunner::new(Config { cases: 2_000, ..Config::default() });
    let seen = Cell::new((0, 0, 0));
    runner
        .run(&pastes(), |record| {
            let floor = Floor::try_from(&record).unwrap();
            let plan = floor.plan(&floor.coats[0]);
            let (planned, refused, helped) = seen.get();
            for placed in &plan.batches {
                let tolerance = placed.job.product.tolerance();
                prop_assert!(placed.batch.measured.is_sure(tolerance), "{:?}", placed.batch);
            }
            let Some(stopped) = plan.stopped else {
                seen.set((planned + 1, refused, helped));
                return Ok(());
            };
            match &stopped.why {
                NoBatch::Refused(refusal) => {
                    prop_assert!(refusal.needs > refusal.has, "{refusal:?}");
                    prop_assert!(refusal.needs.get::<unit::minute>() > 1.0, "{refusal:?}");
                }
                NoBatch::Wrong(Error::TooCoarse { .. } | Error::NotMeasurable) => {}
                NoBatch::Wrong(other) => prop_assert!(false, "{other}"),
            }
            let mut short = record.clone();
            short.coats[0].product.mixing_min = 1.0;
            let short = Floor::try_from(&short).unwrap();
            let goes = !short.plan(&short.coats[0]).batches.is_empty();
            let offered =
                stopped.ways.iter().any(|out| matches!(out.way, Way::Change(Change::MixFor(_))));
            let longer = record.coats[0].product.mixing_min > 1.0;
            prop_assert_eq!(offered, goes && longer, "{:?}", stopped);
            seen.set((planned, refused + 1, helped + u32::from(offered)));
            Ok(())
        })
        .unwrap();
    let (planned, refused, helped) = seen.get();
    println!(
        "{planned} pastes planned, {refused} refused, {helped} of them helped by mixing for 1 min"
    );
    assert!(planned > 500 && refused > 100 && helped > 30, "{planned}, {refused}, {helped}");
}

/// More hands, a finer measure and a slower product never make the next batch smaller; a finer
/// measure may stop a part of a coarse step sooner, for a better ratio.
#[test]
fn more_of_anything_never_makes_a_smaller_batch() {
    let mut runner = TestRunner::new(Config { cases: 800, ..Config::default() });
    let seen = Cell::new(0);
    let scale = |scale_step_g| MeasureRecord::Scale { scale_step_g };
    runner
        .run(&(jobs(), 1.01..1.5_f64), |(mut record, by)| {
            // Hands that roll and flake in turns lose time with each strip.
            record.crew.flakers = record.crew.flakers.max(1);
            record.gear.measure = scale(50.0);
            let next = |record: &JobRecord| {
                let job = Job::try_from(record).unwrap();
                let step = job.bare.coverage.area_from(Volume::new::<unit::liter>(0.2)).value;
                (job.next_batch().map_or(0.0, |batch| batch.area.value), step)
            };
            let (area, step) = next(&record);
            let changes: [fn(&mut JobRecord, f64); 7] = [
                |job, _| job.crew.rollers += 1,
                |job, _| job.crew.flakers += 1,
                |job, _| job.crew.measured_ahead = true,
                |job, by| job.crew.reading_min /= by,
                |job, by| job.crew.clean_pail_min /= by,
                |job, by| {
                    for point in &mut job.product.pot_life {
                        point.time_min *= by;
                    }
                    for point in &mut job.product.open_time {
                        point.time_min *= by;
                    }
                },
                |job, _| job.gear.measure = MeasureRecord::Scale { scale_step_g: 25.0 },
            ];
            for (i, change) in changes.into_iter().enumerate() {
                let mut changed = record.clone();
                change(&mut changed, by);
                let (then, _) = next(&changed);
                // The search ends within a hundred thousandth, and what stands within that of a
                // step falls to either side of it; a step of A is 50 g, a batch has at most four
                // of them for one of A.
                let less = area - then > 1e-3 * area + if i == 6 { step } else { 0.0 };
                prop_assert!(!less, "change {i}: {area} m², then {then} m²");
                seen.set(seen.get() + usize::from(area > 0.0));
            }
            Ok(())
        })
        .unwrap();
    let kept = seen.get();
    assert!(kept > 2_500, "{kept} batches were compared");
}

/// Nobody mixes two batches at once, and a batch is set up between two of them.
#[test]
fn every_mixer_has_the_time_for_what_they_do() {
    let mut runner = TestRunner::new(Config { cases: 300, ..Config::default() });
    let seen = Cell::new(0);
    runner
        .run(&floors(), |record| {
            let floor = Floor::try_from(&record).unwrap();
            let batches = floor.plan(&floor.coats[0]).batches;
            for pair in batches.windows(2) {
                let [one, next] = pair else { continue };
                let (crew, times) = (&one.job.crew, &one.batch.timeline);
                // Of several the other one mixes meanwhile: their times are booked in `bays.rs`.
                if crew.mixers > 1 {
                    continue;
                }
                let apart = (next.start - one.start).value;
                // Mixed and carried; then a clean pail and at least one reading of each part.
                let mixing = one.job.product.mixing().value + 60.0;
                let least =
                    mixing + crew.carry.value + crew.clean_pail.value + 2.0 * crew.reading.value
                        - one.job.product.induction().value;
                prop_assert!(apart >= least - 1e-6, "{apart} s apart, {least} s at least");
                if crew.mixers == 0 {
                    prop_assert!(apart >= times.rolled.value + crew.clean_pail.value - 1e-6);
                }
                seen.set(seen.get() + 1);
            }
            Ok(())
        })
        .unwrap();
    assert!(seen.get() > 300, "{} pairs", seen.get());
}

/// What is said of a kit is what happens when only kits are mixed.
#[test]
fn a_kit_that_is_said_to_go_down_does() {
    let mut runner = TestRunner::new(Config { cases: 200, ..Config::default() });
    let seen = Cell::new((0, 0, 0));
    runner
        .run(&jobs(), |mut record| {
            record.product.kits = demo::record_base().kits;
            let job = Job::try_from(&record).unwrap();
            for first in job.kits_first() {
                let mut kits = record.clone();
                let whole = first.kits.whole();
                kits.gear.kits = Some(if whole { Portions::Whole } else { Portions::Half });
                if let Takes::People { rolling, flaking } = first.takes {
                    kits.crew.rollers += rolling;
                    kits.crew.flakers += flaking;
                }
                let goes = Job::try_from(&kits).unwrap().next_batch().is_ok_and(|batch| {
                    batch.measured.kits.is_some_and(|made| made.halves >= first.kits.halves)
                });
                let (now, people, much) = seen.get();
                match first.takes {
                    Takes::Nothing => {
                        prop_assert!(goes, "{first:?}");
                        seen.set((now + 1, people, much));
                    }
                    Takes::People { .. } => {
                        prop_assert!(goes, "{first:?}");
                        seen.set((now, people + 1, much));
                    }
                    Takes::TooMuch => {
                        prop_assert!(!goes, "{first:?}");
                        seen.set((now, people, much + 1));
                    }
                    Takes::Change(_) => {}
                }
            }
            Ok(())
        })
        .unwrap();
    let (now, people, much) = seen.get();
    assert!(now > 20 && people > 3 && much > 20, "{now} go, {people} take people, {much} too much");
}

/// 24 × 22 ft at 81 °F, one who mixes, one who rolls, one who flakes: an ordinary day.
#[test]
fn an_ordinary_garage_on_a_warm_day() {
    let feet = |feet: f64| Length::new::<unit::foot>(feet).get::<unit::meter>();
    let mut floor = demo::floor();
    floor.flat = vec![RectangleRecord {
        left_m: 0.0,
        back_m: 0.0,
        width_m: feet(24.0),
        depth_m: feet(22.0),
    }];
    floor.crew = CrewRecord { mixers: 1, ..floor.crew };
    floor.gear = GearRecord { measure: QUARTER_QUART, finer: Some(CUP), ..floor.gear };
    let warm = (81.0 - 32.0) / 1.8;
    for conditions in floor.coats.iter_mut().map(|coat| &mut coat.conditions) {
        (conditions.slab_c, conditions.air_c, conditions.material_c) = (warm, warm, warm);
    }
    let floor = Floor::try_from(&floor).unwrap();
    let plan = floor.plan(&floor.coats[0]);
    assert!(plan.stopped.is_none(), "{:?}", plan.stopped);
    for placed in &plan.batches {
        println!(
            "{:.1} min: {:.2} gal on {:.0} sq ft, {:?}",
            placed.start.get::<unit::minute>(),
            placed.batch.measured.volume.get::<unit::gallon>(),
            (placed.batch.area / Area::new::<unit::square_foot>(1.0)).value,
            placed.batch.bound,
        );
        assert!(placed.batch.measured.is_sure(placed.job.product.tolerance()));
        assert!(placed.batch.bound != Bound::Kit);
    }
    assert!(plan.batches.len() <= 4, "{} batches", plan.batches.len());
}

/// More hands, or all measured out before, never take more pails for a floor.
#[test]
fn more_hands_never_take_more_pails() {
    let mut runner = TestRunner::new(Config { cases: 150, ..Config::default() });
    let seen = Cell::new(0);
    runner
        .run(&floors(), |mut record| {
            record.crew.flakers = record.crew.flakers.max(1);
            // At another hour it is another floor.
            record.coats[0].course = CourseRecord::Steady;
            let pails = |record: &FloorRecord| {
                let floor = Floor::try_from(record).unwrap();
                let plan = floor.plan(&floor.coats[0]);
                plan.stopped.is_none().then_some(plan.batches.len())
            };
            let Some(now) = pails(&record) else { return Ok(()) };
            let changes: [fn(&mut CrewRecord); 5] = [
                |crew| crew.rollers += 1,
                |crew| crew.flakers += 1,
                |crew| crew.cutters += 1,
                |crew| crew.mixers += 1,
                |crew| crew.measured_ahead = true,
            ];
            for (i, change) in changes.into_iter().enumerate() {
                let mut changed = record.clone();
                change(&mut changed.crew);
                let then = pails(&changed);
                prop_assert!(then.is_some_and(|then| then <= now), "change {i}: {now}, {then:?}");
                seen.set(seen.get() + usize::from(now > 1));
            }
            Ok(())
        })
        .unwrap();
    assert!(seen.get() > 150, "{} floors of several pails", seen.get());
}

/// A batch that took longer to roll than was planned keeps its people: the next is not poured before
/// they are free. One quick batch moves the plan a third of the way, three move it all the way.
#[test]
fn planned_again_from_what_was_seen() {
    let mut record = demo::floor();
    record.crew.mixers = 0;
    let floor = Floor::try_from(&record).unwrap();
    let first = &floor.plan(&floor.coats[0]).batches[0];
    let Place::Flat { to, .. } = first.place else { panic!("{:?}", first.place) };
    let begins = record.coats[0].start_min;
    let down = |rolled_in_min: f64, to: f64| DoneRecord {
        bay: 0,
        ended_at_m: to,
        mixed_l: first.batch.measured.volume.get::<unit::liter>(),
        rolled_in_min: Some(rolled_in_min),
        begun_min: Some(begins),
        film_closed: false,
    };
    let to = to.get::<unit::meter>();
    let planned = (first.batch.timeline.rolled - first.batch.timeline.pour).get::<unit::minute>();
    record.coats[0].done = vec![down(2.0 * planned, to)];
    // The plan went on as if nothing had happened.
    record.coats[0].resumes_min = Some(begins + planned);
    let floor = Floor::try_from(&record).unwrap();
    let next = &floor.plan(&floor.coats[0]).batches[0];
    let free = first.batch.timeline.pour.get::<unit::minute>() + 2.0 * planned;
    let start = next.start.get::<unit::minute>();
    assert!(start >= free + record.crew.carry_min - 1e-6, "mixed at {start}, free at {free}");

    // A fifth quicker than typed, once and three times.
    let pace = |times: usize| {
        let mut record = record.clone();
        let thirds = (1..=times).map(|i| down(0.0, to * i as f64 / 3.0));
        record.coats[0].done = thirds.collect();
        let each = 6.1 * to / 3.0 / record.crew.roll_m2_per_min;
        for done in &mut record.coats[0].done {
            (done.rolled_in_min, done.mixed_l) = (Some(each / 1.2), 1.0);
        }
        let floor = Floor::try_from(&record).unwrap();
        floor.plan(&floor.coats[0]).learnt.unwrap().planned().1
    };
    assert!((pace(1) - (1.0 + 0.2 / 3.0)).abs() < 1e-6, "{}", pace(1));
    assert!((pace(3) - 1.2).abs() < 1e-6, "{}", pace(3));
}

/// The largest batches leave 1.5 mm of floor along ten metres of wall, which nobody cuts in with a
/// batch of its own: the floor is shared among one pail more.
#[test]
fn no_sliver_is_left_along_a_wall() {
    let mut record = demo::floor();
    record.flat =
        vec![RectangleRecord { left_m: 0.0, back_m: 0.0, width_m: 10.066_541, depth_m: 2.0 }];
    (record.cut_in_m, record.ends_at_joint) = (0.191_181_8, true);
    record.crew = CrewRecord {
        cutters: 1,
        cut_m2_per_min: 0.594_322_8,
        roll_m2_per_min: 0.5,
        flake_m2_per_min: 1.0,
        throw_m: 1.5,
        carry_min: 3.698_223_8,
        settle_min: 0.869_893_1,
        ribbon: false,
        reserve_percent: 50.0,
        ..record.crew
    };
    record.gear.vessel = VesselRecord::Generic(Generic::FiveQuart);
    record.gear.measure = MeasureRecord::Jug { jug_step_ml: 1.0 };
    let coat = &mut record.coats[0];
    coat.product = demo::record_topcoat();
    (coat.product.flaked, coat.product.open_time) = (true, Vec::new());
    coat.product.pot_life = vec![PotLifeRecord {
        time_min: 36.899_963_6,
        temperature_c: 23.373_020_7,
        measured: Some(Sample::Kit),
        ..PotLifeRecord::default()
    }];
    coat.conditions.slab_c = 24.322_603;
    coat.conditions.air_c = 37.212_984_5;
    coat.conditions.material_c = 19.812_068_4;
    coat.conditions.humidity_percent = None;
    let floor = Floor::try_from(&record).unwrap();
    let plan = floor.plan(&floor.coats[0]);
    assert!(plan.stopped.is_none(), "{:?}", plan.stopped);
}
