//! What a visit to the site costs, beside one to an empty counter.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use anyhow::Result;

use crate::project::Project;
use crate::tools::{self, Browser, Web};
use crate::{run, site};
pub(super) use site::Weight;

/// Builds the site and the counter, and lays both out in folders as a server sends them, each
/// file with its compressed form beside it.
pub(super) fn build(
    project: &Project,
    web: &Web,
    scratch: &Path,
) -> Result<(Vec<Weight>, Vec<Weight>)> {
    site::build(project, web)?;
    let counter = scratch.join("counter-dist");
    run::shown(
        "building the counter",
        web.trunk("build")
            .arg("--release")
            .arg("--dist")
            .arg(&counter)
            .current_dir(project.root.join("tests/counter")),
        "mend what the compiler or Trunk points at above.",
    )?;
    Ok((
        lay_out(&project.dist(), &scratch.join("site"))?,
        lay_out(&counter, &scratch.join("counter"))?,
    ))
}

fn lay_out(dist: &Path, to: &Path) -> Result<Vec<Weight>> {
    if to.exists() {
        fs::remove_dir_all(to)?;
    }
    fs::create_dir_all(to)?;
    for entry in fs::read_dir(dist)? {
        let entry = entry?;
        if entry.file_type()?.is_file() {
            fs::copy(entry.path(), to.join(entry.file_name()))?;
        }
    }
    site::weigh(to, |name, compressed| Ok(fs::write(to.join(format!("{name}.br")), compressed)?))
}

/// Times visits and key presses, and has Lighthouse look.
pub(super) fn measure(
    project: &Project,
    scratch: &Path,
    browser: &Browser,
) -> Result<BTreeMap<String, f64>> {
    super::figures(
        "timing visits and key presses",
        browser
            .example(project, "visit")
            .arg(scratch.join("site"))
            .arg(scratch.join("counter"))
            .arg(tools::lighthouse()?),
    )
}
