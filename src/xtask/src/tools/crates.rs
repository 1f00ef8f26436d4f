//! Programs and sources from crates.io.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::Result;

use super::folder::Tools;
use crate::project::Project;
use crate::run::{self, Step};

/// A program to be built from crates.io.
pub(super) struct CrateTool<'a> {
    pub(super) name: &'a str,
    pub(super) version: &'a str,
    /// The programs it installs.
    pub(super) programs: &'a [&'a str],
    /// Options of `cargo install` beyond the usual ones.
    pub(super) options: &'a [&'a str],
    /// Roughly how long the build takes, told in advance.
    pub(super) patience: &'a str,
}

impl CrateTool<'_> {
    /// The folder with the tool's programs, which are built first if they are not there.
    pub(super) fn ready(&self, tools: &Tools) -> Result<PathBuf> {
        let name = format!("{}-{}", self.name, self.version);
        let programs: Vec<String> = self
            .programs
            .iter()
            .map(|program| format!("bin/{program}{}", std::env::consts::EXE_SUFFIX))
            .collect();
        let proof: Vec<&str> = programs.iter().map(String::as_str).collect();
        let home = tools.once(&name, &proof, |half| self.install(tools, &name, half))?;
        Ok(home.join("bin"))
    }

    fn install(&self, tools: &Tools, name: &str, folder: &Path) -> Result<()> {
        let what =
            format!("building {} {} from crates.io ({})", self.name, self.version, self.patience);
        let step = Step {
            what: &what,
            log: &tools.log(name),
            advice: "run the same command again: what was built is kept. If the network was away, \
                     wait for it; if a C compiler is missing, install one (gcc, libc6-dev).",
        };
        step.run(
            Command::new("cargo")
                .args(["install", "--version", self.version, "--root"])
                .arg(folder)
                .args(self.options)
                .arg(self.name)
                // Out of the project's folder, whose own settings are not the tool's.
                .current_dir(&tools.root)
                // One folder for all tools: what two of them share is compiled once.
                .env("CARGO_TARGET_DIR", tools.scratch().join("target"))
                // Optimised, the tools would take minutes more to build, and save a build of the site
                // a fraction of a second.
                .env("CARGO_PROFILE_RELEASE_OPT_LEVEL", "0")
                .env("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16")
                .env("CARGO_PROFILE_RELEASE_LTO", "off")
                .env("CARGO_PROFILE_RELEASE_DEBUG", "0"),
        )
    }
}

/// Sees that all the sources in `Cargo.lock` are on this machine.
pub(super) fn fetch(tools: &Tools, project: &Project) -> Result<()> {
    let fetch = || {
        let mut command = Command::new("cargo");
        command.arg("fetch").current_dir(&project.root);
        command
    };
    if run::answer(fetch().arg("--offline")).is_some() {
        return Ok(());
    }
    let step = Step {
        what: "downloading the sources in Cargo.lock from crates.io",
        log: &tools.log("cargo-fetch"),
        advice: "see whether this machine reaches crates.io, then run the same command again.",
    };
    step.run(&mut fetch())
}
