//! Trunk: builds the site around the compiled app, and serves it.

use std::path::PathBuf;

use anyhow::Result;

use super::crates::CrateTool;
use super::folder::Tools;

/// The folder with `trunk`.
pub(super) fn ready(tools: &Tools) -> Result<PathBuf> {
    CrateTool {
        name: "trunk",
        version: "0.21.14",
        programs: &["trunk"],
        // Left out: the look for a newer Trunk, and encrypted connections with the C library they
        // bring along. It serves this machine only, and downloads nothing.
        options: &["--locked", "--no-default-features"],
        patience: "about 2 minutes on two cores",
    }
    .ready(tools)
}
