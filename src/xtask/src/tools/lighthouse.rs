//! Lighthouse: marks a site by what its first visit is like.

use std::path::PathBuf;

use anyhow::Result;

use super::folder::Tools;
use super::npm::Package;

const LIGHTHOUSE: Package = Package {
    name: "lighthouse",
    version: "13.5.0",
    proof: "node_modules/lighthouse/cli/index.js",
};

/// The script that Node.js runs it by.
pub(crate) fn ready() -> Result<PathBuf> {
    Ok(LIGHTHOUSE.ready(&Tools::open()?)?.join(LIGHTHOUSE.proof))
}
