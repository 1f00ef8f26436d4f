//! Pot lives and open times that makers print, each told from the others of its sheet.
//!
//! The constants were fitted to some of them (`tests/reference/FIT.md`, which also tells each
//! without itself); the temperatures and the films were not part of the fit.

use std::path::Path;

use pailwise_calc::calibrate::Sample;
use pailwise_calc::cure::Chemistry;
use pailwise_calc::demo;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Mass, Time, celsius, minutes, unit};
use pailwise_calc::record::{OpenTimeRecord, PotLifeRecord, ProductRecord};
use pailwise_calc::vessel::Vessel;
use pailwise_tests::checks::check;
use serde::Deserialize;

#[derive(Clone, Deserialize)]
struct Point {
    time_min: f64,
    temperature_c: f64,
    mass_kg: Option<f64>,
    volume_l: Option<f64>,
    measured: Option<Sample>,
}

#[derive(Deserialize)]
struct Sheet {
    name: String,
    chemistry: Chemistry,
    density_kg_per_l: f64,
    heat_j_per_g: Option<f64>,
    points: Vec<Point>,
}

#[derive(Deserialize)]
struct Film {
    name: String,
    points: Vec<FilmPoint>,
}

#[derive(Deserialize)]
struct FilmPoint {
    time_min: f64,
    temperature_c: f64,
}

#[derive(Deserialize)]
struct Published {
    sheets: Vec<Sheet>,
    films: Vec<Film>,
}

fn published() -> Published {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/published/pot_life.json");
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

impl Sheet {
    /// The product with some of the sheet's pot lives.
    fn with(&self, points: &[&Point]) -> Product {
        let mut record = ProductRecord { chemistry: self.chemistry, ..demo::record_base() };
        record.equivalent_weights = None;
        record.heat_of_reaction_j_per_g = self.heat_j_per_g;
        for part in &mut record.components {
            part.density_kg_per_l = self.density_kg_per_l;
        }
        record.pot_life = points
            .iter()
            .map(|point| PotLifeRecord {
                time_min: point.time_min,
                temperature_c: point.temperature_c,
                mass_kg: point.mass_kg,
                volume_l: point.volume_l,
                measured: point.measured,
            })
            .collect();
        Product::try_from(&record).unwrap()
    }

    /// What is promised for a point's mass in a pail, read after mixing, over what is printed.
    fn promised(&self, product: &Product, point: &Point) -> f64 {
        let kg = point.mass_kg.or_else(|| Some(point.volume_l? * self.density_kg_per_l));
        let mass = Mass::new::<unit::kilogram>(kg.unwrap_or(0.1));
        let vessel = Vessel::compact(mass / product.ratio().density());
        let at = celsius(point.temperature_c);
        let life = product.pail(mass, &vessel, at, at).unwrap().pot_life().unwrap();
        life.get::<unit::minute>() / point.time_min
    }
}

const SOURCES: &str = "makers' sheets, named in tests/data/published/pot_life.json";

/// A kit told from a cup alone.
#[test]
fn a_kit_is_not_promised_much_more_than_its_sheet_by_its_cup() {
    let mut told = Vec::new();
    for sheet in published().sheets {
        let [cup, kit] = sheet.points.as_slice() else { continue };
        if cup.temperature_c != kit.temperature_c {
            continue;
        }
        let share = sheet.promised(&sheet.with(&[cup]), kit);
        check(format!("{}: the kit from its cup, promised over printed", sheet.name), SOURCES)
            .between(0.4, 1.15, share);
        // With both on the sheet both are met.
        let both = sheet.with(&[cup, kit]);
        assert!(both.calibration().residuals.iter().all(|off| off.abs() < 0.2), "{}", sheet.name);
        told.push(share);
    }
    assert_eq!(told.len(), 2);
}

/// A temperature told from the others of its sheet: what a pail of the sample's mass is promised,
/// against what is printed of the sample. A pail keeps its heat, so that it is promised less than a
/// cup lasts even at the sheet's own temperature, the most so of a slow product.
#[test]
fn another_temperature_is_not_promised_more_than_its_sheet() {
    let mut told = 0;
    for sheet in published().sheets {
        for (left_out, asked) in sheet.points.iter().enumerate() {
            let others = sheet.points.iter().enumerate().filter(|(i, _)| *i != left_out);
            let others: Vec<&Point> = others.map(|(_, point)| point).collect();
            let elsewhere = |point: &&Point| point.temperature_c != asked.temperature_c;
            if others.is_empty() || !others.iter().all(elsewhere) {
                continue;
            }
            let share = sheet.promised(&sheet.with(&others), asked);
            let what = format!("{} at {} °C from the rest", sheet.name, asked.temperature_c);
            check(format!("{what}, promised over printed"), SOURCES).between(0.1, 1.10, share);
            told += 1;
        }
    }
    assert_eq!(told, 8);
}

/// With all of a sheet known none of it is told longer than it is printed. A flat pair is told
/// shorter at its warm end: the more heat such a cup is taken to hold, the more so.
#[test]
fn what_is_printed_is_told_and_never_longer() {
    for sheet in published().sheets {
        let all: Vec<&Point> = sheet.points.iter().collect();
        let told = sheet.with(&all).calibration().residuals.iter().map(|off| off.exp()).collect();
        let told: Vec<f64> = told;
        let least = told.iter().copied().fold(f64::MAX, f64::min);
        let most = told.iter().copied().fold(0.0, f64::max);
        check(format!("{}: the least told over printed", sheet.name), SOURCES)
            .between(0.35, 1.000_001, least);
        check(format!("{}: the most told over printed", sheet.name), SOURCES)
            .between(0.8, 1.000_001, most);
    }
}

/// Every temperature of a film's chart told from the one at 70 °F, the one most sheets print. The
/// chart itself goes in jumps (62, 52, 30, 25 min for each 10 °F), so that a smooth law is above it
/// here and there; of an open time no more than 80 % is planned on.
#[test]
fn a_film_at_another_temperature_is_told_from_the_usual_one() {
    let charts = published().films;
    let chart = charts.iter().find(|chart| chart.name.contains("by hand")).unwrap();
    let known = chart.points.iter().find(|point| point.temperature_c == 21.11).unwrap();
    let mut record = demo::record_base();
    record.open_time = vec![OpenTimeRecord {
        time_min: known.time_min,
        temperature_c: known.temperature_c,
        humidity_percent: None,
    }];
    let film = Product::try_from(&record).unwrap().film();
    for asked in &chart.points {
        let left: Time = film.left(0.0, celsius(asked.temperature_c));
        let what = format!("{} at {} °C, told over printed", chart.name, asked.temperature_c);
        check(what, SOURCES).between(0.75, 1.20, (left / minutes(asked.time_min)).value);
    }
    assert!(chart.points.len() >= 8);
}
