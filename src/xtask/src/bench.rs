//! `cargo xtask bench`: measures the calculation beside general-purpose solvers, and the site
//! beside an empty one, in one run.

mod libraries;
mod page;
mod visit;

use std::collections::BTreeMap;
use std::fs;
use std::process::Command;

use anyhow::{Context, Result, bail};

use crate::args::Args;
use crate::project::Project;
use crate::tools::Web;
use crate::{run, tools};
use page::Measured;

/// Where the page goes, below the project's root.
const PAGE: &str = "tests/reference/SPEED.md";
/// The cases all solvers are timed on, below the project's root.
const CASES: &str = "tests/data/reference/pail.json";

pub(crate) fn help() -> String {
    format!(
        "cargo xtask bench\n\nTimes one pot life, one calibration, a 40 x 40 grid and the plans of three floors, then \
         scipy and CVODE on the same cases, and grid and garage in Chromium; weighs the site, times \
         visits to it and key presses beside an empty counter, has Lighthouse look at it, and \
         writes {PAGE}. Leave the machine alone meanwhile: it takes some minutes."
    )
}

pub(crate) fn run(project: &Project, args: Args) -> Result<()> {
    args.none()?;
    let python = tools::python(project)?;
    tools::sundials()?;
    let web = Web::ready(project)?;
    let chromium = tools::browser()?;
    let scratch = project.target.join("bench");
    fs::create_dir_all(&scratch)?;

    run::shown(
        "the benches",
        Command::new("cargo")
            .args(["bench", "--package", "pailwise-calc", "--bench", "pail"])
            .current_dir(&project.root),
        "mend what is pointed at above.",
    )?;
    let ours = Ours {
        pot_life: criterion(project, "pail/pot_life", 1e3)?,
        calibration: criterion(project, "pail/calibration", 1e3)?,
        loss: criterion(project, "pail/loss", 1e3)?,
        grid: criterion(project, "pail_grid", 1e6)?,
        // Of a plan the time of all its batches together, and of one of them.
        garage: plan(project, "two-car-garage")?,
        showroom: plan(project, "showroom-1000")?,
        warehouse: plan(project, "warehouse-100000")?,
    };

    let cases = scratch.join("cases.txt");
    let script = project.root.join("tests/reference/speed.py");
    let mut scipy = Command::new(&python);
    scipy.arg(script).arg(project.root.join(CASES)).arg(&cases);
    let scipy = figures("timing scipy", &mut scipy)?;

    let program = scratch.join("cvode");
    run::shown(
        "compiling the CVODE comparison",
        Command::new("cc")
            .args(["-O2", "-o"])
            .arg(&program)
            .arg(project.root.join("tests/reference/cvode.c"))
            .args(["-lsundials_cvode", "-lsundials_nvecserial", "-lm"]),
        "mend what the compiler points at above.",
    )?;
    let cvode = figures("timing CVODE", Command::new(&program).arg(&cases))?;

    let mut grid = web.cargo_test(&chromium);
    grid.args(["--release", "--package", "pailwise-app", "--test", "speed", "--", "--nocapture"]);
    let browser = figures("timing grid and garage in Chromium", &mut grid)?;

    let (site, counter) = visit::build(project, &web, &scratch)?;
    let visit = visit::measure(project, &scratch, &chromium)?;
    let module = "web/wasm32-unknown-unknown/release/pailwise-app.wasm";
    let libraries = libraries::weigh(&project.target.join(module))?;

    let measured = Measured { ours, scipy, cvode, browser, visit, site, counter, libraries };
    let page = page::write(&measured)?;
    fs::write(project.root.join(PAGE), &page)?;
    println!("\n{page}\nwritten to {PAGE}");
    Ok(())
}

/// Our own times: microseconds a pot life and a calibration, of one mass and of two, milliseconds a grid and a plan.
struct Ours {
    pot_life: f64,
    calibration: f64,
    /// A calibration whose cup's loss is fitted to a second mass.
    loss: f64,
    grid: f64,
    garage: Plan,
    showroom: Plan,
    warehouse: Plan,
}

/// A plan: milliseconds for all of it, its batches, microseconds for one.
struct Plan {
    all: f64,
    batches: f64,
    batch: f64,
}

fn plan(project: &Project, name: &str) -> Result<Plan> {
    let name = format!("plan/{name}");
    let batch = criterion(project, &name, 1e3)?;
    let batches = elements(project, &name)?;
    Ok(Plan { all: batch * batches / 1e3, batches, batch })
}

/// What Criterion left of a bench.
fn left(project: &Project, name: &str, file: &str) -> Result<serde_json::Value> {
    let path = project.target.join("criterion").join(name).join("new").join(file);
    let text = fs::read_to_string(&path)
        .with_context(|| format!("no result of the benches in {}", path.display()))?;
    Ok(serde_json::from_str(&text)?)
}

/// How many things a bench times together.
fn elements(project: &Project, name: &str) -> Result<f64> {
    let bench = left(project, name, "benchmark.json")?;
    Ok(bench["throughput"]["Elements"].as_f64().unwrap_or(1.0))
}

/// The median that Criterion found, divided; a bench over several cases is per case.
fn criterion(project: &Project, name: &str, divide: f64) -> Result<f64> {
    let median = left(project, name, "estimates.json")?["median"]["point_estimate"]
        .as_f64()
        .context("the benches left no median")?;
    Ok(median / elements(project, name)? / divide)
}

/// Runs a program that prints `name=value` lines, and gathers them.
fn figures(what: &str, command: &mut Command) -> Result<BTreeMap<String, f64>> {
    println!("{what} ...");
    let output = command.output().with_context(|| format!("{what}: it could not be run"))?;
    let said = String::from_utf8_lossy(&output.stdout);
    if !output.status.success() {
        bail!("{what} failed:\n{said}{}", String::from_utf8_lossy(&output.stderr));
    }
    Ok(gather(&said))
}

fn gather(said: &str) -> BTreeMap<String, f64> {
    let pairs = said.split_whitespace().filter_map(|word| word.split_once('='));
    pairs.filter_map(|(name, value)| Some((name.to_owned(), value.parse().ok()?))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_gathered_from_whatever_stands_around_them() {
        let said = "running 1 test\ngrid_ms=12.5 and more\nbad=x\n  pot_life_error=6.5e-05\n";
        let figures = gather(said);
        assert_eq!(figures.get("grid_ms"), Some(&12.5));
        assert_eq!(figures.get("pot_life_error"), Some(&6.5e-5));
        assert_eq!(figures.len(), 2);
    }
}
