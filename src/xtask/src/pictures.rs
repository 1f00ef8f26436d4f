//! `cargo xtask pictures`: a picture of every screen, to look at.

use anyhow::Result;

use crate::args::Args;
use crate::project::Project;
use crate::tools::Web;
use crate::{run, site, tools};

pub(crate) fn help() -> String {
    "cargo xtask pictures\n\nBuilds the site and takes pictures of all its screens in both \
     languages and themes, 360, 390 and 1280 wide, into target/pictures. Look at them after a \
     change to how anything looks."
        .to_owned()
}

pub(crate) fn run(project: &Project, args: Args) -> Result<()> {
    args.none()?;
    let web = Web::ready(project)?;
    let browser = tools::browser()?;
    site::build(project, &web)?;
    run::shown(
        "taking the pictures",
        browser
            .example(project, "pictures")
            .arg(project.target.join("pictures"))
            .env("PAILWISE_DIST", project.dist()),
        "see what the browser's driver says above.",
    )
}
