//! What each library weighs in the app's own module, before it is optimised for the page: the bytes of
//! its functions, by the names that the compiler left in it.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use wasmparser::{KnownCustom, Name, Parser, Payload, TypeRef};

/// Whose functions are counted together; the first that a name holds has it, so that what a library
/// makes of the standard one is the library's.
const GROUPS: [(&str, &[&str]); 9] = [
    ("csv", &["csv", "csv_core"]),
    (
        "fluent",
        &["fluent_bundle", "fluent_syntax", "unic_langid", "unic_langid_impl", "intl_memoizer"],
    ),
    ("gloo-storage", &["gloo_storage", "gloo_utils"]),
    ("miniz_oxide", &["miniz_oxide"]),
    ("qrcodegen", &["qrcodegen"]),
    ("Pailwise", &["pailwise_calc", "pailwise_kept", "pailwise_app"]),
    ("leptos", &["leptos", "tachys", "reactive_graph", "any_spawner"]),
    ("serde_json", &["serde_json"]),
    ("the standard library", &["core", "alloc", "std", "compiler_builtins", "dlmalloc"]),
];

/// The bytes of code of each group, the heaviest first, and the share of the whole.
pub(super) fn weigh(module: &Path) -> Result<Vec<(&'static str, usize, f64)>> {
    let bytes = fs::read(module).with_context(|| format!("no module in {}", module.display()))?;
    let (mut imported, mut sizes, mut names) = (0_u32, Vec::new(), BTreeMap::new());
    for payload in Parser::new(0).parse_all(&bytes) {
        match payload? {
            Payload::ImportSection(imports) => {
                for import in imports.into_imports() {
                    imported += u32::from(matches!(import?.ty, TypeRef::Func(_)));
                }
            }
            Payload::CodeSectionEntry(body) => sizes.push(body.as_bytes().len()),
            Payload::CustomSection(section) => {
                let KnownCustom::Name(all) = section.as_known() else { continue };
                for name in all {
                    let Name::Function(functions) = name? else { continue };
                    for function in functions {
                        let function = function?;
                        names.insert(function.index, function.name.to_owned());
                    }
                }
            }
            _ => {}
        }
    }
    ensure!(!names.is_empty(), "{} has no names", module.display());
    let mut sums: BTreeMap<&str, usize> = BTreeMap::new();
    for (index, size) in (imported..).zip(&sizes) {
        let name = names.get(&index).map_or("", String::as_str);
        *sums.entry(group(name)).or_default() += size;
    }
    let all: usize = sizes.iter().sum();
    let share = |size: usize| size as f64 / all as f64;
    let mut sums: Vec<_> = sums.into_iter().map(|(of, size)| (of, size, share(size))).collect();
    sums.sort_by_key(|(_, size, _)| std::cmp::Reverse(*size));
    Ok(sums)
}

/// Whose a function is, by the words of its name.
fn group(name: &str) -> &'static str {
    let words: Vec<String> = words(name);
    let holds = |crates: &[&str]| crates.iter().any(|one| words.iter().any(|word| word == one));
    GROUPS.iter().find(|(_, crates)| holds(crates)).map_or("all others", |(of, _)| of)
}

/// The parts of a mangled name: each is led by its length, and holds `..` for `::` and `$LT$` for `<`.
fn words(name: &str) -> Vec<String> {
    let mut all = Vec::new();
    let mut rest = name;
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        rest = &rest[at..];
        let digits = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let (length, after) = rest.split_at(digits);
        let length = length.parse::<usize>().unwrap_or(0).min(after.len());
        let Some(part) = after.get(..length) else { break };
        let plain = part.replace("..", " ").replace('$', " ");
        all.extend(plain.split_whitespace().map(|word| word.trim_matches('_').to_owned()));
        rest = &after[length..];
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_function_is_whose_crate_its_name_holds() {
        let of = |name| group(name);
        assert_eq!(of("_ZN8csv_core6writer6Writer5field17h0123456789abcdefE"), "csv");
        assert_eq!(
            of("_ZN65_$LT$csv..error..Error$u20$as$u20$core..fmt..Display$GT$3fmt17h01E"),
            "csv"
        );
        assert_eq!(of("_ZN4core3fmt5write17h0123456789abcdefE"), "the standard library");
        assert_eq!(of("_ZN12pailwise_app4desk4Desk7name_of17h874931bf7d281174E"), "Pailwise");
        assert_eq!(of("memcpy"), "all others");
    }
}
