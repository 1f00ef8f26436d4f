//! `cargo xtask build`: the site, as files that any web server can serve.

mod finish;
mod page;
mod weigh;

use std::fs;
use std::path::Path;

use anyhow::Result;

use crate::args::Args;
use crate::project::Project;
use crate::run;
use crate::tools::Web;
pub(crate) use weigh::{Weight, check, weigh};

pub(crate) fn help() -> String {
    "cargo xtask build\n\nIt has no options. What it lacks it installs first.".to_owned()
}

pub(crate) fn run(project: &Project, args: Args) -> Result<()> {
    args.none()?;
    build(project, &Web::ready(project)?)
}

/// Builds the site into `dist/` and tells what came of it.
pub(crate) fn build(project: &Project, web: &Web) -> Result<()> {
    let dist = project.dist();
    run::shown(
        "building the site",
        web.trunk("build").arg("--release").arg("--dist").arg(&dist),
        "mend what the compiler or Trunk points at above.",
    )?;
    finish::finish(&dist)?;
    let (files, bytes) = measure(&dist)?;
    let kilobytes = bytes.div_ceil(1000);
    println!("{}: {files} files, {kilobytes} kB", dist.display());
    Ok(())
}

/// The names of the files that the app is made of, which a first visit downloads: those in the
/// folder itself, but for pictures of the icon that only installing asks for. What stands in
/// folders below is for people and programs, not for the app.
fn of_the_app(dist: &Path) -> Result<Vec<String>> {
    let mut names = Vec::new();
    for entry in fs::read_dir(dist)? {
        let entry = entry?;
        let for_installing = entry.path().extension().is_some_and(|kind| kind == "png");
        if entry.file_type()?.is_file() && !for_installing {
            names.push(entry.file_name().to_string_lossy().into_owned());
        }
    }
    Ok(names)
}

/// How many files a folder has, and their bytes.
fn measure(folder: &Path) -> Result<(usize, u64)> {
    let (mut files, mut bytes) = (0, 0);
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_dir() {
            let (more_files, more_bytes) = measure(&entry.path())?;
            files += more_files;
            bytes += more_bytes;
        } else {
            files += 1;
            bytes += entry.metadata()?.len();
        }
    }
    Ok((files, bytes))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_in_inner_folders_count() -> Result<()> {
        let folder = std::env::temp_dir().join(format!("pailwise-site-{}", std::process::id()));
        fs::create_dir_all(folder.join("inner"))?;
        fs::write(folder.join("a"), "123")?;
        fs::write(folder.join("inner/b"), "45")?;
        let measured = measure(&folder)?;
        fs::remove_dir_all(&folder)?;
        assert_eq!(measured, (2, 5));
        Ok(())
    }
}
