//! What is kept and handed on: described by its schema, read from every version there has been.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

use std::fs;
use std::path::{Path, PathBuf};

use jsonschema::Validator;
use pailwise_calc::floor::Floor;
use pailwise_calc::product::Product;
use pailwise_calc::record::{
    ConditionsRecord, FloorRecord, JobRecord, ProductRecord, ShelfRecord, TonightRecord,
    Unreadable, VERSION, open,
};
use pailwise_calc::schema::schemas;
use pailwise_calc::{demo, sheet};
use serde::Serialize;
use serde_json::{Value, json};

fn at(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn value<T: Serialize>(record: &T) -> Value {
    serde_json::to_value(record).unwrap()
}

/// The published schema of a format, in the hands of an independent validator (`jsonschema`).
fn validator(name: &str) -> Validator {
    let schema = text(&at(&format!("../src/calc/schema/{name}.schema.json")));
    jsonschema::validator_for(&serde_json::from_str(&schema).unwrap()).unwrap()
}

#[track_caller]
fn valid(validator: &Validator, record: &Value, what: &str) {
    let wrong: Vec<String> = validator.iter_errors(record).map(|e| e.to_string()).collect();
    assert!(wrong.is_empty(), "{what}: {wrong:?}");
}

#[test]
fn the_published_schemas_are_those_of_the_types() {
    for (name, schema) in schemas() {
        let kept = text(&at(&format!("../src/calc/schema/{name}")));
        assert!(kept == schema, "{name} is old: run `cargo xtask schema`");
    }
}

#[test]
fn every_example_file_and_demo_record_fits_its_schema() {
    let (product, floor, job) = (validator("product"), validator("floor"), validator("job"));
    for record in demo::records() {
        valid(&product, &value(&record), &record.name);
    }
    let shelf = ShelfRecord::of(demo::records().into());
    valid(&validator("products"), &value(&shelf), "the demo shelf");
    valid(&floor, &value(&demo::floor()), "the demo floor");
    valid(&job, &value(&demo::job()), "the demo job");
    let mut floors = 0;
    for entry in fs::read_dir(at("data/floors")).unwrap() {
        let path = entry.unwrap().path();
        let record: Value = serde_json::from_str(&text(&path)).unwrap();
        valid(&floor, &record, &path.display().to_string());
        floors += 1;
    }
    assert_eq!(floors, 7);
    for (schema, name) in [
        (&product, "invented-base"),
        (&product, "invented-topcoat"),
        (&product, "invented-filler"),
        (&job, "job"),
        (&floor, "floor"),
    ] {
        for version in 1..VERSION {
            let path = at(&format!("data/records/v{version}/{name}.json"));
            // Brought up to this version, as it is when it is read.
            let (_, json) = open(&text(&path)).unwrap();
            valid(schema, &serde_json::from_str(&json).unwrap(), name);
        }
    }
}

#[test]
fn the_example_to_write_by_hand_fits_and_raises_no_doubt() {
    let example = text(&at("../src/calc/schema/example-product.json"));
    valid(&validator("product"), &serde_json::from_str(&example).unwrap(), "the example");
    let record = ProductRecord::from_json(&example).unwrap();
    let product = Product::try_from(&record).unwrap();
    assert_eq!(sheet::doubts(&record, &product), []);
    assert!(record.invented);
}

type Change = fn(&mut Value);

/// What serde refuses, the schema refuses too, and the other way round.
#[test]
fn schema_and_reader_refuse_the_same() {
    let schema = validator("product");
    let good = value(&demo::record_base());
    let changes: [(&str, Change); 9] = [
        ("a missing name", |v| drop(v.as_object_mut().unwrap().remove("name"))),
        ("a misspelt key", |v| v["flacked"] = json!(true)),
        ("a text for a number", |v| v["mixing_min"] = json!("3")),
        ("an unknown role", |v| v["role"] = json!("middle")),
        ("a part without density", |v| v["components"][0] = json!({"label": "A", "parts": 1})),
        ("a version to come", |v| v["version"] = json!(VERSION + 1)),
        ("another format", |v| v["format"] = json!("pailwise-floor")),
        ("a negative profile", |v| v["limits"]["profile_min_csp"] = json!(-1)),
        ("a list for a record", |v| *v = json!([])),
    ];
    valid(&schema, &good, "the product itself");
    for (what, change) in changes {
        let mut record = good.clone();
        change(&mut record);
        assert!(!schema.is_valid(&record), "the schema takes {what}");
        assert!(ProductRecord::from_json(&record.to_string()).is_err(), "the reader takes {what}");
    }
}

#[test]
fn records_of_version_1_are_read_for_ever() {
    for wanted in demo::records() {
        let old = text(&at(&format!("data/records/v1/{}.json", wanted.id)));
        assert!(old.contains("\"version\":1"));
        let read = ProductRecord::from_json(&old).unwrap();
        // Version 1 knew nothing of what comes after, of limits and of flake by weight.
        let known = ProductRecord {
            flake_kg_per_m2: None,
            recoat_opens: Vec::new(),
            recoat_closes: Vec::new(),
            light_use: Vec::new(),
            vehicles: Vec::new(),
            full_cure: Vec::new(),
            limits: pailwise_calc::record::LimitsRecord::default(),
            // The invented topcoat has had its open time lengthened since.
            open_time: read.open_time.clone(),
            ..wanted
        };
        assert_eq!(read, known);
        assert_eq!(read.version, VERSION);
        assert!(Product::try_from(&read).is_ok());
    }
    let job = JobRecord::from_json(&text(&at("data/records/v1/job.json"))).unwrap();
    assert_eq!((job.version, job.product.version), (VERSION, VERSION));
    assert_eq!((job.crew, job.gear), (demo::crew(), demo::gear()));
    let floor = FloorRecord::from_json(&text(&at("data/records/v1/floor.json"))).unwrap();
    assert_eq!(floor.coats[0].product.version, VERSION);
    assert_eq!(floor.flat, demo::floor().flat);
}

#[test]
fn records_of_version_2_are_read_for_ever() {
    for wanted in demo::records() {
        let old = text(&at(&format!("data/records/v2/{}.json", wanted.id)));
        assert!(old.contains("\"version\":2"));
        let read = ProductRecord::from_json(&old).unwrap();
        // The invented base coat has had its window lengthened since, the topcoat its open time.
        let known = ProductRecord {
            recoat_closes: read.recoat_closes.clone(),
            open_time: read.open_time.clone(),
            ..wanted
        };
        assert_eq!(read, known);
        assert!(Product::try_from(&read).is_ok());
    }
    // Version 2 knew nothing of humidity, of the night and of the date.
    let job = JobRecord::from_json(&text(&at("data/records/v2/job.json"))).unwrap();
    let conditions = ConditionsRecord { humidity_percent: None, ..demo::conditions() };
    assert_eq!((job.version, job.conditions), (VERSION, conditions));
    let floor = FloorRecord::from_json(&text(&at("data/records/v2/floor.json"))).unwrap();
    assert_eq!(floor.first_day, None);
    assert_eq!(floor.coats[0].tonight, TonightRecord::default());
    assert!(Floor::try_from(&floor).is_ok());
}

#[test]
fn records_of_version_3_are_read_for_ever() {
    for wanted in demo::records() {
        let old = text(&at(&format!("data/records/v3/{}.json", wanted.id)));
        assert!(old.contains("\"version\":3"));
        // Version 3 knew nothing of how a pot life was measured, and of lots.
        let read = ProductRecord::from_json(&old).unwrap();
        assert_eq!(read, ProductRecord { open_time: read.open_time.clone(), ..wanted });
    }
    let job = JobRecord::from_json(&text(&at("data/records/v3/job.json"))).unwrap();
    assert_eq!(job, demo::job());
    assert!(!job.conditions.read_after_mixing);
    let floor = FloorRecord::from_json(&text(&at("data/records/v3/floor.json"))).unwrap();
    assert_eq!(floor, demo::floor());
}

#[test]
fn a_newer_version_is_refused_wherever_it_stands() {
    let mut floor = value(&demo::floor());
    floor["coats"][0]["product"]["version"] = json!(7);
    let refused = FloorRecord::from_json(&floor.to_string()).unwrap_err();
    assert_eq!(refused, Unreadable::Newer { found: 7 });
}

/// Whether somebody mixes became how many do.
#[test]
fn records_of_version_4_are_read_for_ever() {
    let old = text(&at("data/records/v4/job.json"));
    assert!(old.contains("\"version\":4") && old.contains("\"mixer\":true"));
    let job = JobRecord::from_json(&old).unwrap();
    assert_eq!((job.version, job.crew.mixers), (VERSION, 1));
    assert!(job.crew.spikes && job.crew.measured_ahead);
    let floor = FloorRecord::from_json(&text(&at("data/records/v4/floor.json"))).unwrap();
    assert_eq!((floor.crew.mixers, floor.coats[0].crews), (1, 1));
    assert!(floor.coats[0].tape_lines_m.is_empty());
}
