//! The layers of what is kept and of the app, read from the imports of their sources: what stands
//! below knows nothing of what stands above, no two files know each other but parent and child, and no
//! screen another. That what is kept knows no screen is the compiler's to say: it is a crate of its own.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// A crate of the app, from the ground up.
struct Crate {
    /// Its folder in `src`.
    folder: &'static str,
    /// Its layers; each knows only those before it.
    layers: &'static [&'static [&'static str]],
    /// Modules that know nothing of one another, though they stand side by side.
    apart: &'static [&'static str],
    /// It has at least so many files, and so many imports between them.
    at_least: (usize, usize),
}

/// What is typed, kept and handed on; and the screens.
const CRATES: [Crate; 2] = [
    Crate {
        folder: "kept",
        layers: &[
            // Words: texts, units, reading numbers.
            &["text", "units", "read", "day", "keys"],
            // What is typed, and how figures are written for a person.
            &["entry"],
            &["show"],
            // What is kept, and what is said of it.
            &["records"],
            &["say", "envelope"],
            // From what was typed to what is to be said; in files and links.
            &["answers", "exchange"],
            &["lib"],
        ],
        apart: &["answers", "exchange"],
        at_least: (30, 80),
    },
    Crate {
        folder: "app",
        layers: &[
            &["text"],
            &["moments", "steady", "screen"],
            // On the phone.
            &["store", "language_at_start", "files"],
            // The state that all screens share, and the deeds between them.
            &["desk", "site", "attention"],
            &["parts"],
            &["mix", "floor", "clock", "products", "practice"],
            &["app", "gallery", "lib", "main"],
        ],
        // No screen knows another.
        apart: &["mix", "floor", "clock", "products", "practice"],
        at_least: (80, 300),
    },
];

/// Every file of a crate by its module path, with the module paths it names.
fn imports(of: &Crate) -> BTreeMap<String, BTreeSet<String>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../src").join(of.folder).join("src");
    let mut files = Vec::new();
    gather(&root, &mut files);
    let module = |path: &Path| {
        let path = path.strip_prefix(&root).unwrap().with_extension("");
        let parts: Vec<_> = path.iter().map(|part| part.to_str().unwrap().to_owned()).collect();
        let parts = if parts.last().unwrap() == "mod" { &parts[..parts.len() - 1] } else { &parts };
        parts.join("::")
    };
    let all: BTreeSet<String> = files.iter().map(|path| module(path)).collect();
    let read = |path: &PathBuf| {
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
    files.iter().map(read).collect()
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

impl Crate {
    fn layer(&self, module: &str) -> usize {
        let at = self.layers.iter().position(|layer| layer.contains(&top(module)));
        at.unwrap_or_else(|| panic!("{module} belongs to no layer: give it one in {}", file!()))
    }

    fn is_apart(&self, a: &str, b: &str) -> bool {
        let [a, b] = [top(a), top(b)];
        a != b && self.apart.contains(&a) && self.apart.contains(&b)
    }
}

#[test]
fn every_import_looks_down_and_no_screen_knows_another() {
    for of in &CRATES {
        let imports = imports(of);
        let (files, least) = of.at_least;
        assert!(imports.len() > files, "{}: {} files", of.folder, imports.len());
        let pairs = || imports.iter().flat_map(|(from, to)| to.iter().map(move |to| (from, to)));
        let wrong = pairs()
            .filter(|(from, to)| of.layer(to) > of.layer(from) || of.is_apart(from, to))
            .map(|(from, to)| format!("{from} → {to}"));
        let wrong: Vec<_> = wrong.collect();
        let seen = pairs().count();
        assert!(seen > least, "{}: {seen} imports", of.folder);
        assert!(wrong.is_empty(), "{}: {wrong:#?}", of.folder);
    }
}

#[test]
fn no_two_files_know_each_other_but_parent_and_child() {
    // A parent may hand out what stands in its children, and they may use what stands in it.
    let kin =
        |a: &str, b: &str| a.starts_with(&format!("{b}::")) || b.starts_with(&format!("{a}::"));
    for imports in CRATES.iter().map(imports) {
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
}

/// A comment of three words says no more than the name it stands over.
#[test]
fn every_comment_says_something() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../src");
    let mut files = Vec::new();
    gather(&root, &mut files);
    let says = |line: &&str| line.trim_start().strip_prefix("/// ").map(str::to_owned);
    let (mut seen, mut short) = (0, Vec::new());
    for file in files {
        let text = fs::read_to_string(&file).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        for (at, line) in lines.iter().enumerate() {
            let Some(said) = says(line) else { continue };
            let is_doc =
                |line: Option<&&str>| line.is_some_and(|line| line.trim_start().starts_with("///"));
            let alone = !is_doc(at.checked_sub(1).and_then(|before| lines.get(before)))
                && !is_doc(lines.get(at + 1));
            seen += 1;
            if alone && said.split_whitespace().count() < 4 {
                short.push(format!("{}:{}: {said}", file.display(), at + 1));
            }
        }
    }
    assert!(seen > 3000, "{seen} lines");
    assert!(short.is_empty(), "{short:#?}");
}

/// The reader of imports itself.
#[test]
fn imports_are_read() {
    let text = "use crate::a::{b, c::{D, e as f}};\nuse super::g::H;\nlet x = crate::i::j();";
    let wanted = ["a::b", "a::c::D", "a::c::e", "m::g::H", "i::j"];
    assert_eq!(paths(text, "m::n"), wanted);
}
