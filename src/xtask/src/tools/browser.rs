//! Chromium and the driver through which tests steer it.

use std::env;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result};

use super::debian;
use super::folder::Tools;
use crate::project::Project;
use crate::run;

/// A browser that tests can steer.
pub(crate) struct Browser {
    driver: PathBuf,
}

impl Browser {
    pub(super) fn ready(tools: &Tools) -> Result<Self> {
        if let Some(driver) = found() {
            return Ok(Self { driver });
        }
        // A browser without a font draws no text at all, so one is named beside it.
        let packages = ["chromium", "chromium-driver", "fonts-dejavu-core"];
        debian::install(tools, &packages, "Chromium and its driver")?;
        let driver = found().context(
            "the packages are installed, but there is no `chromedriver` on PATH: install Chrome \
             or Chromium and its chromedriver, and set CHROMEDRIVER to the driver's path",
        )?;
        Ok(Self { driver })
    }

    /// Returns the path of `chromedriver`, through which tests steer the browser.
    pub(crate) fn driver(&self) -> &Path {
        &self.driver
    }

    /// A program among the tests' examples, to be run with this browser.
    pub(crate) fn example(&self, project: &Project, name: &str) -> Command {
        let mut command = Command::new("cargo");
        command
            .args(["run", "--quiet", "--package", "pailwise-tests", "--features", "browser"])
            .args(["--example", name, "--"])
            .env("CHROMEDRIVER", &self.driver)
            .current_dir(&project.root);
        command
    }
}

fn found() -> Option<PathBuf> {
    let named = env::var_os("CHROMEDRIVER").map(PathBuf::from);
    named.filter(|driver| driver.is_file()).or_else(|| run::find("chromedriver"))
}
