//! SUNDIALS, the solver library that the benchmark sets ours beside, and a C compiler for it.

use std::path::Path;

use anyhow::Result;

use super::debian;
use super::folder::Tools;
use crate::run;

/// Finds or installs the library's headers and a compiler.
pub(crate) fn ready() -> Result<()> {
    let mut missing = Vec::new();
    if !Path::new("/usr/include/cvode/cvode.h").exists() {
        missing.push("libsundials-dev");
    }
    if run::find("cc").is_none() {
        missing.extend(["gcc", "libc6-dev"]);
    }
    if missing.is_empty() {
        return Ok(());
    }
    debian::install(&Tools::open()?, &missing, "SUNDIALS")
}
