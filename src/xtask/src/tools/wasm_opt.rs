//! wasm-opt: makes the compiled app smaller. The npm package is used because Debian's Binaryen is
//! older than the instructions the compiler writes.

use std::path::PathBuf;

use anyhow::Result;

use super::folder::Tools;
use super::npm::Package;

/// Where npm puts the programs of its packages.
const PROGRAMS: &str = "node_modules/.bin";

const BINARYEN: Package =
    Package { name: "binaryen", version: "132.0.0", proof: "node_modules/.bin/wasm-opt" };

/// The folder with `wasm-opt`.
pub(super) fn ready(tools: &Tools) -> Result<PathBuf> {
    Ok(BINARYEN.ready(tools)?.join(PROGRAMS))
}
