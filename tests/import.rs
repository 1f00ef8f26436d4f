//! What comes in by file or link, changed at random: refused or fit, and never a panic.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

use std::collections::BTreeMap;

use pailwise_calc::demo;
use pailwise_calc::record::ShelfRecord;
use pailwise_kept::envelope;
use pailwise_kept::exchange::backup::BackupRecord;
use pailwise_kept::exchange::link::pack;
use pailwise_kept::exchange::{Received, from_file, from_link};
use pailwise_tests::hostile::usable;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

/// One change of a text.
#[derive(Clone, Debug)]
enum Change {
    /// A byte becomes another.
    Byte(usize, u8),
    /// The rest is cut off.
    Cut(usize),
    /// A piece is taken out.
    Drop(usize, usize),
    /// A piece is put in again elsewhere.
    Repeat(usize, usize, usize),
    /// Something strange is put in.
    Insert(usize, &'static str),
    /// A number becomes another.
    Number(usize, &'static str),
}

const STRANGE: [&str; 22] = [
    "null",
    "[]",
    "{}",
    "\"\"",
    "-",
    "1e999",
    "NaN",
    "Infinity",
    "\u{0}",
    "\u{202e}",
    "\u{feff}",
    ",",
    "\"",
    "\\ud800",
    "[[[[[[[[",
    "{\"a\":",
    "true",
    "\"format\":\"pailwise-backup\",",
    "\u{1f600}",
    "../",
    "%",
    "\"version\":0,",
];
const NUMBERS: [&str; 16] = [
    "0",
    "-1",
    "-0",
    "1e308",
    "-1e308",
    "1e-308",
    "4e9",
    "18446744073709551616",
    "0.1",
    "1e400",
    "99999",
    "0.0000001",
    "1.5",
    "3",
    "-40",
    "1e9",
];

fn change() -> impl Strategy<Value = Change> {
    let at = || any::<prop::sample::Index>().prop_map(|i| i.index(1 << 20));
    prop_oneof![
        3 => (at(), any::<u8>()).prop_map(|(at, byte)| Change::Byte(at, byte)),
        1 => at().prop_map(Change::Cut),
        2 => (at(), 1..40_usize).prop_map(|(at, n)| Change::Drop(at, n)),
        1 => (at(), at(), 1..200_usize).prop_map(|(from, to, n)| Change::Repeat(from, to, n)),
        2 => (at(), prop::sample::select(&STRANGE[..])).prop_map(|(at, s)| Change::Insert(at, s)),
        4 => (at(), prop::sample::select(&NUMBERS[..])).prop_map(|(at, n)| Change::Number(at, n)),
    ]
}

fn apply(text: &str, changes: &[Change]) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for change in changes {
        let len = bytes.len().max(1);
        match *change {
            Change::Byte(at, byte) => {
                if let Some(place) = bytes.get_mut(at % len) {
                    *place = byte;
                }
            }
            Change::Cut(at) => bytes.truncate(at % len),
            Change::Drop(at, n) => {
                let from = (at % len).min(bytes.len());
                bytes.drain(from..(from + n).min(bytes.len()));
            }
            Change::Repeat(from, to, n) => {
                let from = (from % len).min(bytes.len());
                let piece = bytes[from..(from + n).min(bytes.len())].to_vec();
                let to = (to % len).min(bytes.len());
                bytes.splice(to..to, piece);
            }
            Change::Insert(at, what) => {
                let at = (at % len).min(bytes.len());
                bytes.splice(at..at, what.bytes());
            }
            Change::Number(at, number) => {
                // The first number after that place.
                let digit = |b: &u8| b.is_ascii_digit() || matches!(b, b'.' | b'-');
                let start = (at % len..bytes.len()).find(|i| digit(&bytes[*i]));
                if let Some(start) = start {
                    let end = (start..bytes.len()).find(|i| !digit(&bytes[*i]));
                    bytes.splice(start..end.unwrap_or(bytes.len()), number.bytes());
                }
            }
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

/// Files of every kind that may come in.
fn files() -> Vec<String> {
    let mut files: Vec<String> =
        demo::records().iter().map(|record| serde_json::to_string(record).unwrap()).collect();
    files.push(serde_json::to_string(&ShelfRecord::of(demo::records().into())).unwrap());
    files.push(serde_json::to_string(&demo::floor()).unwrap());
    files.push(include_str!("data/records/v1/floor.json").to_owned());
    files.push(include_str!("data/records/v1/invented-base.json").to_owned());
    files.push(include_str!("../src/calc/schema/example-product.json").to_owned());
    let records: BTreeMap<String, String> = [
        ("pailwise/mix", include_str!("data/records/v1/mix.json").to_owned()),
        ("pailwise/floor", envelope::wrap(include_str!("data/records/v1/floor-form.json").trim())),
        ("pailwise/settings", include_str!("data/records/v1/settings.json").to_owned()),
        ("pailwise/slip", include_str!("data/records/v1/slip.json").to_owned()),
        ("pailwise/product/invented-base", envelope::wrap(&files[0])),
    ]
    .map(|(key, text)| (key.to_owned(), text))
    .into();
    let backup = BackupRecord::of("2026-11-25T12:00:00Z", records);
    assert_eq!(backup.check(), Ok(()));
    files.push(serde_json::to_string(&backup).unwrap());
    files
}

fn run(cases: u32, texts: &[String], open: impl Fn(&str) -> Option<Received>) -> (u32, u32) {
    let taken = std::cell::Cell::new(0);
    let refused = std::cell::Cell::new(0);
    // As many as are asked for, whatever the environment says.
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    let text = prop::sample::select(texts.to_vec());
    let changes = prop::collection::vec(change(), 1..3);
    TestRunner::new(config)
        .run(&(text, changes), |(text, changes)| {
            match open(&apply(&text, &changes)) {
                None => refused.set(refused.get() + 1),
                Some(received) => {
                    prop_assert!(usable(&received));
                    taken.set(taken.get() + 1);
                }
            }
            Ok(())
        })
        .unwrap();
    (taken.get(), refused.get())
}

/// How many cases; `PAILWISE_IMPORT_CASES` asks for a longer run.
fn cases() -> u32 {
    std::env::var("PAILWISE_IMPORT_CASES").ok().and_then(|n| n.parse().ok()).unwrap_or(60_000)
}

#[test]
fn a_changed_file_is_refused_or_fit() {
    let (taken, refused) = run(cases(), &files(), |text| from_file(text).ok());
    // Both must happen, or the changes are too wild or too tame to tell anything.
    assert!(taken > cases() / 40 && refused > cases() / 4, "{taken} taken, {refused} refused");
}

#[test]
fn a_changed_record_in_a_good_link_is_refused_or_fit() {
    let texts = files();
    let (taken, refused) = run(cases() / 2, &texts, |text| from_link(&pack(text)?).ok());
    assert!(taken > cases() / 80 && refused > cases() / 8, "{taken} taken, {refused} refused");
}

#[test]
fn a_changed_link_is_refused() {
    let links: Vec<String> = files().iter().filter_map(|text| pack(text)).collect();
    let (taken, _) = run(cases() / 3, &links, |packed| from_link(packed).ok());
    // A change may put back what was there, or fall on bits that belong to no byte.
    assert!(taken < cases() / 300, "{taken} taken");
}
