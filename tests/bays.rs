//! Several who mix, bays side by side and several crews at once, against a simulation that books
//! every person by itself ([`pailwise_tests::simulated`]).
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::cell::Cell;

use pailwise_calc::error::Error;
use pailwise_calc::floor::{CoatPlan, Floor, Place, Placed, Way};
use pailwise_calc::quantity::unit;
use pailwise_calc::record::{CourseRecord, CrewRecord, DoneRecord, FloorRecord, RectangleRecord};
use pailwise_calc::{demo, field::Field};
use pailwise_tests::floors::floors_in_bays;
use pailwise_tests::simulated::{Laying, Pail, STEP, away, ready, spare};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

/// A floor in bays with the plan of its coat; nothing where two lines came too close.
fn planned(record: &FloorRecord) -> Option<(Floor, CoatPlan)> {
    let floor = match Floor::try_from(record) {
        Ok(floor) => floor,
        Err(Error::OutOfRange { field: Field::TapeLine, .. }) => return None,
        Err(wrong) => panic!("{wrong}"),
    };
    let plan = floor.plan(&floor.coats[0]);
    Some((floor, plan))
}

fn bay(placed: &Placed) -> Option<usize> {
    match placed.place {
        Place::Flat { bay, .. } => Some(bay),
        _ => None,
    }
}

/// The batches of a bay, in order.
fn of_bay(plan: &CoatPlan, wanted: usize) -> impl Iterator<Item = &Placed> {
    plan.batches.iter().filter(move |placed| bay(placed) == Some(wanted))
}

/// Seconds from when the coat begins.
fn start(placed: &Placed) -> f64 {
    placed.start.value
}

/// Seconds that a batch brushes before it rolls, where nobody does that for it: the edge where it
/// begins, and the sides across that it meets.
fn brushes(placed: &Placed) -> f64 {
    let (crew, cut_in) = (&placed.job.crew, &placed.job.bare.cut_in);
    if crew.cutters > 0 {
        return 0.0;
    }
    let area = placed.batch.area.value;
    let met = cut_in.corners.iter().filter(|corner| area > corner.beyond.value);
    let across: f64 = met.map(|corner| corner.edge.value).sum();
    across / (crew.cut.value * f64::from(crew.rollers))
}

/// Followed as they are planned, second by second: whoever mixes is in one place, so is whoever
/// rolls, and every edge is met while it is wet.
#[test]
fn every_person_is_in_one_place_and_every_edge_is_met() {
    let mut runner = TestRunner::new(Config { cases: 1_000, ..Config::default() });
    let seen = Cell::new((0, 0, 0));
    runner
        .run(&floors_in_bays(), |record| {
            let Some((floor, plan)) = planned(&record) else { return Ok(()) };
            let sheet = &record.coats[0].product;
            let coat = &floor.coats[0];
            // Who mixes is back before their next one, with it measured out.
            for mixer in 0..record.crew.mixers as usize {
                let own: Vec<_> =
                    plan.batches.iter().filter(|placed| placed.mixer == Some(mixer)).collect();
                for pair in own.windows(2) {
                    let takes = away(&pair[0].job, pair[0].batch.measured.volume.value);
                    let apart = start(pair[1]) - start(pair[0]);
                    prop_assert!(apart >= takes - 1e-6, "{mixer} away {takes} s, {apart} s apart");
                }
            }
            let (mut side_by_side, mut edges) = (0, 0);
            for which in 0..coat.bays.len() {
                let own: Vec<_> = of_bay(&plan, which).collect();
                for (i, placed) in own.iter().enumerate().take(3) {
                    let next = own.get(i + 1);
                    let (job, batch) = (&placed.job, &placed.batch);
                    let (area, volume) = (batch.area.value, batch.measured.volume.value);
                    let gap = next.map(|next| start(next) - start(placed));
                    if let Some(gap) = gap {
                        let promised = batch.timeline.next_mix + job.mixing.wait;
                        prop_assert!(gap <= promised.value + 1e-6, "{gap} s, {promised:?}");
                    }
                    let laying = Laying {
                        area,
                        volume,
                        another_follows: next.is_some(),
                        next_pour: gap
                            .zip(next)
                            .map(|(gap, next)| gap + ready(job) + brushes(next)),
                        late: 0.0,
                        of_film: job.crew.usable,
                        told: batch.timeline.rolling.value,
                    };
                    let left = spare(job, sheet, &Pail::walk(job, volume), &laying);
                    prop_assert!(left > -2.5 * STEP, "{left} s to spare in {batch:?}\n{job:?}");
                    edges += usize::from(next.is_some());
                }
            }
            // A crew lays one batch at a time.
            for (team, own) in coat.teams.iter().enumerate() {
                let placed =
                    |placed: &&Placed| bay(placed).is_some_and(|bay| coat.bays[bay].team == team);
                let batches: Vec<_> = plan.batches.iter().filter(placed).collect();
                for pair in batches.windows(2) {
                    let timeline = &pair[0].batch.timeline;
                    let flakes = sheet.flaked && own.crew.flakers == 0;
                    let free = if flakes { timeline.done } else { timeline.rolled };
                    let pours = start(pair[1]) + ready(&pair[1].job);
                    let free = start(pair[0]) + free.value;
                    prop_assert!(pours >= free - 1e-6, "poured at {pours}, free at {free}");
                    // Nor flakes two.
                    let flakes = (pair[1].start + pair[1].batch.timeline.flaking_starts).value;
                    let flaked = start(pair[0]) + timeline.done.value;
                    let still = sheet.flaked && flakes < flaked - 1e-6;
                    prop_assert!(!still, "flakes at {flakes}, busy until {flaked}");
                }
                side_by_side += usize::from(team > 0 && !batches.is_empty());
            }
            let (floors, beside, met) = seen.get();
            seen.set((floors + 1, beside + side_by_side, met + edges));
            Ok(())
        })
        .unwrap();
    let (floors, beside, edges) = seen.get();
    println!("{floors} floors in bays, {beside} more crews at once, {edges} edges met");
    assert!(floors > 800 && beside > 200 && edges > 400, "{floors}, {beside}, {edges}");
}

/// Bays are laid whole, each from its back to its front, and nothing of the floor twice.
#[test]
fn every_bay_is_laid_from_its_back_to_its_front() {
    let mut runner = TestRunner::new(Config { cases: 400, ..Config::default() });
    let seen = Cell::new(0);
    runner
        .run(&floors_in_bays(), |record| {
            let Some((floor, plan)) = planned(&record) else { return Ok(()) };
            if plan.stopped.is_some() {
                return Ok(());
            }
            let coat = &floor.coats[0];
            let bays: f64 = coat.bays.iter().map(|bay| bay.shape.area().value).sum();
            prop_assert!((bays - floor.shape.area().value).abs() < 1e-6);
            for (which, bay) in coat.bays.iter().enumerate() {
                let mut at = bay.shape.back();
                for placed in of_bay(&plan, which) {
                    let Place::Flat { from, to, .. } = placed.place else { continue };
                    prop_assert!((from - at).value.abs() < 1e-9);
                    at = to;
                }
                prop_assert!((at - bay.shape.front()).value.abs() < 1e-4, "bay {which}");
            }
            let starts = plan.batches.windows(2).all(|pair| pair[0].start <= pair[1].start);
            prop_assert!(starts, "not in the order in which they are mixed");
            seen.set(seen.get() + 1);
            Ok(())
        })
        .unwrap();
    assert!(seen.get() > 150, "{} floors", seen.get());
}

/// Planned again after the first batch of a bay: that bay goes on where it ended, the others where
/// they begin.
#[test]
fn a_bay_goes_on_where_it_ended() {
    let mut record = demo::floor();
    record.flat = vec![RectangleRecord { left_m: 0.0, back_m: 0.0, width_m: 12.0, depth_m: 12.0 }];
    record.crew = CrewRecord { rollers: 2, flakers: 2, mixers: 1, ..record.crew };
    record.coats[0].tape_lines_m = vec![6.0];
    record.coats[0].crews = 2;
    let (_, plan) = planned(&record).unwrap();
    let first = of_bay(&plan, 1).next().unwrap();
    let Place::Flat { to, .. } = first.place else { panic!("{:?}", first.place) };
    let begins = record.coats[0].start_min + first.start.get::<unit::minute>();
    record.coats[0].done.push(DoneRecord {
        bay: 1,
        ended_at_m: to.get::<unit::meter>(),
        mixed_l: first.batch.measured.volume.get::<unit::liter>(),
        rolled_in_min: None,
        begun_min: Some(begins),
        film_closed: false,
    });
    let (floor, again) = planned(&record).unwrap();
    let from = |which: usize| match of_bay(&again, which).next().unwrap().place {
        Place::Flat { from, .. } => from,
        other => panic!("{other:?}"),
    };
    assert_eq!((from(0), from(1)), (floor.shape.back(), to));
    // Its people are still at the batch that was begun.
    let next = of_bay(&again, 1).next().unwrap();
    let rolled = first.start + first.batch.timeline.rolled;
    assert!((next.start + next.batch.timeline.pour - rolled).value > -60.0, "{:?}", next.start);
    // A bay that is not there is named.
    record.coats[0].done[0].bay = 2;
    let wrong = Floor::try_from(&record).unwrap_err();
    assert!(matches!(wrong, Error::OutOfRange { field: Field::Bay, .. }), "{wrong:?}");
}

/// One more who mixes never takes more pails, and a floor that bays are said to make possible is.
#[test]
fn one_more_who_mixes_never_takes_more_pails() {
    let mut runner = TestRunner::new(Config { cases: 200, ..Config::default() });
    let seen = Cell::new(0);
    runner
        .run(&floors_in_bays(), |mut record| {
            // Of hands that roll and flake in turns another depth of strips may be best.
            record.crew.flakers = record.crew.flakers.max(record.coats[0].crews);
            // At another hour it is another floor.
            record.coats[0].course = CourseRecord::Steady;
            let pails = |record: &FloorRecord| {
                let (_, plan) = planned(record)?;
                plan.stopped.is_none().then_some(plan.batches.len())
            };
            let Some(now) = pails(&record) else { return Ok(()) };
            // From hands that mix for themselves, to one for several crews, is no help to all.
            if record.crew.mixers == 0 && record.coats[0].crews > 1 {
                return Ok(());
            }
            record.crew.mixers += 1;
            let then = pails(&record);
            prop_assert!(then.is_some_and(|then| then <= now), "{now} pails, then {then:?}");
            seen.set(seen.get() + 1);
            Ok(())
        })
        .unwrap();
    assert!(seen.get() > 60, "{} floors", seen.get());
}

#[test]
fn where_bays_are_a_way_on_they_are() {
    let mut runner = TestRunner::new(Config { cases: 1_500, ..Config::default() });
    let seen = Cell::new(0);
    runner
        .run(&floors_in_bays(), |mut record| {
            record.flat.truncate(1);
            record.cut_out.clear();
            record.coats[0].tape_lines_m.clear();
            record.coats[0].crews = 1;
            record.coats[0].course = CourseRecord::Steady;
            let Some((_, plan)) = planned(&record) else { return Ok(()) };
            let Some(stopped) = plan.stopped else { return Ok(()) };
            let ways = stopped.ways.iter();
            let bays = ways.filter_map(|out| match out.way {
                Way::InBays(bays) => Some((bays, out.covers)),
                _ => None,
            });
            let width = record.flat[0].width_m;
            for (bays, covers) in bays {
                if width < 0.4 * f64::from(bays) || !plan.batches.is_empty() {
                    continue;
                }
                let lines = (1..bays).map(|i| width * f64::from(i) / f64::from(bays));
                record.coats[0].tape_lines_m = lines.collect();
                let (_, plan) = planned(&record).unwrap();
                let first = of_bay(&plan, 0).next();
                let area = first.map_or(0.0, |placed| placed.batch.area.value);
                // Shared among its pails a bay's first may be smaller; nowhere is it refused.
                prop_assert!(area > 0.0, "{bays} bays, {covers:?} each: {:?}", plan.stopped);
                seen.set(seen.get() + 1);
            }
            Ok(())
        })
        .unwrap();
    assert!(seen.get() > 10, "{} floors", seen.get());
}
