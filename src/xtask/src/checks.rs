//! `cargo xtask checks`: the page of what is checked against something outside the project.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::process::Command;

use anyhow::{Context, Result, bail, ensure};

use crate::args::Args;
use crate::project::Project;

/// Where the page goes, below the project's root.
const PAGE: &str = "tests/reference/CHECKS.md";
/// The tests that say what they check, and what the page calls them.
const TESTS: [(&str, &str); 3] = [
    ("published", "Results"),
    ("calendar", "Calendar entries"),
    ("style", "Contrast of the colours"),
];

pub(crate) fn help() -> String {
    format!(
        "cargo xtask checks\n\nRuns the tests against outside sources and writes what was \
         expected and what was got, with each source, to {PAGE}."
    )
}

pub(crate) fn run(project: &Project, args: Args) -> Result<()> {
    args.none()?;
    let mut page = String::from(
        "# Checks against outside sources\n\nWritten by `cargo xtask checks` from the tests \
         themselves: each line was asserted in the run that wrote it. Where a source gives many \
         cases, the furthest off of them is held to the most that any may be.\n\nIn Chromium \
         besides, by the journeys: codes read back by another decoder (ISO/IEC 18004, `rqrr`), the \
         log's table by another reader (RFC 4180, `csv`), every screen by axe-core (WCAG 2.2).\n",
    );
    for (test, title) in TESTS {
        let found = said(project, test)?;
        ensure!(!found.is_empty(), "the test {test} says nothing of what it checks");
        table(&mut page, title, &found);
    }
    fs::write(project.root.join(PAGE), &page)?;
    println!("{page}\nwritten to {PAGE}");
    Ok(())
}

/// What was checked, its source, what was expected, what was got.
type Row = [String; 4];

/// Runs a test and gathers what it says.
fn said(project: &Project, test: &str) -> Result<BTreeSet<Row>> {
    println!("running {test} ...");
    let output = Command::new("cargo")
        .args(["test", "--quiet", "--package", "pailwise-tests", "--test", test])
        .args(["--", "--nocapture"])
        .current_dir(&project.root)
        .output()
        .context("cargo could not be run")?;
    let text = String::from_utf8_lossy(&output.stdout);
    if !output.status.success() {
        bail!("the test {test} failed:\n{text}{}", String::from_utf8_lossy(&output.stderr));
    }
    gather(&text)
}

fn gather(text: &str) -> Result<BTreeSet<Row>> {
    let lines = text.lines().filter_map(|line| line.strip_prefix("checked\t"));
    lines
        .map(|line| {
            let cells: Vec<String> = line.split('\t').map(str::to_owned).collect();
            Row::try_from(cells).map_err(|cells| anyhow::anyhow!("no check: {cells:?}"))
        })
        .collect()
}

fn table(page: &mut String, title: &str, rows: &BTreeSet<Row>) {
    // Writing to a string does not fail.
    let _ = writeln!(
        page,
        "\n## {title}\n\n| what | source | expected | got |\n| --- | --- | --- | --- |"
    );
    for row in rows {
        let [what, source, expected, got] = row.each_ref().map(|cell| cell.replace('|', "\\|"));
        let _ = writeln!(page, "| {what} | {source} | {expected} | {got} |");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_found_among_what_the_runner_says() -> Result<()> {
        let text = "running 2 tests\n\nchecked\ta mil\tNIST\t25.4\t25.4\n.\ntest result: ok\n";
        let rows = gather(text)?;
        let mut page = String::new();
        table(&mut page, "Results", &rows);
        assert!(page.ends_with("| a mil | NIST | 25.4 | 25.4 |\n"), "{page}");
        Ok(())
    }

    #[test]
    fn half_a_line_is_told() {
        assert!(gather("checked\ta mil\tNIST\n").is_err());
    }
}
