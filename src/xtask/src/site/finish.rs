//! What makes the built files a site that stands on its own: one style sheet, a content policy,
//! and the list by which its worker keeps all of it on the phone.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

use super::page;

/// The page; it is kept under the address that it is opened by.
const PAGE: &str = "index.html";
const WORKER: &str = "worker.js";

/// Finishes the files that Trunk left in a folder.
pub(super) fn finish(dist: &Path) -> Result<()> {
    let page = fs::read_to_string(dist.join(PAGE))?;
    let page = one_style(dist, &page)?;
    // The page names the build, so the build is named by all else, and the page as it is so far.
    let others = checksums(dist)?;
    let build = name(&others, &page);
    let page = page::sealed(&page, &build).context("the page does not say its characters")?;
    fs::write(dist.join(PAGE), &page)?;
    let mut files = others;
    files.insert("./".to_owned(), checksum(page.as_bytes()));
    let worker = fs::read_to_string(dist.join(WORKER))?;
    fs::write(dist.join(WORKER), listed(&worker, &build, &files)?)?;
    Ok(())
}

/// Puts the style sheets of a page into one file, and has the page load that.
fn one_style(dist: &Path, page: &str) -> Result<String> {
    page::one_style(page, |addresses| {
        let mut all = String::new();
        for address in addresses {
            let file = dist.join(address.trim_start_matches("./"));
            all += &fs::read_to_string(&file)?;
            fs::remove_file(file)?;
        }
        let name = format!("style-{}.css", short(&Sha256::digest(&all)));
        fs::write(dist.join(&name), all)?;
        Ok(format!("./{name}"))
    })
    .context("cannot put the style sheets into one")
}

/// The checksums of the app's files but for page and worker.
fn checksums(dist: &Path) -> Result<BTreeMap<String, String>> {
    let names = super::of_the_app(dist)?.into_iter();
    let others = names.filter(|name| name != PAGE && name != WORKER);
    others
        .map(|name| {
            let sum = checksum(&fs::read(dist.join(&name))?);
            Ok((name, sum))
        })
        .collect()
}

fn checksum(bytes: &[u8]) -> String {
    STANDARD.encode(Sha256::digest(bytes))
}

/// The name of a build, from everything in it.
fn name(others: &BTreeMap<String, String>, page: &str) -> String {
    let mut all = Sha256::new();
    for (name, sum) in others {
        all.update(format!("{name} {sum}\n"));
    }
    all.update(page);
    short(&all.finalize())
}

fn short(digest: &[u8]) -> String {
    let number = digest.iter().take(8).fold(0, |all, byte| (all << 8) | u64::from(*byte));
    format!("{number:016x}")
}

/// The worker with the two values it lacks.
fn listed(worker: &str, build: &str, files: &BTreeMap<String, String>) -> Result<String> {
    let (no_build, no_files) = ("const BUILD = \"\";", "const FILES = {};");
    ensure!(
        worker.contains(no_build) && worker.contains(no_files),
        "the worker has no place for the build and its files"
    );
    let files = serde_json::to_string_pretty(files)?;
    Ok(worker
        .replace(no_build, &format!("const BUILD = \"{build}\";"))
        .replace(no_files, &format!("const FILES = {files};")))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn site(name: &str, style: &str) -> Result<std::path::PathBuf> {
        let folder = std::env::temp_dir().join(format!("pailwise-{name}-{}", std::process::id()));
        fs::create_dir_all(folder.join("schema"))?;
        fs::write(
            folder.join(PAGE),
            "<meta charset=utf-8><link rel=stylesheet href=./a.css><link rel=stylesheet href=./b.css>",
        )?;
        fs::write(folder.join("a.css"), style)?;
        fs::write(folder.join("b.css"), "b{}")?;
        fs::write(folder.join("app.wasm"), "wasm")?;
        fs::write(folder.join("schema/one.json"), "{}")?;
        fs::write(folder.join(WORKER), "const BUILD = \"\";\nconst FILES = {};\n")?;
        Ok(folder)
    }

    fn finished(name: &str, style: &str) -> Result<(String, String)> {
        let folder = site(name, style)?;
        let done = finish(&folder);
        let read = |file: &str| fs::read_to_string(folder.join(file));
        let both = read(PAGE).and_then(|page| Ok((page, read(WORKER)?)));
        fs::remove_dir_all(&folder)?;
        done?;
        Ok(both?)
    }

    #[test]
    fn the_worker_lists_every_file_of_the_app_with_its_checksum() -> Result<()> {
        let (page, worker) = finished("lists", "a{}")?;
        let style = format!("style-{}.css", short(&Sha256::digest("a{}b{}")));
        assert!(page.contains(&style), "{page}");
        for (name, bytes) in [("./", page.as_str()), ("app.wasm", "wasm"), (&style, "a{}b{}")] {
            let line = format!("\"{name}\": \"{}\"", checksum(bytes.as_bytes()));
            assert!(worker.contains(&line), "{worker}");
        }
        assert!(!worker.contains("a.css") && !worker.contains("one.json"), "{worker}");
        Ok(())
    }

    #[test]
    fn any_change_makes_another_build() -> Result<()> {
        let build = |page: &str| page.split("name=\"build\"").nth(1).map(str::to_owned);
        let (first, again) = (finished("first", "a{}")?, finished("again", "a{}")?);
        assert_eq!(first, again);
        let other = finished("other", "a{color:red}")?;
        assert_ne!(build(&first.0), build(&other.0));
        Ok(())
    }

    #[test]
    fn a_worker_without_places_for_them_is_told() {
        assert!(listed("const BUILD = 1;", "abc", &BTreeMap::new()).is_err());
    }
}
