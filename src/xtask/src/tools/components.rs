//! rustfmt and Clippy, which a toolchain installed with rustup's minimal profile lacks.

use std::process::Command;

use anyhow::Result;

use super::folder::Tools;
use super::wasm_target::active_sysroot;
use crate::run::Step;

/// Adds what is missing.
pub(super) fn ready(tools: &Tools) -> Result<()> {
    let programs = active_sysroot()?.join("bin");
    let has = |name: &str| {
        let file = format!("{name}{}", std::env::consts::EXE_SUFFIX);
        programs.join(file).exists()
    };
    if has("rustfmt") && has("cargo-clippy") {
        return Ok(());
    }
    let step = Step {
        what: "adding rustfmt and Clippy to the Rust toolchain",
        log: &tools.log("rustup-components"),
        advice: "add the two to the toolchain in the way it was installed.",
    };
    step.run(Command::new("rustup").args(["component", "add", "rustfmt", "clippy"]))
}
