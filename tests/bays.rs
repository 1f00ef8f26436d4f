//! Several who mix, bays side by side and several crews at once, against a simulation that books
//! every person by itself ([`pailwise_tests::simulated`]).
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::cell::Cell;

use pailwise_calc::batch::Change;
use pailwise_calc::error::Error;
use pailwise_calc::floor::{CoatPlan, Floor, Place, Placed, Way};
use pailwise_calc::quantity::unit;
use pailwise_calc::record::{
    CourseRecord, CrewRecord, DoneRecord, FloorRecord, RectangleRecord, UnderWayRecord,
};
use pailwise_calc::{demo, field::Field};
use pailwise_tests::floors::floors_in_bays;
use pailwise_tests::simulated::{Laying, Next, Pail, STEP, away, ready, spare};
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

/// How a batch that is begun so long after the one before meets its edge: by the times its crew is
/// told, whoever of them rolls and however they are held back. What is brushed past its first strip
/// may be brushed after that.
fn meets(gap: f64, next: &Placed) -> Next {
    let (timeline, area) = (&next.batch.timeline, next.batch.area.value);
    let strip_takes = timeline.strip.value.min(area) / timeline.rolling.value;
    let turns = next.job.product.flaked() && next.job.crew.flakers == 0;
    let rolls = if turns {
        timeline.flaking_starts.value - next.job.crew.settle.value - strip_takes
    } else {
        timeline.rolled.value - area / timeline.rolling.value
    };
    let cut_in = &next.job.bare.cut_in;
    let strip = timeline.strip.value;
    let met = cut_in.corners.iter().filter(|corner| area > corner.beyond.value);
    let (mut all, mut past) = (cut_in.at_start.value, 0.0);
    for corner in met {
        all += corner.edge.value;
        past += if corner.beyond.value >= strip { corner.edge.value } else { 0.0 };
    }
    let brushed = rolls - timeline.pour.value;
    let later = if all > 0.0 { brushed * past / all } else { 0.0 };
    Next { rolls: gap + rolls - later, strip_takes }
}

/// Followed as they are planned, second by second: whoever mixes is in one place, so is whoever
/// rolls, and every edge is met while it is wet.
#[test]
#[expect(clippy::too_many_lines, reason = "one story, told in one go")]
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
                        next: gap.zip(next).map(|(gap, next)| meets(gap, next)),
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

/// The first batches of a plan as the clock has them: mixed, and not yet down.
fn begun(record: &FloorRecord, placed: &Placed) -> Option<UnderWayRecord> {
    let Place::Flat { bay, to, .. } = placed.place else { return None };
    Some(UnderWayRecord {
        bay: bay as u32,
        on_walls: false,
        begun_min: record.coats[0].start_min + placed.start.get::<unit::minute>(),
        mixed_l: Some(placed.batch.measured.volume.get::<unit::liter>()),
        to_m: Some(to.get::<unit::meter>()),
    })
}

/// What is under way stands in the plan as it was mixed, and the rest goes on from there: on the
/// same day as it was planned, and in such heat that none of it would be planned any more.
#[test]
fn what_is_under_way_is_as_it_was_mixed() {
    let mut runner = TestRunner::new(Config { cases: 400, ..Config::default() });
    let seen = Cell::new((0, 0));
    runner
        .run(&(floors_in_bays(), 1..4_usize), |(mut record, many)| {
            record.stem_walls.clear();
            let Some((floor, plan)) = planned(&record) else { return Ok(()) };
            let first: Vec<&Placed> = plan.batches.iter().take(many).collect();
            if first.is_empty() {
                return Ok(());
            }
            let under_way = first.iter().filter_map(|placed| begun(&record, placed));
            record.coats[0].under_way = under_way.collect();
            prop_assert_eq!(record.coats[0].under_way.len(), first.len());
            let (_, again) = planned(&record).unwrap();
            let marked = again.batches.iter().filter(|placed| placed.under_way.is_some());
            prop_assert_eq!(marked.count(), first.len());
            for (was, is) in first.iter().zip(&again.batches) {
                prop_assert!(is.under_way.is_some());
                prop_assert!((is.start - was.start).value.abs() < 1e-6);
                let apart = (is.batch.measured.volume - was.batch.measured.volume).value;
                prop_assert!(apart.abs() < 1e-6 * was.batch.measured.volume.value);
            }
            let next = again.batches.iter().filter(|placed| placed.under_way.is_none());
            for placed in next {
                let Place::Flat { bay, from, .. } = placed.place else { continue };
                let before = first.iter().filter_map(|placed| match placed.place {
                    Place::Flat { bay: of, to, .. } if of == bay => Some(to),
                    _ => None,
                });
                let ended = before.fold(floor.shape.back(), |a, b| if b > a { b } else { a });
                prop_assert!((from - ended).value > -1e-6, "{from:?} before {ended:?}");
            }
            // Nothing could be mixed now: what is mixed counts all the same.
            record.coats[0].conditions.slab_c = 49.0;
            record.coats[0].conditions.material_c = 44.0;
            record.coats[0].course = CourseRecord::Steady;
            record.coats[0].on_hand_l = Some(1000.0);
            let (_, hot) = planned(&record).unwrap();
            let mixed: f64 = record.coats[0].under_way.iter().filter_map(|one| one.mixed_l).sum();
            let listed = hot.batches.iter().filter(|placed| placed.under_way.is_some());
            let listed: f64 = listed.map(|placed| placed.batch.measured.volume.value * 1e3).sum();
            let apart = hot.apart.get::<unit::liter>();
            let all = listed + apart;
            prop_assert!((all / mixed - 1.0).abs() < 1e-6, "{listed} + {apart} of {mixed} L");
            let (floors, counted) = seen.get();
            seen.set((floors + 1, counted + usize::from(apart > 0.0)));
            Ok(())
        })
        .unwrap();
    let (floors, apart) = seen.get();
    assert!(floors > 300 && apart > 100, "{floors} floors, {apart} mixed for no batch");
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

/// Who comes to help is shared out among all crews: where that is said to make a batch possible, it
/// reaches the crew that needs it.
#[test]
fn where_people_are_a_way_on_for_several_crews_they_are() {
    let mut runner = TestRunner::new(Config { cases: 3_000, ..Config::default() });
    let seen = Cell::new([0; 4]);
    runner
        .run(&floors_in_bays(), |mut record| {
            record.coats[0].course = CourseRecord::Steady;
            record.stem_walls.clear();
            if record.coats[0].crews < 2 {
                return Ok(());
            }
            let Some((_, plan)) = planned(&record) else { return Ok(()) };
            let Some(stopped) = &plan.stopped else { return Ok(()) };
            let Place::Flat { bay, .. } = stopped.place else { return Ok(()) };
            if of_bay(&plan, bay).next().is_some() {
                return Ok(());
            }
            for out in &stopped.ways {
                let mut helped = record.clone();
                let people = &mut helped.crew;
                let kind = match out.way {
                    Way::Change(Change::OneMoreRoller) => (&mut people.rollers, 1, 0),
                    Way::Change(Change::OneMoreFlaker) => (&mut people.flakers, 1, 1),
                    Way::Change(Change::OneMoreMixer) => (&mut people.mixers, 1, 2),
                    Way::MoreRollers(more) => (&mut people.rollers, more, 3),
                    _ => continue,
                };
                *kind.0 += kind.1;
                let kind = kind.2;
                let (_, then) = planned(&helped).unwrap();
                let laid = of_bay(&then, bay).next().is_some();
                prop_assert!(laid, "{:?}, then {:?}", out, then.stopped);
                let mut counts = seen.get();
                counts[kind] += 1;
                seen.set(counts);
            }
            Ok(())
        })
        .unwrap();
    let seen = seen.get();
    println!("{seen:?} ways by people");
    assert!(seen.iter().sum::<i32>() > 30, "{seen:?}");
}
