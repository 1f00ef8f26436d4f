//! axe-core: looks in a page for what keeps people out of it.

use std::path::PathBuf;

use anyhow::Result;

use super::folder::Tools;
use super::npm::Package;

const AXE: Package =
    Package { name: "axe-core", version: "4.14.1", proof: "node_modules/axe-core/axe.min.js" };

/// The script that a page is looked through with.
pub(crate) fn ready() -> Result<PathBuf> {
    Ok(AXE.ready(&Tools::open()?)?.join(AXE.proof))
}
