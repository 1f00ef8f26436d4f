//! `cargo xtask test`: every check, one stage after another.

mod crates;
mod side_by_side;
mod stages;

use std::time::{Duration, Instant};

use anyhow::{Result, bail};

use crate::args::Args;
use crate::clock::spent;
use crate::project::Project;
use stages::{Ready, STAGES, Stage};

pub(crate) fn help() -> String {
    let rows: Vec<String> =
        STAGES.iter().map(|stage| format!("  {:<9} {}", stage.name, stage.about)).collect();
    format!(
        "cargo xtask test [--only STAGE]...\n\nWhat it lacks it installs first. It stops at the \
         first stage that fails.\n\n  --only STAGE  Run this stage and no other; may be given \
         more than once\n\nThe stages:\n{}",
        rows.join("\n")
    )
}

pub(crate) fn run(project: &Project, args: Args) -> Result<()> {
    let stages = chosen(args)?;
    let mut times: Vec<(&str, Duration)> = Vec::new();
    let start = Instant::now();
    let ready = Ready::new(project, &stages)?;
    times.push(("set-up", start.elapsed()));
    for stage in &stages {
        println!("\n== {}: {} ==", stage.name, stage.about);
        let begun = Instant::now();
        if let Err(error) = (stage.run)(&ready) {
            let time = spent(begun.elapsed());
            println!("== {}: FAILED after {time} ==", stage.name);
            return Err(error.context(format!(
                "stage `{}` failed (again alone: `cargo xtask test --only {}`)",
                stage.name, stage.name
            )));
        }
        println!("== {}: passed in {} ==", stage.name, spent(begun.elapsed()));
        times.push((stage.name, begun.elapsed()));
    }
    println!("\n{}", table(&times));
    Ok(())
}

/// The stages asked for, in the order in which they always run.
fn chosen(mut args: Args) -> Result<Vec<&'static Stage>> {
    let mut names = Vec::new();
    while let Some(word) = args.next() {
        if word != "--only" {
            return Err(args.unknown(&word));
        }
        let name = args.value("--only")?;
        if !STAGES.iter().any(|stage| stage.name == name) {
            let all: Vec<&str> = STAGES.iter().map(|stage| stage.name).collect();
            bail!("there is no stage `{name}`; there are: {}", all.join(", "));
        }
        names.push(name);
    }
    let asked = |stage: &&Stage| names.is_empty() || names.iter().any(|name| name == stage.name);
    Ok(STAGES.iter().filter(asked).collect())
}

/// The stages with their times, and the sum.
fn table(times: &[(&str, Duration)]) -> String {
    let all = times.iter().map(|(_, time)| *time).sum();
    let rows: Vec<String> = times
        .iter()
        .copied()
        .chain([("all", all)])
        .map(|(name, time)| format!("{name:<9} {:>12}", spent(time)))
        .collect();
    rows.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(words: &[&str]) -> Result<Vec<&'static str>> {
        let words = words.iter().map(|word| (*word).to_owned());
        let stages = chosen(Args::new("test", words))?;
        Ok(stages.iter().map(|stage| stage.name).collect())
    }

    #[test]
    fn all_stages_run_unless_some_are_named() -> Result<()> {
        assert_eq!(names(&[])?.len(), STAGES.len());
        assert_eq!(names(&["--only", "journeys", "--only=site"])?, ["site", "journeys"]);
        Ok(())
    }

    #[test]
    fn an_unknown_stage_is_answered_with_the_known_ones() {
        let text = names(&["--only", "speed"]).map_err(|error| error.to_string());
        let text = text.err().unwrap_or_default();
        assert!(text.contains("`speed`"), "{text}");
        assert!(text.contains("format, crates, lint"), "{text}");
    }

    #[test]
    fn the_table_ends_in_the_sum() {
        let times = [("unit", Duration::from_secs(30)), ("site", Duration::from_secs(45))];
        let table = table(&times);
        let rows: Vec<&str> = table.lines().collect();
        assert_eq!(rows.len(), 3);
        assert_eq!(rows.get(2), Some(&"all         1 min 15 s"));
    }
}
