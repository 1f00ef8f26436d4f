//! A compiler for the browser: the active Rust toolchain with its `wasm32-unknown-unknown` target,
//! or, where the target cannot be downloaded, Debian's own Rust.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, anyhow};

use super::debian_rust::DebianRust;
use super::folder::Tools;
use crate::run::{self, Step};

/// The browser, as rustc calls it.
pub(super) const TRIPLE: &str = "wasm32-unknown-unknown";

/// What compiles for the browser.
pub(super) enum Compiler {
    /// The active toolchain, which has the target.
    Toolchain,
    /// Debian's own Rust, where the target cannot be downloaded.
    Debian(DebianRust),
}

impl Compiler {
    /// Finds or installs one.
    pub(super) fn ready(tools: &Tools) -> Result<Self> {
        let sysroot = active_sysroot()?;
        if has_target(&sysroot) {
            return Ok(Self::Toolchain);
        }
        // Asked before the download, which would be tried in vain at every start.
        if let Some(debian) = DebianRust::found(tools) {
            return Ok(Self::Debian(debian));
        }
        let log = tools.log("rustup-target");
        let Err(first) = add_target(&log) else {
            return Ok(Self::Toolchain);
        };
        run::note(&format!(
            "the target cannot be had (why: {}); going on with Debian's Rust",
            log.display()
        ));
        DebianRust::install(tools)
            .map(Self::Debian)
            .map_err(|second| anyhow!("{first:#}\n\nDebian's Rust failed as well: {second:#}"))
    }

    /// Has a command compile with this.
    pub(super) fn set(&self, command: &mut Command) {
        if let Self::Debian(debian) = self {
            debian.set(command);
        }
    }
}

/// The environment variable that sets one of Cargo's options for the browser.
pub(super) fn variable(option: &str) -> String {
    format!("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_{option}")
}

/// The folder of the active toolchain.
pub(super) fn active_sysroot() -> Result<PathBuf> {
    run::answer(Command::new("rustc").args(["--print", "sysroot"]))
        .map(PathBuf::from)
        .context("`rustc --print sysroot` failed: install Rust's stable toolchain with rustup")
}

/// Whether a sysroot can compile for the browser. The folder alone does not tell: it may hold a
/// linker and no library.
pub(super) fn has_target(sysroot: &Path) -> bool {
    let Ok(files) = fs::read_dir(libraries(sysroot)) else {
        return false;
    };
    files.flatten().any(|file| {
        let name = file.file_name();
        let name = name.to_string_lossy();
        name.starts_with("libstd-") && is_library(Path::new(&*name))
    })
}

/// The folder of a sysroot with the libraries for the browser.
pub(super) fn libraries(sysroot: &Path) -> PathBuf {
    sysroot.join("lib/rustlib").join(TRIPLE).join("lib")
}

/// Whether a file is a compiled library.
pub(super) fn is_library(file: &Path) -> bool {
    file.extension().is_some_and(|end| end == "rlib")
}

fn add_target(log: &Path) -> Result<()> {
    let what = format!("adding the target {TRIPLE} to the Rust toolchain");
    let step = Step {
        what: &what,
        log,
        advice: "add the target to the toolchain in the way it was installed.",
    };
    step.run(Command::new("rustup").args(["target", "add", TRIPLE]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_target_without_its_library_does_not_count() -> Result<()> {
        let name = format!("pailwise-sysroot-{}", std::process::id());
        let sysroot = std::env::temp_dir().join(name);
        let folder = libraries(&sysroot);
        fs::create_dir_all(&folder)?;
        assert!(!has_target(&sysroot));
        for other in ["libstd-1.rmeta", "libcore-1.rlib", "libstd_detect-1.rlib"] {
            fs::write(folder.join(other), "")?;
        }
        assert!(!has_target(&sysroot));
        fs::write(folder.join("libstd-1.rlib"), "")?;
        assert!(has_target(&sysroot));
        Ok(fs::remove_dir_all(&sysroot)?)
    }
}
