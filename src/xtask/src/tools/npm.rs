//! Packages of npm at pinned versions, each in a folder of its own.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::Result;

use super::debian;
use super::folder::Tools;
use crate::run::{self, Step};

/// A package that the project uses.
pub(super) struct Package {
    /// Its name in the registry.
    pub(super) name: &'static str,
    /// The exact version of the package that is installed.
    pub(super) version: &'static str,
    /// A file of it, below the folder it is installed into.
    pub(super) proof: &'static str,
}

impl Package {
    /// The folder it is installed in, with Node.js to run it.
    pub(super) fn ready(&self, tools: &Tools) -> Result<PathBuf> {
        let folder = format!("{}-{}", self.name, self.version);
        // Its programs are JavaScript: they take Node.js to run, and npm only to be installed.
        let mut missing = Vec::new();
        if run::find("node").is_none() {
            missing.push("nodejs");
        }
        if run::find("npm").is_none() && !tools.root.join(&folder).join(self.proof).exists() {
            missing.push("npm");
        }
        if !missing.is_empty() {
            debian::install(tools, &missing, "Node.js")?;
        }
        tools.once(&folder, &[self.proof], |half| self.install(tools, half))
    }

    fn install(&self, tools: &Tools, folder: &Path) -> Result<()> {
        let Self { name, version, .. } = self;
        let what = format!("installing {name} {version} from npm");
        let step = Step {
            what: &what,
            log: &tools.log(name),
            advice: "see whether this machine reaches the npm registry, then run the same command \
                     again.",
        };
        step.run(
            Command::new("npm")
                .args(["install", "--save-exact", "--no-audit", "--no-fund"])
                .arg("--prefix")
                .arg(folder)
                .arg(format!("{name}@{version}"))
                .current_dir(folder),
        )
    }
}
