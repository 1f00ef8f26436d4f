//! Where the project's files are.

use std::env;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

/// The folders of the project: its sources and Cargo's output.
pub(crate) struct Project {
    /// The workspace's root, where `Cargo.lock` and `index.html` are.
    pub(crate) root: PathBuf,
    /// Cargo's output for this machine.
    pub(crate) target: PathBuf,
}

impl Project {
    /// The project this command was built from.
    pub(crate) fn find() -> Result<Self> {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../..")
            .canonicalize()
            .context("the project's folder has moved since this command was built")?;
        let target = match env::var_os("CARGO_TARGET_DIR") {
            Some(folder) => root.join(folder),
            None => root.join("target"),
        };
        Ok(Self { root, target })
    }

    /// Cargo's output for the browser. It is kept apart because the two sides may be built by
    /// different compilers, and in one folder each would throw the other's work away.
    pub(crate) fn web_target(&self) -> PathBuf {
        self.target.join("web")
    }

    /// Where the finished site goes.
    pub(crate) fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }

    /// The text of `Cargo.lock`.
    pub(crate) fn lock(&self) -> Result<String> {
        let path = self.root.join("Cargo.lock");
        std::fs::read_to_string(&path).with_context(|| format!("cannot read {}", path.display()))
    }
}
