//! Random floors: one room, an L or a T, with a column or none, walls or none, on any day.

use pailwise_calc::demo;
use pailwise_calc::record::{
    CourseRecord, CrewRecord, FloorRecord, GearRecord, HourRecord, MeasureRecord, RectangleRecord,
    StemWallRecord, VesselRecord,
};
use pailwise_calc::vessel::Generic;
use proptest::prelude::*;

use crate::jobs::{conditions, crews, products};

/// Rooms that are one piece: a rectangle, and another before it that shares a side.
fn flats() -> impl Strategy<Value = (Vec<RectangleRecord>, Vec<RectangleRecord>)> {
    let side = || 2.0..14.0_f64;
    let leg = proptest::option::of((0.0..1.0_f64, 0.2..1.0_f64, 1.0..8.0_f64));
    (side(), side(), leg, any::<bool>()).prop_map(|(width_m, depth_m, leg, column)| {
        let mut flat = vec![RectangleRecord { left_m: 0.0, back_m: 0.0, width_m, depth_m }];
        flat.extend(leg.map(|(at, share, depth)| RectangleRecord {
            left_m: at * (1.0 - share) * width_m,
            back_m: depth_m,
            width_m: share * width_m,
            depth_m: depth,
        }));
        let cut = RectangleRecord {
            left_m: width_m * 0.4,
            back_m: depth_m * 0.4,
            width_m: 0.3,
            depth_m: 0.3,
        };
        (flat, if column { vec![cut] } else { Vec::new() })
    })
}

fn courses() -> impl Strategy<Value = CourseRecord> {
    prop_oneof![
        2 => Just(CourseRecord::Steady),
        1 => (-3.0..4.0_f64).prop_map(CourseRecord::DriftKPerHour),
        1 => (10.0..20.0_f64, 20.0..38.0_f64).prop_map(|(low, high)| CourseRecord::LowAndHigh {
            low: HourRecord { at_min: 330.0, air_c: low },
            high: HourRecord { at_min: 900.0, air_c: high },
        }),
    ]
}

/// A floor with one coat.
pub fn floors() -> impl Strategy<Value = FloorRecord> {
    let vessel =
        prop_oneof![Just(Generic::FiveQuart), Just(Generic::TwoGallon), Just(Generic::FiveGallon)];
    let edges = (prop_oneof![Just(0.0), 0.03..0.2_f64], 0..3_u32, 0.2..0.6_f64, 0.0..2.0_f64);
    let walls = proptest::option::of((2.0..15.0_f64, 0.1..0.6_f64));
    ((products(), conditions(), courses(), crews()), (vessel, flats(), edges, walls, any::<bool>()))
        .prop_map(|((product, conditions, course, crew), (vessel, flat, edges, walls, joint))| {
            let mut floor = demo::floor();
            let (cut_in_m, cutters, cut_m2_per_min, settle_min) = edges;
            (floor.flat, floor.cut_out) = flat;
            floor.cut_in_m = cut_in_m;
            floor.crew = CrewRecord { cutters, cut_m2_per_min, settle_min, ..crew };
            floor.ends_at_joint = joint;
            let walls = walls.map(|(length_m, height_m)| StemWallRecord { length_m, height_m });
            floor.stem_walls = walls.into_iter().collect();
            floor.gear = GearRecord {
                vessel: VesselRecord::Generic(vessel),
                measure: MeasureRecord::Jug { jug_step_ml: 1.0 },
                ..demo::gear()
            };
            // A day's low and high hold what is read now.
            let course = match course {
                CourseRecord::LowAndHigh { mut low, mut high } => {
                    low.air_c = low.air_c.min(conditions.air_c - 1.0);
                    high.air_c = high.air_c.max(conditions.air_c + 1.0);
                    CourseRecord::LowAndHigh { low, high }
                }
                other => other,
            };
            let coat = &mut floor.coats[0];
            (coat.product, coat.conditions, coat.course) = (product, conditions, course);
            floor
        })
}

/// Floors in two to four bays, laid by one crew after the other or by several at the same time.
pub fn floors_in_bays() -> impl Strategy<Value = FloorRecord> {
    let lines = proptest::collection::vec(-0.3..0.3_f64, 1..4);
    (floors(), lines, 1..4_u32).prop_map(|(mut floor, lines, crews)| {
        let count = lines.len() as f64 + 1.0;
        let width = floor.flat[0].width_m;
        // None wider than a stride, none narrower than a foot.
        let at = |(i, off): (usize, f64)| width * (i as f64 + 1.0 + off) / count;
        let coat = &mut floor.coats[0];
        coat.tape_lines_m = lines.into_iter().enumerate().map(at).collect();
        // Nobody is in two crews.
        coat.crews = crews.min(floor.crew.rollers);
        floor
    })
}
