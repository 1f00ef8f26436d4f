//! `cargo xtask reference`: makes the reference data of the tests again.

use std::process::Command;

use anyhow::Result;

use crate::args::Args;
use crate::project::Project;
use crate::{run, tools};

pub(crate) fn help() -> String {
    "cargo xtask reference\n\nInstalls the packages pinned in tests/reference/requirements.txt and \
     writes tests/data/reference anew. The tests only read \
     what is there; `git diff` shows whether anything moved."
        .to_owned()
}

pub(crate) fn run(project: &Project, args: Args) -> Result<()> {
    args.none()?;
    let python = tools::python(project)?;
    let folder = project.root.join("tests");
    run::shown(
        "making the reference data",
        Command::new(python)
            .arg(folder.join("reference/make.py"))
            .arg(folder.join("data/reference")),
        "mend what Python points at above.",
    )?;
    println!("tests/data/reference is made anew");
    Ok(())
}
