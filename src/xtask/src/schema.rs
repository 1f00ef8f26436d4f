//! `cargo xtask schema`: writes the JSON Schema of the records again.

use std::process::Command;

use anyhow::Result;

use crate::args::Args;
use crate::project::Project;
use crate::run;

pub(crate) fn help() -> String {
    "cargo xtask schema\n\nWrites src/calc/schema/*.schema.json from the types of the calculation \
     crate. The tests say when they are old."
        .to_owned()
}

pub(crate) fn run(project: &Project, args: Args) -> Result<()> {
    args.none()?;
    run::shown(
        "writing the schemas",
        Command::new("cargo").current_dir(&project.root).args([
            "run",
            "--package",
            "pailwise-calc",
            "--features",
            "schema",
            "--example",
            "schema",
            "--",
            "src/calc/schema",
        ]),
        "mend what the compiler points at above.",
    )?;
    println!("src/calc/schema is written anew");
    Ok(())
}
