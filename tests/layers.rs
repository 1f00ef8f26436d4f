//! The layers of the app, read from the imports of its sources: what stands below knows nothing of
//! what stands above, no two files know each other but parent and child, and no screen another.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// From the ground up; the last but one are the screens.
const LAYERS: [&[&str]; 9] = [
    // Words: texts, units, reading numbers.
    &["text", "units", "read"],
    // What is typed, and how figures are written for a person.
    &["entry", "show", "moments", "steady", "screen"],
    // What is kept, and what is said of it.
    &["records", "say"],
    // From what was typed to what is to be said.
    &["answers"],
    // On the phone, in files and in links.
    &["store", "settings", "exchange", "files"],
    // The state that all screens share, and the deeds between them.
    &["desk", "site", "attention"],
    &["parts"],
    &["mix", "floor", "clock", "products", "practice"],
    &["app", "gallery", "lib", "main"],
];

/// Every file of the app by its module path, with the module paths it names.
fn imports() -> BTreeMap<String, BTreeSet<String>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../src/app/src");
    let mut files = Vec::new();
    gather(&root, &mut files);
    let module = |path: &Path| {
        let path = path.strip_prefix(&root).unwrap().with_extension("");
        let parts: Vec<_> = path.iter().map(|part| part.to_str().unwrap().to_owned()).collect();
        let parts = if parts.last().unwrap() == "mod" { &parts[..parts.len() - 1] } else { &parts };
        parts.join("::")
    };
    let all: BTreeSet<String> = files.iter().map(|path| module(path)).collect();
    let of = |path: &PathBuf| {
        let own = module(path);
        let text = fs::read_to_string(path).unwrap();
        // Tests may look where they like.
        let text = text.split("#[cfg(test)]").next().unwrap().to_owned();
        let named = paths(&text, &own).into_iter();
        let known = named.filter_map(|named| {
            let parts: Vec<&str> = named.split("::").collect();
            let lengths = (1..=parts.len()).rev();
            lengths.map(|n| parts[..n].join("::")).find(|module| all.contains(module))
        });
        let known = known.filter(|known| *known != own).collect();
        (own, known)
    };
    files.iter().map(of).collect()
}

fn gather(folder: &Path, files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            gather(&path, files);
        } else if path.extension().is_some_and(|ext| ext == "rs") {
            files.push(path);
        }
    }
}

/// The paths that begin at the crate or at a parent, groups in braces written out.
fn paths(text: &str, own: &str) -> Vec<String> {
    let code = text.lines().filter(|line| !line.trim_start().starts_with("//"));
    let code = code.collect::<Vec<_>>().join("\n");
    let mut all = Vec::new();
    let mut rest = code.as_str();
    while let Some(at) = ["crate::", "super::"].iter().filter_map(|word| rest.find(word)).min() {
        let before = rest[..at].chars().next_back();
        let whole = before.is_none_or(|c| !c.is_alphanumeric() && c != '_' && c != ':');
        rest = &rest[at..];
        if whole {
            let (tree, _) = written_out(rest);
            all.extend(tree.into_iter().filter_map(|path| absolute(&path, own)));
        }
        rest = &rest["crate::".len()..];
    }
    all
}

/// The paths that a piece of text begins with, and how much of it they take.
fn written_out(text: &str) -> (Vec<String>, usize) {
    let end = text.find(|c: char| !c.is_alphanumeric() && c != '_' && c != ':');
    let end = end.unwrap_or(text.len());
    let stem = text[..end].trim_end_matches(':').to_owned();
    if !text[end..].starts_with('{') {
        return (vec![stem], end);
    }
    let (mut all, mut at) = (Vec::new(), end + 1);
    loop {
        at += text[at..].find(|c: char| !c.is_whitespace() && c != ',').unwrap_or(0);
        if text[at..].starts_with('}') || at >= text.len() {
            return (all, at + 1);
        }
        let (inner, took) = written_out(&text[at..]);
        if took == 0 {
            return (all, at);
        }
        all.extend(inner.into_iter().map(|inner| format!("{stem}::{inner}")));
        at += took;
        // `as` and the name it gets.
        if text[at..].trim_start().starts_with("as ") {
            at += text[at..].find([',', '}']).unwrap_or(0);
        }
    }
}

fn absolute(path: &str, own: &str) -> Option<String> {
    let mut parts: Vec<&str> = path.split("::").filter(|part| *part != "self").collect();
    let mut base: Vec<&str> = own.split("::").collect();
    if parts.first() == Some(&"crate") {
        base.clear();
        parts.remove(0);
    }
    while parts.first() == Some(&"super") {
        base.pop()?;
        parts.remove(0);
    }
    base.extend(parts);
    Some(base.join("::"))
}

fn top(module: &str) -> &str {
    module.split("::").next().unwrap()
}

fn layer(module: &str) -> usize {
    let at = LAYERS.iter().position(|layer| layer.contains(&top(module)));
    at.unwrap_or_else(|| panic!("{module} belongs to no layer: give it one in {}", file!()))
}

#[test]
fn every_import_looks_down_and_no_screen_knows_another() {
    let imports = imports();
    assert!(imports.len() > 100, "{} files", imports.len());
    let screens = LAYERS.len() - 2;
    let mut wrong = Vec::new();
    let mut seen = 0;
    for (from, named) in &imports {
        for to in named {
            seen += 1;
            let up = layer(to) > layer(from);
            let beside = layer(from) == screens && layer(to) == screens && top(from) != top(to);
            if up || beside {
                wrong.push(format!("{from} → {to}"));
            }
        }
    }
    assert!(seen > 600, "{seen} imports");
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn no_two_files_know_each_other_but_parent_and_child() {
    let imports = imports();
    // A parent may hand out what stands in its children, and they may use what stands in it.
    let kin =
        |a: &str, b: &str| a.starts_with(&format!("{b}::")) || b.starts_with(&format!("{a}::"));
    for start in imports.keys() {
        let mut reached = BTreeSet::new();
        let mut next: Vec<&String> =
            imports[start].iter().filter(|to| !kin(start, to.as_str())).collect();
        while let Some(at) = next.pop() {
            assert!(at != start, "{start} is in a circle: it reaches itself by {reached:?}");
            if reached.insert(at.clone()) {
                let on = imports.get(at).into_iter().flatten();
                next.extend(on.filter(|to| !kin(at, to.as_str())));
            }
        }
    }
}

/// The reader of imports itself.
#[test]
fn imports_are_read() {
    let text = "use crate::a::{b, c::{D, e as f}};\nuse super::g::H;\nlet x = crate::i::j();";
    let wanted = ["a::b", "a::c::D", "a::c::e", "m::g::H", "i::j"];
    assert_eq!(paths(text, "m::n"), wanted);
}
