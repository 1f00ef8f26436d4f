//! wasm-bindgen: writes the JavaScript beside the compiled app, and runs the app's tests.

use std::path::PathBuf;

use anyhow::{Context, Result};

use super::crates::CrateTool;
use super::folder::Tools;

/// The program that runs tests in a browser.
pub(super) const TEST_RUNNER: &str = "wasm-bindgen-test-runner";

/// The folder with `wasm-bindgen` and its test runner. Library and program must be of exactly one
/// version, so it is the locked one.
pub(super) fn ready(tools: &Tools, lock: &str) -> Result<PathBuf> {
    let version = locked(lock, "wasm-bindgen").context(
        "Cargo.lock has no wasm-bindgen: bring the file back with `git checkout Cargo.lock`",
    )?;
    CrateTool {
        name: "wasm-bindgen-cli",
        version,
        programs: &["wasm-bindgen", TEST_RUNNER],
        // Not --locked: the lock file it was published with names a crate since withdrawn.
        options: &[],
        patience: "about a minute on two cores",
    }
    .ready(tools)
}

/// The version of a package in the text of a `Cargo.lock`.
fn locked<'a>(lock: &'a str, package: &str) -> Option<&'a str> {
    let value = |line: &'a str, key: &str| {
        let rest = line.strip_prefix(key)?.strip_prefix(" = \"")?;
        rest.strip_suffix('"')
    };
    let mut lines = lock.lines();
    lines.find(|line| value(line, "name") == Some(package))?;
    // The version stands in the same table, which ends at an empty line.
    lines.take_while(|line| !line.is_empty()).find_map(|line| value(line, "version"))
}

#[cfg(test)]
mod tests {
    use super::*;

    const LOCK: &str = r#"version = 4

[[package]]
name = "wasm-bindgen-macro"
version = "9.9.9"

[[package]]
name = "wasm-bindgen"
version = "0.2.130"
dependencies = [
 "once_cell",
]

[[package]]
name = "bare"

[[package]]
name = "zip"
version = "1.0.0"
"#;

    #[test]
    fn the_locked_version_is_the_package_s_own() {
        assert_eq!(locked(LOCK, "wasm-bindgen"), Some("0.2.130"));
        assert_eq!(locked(LOCK, "zip"), Some("1.0.0"));
    }

    #[test]
    fn no_version_is_taken_from_another_package() {
        assert_eq!(locked(LOCK, "bare"), None);
        assert_eq!(locked(LOCK, "wasm"), None);
        assert_eq!(locked(LOCK, "once_cell"), None);
    }
}
