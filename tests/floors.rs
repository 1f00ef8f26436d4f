//! Whole floors: shapes against counting small squares, plans that lay every square metre once,
//! what is learnt from batches that are down, and any input at all.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use pailwise_calc::demo;
use pailwise_calc::floor::{CoatPlan, Floor, Place};
use pailwise_calc::job::Job;
use pailwise_calc::quantity::{Length, unit};
use pailwise_calc::record::{
    BareRecord, BrushedRecord, ConditionsRecord, DoneRecord, FloorRecord, JobRecord,
    RectangleRecord, StemWallRecord,
};
use pailwise_calc::shape::{Rectangle, Shape};
use pailwise_tests::floors::floors;
use proptest::prelude::*;

fn m(value: f64) -> Length {
    Length::new::<unit::meter>(value)
}

/// Rectangles on a grid of quarter metres, so that counting squares is exact.
fn rectangles(most: usize) -> impl Strategy<Value = Vec<Rectangle>> {
    let quarters = |least: u8, most: u8| (least..most).prop_map(|n| m(f64::from(n) * 0.25));
    let one = (quarters(0, 24), quarters(0, 24), quarters(1, 24), quarters(1, 24))
        .prop_map(|(left, back, width, depth)| Rectangle { left, back, width, depth });
    proptest::collection::vec(one, 0..=most)
}

/// Whether a point is floor.
fn is_floor(added: &[Rectangle], cut: &[Rectangle], x: f64, y: f64) -> bool {
    let within = |r: &Rectangle| {
        (r.left.value..r.left.value + r.width.value).contains(&x)
            && (r.back.value..r.back.value + r.depth.value).contains(&y)
    };
    added.iter().any(within) && !cut.iter().any(within)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn a_shape_is_what_counting_its_squares_says(added in rectangles(4), cut in rectangles(3)) {
        let Ok(shape) = Shape::new(&added, &cut) else { return Ok(()) };
        // The middles of all squares of a quarter metre.
        let middle = |i: i32| (f64::from(i) + 0.5) * 0.25;
        let count = |upto: f64| {
            let rows = (0..56).filter(|row| middle(*row) < upto);
            let squares = rows.map(|row| {
                (0..56).filter(|col| is_floor(&added, &cut, middle(*col), middle(row))).count()
            });
            squares.sum::<usize>() as f64 * 0.0625
        };
        prop_assert!((shape.area().value - count(f64::INFINITY)).abs() < 1e-9);
        for quarter in 0..56 {
            let y = f64::from(quarter) * 0.25;
            let upto = shape.area_between(m(0.0), m(y));
            prop_assert!((upto.value - count(y)).abs() < 1e-9, "{y} m");
        }
        // A band of any size ends where as much area lies behind it.
        let half = shape.area() * 0.37;
        let to = shape.reach(shape.back(), half);
        prop_assert!((shape.area_between(shape.back(), to) - half).abs().value < 1e-9);
        let boxes = shape.boxes(shape.back(), to);
        let drawn: f64 = boxes.iter().map(|b| (b.width * b.depth).value).sum();
        prop_assert!((drawn - half.value).abs() < 1e-9);
    }
}

/// One of the numbers of a floor.
fn field(record: &mut FloorRecord, place: usize) -> &mut f64 {
    match place {
        0 => &mut record.flat[0].left_m,
        1 => &mut record.flat[0].back_m,
        2 => &mut record.flat[0].width_m,
        3 => &mut record.flat[0].depth_m,
        4 => &mut record.cut_out[0].width_m,
        5 => &mut record.cut_in_m,
        6 => &mut record.crew.cut_m2_per_min,
        7 => &mut record.crew.crack_m_per_min,
        8 => &mut record.coats[0].start_min,
        9 => &mut record.coats[0].done[0].ended_at_m,
        10 => &mut record.coats[0].done[0].mixed_l,
        _ => record.coats[0].done[0].rolled_in_min.as_mut().expect("a time"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn every_square_metre_is_laid_once_and_in_order(record in floors()) {
        let floor = Floor::try_from(&record).expect("a floor within range");
        let plan = floor.plan(&floor.coats[0]);
        let mut at = floor.shape.back();
        let (mut flat, mut walls, mut last) = (0.0, 0.0, -1.0);
        for placed in &plan.batches {
            prop_assert!(placed.start.value > last);
            last = placed.start.value;
            match placed.place {
                Place::Verticals => walls += placed.batch.area.value,
                Place::Flat { from, to, .. } => {
                    prop_assert!((from - at).value.abs() < 1e-6 && to > from);
                    let between = floor.shape.area_between(from, to);
                    prop_assert!((between - placed.batch.area).value.abs() < 1e-6);
                    at = to;
                    flat += placed.batch.area.value;
                }
                Place::Cracks { .. } => prop_assert!(false, "no cracks here"),
            }
            prop_assert!(placed.batch.area.value > 0.0);
        }
        if plan.stopped.is_none() {
            prop_assert!((flat - floor.shape.area().value).abs() < 1e-4);
            let standing = floor.verticals.map_or(0.0, |v| v.area.value);
            prop_assert!((walls - standing).abs() < 1e-4);
        } else {
            let stopped = plan.stopped.as_ref().unwrap();
            prop_assert!(stopped.ways.iter().all(|way| way.covers.value > 0.0));
        }
    }

    /// One more person who cuts in never makes the batch on the flat smaller.
    #[test]
    fn more_hands_at_the_edges_never_lay_less(record in floors()) {
        let first = |cutters: u32| {
            let mut record = record.clone();
            record.coats[0].verticals_done = true;
            record.crew.cutters = cutters;
            let floor = Floor::try_from(&record).expect("a floor within range");
            // As large as it may be there, not its share of the coat.
            let plan = floor.plan(&floor.coats[0]);
            let batch = plan.batches.first().and_then(|placed| placed.job.next_batch().ok());
            batch.map_or(0.0, |batch| batch.area.value)
        };
        let cutters = record.crew.cutters;
        let (fewer, more) = (first(cutters), first(cutters + 1));
        prop_assert!(more >= fewer * 0.999, "{more} after {fewer}");
    }

    /// Laid thicker than planned, or slower: no batch after that is larger than it was.
    #[test]
    fn what_is_learnt_never_flatters(
        record in floors(), thicker in 0.5..1.0_f64, slower in 0.5..1.0_f64,
    ) {
        let plan_of = |record: &FloorRecord| {
            let floor = Floor::try_from(record).expect("a floor within range");
            let plan = floor.plan(&floor.coats[0]);
            (floor, plan)
        };
        let mut record = record;
        record.coats[0].verticals_done = true;
        let (floor, plan) = plan_of(&record);
        let Some(first) = plan.batches.first() else { return Ok(()) };
        let ended = |share: f64| {
            let to = floor.shape.reach(floor.shape.back(), first.batch.area * share);
            let minutes = (first.batch.area * share / floor.crew.all_rolling())
                .get::<unit::minute>() / slower;
            DoneRecord {
                bay: 0,
                ended_at_m: to.value,
                mixed_l: first.batch.measured.volume.get::<unit::liter>(),
                rolled_in_min: Some(minutes.clamp(0.1, 1440.0)),
                begun_min: None,
                film_closed: false,
            }
        };
        let with = |done: DoneRecord| {
            let mut record = record.clone();
            record.coats[0].done = vec![done];
            plan_of(&record).1
        };
        let (asked, short) = (with(ended(1.0)), with(ended(thicker)));
        let learnt = short.learnt.unwrap();
        // What it says of itself can be followed: laid over meant.
        let said = learnt.laid.value / learnt.meant_area.value;
        prop_assert!((said - learnt.yield_ratio).abs() <= 1e-12, "{learnt:?}");
        prop_assert!(learnt.yield_ratio <= 1.0 + 1e-6);
        // Per square metre more is needed, never less.
        let need = |plan: &pailwise_calc::floor::CoatPlan| {
            let area: f64 = plan.batches.iter().map(|p| p.batch.area.value).sum();
            let fits = plan.stopped.is_none() && area > 0.5;
            fits.then(|| plan.batches.iter().map(|p| p.job.bare.coverage.volume_for(p.batch.area).value).sum::<f64>() / area)
        };
        if let (Some(asked), Some(short)) = (need(&asked), need(&short)) {
            prop_assert!(short >= asked * (1.0 - 1e-6), "{short} after {asked}");
        }
    }

    /// A batch taken out of its plan is the same batch when it is asked for alone, on a floor that
    /// went thicker and slower than it should have.
    #[test]
    fn a_batch_taken_over_from_the_plan_is_the_same(
        record in floors(), thicker in 0.5..1.0_f64, slower in 0.5..1.0_f64,
    ) {
        let mut record = record;
        record.coats[0].verticals_done = true;
        let floor = Floor::try_from(&record).expect("a floor within range");
        let Some(first) = floor.plan(&floor.coats[0]).batches.into_iter().next() else {
            return Ok(())
        };
        let laid = first.batch.area * thicker;
        let took = (laid / floor.crew.all_rolling()).get::<unit::minute>() / slower;
        record.coats[0].done = vec![DoneRecord {
            bay: 0,
            ended_at_m: floor.shape.reach(floor.shape.back(), laid).value,
            mixed_l: first.batch.measured.volume.get::<unit::liter>(),
            rolled_in_min: Some(took.clamp(0.1, 1440.0)),
            begun_min: None,
            film_closed: false,
        }];
        let floor = Floor::try_from(&record).expect("a floor within range");
        let plan = floor.plan(&floor.coats[0]);
        let Some(next) = plan.batches.first() else { return Ok(()) };
        let (warm, bare) = (next.job.conditions, next.job.bare);
        let alone = JobRecord {
            product: record.coats[0].product.clone(),
            conditions: ConditionsRecord {
                read_after_mixing: warm.read_after_mixing,
                slab_c: warm.slab.get::<unit::degree_celsius>(),
                air_c: warm.air.get::<unit::degree_celsius>(),
                material_c: warm.material.get::<unit::degree_celsius>(),
                humidity_percent: warm.humidity.map(|share| share * 100.0),
            },
            crew: record.crew,
            bare: BareRecord {
                area_m2: bare.area.get::<unit::square_meter>(),
                width_m: bare.width.get::<unit::meter>(),
                crack_depth_mm: None,
                take_up_percent: record.take_up_percent,
                loss_percent: record.loss_percent,
                ends_at_joint: record.ends_at_joint,
                in_plan: Some(next.in_plan(plan.learnt)),
            },
            gear: record.gear,
            ..demo::job()
        };
        let job = Job::try_from(&alone).expect("what is in a plan is within range");
        let batch = match next.share {
            Some(share) => job.next_batch_within(share),
            None => job.next_batch(),
        };
        let batch = batch.expect("a batch, as in the plan");
        // A step of the jug, where the last digit of a temperature turns one over.
        let off = (batch.measured.volume - next.batch.measured.volume).get::<unit::milliliter>();
        prop_assert!(off.abs() < 3.1, "{off} mL");
        let done = batch.timeline.done / next.batch.timeline.done;
        prop_assert!((done.value - 1.0).abs() < 1e-2, "{done:?}");
    }

    /// A wall is laid once, however many batches it takes, and what was mixed for it is gone,
    /// as is what was thrown away.
    #[test]
    fn walls_are_brushed_batch_by_batch(
        record in floors(), on_hand in 0.0..60.0_f64, lost in 0.0..9.0_f64,
    ) {
        let mut record = record;
        record.coats[0].on_hand_l = Some(on_hand);
        let floor = Floor::try_from(&record).expect("a floor within range");
        let before = floor.plan(&floor.coats[0]);
        let on_walls = |plan: &CoatPlan| {
            let walls = plan.batches.iter().filter(|placed| placed.place == Place::Verticals);
            walls.map(|placed| placed.batch.area.value).sum::<f64>()
        };
        let first = before.batches.first().filter(|placed| placed.place == Place::Verticals);
        let (Some(first), None) = (first, &before.stopped) else { return Ok(()) };
        let (area_m2, mixed_l) =
            (first.batch.area.value, first.batch.measured.volume.get::<unit::liter>());
        record.coats[0].brushed = vec![BrushedRecord { area_m2, mixed_l }];
        record.coats[0].discarded_l = Some(lost);
        let floor = Floor::try_from(&record).expect("a floor within range");
        let after = floor.plan(&floor.coats[0]);
        if after.stopped.is_none() {
            let walls = floor.verticals.unwrap().area.value;
            prop_assert!((on_walls(&after) + area_m2 - walls).abs() < 1e-6);
        }
        let short = after.needed.get::<unit::liter>() - (on_hand - mixed_l - lost).max(0.0);
        let said = after.short.unwrap().get::<unit::liter>();
        prop_assert!((said - short.max(0.0)).abs() < 1e-9, "{said} L, not {short} L");
    }

    /// Where it stops before the walls are done, what is left of them is needed still, and no more.
    #[test]
    fn where_it_stops_what_is_brushed_is_not_needed_again(brushed_m2 in 0.1..1.5_f64) {
        let mut record = demo::floor();
        record.stem_walls = vec![StemWallRecord { length_m: 12.0, height_m: 0.15 }];
        // One who brushes so slowly that not even the smallest mix leaves the pail in time.
        record.crew.cut_m2_per_min = 0.01;
        let needed = |record: &FloorRecord| {
            let floor = Floor::try_from(record).expect("a floor within range");
            let plan = floor.plan(&floor.coats[0]);
            prop_assert!(plan.batches.is_empty() && plan.stopped.is_some());
            Ok(floor.coats[0].coverage.area_from(plan.needed).value)
        };
        let before = needed(&record)?;
        record.coats[0].brushed = vec![BrushedRecord { area_m2: brushed_m2, mixed_l: 0.5 }];
        let after = needed(&record)?;
        prop_assert!((before - after - brushed_m2).abs() < 1e-9, "{before} m², then {after}");
    }

    /// Numbers as a broken file has them, anywhere in a floor: a plan of finite numbers or an error.
    #[test]
    fn any_floor_gives_finite_numbers_or_an_error(
        place in 0..12_usize, x in prop_oneof![any::<f64>(), -10.0..100.0_f64, Just(f64::NAN)],
    ) {
        let mut record = demo::floor();
        record.cut_out = vec![RectangleRecord { left_m: 1.0, back_m: 1.0, width_m: 0.5, depth_m: 0.5 }];
        record.coats[0].done = vec![DoneRecord { bay: 0, ended_at_m: 1.0, mixed_l: 3.0, rolled_in_min: Some(5.0), begun_min: None, film_closed: false }];
        *field(&mut record, place) = x;
        let Ok(floor) = Floor::try_from(&record) else { return Ok(()) };
        let plan = floor.plan(&floor.coats[0]);
        prop_assert!(plan.needed.value.is_finite());
        for placed in &plan.batches {
            prop_assert!(placed.start.value.is_finite() && placed.batch.area.value.is_finite());
        }
    }
}
