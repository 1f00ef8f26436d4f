//! wasm-opt: makes the compiled app smaller. The npm package is used because Debian's Binaryen is
//! older than the instructions the compiler writes.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::Result;

use super::debian;
use super::folder::Tools;
use crate::run::{self, Step};

const VERSION: &str = "132.0.0";
/// Where npm puts the programs of its packages.
const PROGRAMS: &str = "node_modules/.bin";

/// The folder with `wasm-opt`, and Node.js to run it.
pub(super) fn ready(tools: &Tools) -> Result<PathBuf> {
    let name = format!("binaryen-{VERSION}");
    let proof = format!("{PROGRAMS}/wasm-opt");
    // The program is JavaScript: it takes Node.js to run, and npm only to be installed.
    let mut missing = Vec::new();
    if run::find("node").is_none() {
        missing.push("nodejs");
    }
    if run::find("npm").is_none() && !tools.root.join(&name).join(&proof).exists() {
        missing.push("npm");
    }
    if !missing.is_empty() {
        debian::install(tools, &missing, "Node.js")?;
    }
    let home = tools.once(&name, &[&proof], |half| install(tools, half))?;
    Ok(home.join(PROGRAMS))
}

fn install(tools: &Tools, folder: &Path) -> Result<()> {
    let what = format!("installing binaryen {VERSION} from npm");
    let step = Step {
        what: &what,
        log: &tools.log("binaryen"),
        advice: "see whether this machine reaches the npm registry, then run the same command \
                 again.",
    };
    step.run(
        Command::new("npm")
            .args(["install", "--save-exact", "--no-audit", "--no-fund"])
            .arg("--prefix")
            .arg(folder)
            .arg(format!("binaryen@{VERSION}"))
            .current_dir(folder),
    )
}
