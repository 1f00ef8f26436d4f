//! One pot life, one calibration, a grid of temperatures and masses: `cargo bench -p pailwise-calc`.
//!
//! The cases are those of the reference data, so that `cargo xtask bench` can set the times beside
//! those of general-purpose solvers on the same cases.

use std::hint::black_box;
use std::path::Path;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use pailwise_calc::calibrate::{Assumed, PotLifePoint, calibrate};
use pailwise_calc::cure::{Beyond, Chemistry, Kinetics, Rate};
use pailwise_calc::demo;
use pailwise_calc::floor::Floor;
use pailwise_calc::pail::{Pail, Thermal, still_air};
use pailwise_calc::quantity::{
    Frequency, Mass, MassDensity, MolarEnergy, ThermodynamicTemperature, Time, unit,
};
use pailwise_calc::record::FloorRecord;
use pailwise_calc::stoichiometry::gel;
use pailwise_calc::vessel::Generic;
use serde_json::Value;

/// A number of a case; the data is the project's own and complete.
fn number(case: &Value, name: &str) -> f64 {
    case[name].as_f64().unwrap_or(f64::NAN)
}

fn kelvin(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<unit::kelvin>(value)
}

fn cases() -> Vec<Value> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/data/reference/pail.json");
    let text = std::fs::read_to_string(path).unwrap_or_default();
    let data: Value = serde_json::from_str(&text).unwrap_or_default();
    data["cases"].as_array().cloned().unwrap_or_default()
}

fn chemistry(case: &Value) -> Chemistry {
    serde_json::from_value(case["chemistry"].clone()).unwrap_or(Chemistry::AmineEpoxy)
}

fn thermal(case: &Value) -> Thermal {
    let typical = chemistry(case).typical();
    let density = number(case, "density_kg_per_m3");
    Thermal {
        heat_of_reaction: typical.heat_of_reaction,
        heat_capacity: typical.heat_capacity,
        density: MassDensity::new::<unit::kilogram_per_cubic_meter>(density),
        heat_loss: still_air(),
    }
}

fn pail(case: &Value) -> Option<Pail> {
    let energy = |name: &str| MolarEnergy::new::<unit::joule_per_mole>(number(&case["law"], name));
    let known = case["law"]["known"].as_array()?.iter();
    let known = known.map(|one| {
        let of = |i: usize| one[i].as_f64().unwrap_or(f64::NAN);
        (kelvin(of(0)), Frequency::new::<unit::hertz>(of(1)))
    });
    let typical = chemistry(case).typical();
    let kinetics = Kinetics {
        rate: Rate::through(known, Beyond { cold: energy("cold"), warm: energy("warm") }),
        kappa: typical.kappa,
        balance: 1.0,
        end: typical.end,
    };
    let vessel: Generic = serde_json::from_value(case["vessel"].clone()).ok()?;
    let mass = Mass::new::<unit::kilogram>(number(case, "mass_kg"));
    let (material, air) = (kelvin(number(case, "material_k")), kelvin(number(case, "air_k")));
    Pail::new(kinetics, &thermal(case), mass, &vessel.vessel(), material, air).ok()
}

/// A data sheet, and what is assumed beside it.
struct Sheet {
    points: Vec<PotLifePoint>,
    assumed: Assumed,
    thermal: Thermal,
}

fn sheet(case: &Value) -> Option<Sheet> {
    let typical = chemistry(case).typical();
    let points = case["sheet"].as_array()?.iter().map(|point| PotLifePoint {
        time: Time::new::<unit::second>(number(point, "time")),
        temperature: kelvin(number(point, "temperature")),
        mass: Mass::new::<unit::kilogram>(number(point, "mass")),
        sample: serde_json::from_value(point["sample"].clone()).ok(),
    });
    let assumed = Assumed {
        beyond: typical.beyond,
        kappa: typical.kappa,
        balance: 1.0,
        end: typical.end,
        gel: gel(1.0, typical.functionality)?,
    };
    Some(Sheet { points: points.collect(), assumed, thermal: thermal(case) })
}

fn pot_life(bench: &mut Criterion) {
    let pails: Vec<Pail> = cases().iter().filter_map(pail).collect();
    let mut group = bench.benchmark_group("pail");
    group.throughput(Throughput::Elements(pails.len() as u64));
    group.bench_function("pot_life", |b| {
        b.iter(|| {
            for pail in &pails {
                let _ = black_box(black_box(pail).pot_life());
            }
        });
    });
    group.finish();
}

fn calibration(bench: &mut Criterion) {
    let sheets: Vec<Sheet> = cases().iter().filter_map(sheet).collect();
    let one_temperature = |sheet: &&Sheet| {
        sheet.points.iter().all(|point| point.temperature == sheet.points[0].temperature)
    };
    let (single, several): (Vec<&Sheet>, Vec<&Sheet>) =
        sheets.iter().partition(|sheet| sheet.points.len() == 1);
    let two_masses: Vec<&Sheet> = several.into_iter().filter(one_temperature).collect();
    let mut group = bench.benchmark_group("pail");
    for (name, sheets) in [("calibration", single), ("loss", two_masses)] {
        group.throughput(Throughput::Elements(sheets.len() as u64));
        group.bench_function(name, |b| {
            b.iter(|| {
                for Sheet { points, assumed, thermal } in &sheets {
                    let _ = black_box(calibrate(points, *assumed, black_box(thermal)));
                }
            });
        });
    }
    group.finish();
}

fn grid(bench: &mut Criterion) {
    let Ok(base) = demo::base() else { return };
    bench.bench_function("pail/grid", |b| b.iter(|| black_box(base.pot_life_grid(40))));
}

/// The plan of a floor file's coats.
fn floor(name: &str) -> Option<Floor> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/data/floors").join(name);
    let text = std::fs::read_to_string(path).ok()?;
    Floor::try_from(&FloorRecord::from_json(&text).ok()?).ok()
}

fn plans(bench: &mut Criterion) {
    let mut group = bench.benchmark_group("plan");
    // Every coat of the garage; the only one of showroom and warehouse.
    for name in ["two-car-garage", "showroom-1000", "warehouse-100000"] {
        let Some(floor) = floor(&format!("{name}.json")) else { continue };
        let batches: usize = floor.coats.iter().map(|coat| floor.plan(coat).batches.len()).sum();
        group.throughput(Throughput::Elements(batches as u64)).sample_size(20);
        group.bench_function(name, |b| {
            b.iter(|| {
                for coat in &floor.coats {
                    black_box(floor.plan(black_box(coat)));
                }
            });
        });
    }
    group.finish();
}

criterion_group!(benches, pot_life, calibration, grid, plans);
criterion_main!(benches);
