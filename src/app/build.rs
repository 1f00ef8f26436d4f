//! Checks the language files against each other and gives every text a name.
//!
//! A text missing in one language, or one that names other figures there, fails the build. Each
//! text becomes a constant in `text::key`, so that asking for one that is nowhere fails it too.

use std::collections::{BTreeMap, BTreeSet};
use std::error::Error;
use std::fmt::Write as _;
use std::path::Path;
use std::{env, fs};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};

/// Texts by key, each with the figures it names.
type Texts = BTreeMap<String, BTreeSet<String>>;

const LANGUAGES: [&str; 2] = ["en", "es"];

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=lang");
    let [first, rest @ ..] = LANGUAGES;
    let texts = read(first)?;
    for language in rest {
        compare((first, &texts), (language, &read(language)?))?;
    }
    let mut constants = String::new();
    for key in texts.keys() {
        let name = key.replace('-', "_").to_uppercase();
        writeln!(
            constants,
            "/// `{key}` in the language files.\npub const {name}: &str = {key:?};"
        )?;
    }
    writeln!(
        constants,
        "/// Every key.\npub const ALL: &[&str] = &{:?};",
        texts.keys().collect::<Vec<_>>()
    )?;
    fs::write(Path::new(&env::var("OUT_DIR")?).join("keys.rs"), constants)?;
    Ok(())
}

fn read(language: &str) -> Result<Texts, Box<dyn Error>> {
    let path = format!("lang/{language}.ftl");
    let source = fs::read_to_string(&path)?;
    let resource = fluent_syntax::parser::parse(source)
        .map_err(|(_, errors)| format!("{path}: {errors:?}"))?;
    let mut texts = Texts::new();
    for entry in resource.body {
        let Entry::Message(message) = entry else { continue };
        let mut figures = BTreeSet::new();
        if let Some(pattern) = &message.value {
            gather(pattern, &mut figures);
        }
        if texts.insert(message.id.name.clone(), figures).is_some() {
            return Err(format!("{path}: `{}` stands twice", message.id.name).into());
        }
    }
    Ok(texts)
}

fn gather(pattern: &Pattern<String>, figures: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        let PatternElement::Placeable { expression } = element else { continue };
        let inline = match expression {
            Expression::Inline(inline) => inline,
            Expression::Select { selector, variants } => {
                for variant in variants {
                    gather(&variant.value, figures);
                }
                selector
            }
        };
        if let InlineExpression::VariableReference { id } = inline {
            figures.insert(id.name.clone());
        }
    }
}

fn compare((first, texts): (&str, &Texts), (other, others): (&str, &Texts)) -> Result<(), String> {
    let missing = |from: &Texts, to: &Texts| {
        from.keys().filter(|key| !to.contains_key(*key)).cloned().collect::<Vec<_>>()
    };
    for (language, keys) in [(other, missing(texts, others)), (first, missing(others, texts))] {
        if !keys.is_empty() {
            return Err(format!("lang/{language}.ftl lacks {}", keys.join(", ")));
        }
    }
    for (key, figures) in texts {
        if others.get(key) != Some(figures) {
            return Err(format!("`{key}` names other figures in {other} than in {first}"));
        }
    }
    Ok(())
}
