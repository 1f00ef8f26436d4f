//! What a fresh phone in US units has on its Mix and Floor screens, as the calculation is asked for
//! it without the app.

use pailwise_calc::demo;
use pailwise_calc::quantity::{Area, Length, ThermodynamicTemperature, unit};
use pailwise_calc::record::{
    CoatRecord, ConditionsRecord, FloorRecord, JobRecord, MeasureRecord, RectangleRecord,
};

/// Degrees Fahrenheit in Celsius.
pub fn c(f: f64) -> f64 {
    ThermodynamicTemperature::new::<unit::degree_fahrenheit>(f).get::<unit::degree_celsius>()
}

/// Square feet in square metres.
pub fn m2(sq_ft: f64) -> f64 {
    Area::new::<unit::square_foot>(sq_ft).get::<unit::square_meter>()
}

/// Returns the metres in a length given in feet.
pub fn m(ft: f64) -> f64 {
    Length::new::<unit::foot>(ft).get::<unit::meter>()
}

/// All at so many degrees Fahrenheit, humidity not read.
pub fn conditions(f: f64) -> ConditionsRecord {
    ConditionsRecord {
        slab_c: c(f),
        air_c: c(f),
        material_c: c(f),
        read_after_mixing: false,
        humidity_percent: None,
    }
}

/// A rectangle by feet, so far from the back wall.
pub fn rectangle(back: f64, width: f64, depth: f64) -> RectangleRecord {
    RectangleRecord { left_m: 0.0, back_m: m(back), width_m: m(width), depth_m: m(depth) }
}

/// Returns the batch that a fresh phone in US units asks for.
pub fn job() -> JobRecord {
    let mut job = demo::job();
    job.conditions = conditions(74.0);
    (job.bare.area_m2, job.bare.width_m) = (m2(400.0), m(20.0));
    job.crew.roll_m2_per_min = m2(12.0);
    job.crew.flake_m2_per_min = m2(30.0);
    job.crew.throw_m = m(8.0);
    job.gear.measure = MeasureRecord::Jug { jug_step_ml: 946.352_946 / 4.0 };
    job
}

/// The floor: a base coat today, a topcoat tomorrow.
pub fn floor() -> FloorRecord {
    let mut floor = demo::floor();
    let JobRecord { crew, gear, .. } = job();
    (floor.crew, floor.gear) = (crew, gear);
    floor.flat = vec![rectangle(0.0, 20.0, 20.0)];
    floor.cut_in_m = 3.0 * 0.0254;
    floor.crew.cut_m2_per_min = m2(3.0);
    floor.coats[0].conditions = conditions(74.0);
    let topcoat = CoatRecord { product: demo::record_topcoat(), day: 1, ..floor.coats[0].clone() };
    floor.coats.push(topcoat);
    floor
}
