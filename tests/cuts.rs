//! The batches of a coat chosen together, against every other way to cut it.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::cell::Cell;

use pailwise_calc::demo;
use pailwise_calc::edge_before::EdgeBefore;
use pailwise_calc::floor::{Floor, Placed};
use pailwise_calc::quantity::{Length, Time, Volume, unit};
use pailwise_calc::record::{DoneRecord, FloorRecord, MeasureRecord, ProductRecord};
use pailwise_tests::floors::floors;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

/// A way to cut a coat into batches.
#[derive(Clone, Debug, Default)]
struct Cut {
    /// When its last patch is finished, in minutes.
    finish: f64,
    /// Its batches, in litres.
    batches: Vec<f64>,
}

impl Cut {
    fn largest(&self) -> f64 {
        self.batches.iter().copied().fold(0.0, f64::max)
    }
}

/// A coat cut into batches in every way there is, of no more than so many pails.
fn every_cut(
    record: &FloorRecord,
    pails: usize,
    (before, meets): (&Cut, Option<EdgeBefore>),
    cuts: &mut Vec<Cut>,
) {
    let floor = Floor::try_from(record).unwrap();
    let plan = floor.plan(&floor.coats[0]);
    let Some(next) = plan.batches.first() else { return };
    let mut job = next.job.clone();
    job.bare.meets = meets;
    let (step, density) = (0.6, job.product.ratio().density());
    let mut volume = step;
    let largest = job.next_batch().map_or(0.0, |batch| batch.measured.volume.get::<unit::liter>());
    while volume <= largest + 1e-6 {
        let mut job = job.clone();
        let share = Volume::new::<unit::liter>(volume * (1.0 + 1e-9));
        job.gear.largest_mass = Some(share * density);
        let batch = job.next_batch().ok();
        let batch =
            batch.filter(|b| (b.measured.volume.get::<unit::liter>() - volume).abs() < 1e-6);
        volume += step;
        let Some(batch) = batch else { continue };
        let mixed_l = batch.measured.volume.get::<unit::liter>();
        let begins = record.coats[0].resumes_min.unwrap_or(record.coats[0].start_min);
        let minutes = |time: Time| begins + time.get::<unit::minute>();
        let mut batches = before.batches.clone();
        batches.push(mixed_l);
        let after = Cut { finish: minutes(batch.timeline.done), batches };
        if batch.finishes {
            cuts.push(after);
        } else if pails > 1 {
            let mut rest = record.clone();
            let to = floor.shape.reach(next_from(record, &floor), batch.area);
            rest.coats[0].done.push(DoneRecord {
                bay: 0,
                ended_at_m: to.get::<unit::meter>(),
                mixed_l,
                rolled_in_min: None,
                begun_min: None,
                film_closed: false,
            });
            rest.coats[0].resumes_min = Some(minutes(batch.timeline.next_mix));
            let timeline = &batch.timeline;
            let meets = EdgeBefore {
                until: batch.edge_until - timeline.next_mix,
                brushing: timeline.meeting.brushing,
                first_strip: timeline.meeting.first_strip,
            };
            let meets = (!record.ends_at_joint).then_some(meets);
            every_cut(&rest, pails - 1, (&after, meets), cuts);
        }
    }
}

/// Where the next batch begins.
fn next_from(record: &FloorRecord, floor: &Floor) -> Length {
    let down = record.coats[0].done.last();
    down.map_or(floor.shape.back(), |done| Length::new::<unit::meter>(done.ended_at_m))
}

/// Of all cuts of a coat the one that is planned takes the fewest pails; and of those that finish no
/// more than two minutes, or a fiftieth, after the one of the largest batches its largest batch is the smallest.
#[test]
fn no_other_cut_of_a_coat_is_better() {
    let mut runner = TestRunner::new(Config { cases: 2_000, ..Config::default() });
    let seen = Cell::new((0, 0, 0.0_f64));
    runner
        .run(&floors(), |mut record| {
            if seen.get().0 >= 220 {
                return Ok(());
            }
            // In steps of 0.6 L, on what is small enough to count out.
            record.gear.measure = MeasureRecord::Jug { jug_step_ml: 200.0 };
            record.stem_walls.clear();
            // Cut after cut it is not known when the other of two who mix is back.
            record.crew.mixers = record.crew.mixers.min(1);
            record.coats[0].product = ProductRecord {
                ratio_tolerance_percent: 15.0,
                flaked: record.coats[0].product.flaked,
                ..demo::record_base()
            };
            let floor = Floor::try_from(&record).unwrap();
            let plan = floor.plan(&floor.coats[0]);
            let pails = plan.batches.len();
            let litres = |placed: &Placed| placed.batch.measured.volume.get::<unit::liter>();
            let largest = plan.batches.iter().map(litres).fold(0.0, f64::max);
            let few = pails == 2 || pails == 3 && largest < 5.0;
            if plan.stopped.is_some() || !few {
                return Ok(());
            }
            let mut cuts = Vec::new();
            let none = Cut::default();
            every_cut(&record, pails - 1, (&none, None), &mut cuts);
            prop_assert!(cuts.is_empty(), "{pails} pails, and fewer would do");
            every_cut(&record, pails, (&none, None), &mut cuts);
            let last = plan.batches.last().unwrap();
            let finish = record.coats[0].start_min
                + (last.start + last.batch.timeline.done).get::<unit::minute>();
            // The last that is counted out is of the largest batch each time.
            let as_early = cuts.last().unwrap().finish;
            let as_early = as_early + f64::max(2.0, (as_early - record.coats[0].start_min) / 50.0);
            let as_early = as_early + 1e-6;
            prop_assert!(finish <= as_early, "at {finish}, not by {as_early}");
            let earliest = cuts.iter().min_by(|a, b| a.finish.total_cmp(&b.finish)).unwrap();
            let as_early = cuts.iter().filter(|cut| cut.finish <= as_early);
            let least = as_early.map(Cut::largest).fold(f64::INFINITY, f64::min);
            prop_assert!(
                (largest - least).abs() < 1e-6,
                "{largest} L of {pails}, and {least} L would do, of {} cuts",
                cuts.len()
            );
            let late = seen.get().2.max(finish - earliest.finish);
            let shared = usize::from(plan.batches[0].share.is_some());
            seen.set((seen.get().0 + 1, seen.get().1 + shared, late));
            Ok(())
        })
        .unwrap();
    let (seen, shared, late) = seen.get();
    println!(
        "{seen} floors, {shared} of them shared evenly, {late} min later than could be at most"
    );
    assert!(seen >= 200 && shared > 100, "{seen} floors, {shared} shared");
}
