//! What the fuzz targets found worth keeping, played again: `tests/fuzz/corpus`, a folder a target.

use std::fs;
use std::path::Path;

use pailwise_tests::hostile::{file, link, quantity, stored};

fn play(target: &str, run: fn(&str)) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus").join(target);
    let mut played = 0;
    let entries = fs::read_dir(&folder).unwrap_or_else(|error| panic!("{target}: {error}"));
    for entry in entries.flatten() {
        let bytes = fs::read(entry.path()).unwrap_or_default();
        run(&String::from_utf8_lossy(&bytes));
        played += 1;
    }
    assert!(played >= 20, "only {played} files in {}", folder.display());
}

#[test]
fn quantities() {
    play("quantity", quantity);
}

#[test]
fn files() {
    play("file", file);
}

#[test]
fn links() {
    play("link", link);
}

#[test]
fn records_in_storage() {
    play("stored", stored);
}
