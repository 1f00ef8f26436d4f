//! The stages of `cargo xtask test`, and what each runs.

use std::path::PathBuf;
use std::process::Command;

use anyhow::{Context, Result, bail};

use crate::project::Project;
use crate::tools::{self, Browser, Web};
use crate::{run, site};

/// One part of the checks.
pub(super) struct Stage {
    pub(super) name: &'static str,
    pub(super) about: &'static str,
    needs: &'static [Need],
    pub(super) run: fn(&Ready) -> Result<()>,
}

/// Something that must be installed before a stage can run.
#[derive(Clone, Copy, PartialEq)]
enum Need {
    /// The programs that check the code: rustfmt and Clippy.
    Checkers,
    /// What builds for the browser.
    Web,
    /// Chromium, with the driver through which tests steer it.
    Browser,
    /// What looks through a page for what keeps people out of it.
    Axe,
}

/// What is installed, for the stages to use.
pub(super) struct Ready<'a> {
    project: &'a Project,
    web: Option<Web>,
    browser: Option<Browser>,
    axe: Option<PathBuf>,
}

/// The stages in their order: what fails soonest stands first.
pub(super) const STAGES: &[Stage] = &[
    Stage {
        name: "format",
        about: "the code stands as rustfmt lays it out",
        needs: &[Need::Checkers],
        run: format,
    },
    Stage {
        name: "crates",
        about: "every crate comes from crates.io, is free to use, and comes once",
        needs: &[],
        run: crates,
    },
    Stage {
        name: "lint",
        about: "neither the compiler nor Clippy has a warning",
        needs: &[Need::Checkers],
        run: lint,
    },
    Stage {
        name: "unit",
        about: "the tests that need no browser, examples in the documentation included",
        needs: &[],
        run: unit,
    },
    Stage {
        name: "doc",
        about: "the documentation of the crates builds without a warning",
        needs: &[],
        run: doc,
    },
    Stage {
        name: "site",
        about: "the site builds, as `cargo xtask build` builds it, and is not too large",
        needs: &[Need::Web],
        run: site,
    },
    Stage {
        name: "app",
        about: "the app's own tests, run in Chromium",
        needs: &[Need::Web, Need::Browser],
        run: app,
    },
    Stage {
        name: "journeys",
        about: "journeys through the built site in Chromium",
        needs: &[Need::Browser, Need::Axe],
        run: journeys,
    },
];

impl<'a> Ready<'a> {
    /// Finds or installs what the stages need.
    pub(super) fn new(project: &'a Project, stages: &[&Stage]) -> Result<Self> {
        let any = |need| stages.iter().any(|stage| stage.needs.contains(&need));
        if any(Need::Checkers) {
            tools::checkers()?;
        }
        let browser = any(Need::Browser).then(tools::browser).transpose()?;
        let web = any(Need::Web).then(|| Web::ready(project)).transpose()?;
        let axe = any(Need::Axe).then(tools::axe).transpose()?;
        Ok(Self { project, web, browser, axe })
    }

    fn web(&self) -> Result<&Web> {
        self.web.as_ref().context("this stage asked for no web set-up")
    }

    fn browser(&self) -> Result<&Browser> {
        self.browser.as_ref().context("this stage asked for no browser")
    }

    /// A `cargo` command for this machine.
    fn cargo(&self, words: &[&str]) -> Command {
        let mut command = Command::new("cargo");
        command.args(words).current_dir(&self.project.root);
        command
    }
}

fn format(ready: &Ready) -> Result<()> {
    run::shown(
        "the check of the format",
        &mut ready.cargo(&["fmt", "--all", "--check"]),
        "run `cargo fmt --all`.",
    )
}

fn crates(ready: &Ready) -> Result<()> {
    super::crates::check(&ready.project.root)
}

fn lint(ready: &Ready) -> Result<()> {
    // The app is linted as a program of this machine: it compiles there too, and a compiler for
    // the browser may have no Clippy.
    run::shown(
        "Clippy",
        &mut ready.cargo(&[
            "clippy",
            "--workspace",
            "--all-targets",
            "--all-features",
            "--",
            "-D",
            "warnings",
        ]),
        "mend what is pointed at above.",
    )
}

fn unit(ready: &Ready) -> Result<()> {
    let target = ready.project.root.join("target");
    super::side_by_side::run(&mut ready.cargo(&["test", "--workspace"]), &target)?;
    run::shown(
        "the examples in the documentation",
        &mut ready.cargo(&["test", "--workspace", "--doc"]),
        "mend the code, or the example that is wrong about it.",
    )
}

fn doc(ready: &Ready) -> Result<()> {
    run::shown(
        "the documentation",
        ready
            .cargo(&["doc", "--no-deps"])
            .args(
                ["pailwise-calc", "pailwise-kept", "pailwise-app"].map(|name| format!("-p{name}")),
            )
            .env("RUSTDOCFLAGS", "-Dwarnings"),
        "mend the comments that rustdoc points at above.",
    )
}

fn site(ready: &Ready) -> Result<()> {
    site::build(ready.project, ready.web()?)?;
    site::check(&ready.project.dist())
}

fn app(ready: &Ready) -> Result<()> {
    run::shown(
        "the app's tests in the browser",
        ready.web()?.cargo_test(ready.browser()?).args([
            "--package",
            "pailwise-app",
            "--test",
            "*",
        ]),
        "mend the code, or the test that is wrong about it. If the browser did not start, see what \
         its driver says above.",
    )
}

fn journeys(ready: &Ready) -> Result<()> {
    let dist = ready.project.dist();
    if !dist.join("index.html").exists() {
        bail!("{} holds no site.\n  what to do: run `cargo xtask build` first", dist.display());
    }
    let manifest = std::fs::read_to_string(ready.project.root.join("tests/Cargo.toml"))?;
    // All of them, whichever fails: each takes a while, and one often tells of another.
    let mut args =
        vec!["test", "--no-fail-fast", "--package", "pailwise-tests", "--features", "browser"];
    for name in in_browser(&manifest) {
        args.extend(["--test", name]);
    }
    run::shown(
        "the journeys through the site",
        ready
            .cargo(&args)
            .env("PAILWISE_DIST", &dist)
            .env("PAILWISE_AXE", ready.axe.as_ref().context("this stage asked for no axe-core")?)
            .env("CHROMEDRIVER", ready.browser()?.driver()),
        "mend the code, or the journey that is wrong about it. If the browser did not start, see \
         what its driver says above.",
    )
}

/// The tests of a manifest that need a browser, so that none is forgotten.
fn in_browser(manifest: &str) -> impl Iterator<Item = &str> {
    let tests = manifest.split("[[test]]").skip(1);
    let browser = tests.filter(|test| test.contains("required-features = [\"browser\"]"));
    browser.filter_map(|test| {
        test.lines().find_map(|line| line.strip_prefix("name = \"")?.strip_suffix('"'))
    })
}

#[cfg(test)]
mod tests {
    use super::in_browser;

    #[test]
    fn every_journey_is_run() {
        let manifest = include_str!("../../../../tests/Cargo.toml");
        let found: Vec<&str> = in_browser(manifest).collect();
        let sections = manifest.split("\n\n").filter(|section| section.starts_with("[[test]]"));
        let wanted = sections.filter(|section| section.contains("[\"browser\"]")).count();
        assert_eq!(found.len(), wanted);
        assert!(found.contains(&"journeys") && found.contains(&"rounds"));
    }
}
