//! The crates the project is made of: where they come from, under which licences, and which come
//! in two versions. It takes no network: Cargo knows all of it.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

use anyhow::{Context, Result, bail, ensure};
use serde_json::Value;
use spdx::{Expression, ParseMode};

use crate::run;

/// The one place they come from.
const REGISTRY: &str = "registry+https://github.com/rust-lang/crates.io-index";
/// Licences that ask no more than to be named (SPDX).
const LICENCES: &[&str] = &[
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "MIT-0",
    "Unicode-3.0",
    "Zlib",
];
/// What the app takes in two versions, because crates of others ask for an older one. One of them
/// alone is in what a phone downloads: the older `gloo-utils`, which the storage needs.
const TWICE: &[&str] = &["convert_case", "gloo-utils", "syn", "thiserror", "thiserror-impl"];

/// Checks all of them.
pub(super) fn check(root: &Path) -> Result<()> {
    let mut cargo = Command::new("cargo");
    cargo.args(["metadata", "--format-version", "1", "--locked"]).current_dir(root);
    let known = run::answer(&mut cargo).context("`cargo metadata` failed")?;
    let known: Value = serde_json::from_str(&known)?;
    let packages = known["packages"].as_array().context("Cargo names no packages")?;
    let mut wrong: Vec<String> = packages.iter().filter_map(fault).collect();

    let mut cargo = Command::new("cargo");
    cargo
        .args(["tree", "--package", "pailwise-app", "--target", "wasm32-unknown-unknown"])
        .args(["--edges", "normal", "--prefix", "none", "--format", "{p}", "--locked"])
        .current_dir(root);
    let tree = run::answer(&mut cargo).context("`cargo tree` failed")?;
    let twice = twice(&tree);
    let allowed: BTreeSet<&str> = TWICE.iter().copied().collect();
    wrong.extend(twice.difference(&allowed).map(|name| format!("{name} is there in two versions")));
    wrong.extend(
        allowed
            .difference(&twice)
            .map(|name| format!("{name} is there once: take it off the list")),
    );
    if !wrong.is_empty() {
        bail!("{}\n  what to do: see what brings them in with `cargo tree -i`", wrong.join("\n"));
    }
    ensure!(packages.len() > 100, "Cargo named {} crates only", packages.len());
    println!("  {} crates, all from crates.io and free to use", packages.len());
    Ok(())
}

/// What is wrong with a package, if anything is.
fn fault(package: &Value) -> Option<String> {
    let name = package["name"].as_str().unwrap_or("?");
    match package["source"].as_str() {
        None | Some(REGISTRY) => {}
        Some(elsewhere) => return Some(format!("{name} comes from {elsewhere}")),
    }
    let licence = package["license"].as_str().unwrap_or_default();
    (!free(licence)).then(|| format!("{name} is under {licence:?}"))
}

/// Whether a licence, or one of those to choose from, is on the list.
fn free(licence: &str) -> bool {
    let known = |licence: &spdx::LicenseReq| {
        licence.license.id().is_some_and(|id| LICENCES.contains(&id.name))
    };
    Expression::parse_mode(licence, ParseMode::LAX).is_ok_and(|all| all.evaluate(known))
}

/// The names that a tree of crates has in more than one version.
fn twice(tree: &str) -> BTreeSet<&str> {
    let mut versions: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for line in tree.lines() {
        let mut words = line.split_whitespace();
        if let (Some(name), Some(version)) = (words.next(), words.next()) {
            versions.entry(name).or_default().insert(version);
        }
    }
    versions.into_iter().filter(|(_, found)| found.len() > 1).map(|(name, _)| name).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn licences_are_read_as_written() {
        assert!(free("MIT OR Apache-2.0") && free("MIT/Apache-2.0"));
        assert!(free("Apache-2.0 OR GPL-2.0-only") && free("(MIT OR Apache-2.0) AND Unicode-3.0"));
        assert!(!free("GPL-3.0-only") && !free("MIT AND GPL-2.0-only") && !free(""));
    }

    #[test]
    fn a_crate_from_elsewhere_is_named() {
        let here = json!({ "name": "a", "source": REGISTRY, "license": "MIT" });
        assert_eq!(fault(&here), None);
        let git = json!({ "name": "b", "source": "git+https://example.org/b", "license": "MIT" });
        assert!(fault(&git).is_some_and(|fault| fault.starts_with("b comes from git+")));
    }

    #[test]
    fn two_versions_are_found_and_a_crate_named_twice_is_not() {
        let tree = "a v1.0.0\nb v1.0.0 (*)\na v2.0.0 (proc-macro)\nb v1.0.0\n";
        assert_eq!(twice(tree), BTreeSet::from(["a"]));
    }
}
