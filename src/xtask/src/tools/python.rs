//! Python with the packages, at pinned versions, that the reference data is made with.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result};

use super::debian;
use super::folder::Tools;
use crate::project::Project;
use crate::run::{self, Step};

/// The interpreter inside the environment.
const PROGRAM: &str = "bin/python";
/// Left in the environment when it is whole; holds what was asked for.
const DONE: &str = "requirements.txt";

/// A Python that has the project's requirements.
pub(crate) fn ready(project: &Project) -> Result<PathBuf> {
    let tools = Tools::open()?;
    let wanted = project.root.join("tests/reference/requirements.txt");
    let pins = std::fs::read_to_string(&wanted)
        .with_context(|| format!("cannot read {}", wanted.display()))?;
    if !can_make_environments() {
        debian::install(&tools, &["python3", "python3-venv"], "Python")?;
    }
    let home = tools.once(&name(&pins), &[PROGRAM, DONE], |half| install(&tools, half, &wanted))?;
    Ok(home.join(PROGRAM))
}

fn can_make_environments() -> bool {
    run::answer(Command::new("python3").args(["-c", "import ensurepip, venv; print(1)"])).is_some()
}

/// A folder's name that says which versions are in it: `python-numpy-2.2.6-scipy-1.15.3`.
fn name(pins: &str) -> String {
    let pins = pins.lines().map(|pin| pin.trim().replace("==", "-"));
    let pins: Vec<String> = pins.filter(|pin| !pin.is_empty()).collect();
    format!("python-{}", pins.join("-"))
}

fn install(tools: &Tools, folder: &Path, wanted: &Path) -> Result<()> {
    let advice = "see whether this machine reaches PyPI, then run the same command again.";
    Step { what: "making a Python environment", log: &tools.log("python-venv"), advice }
        .run(Command::new("python3").args(["-m", "venv"]).arg(folder))?;
    Step { what: "installing scipy and others from PyPI", log: &tools.log("python-pip"), advice }
        .run(
        Command::new(folder.join(PROGRAM))
            .args(["-m", "pip", "install", "--disable-pip-version-check", "--requirement"])
            .arg(wanted),
    )?;
    std::fs::copy(wanted, folder.join(DONE))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn other_versions_are_another_folder() {
        assert_eq!(name("numpy==2.2.6\nscipy==1.15.3\n"), "python-numpy-2.2.6-scipy-1.15.3");
        assert_ne!(name("scipy==1.15.3"), name("scipy==1.15.2"));
    }
}
