//! The tools that the project needs beyond Rust's own: found, or installed by name.
//!
//! What is installed here goes into one folder outside the project, so that a second clone on the
//! same machine finds it; a tool's folder carries the tool's version, so that two clones that want
//! different ones do not disturb each other.

mod axe;
mod bindgen;
mod browser;
mod components;
mod crates;
mod debian;
mod debian_rust;
mod folder;
mod lighthouse;
mod npm;
mod python;
mod sundials;
mod trunk;
mod wasm_opt;
mod wasm_target;

use std::env;
use std::ffi::OsString;
use std::path::PathBuf;
use std::process::Command;

use anyhow::Result;

use crate::project::Project;
use crate::run;
pub(crate) use axe::ready as axe;
pub(crate) use browser::Browser;
use folder::Tools;
pub(crate) use lighthouse::ready as lighthouse;
pub(crate) use python::ready as python;
pub(crate) use sundials::ready as sundials;
use wasm_target::Compiler;

/// What builds the site and the app's own tests.
pub(crate) struct Web {
    compiler: Compiler,
    path: OsString,
    target: PathBuf,
    test_runner: PathBuf,
    root: PathBuf,
}

impl Web {
    /// Finds or installs all that building for the browser takes.
    pub(crate) fn ready(project: &Project) -> Result<Self> {
        let tools = Tools::open()?;
        let compiler = Compiler::ready(&tools)?;
        let wasm_opt = wasm_opt::ready(&tools)?;
        crates::fetch(&tools, project)?;
        // Last, because they take minutes: what can go wrong sooner should.
        let bindgen = bindgen::ready(&tools, &project.lock()?)?;
        let trunk = trunk::ready(&tools)?;
        tools.tidy()?;
        Ok(Self {
            compiler,
            test_runner: bindgen.join(bindgen::TEST_RUNNER),
            path: run::search_path(&[trunk, bindgen, wasm_opt])?,
            target: project.web_target(),
            root: project.root.clone(),
        })
    }

    /// A `trunk` command. It neither looks for updates nor downloads anything: all it needs has
    /// been found or installed before.
    pub(crate) fn trunk(&self, subcommand: &str) -> Command {
        let mut command = self.command("trunk");
        command.args([subcommand, "--offline"]);
        // Trunk takes this variable for a yes or no in words, and stops at the customary `1`.
        if env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty()) {
            command.env("NO_COLOR", "true");
        } else {
            command.env_remove("NO_COLOR");
        }
        command
    }

    /// A `cargo test` of code that runs in the browser.
    pub(crate) fn cargo_test(&self, browser: &Browser) -> Command {
        let mut command = self.command("cargo");
        command
            .args(["test", "--target", wasm_target::TRIPLE])
            .env(wasm_target::variable("RUNNER"), &self.test_runner)
            .env("CHROMEDRIVER", browser.driver())
            .env("WASM_BINDGEN_USE_BROWSER", "1")
            // The runner gives up after 20 s, which a busy machine may need to start a browser.
            .env("WASM_BINDGEN_TEST_TIMEOUT", "120");
        command
    }

    fn command(&self, program: &str) -> Command {
        let mut command = Command::new(program);
        command
            .current_dir(&self.root)
            .env("PATH", &self.path)
            .env("CARGO_TARGET_DIR", &self.target);
        self.compiler.set(&mut command);
        command
    }
}

/// Finds or installs the browser and its driver.
pub(crate) fn browser() -> Result<Browser> {
    Browser::ready(&Tools::open()?)
}

/// Finds or installs the parts of the toolchain that check the code.
pub(crate) fn checkers() -> Result<()> {
    components::ready(&Tools::open()?)
}
