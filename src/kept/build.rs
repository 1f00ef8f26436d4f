//! Checks the language files against each other and gives every language and every text a name.
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

/// The language that the others are compared with, and that is spoken where none is asked for.
const FIRST: &str = "en";
/// The text by which a language names itself.
const OWN_NAME: &str = "language-name";

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=lang");
    let texts = read(FIRST)?;
    let mut languages = vec![FIRST.to_owned()];
    for file in fs::read_dir("lang")? {
        let file = file?.file_name().to_string_lossy().into_owned();
        let name = file.strip_suffix(".ftl").filter(|name| *name != FIRST);
        languages.extend(name.map(str::to_owned));
    }
    languages[1..].sort();
    for language in &languages[1..] {
        compare((FIRST, &texts), (language, &read(language)?))?;
    }
    let out = env::var("OUT_DIR")?;
    fs::write(Path::new(&out).join("languages.rs"), named(&languages)?)?;
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
    fs::write(Path::new(&out).join("keys.rs"), constants)?;
    Ok(())
}

/// The languages as a type.
fn named(languages: &[String]) -> Result<String, Box<dyn Error>> {
    let (mut variants, mut tags, mut names, mut sources, mut all) =
        (String::new(), String::new(), String::new(), String::new(), String::new());
    for (i, tag) in languages.iter().enumerate() {
        let (head, tail) = tag.split_at(1);
        let variant = format!("{}{}", head.to_uppercase(), tail.replace('-', ""));
        let default = if i == 0 { "#[default]" } else { "" };
        let path = format!("lang/{tag}.ftl");
        let source = fs::read_to_string(&path)?;
        let own =
            source.lines().find_map(|line| line.strip_prefix(OWN_NAME)?.trim().strip_prefix('='));
        let own = own.ok_or_else(|| format!("{path} lacks {OWN_NAME}"))?.trim();
        let path = format!("{:?}", fs::canonicalize(&path)?.to_string_lossy());
        writeln!(
            variants,
            "/// `lang/{tag}.ftl`.\n{default}\n#[serde(rename = {tag:?})]\n{variant},"
        )?;
        writeln!(tags, "Self::{variant} => {tag:?},")?;
        writeln!(names, "Self::{variant} => {own:?},")?;
        writeln!(sources, "Self::{variant} => include_str!({path}),")?;
        write!(all, "Self::{variant}, ")?;
    }
    Ok(format!(
        "/// A language the app speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Language {{ {variants} }}

impl Language {{
    /// Every language the app speaks, to choose one from.
    pub const ALL: [Self; {}] = [{all}];

    /// Its tag (BCP 47), for the page and for the phone's own voice.
    pub fn tag(self) -> &'static str {{ match self {{ {tags} }} }}

    /// Its own name for itself.
    pub fn own_name(self) -> &'static str {{ match self {{ {names} }} }}

    fn source(self) -> &'static str {{ match self {{ {sources} }} }}
}}
",
        languages.len()
    ))
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
