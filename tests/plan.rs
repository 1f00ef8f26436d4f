//! The `plan` example as a person runs it: a job file in, a plan or one clear line out.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use pailwise_calc::report::PlanRecord;

fn data(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("data").join(name)
}

fn plan(file: &Path) -> Output {
    Command::new(env!("CARGO"))
        .args(["run", "--quiet", "--package", "pailwise-calc", "--example", "plan", "--"])
        .arg(file)
        .output()
        .expect("cargo runs")
}

/// The job file of the garage with one thing changed, written where a test may write.
fn changed(name: &str, from: &str, to: &str) -> PathBuf {
    let text = std::fs::read_to_string(data("garage.json")).unwrap();
    assert!(text.contains(from), "{from:?} is not in the file");
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&file, text.replacen(from, to, 1)).unwrap();
    file
}

#[test]
fn a_garage_is_planned() {
    let output = plan(&data("garage.json"));
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let plan: PlanRecord = serde_json::from_slice(&output.stdout).unwrap();
    let laid: f64 = plan.batches.iter().map(|batch| batch.area_m2).sum();
    assert!((laid - 37.2).abs() < 1e-3, "{laid}");
    let first = &plan.batches[0];
    let poured: f64 = first.pours.iter().map(|pour| pour.volume_l).sum();
    assert!((poured - first.volume_l).abs() < 1e-5);
    // Two A to one B, to the jug's step.
    assert!((first.pours[0].volume_l / first.pours[1].volume_l - 2.0).abs() < 0.1);
    assert!(first.emptied_min <= first.pour_out_min && first.pour_out_min < first.pot_life_min);
}

#[test]
fn what_is_wrong_is_one_clear_line_and_a_failure() {
    let cases = [
        (changed("broken.json", "\"version\"", "version"), "file: key must be a string"),
        (changed("missing.json", "\"slab_c\": 23, ", ""), "missing field `slab_c`"),
        (changed("negative.json", "\"area_m2\": 37.2", "\"area_m2\": -37.2"), "area_m2: -37.2 m²"),
        (
            changed("nan.json", "\"area_m2\": 37.2", "\"area_m2\": NaN"),
            "bare: expected value at line",
        ),
        (
            changed("text.json", "\"air_c\": 24", "\"air_c\": \"warm\""),
            "conditions.air_c: invalid type",
        ),
        (changed("newer.json", "\"version\": 1", "\"version\": 7"), "version: 7 is newer"),
        (changed("cold.json", "\"slab_c\": 23", "\"slab_c\": -40"), "slab_c: -40 °C is outside"),
        (changed("sheet.json", "\"time_min\": 24", "\"time_min\": 44"), "activation energy"),
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
