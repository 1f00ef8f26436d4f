//! The `plan` example as a person runs it: a floor file in, a plan or one clear line out.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use pailwise_calc::report::{BatchRecord, CoatPlanRecord, PlaceRecord, PlanRecord};

fn data(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("data/floors").join(name)
}

fn plan(file: &Path) -> Output {
    Command::new(env!("CARGO"))
        .args(["run", "--quiet", "--package", "pailwise-calc", "--example", "plan", "--"])
        .arg(file)
        .output()
        .expect("cargo runs")
}

/// The plan of a floor file that has one.
fn planned(name: &str) -> PlanRecord {
    let output = plan(&data(name));
    assert!(output.status.success(), "{name}: {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

/// What lies on the flat, and that each band begins where the one before ended.
fn laid(coat: &CoatPlanRecord) -> f64 {
    let flat = |batch: &&BatchRecord| matches!(batch.place, PlaceRecord::Flat { .. });
    let mut ended = None;
    let mut sum = 0.0;
    for batch in coat.batches.iter().filter(flat) {
        let PlaceRecord::Flat { from_m, to_m, .. } = batch.place else { unreachable!() };
        assert!(ended.is_none_or(|ended: f64| (ended - from_m).abs() < 1e-5) && to_m > from_m);
        ended = Some(to_m);
        sum += batch.area_m2;
    }
    sum
}

#[test]
fn a_two_car_garage_is_planned_crack_base_and_topcoat() {
    let plan = planned("two-car-garage.json");
    let [paste, base, top] = &plan.coats[..] else { panic!("{} coats", plan.coats.len()) };
    assert!(matches!(paste.batches[0].place, PlaceRecord::Cracks { .. }));
    for coat in [base, top] {
        assert!(coat.stopped.is_none() && (laid(coat) - 37.21).abs() < 1e-3);
        for batch in &coat.batches {
            let poured: f64 = batch.pours.iter().map(|pour| pour.volume_l).sum();
            assert!((poured - batch.volume_l).abs() < 1e-5);
            assert!(batch.emptied_min <= batch.pour_out_min);
            assert!(batch.pour_out_min < batch.pot_life_min);
        }
    }
    // Two A to one B, to the jug's step; the additive between A and B.
    let pours = &base.batches[0].pours;
    assert!((pours[0].volume_l / pours[1].volume_l - 2.0).abs() < 0.1);
    assert_eq!(top.batches[0].pours[1].what, "UV absorber");
    // 22.7 L are here.
    assert!(base.needed_l < 22.7 && base.short_l == Some(0.0));
}

#[test]
fn a_one_car_garage_takes_a_batch_or_two_a_coat() {
    let plan = planned("one-car-garage.json");
    assert!(plan.coats.iter().all(|coat| coat.batches.len() <= 2 && coat.stopped.is_none()));
    assert_eq!(plan.coats[0].batches.len(), 1);
}

/// By hand: 9 × 6 + 4 × 5 m² less a column of 0.4 × 0.4; walls 15 × 0.2; three steps of 1.1 m,
/// 0.28 by 0.18, one side open: 3 × 1.1 × 0.46 + 0.28 × 0.18 × 6.
#[test]
fn an_l_shaped_shop_begins_with_its_walls_and_steps() {
    let plan = planned("l-shaped-shop.json");
    assert!((plan.area_m2 - 73.84).abs() < 1e-6);
    assert!((plan.verticals_m2 - (3.0 + 1.518 + 0.3024)).abs() < 1e-6);
    for coat in &plan.coats {
        assert_eq!(coat.batches[0].place, PlaceRecord::Verticals);
        assert!((laid(coat) - 73.84).abs() < 1e-3 && coat.stopped.is_none());
    }
}

#[test]
fn a_showroom_and_a_warehouse_are_planned_to_the_end() {
    for (name, area) in [("showroom-1000.json", 1_000.0), ("warehouse-100000.json", 100_000.0)] {
        let plan = planned(name);
        let coat = &plan.coats[0];
        assert!(coat.stopped.is_none() && (laid(coat) / area - 1.0).abs() < 1e-6, "{name}");
        // Never more in a pail than three quarters of it, and never a sliver at the end.
        assert!(coat.batches.iter().all(|batch| batch.volume_l <= 15.0), "{name}");
        let last = coat.batches.last().unwrap();
        assert!(last.area_m2 > 0.2 * coat.batches[0].area_m2, "{name}: {}", last.area_m2);
    }
}

#[test]
fn an_impossible_day_says_why_and_what_would_help() {
    let plan = planned("impossible-day.json");
    let stopped = plan.coats[0].stopped.as_ref().unwrap();
    assert!(stopped.why.contains("no batch fits"), "{}", stopped.why);
    let says = |text: &str| stopped.ways.iter().any(|way| way.contains(text));
    assert!(says("rolling") && says("later"), "{:?}", stopped.ways);
}

/// A floor file with one thing changed, written where a test may write.
fn changed(name: &str, from: &str, to: &str) -> PathBuf {
    let text = std::fs::read_to_string(data("two-car-garage.json")).unwrap();
    assert!(text.contains(from), "{from:?} is not in the file");
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&file, text.replacen(from, to, 1)).unwrap();
    file
}

#[test]
fn what_is_wrong_is_one_clear_line_and_a_failure() {
    let cases = [
        (changed("broken.json", "\"version\"", "version"), "file: key must be a string"),
        (changed("missing.json", "\"slab_c\": 23,", ""), "missing field `slab_c`"),
        (changed("negative.json", "\"width_m\": 6.1", "\"width_m\": -6.1"), "width_m: -6.1 m"),
        (changed("nan.json", "\"width_m\": 6.1", "\"width_m\": NaN"), "expected value at line"),
        (changed("text.json", "\"air_c\": 24", "\"air_c\": \"warm\""), "air_c: invalid type"),
        (changed("newer.json", "\"version\": 5", "\"version\": 7"), "version: 7 is newer"),
        (changed("cold.json", "\"slab_c\": 23", "\"slab_c\": -40"), "slab_c: -40 °C is outside"),
        (
            changed("sheet.json", "\"time_min\": 24", "\"time_min\": -24"),
            "time_min: -24 min is outside",
        ),
        (changed("other.json", "pailwise-floor", "pailwise-job"), "this is \"pailwise-job\""),
        (
            changed(
                "hole.json",
                "\"take_up_percent\"",
                "\"cut_out\": [{ \"left_m\": 9, \"back_m\": 0, \"width_m\": 1, \"depth_m\": 1 }], \"take_up_percent\"",
            ),
            "cut_out[0]: lies outside the floor",
        ),
        (data("nowhere.json"), "nowhere.json: "),
    ];
    for (file, wanted) in cases {
        let output = plan(&file);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(!output.status.success(), "{}", file.display());
        assert!(output.stdout.is_empty(), "{}", file.display());
        assert_eq!(said.trim_end().lines().count(), 1, "{said}");
        assert!(said.contains(wanted), "{said:?} lacks {wanted:?}");
    }
}

/// A sheet with a cup and a kit on one page, and one whose pot life hardly shortens in the heat:
/// both are planned, and a pail never past what the kit lasts.
#[test]
fn two_masses_and_flat_temperatures_are_planned() {
    let plan = planned("two-masses.json");
    let [base, top] = &plan.coats[..] else { panic!("{} coats", plan.coats.len()) };
    for coat in [base, top] {
        assert!(coat.stopped.is_none() && (laid(coat) - 3.7 * 6.1).abs() < 1e-3);
    }
    // The kit of 5 kg lasts 25 min at 25 °C; these are mixed at 23 °C and warmed by the drill.
    assert!(base.batches.iter().all(|batch| (15.0..=26.0).contains(&batch.pot_life_min)));
    assert!(top.batches.iter().all(|batch| batch.pot_life_min <= 25.0));
}
