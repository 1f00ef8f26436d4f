//! Debian's Rust as a compiler for the browser.
//!
//! Its compiler knows the target, but no package has the target's standard library: that is built
//! here, from the sources Debian packages, into the tools' folder. Nothing of the system is
//! written to.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result};

use super::debian;
use super::folder::{Tools, clear};
use super::wasm_target::{TRIPLE, has_target, is_library, libraries, variable};
use crate::run::{self, Step};

/// The compiler; always by its path, for rustup's stands before it on PATH.
const RUSTC: &str = "/usr/bin/rustc";
const CARGO: &str = "/usr/bin/cargo";
/// The packages it takes, but for the linker.
const PACKAGES: [&str; 3] = ["rustc-web", "cargo-web", "rust-web-src"];

/// Debian's compiler, with a standard library built here.
pub(super) struct DebianRust {
    /// The folder that holds the standard library.
    sysroot: PathBuf,
    /// The program that links.
    linker: PathBuf,
}

impl DebianRust {
    /// The compiler, if it is here with a library of its own version.
    pub(super) fn found(tools: &Tools) -> Option<Self> {
        let sysroot = tools.root.join(library_name()?);
        let linker = newest_linker()?;
        has_target(&sysroot).then_some(Self { sysroot, linker })
    }

    /// Installs the compiler and builds the library.
    pub(super) fn install(tools: &Tools) -> Result<Self> {
        install_packages(tools)?;
        let name = library_name().context("the packages are installed, but rustc does not run")?;
        let proof = libraries(Path::new(""));
        tools.once(&name, &[&proof.to_string_lossy()], |half| {
            let crate_folder = tools.scratch().join("empty");
            clear(&crate_folder)?;
            build_library(tools, &crate_folder)?;
            collect_library(&crate_folder, &libraries(half))
        })?;
        Self::found(tools).context("Debian's Rust was set up, but is not to be found")
    }

    /// Has a command compile with this.
    pub(super) fn set(&self, command: &mut Command) {
        let mut flags = OsString::from("--sysroot=");
        flags.push(&self.sysroot);
        // These take the place of the ones in .cargo/config.toml, which are said again.
        flags.push(" --cfg erase_components");
        command
            .env("RUSTC", RUSTC)
            .env(variable("RUSTFLAGS"), flags)
            .env(variable("LINKER"), &self.linker)
            // Flags for every target would take the place of the ones above.
            .env_remove("RUSTFLAGS")
            .env_remove("CARGO_ENCODED_RUSTFLAGS");
    }
}

fn install_packages(tools: &Tools) -> Result<()> {
    const PURPOSE: &str = "Rust for the browser";
    let mut packages: Vec<&str> = PACKAGES.to_vec();
    packages.retain(|package| !debian::has(package));
    let linker;
    if newest_linker().is_none() {
        let candidates = debian::names(tools, "lld-", PURPOSE)?;
        linker = newest(candidates.iter().map(String::as_str), "lld-").context(
            "this system's list of packages has no linker lld-NUMBER for the browser.\n  what to \
             do: add the target to the Rust toolchain in the way the toolchain was installed",
        )?;
        packages.push(&linker);
    }
    if packages.is_empty() {
        return Ok(());
    }
    debian::install(tools, &packages, PURPOSE)
}

/// Builds the standard library, by way of a crate that has nothing in it.
fn build_library(tools: &Tools, folder: &Path) -> Result<()> {
    fs::create_dir_all(folder.join("src"))?;
    // The empty table keeps it from being counted to a workspace in a folder above.
    let manifest = "[package]\nname = \"empty\"\nedition = \"2024\"\n\n[workspace]\n";
    fs::write(folder.join("Cargo.toml"), manifest)?;
    fs::write(folder.join("src/lib.rs"), "#![no_std]\n")?;
    let step = Step {
        what: "building Rust's standard library for the browser (about half a minute)",
        log: &tools.log("wasm-sysroot"),
        advice: "see whether apt-get can bring the packages of Debian's Rust up to date, then run \
                 the same command again.",
    };
    step.run(
        Command::new(CARGO)
            .args(["build", "--release", "--target", TRIPLE])
            .arg("-Zbuild-std=std,panic_abort,proc_macro,test")
            .current_dir(folder)
            .env("RUSTC", RUSTC)
            // Building the library is an unstable feature of a stable compiler.
            .env("RUSTC_BOOTSTRAP", "1")
            // The site is optimised across crates as a whole, which takes bitcode in the library.
            .env("RUSTFLAGS", "-Cembed-bitcode=yes")
            .env("CARGO_TARGET_DIR", folder.join("target"))
            .env_remove("CARGO_ENCODED_RUSTFLAGS"),
    )
}

/// Copies the library's parts to where a compiler looks for them.
fn collect_library(built: &Path, to: &Path) -> Result<()> {
    fs::create_dir_all(to)?;
    let from = built.join("target").join(TRIPLE).join("release/deps");
    for file in fs::read_dir(&from).with_context(|| format!("cannot read {}", from.display()))? {
        let path = file?.path();
        if let Some(name) = path.file_name()
            && is_library(&path)
            && !name.to_string_lossy().starts_with("libempty-")
        {
            fs::copy(&path, to.join(name))?;
        }
    }
    Ok(())
}

/// The folder of the standard library built with Debian's compiler. The name tells the compiler's
/// version, for a library goes only with the very compiler that built it.
fn library_name() -> Option<String> {
    let said = run::answer(Command::new(RUSTC).arg("--version"))?;
    Some(format!("wasm-sysroot-{}", said.split_whitespace().nth(1)?))
}

/// The newest of Debian's linkers for the browser; the number in the name is LLVM's.
fn newest_linker() -> Option<PathBuf> {
    let files = fs::read_dir("/usr/bin").ok()?;
    let names: Vec<String> =
        files.flatten().map(|file| file.file_name().to_string_lossy().into_owned()).collect();
    let name = newest(names.iter().map(String::as_str), "wasm-ld-")?;
    Some(Path::new("/usr/bin").join(name))
}

/// The name made of `start` and the highest number.
fn newest<'a>(names: impl Iterator<Item = &'a str>, start: &str) -> Option<String> {
    names
        .filter_map(|name| name.strip_prefix(start)?.parse::<u32>().ok())
        .max()
        .map(|number| format!("{start}{number}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_newest_is_found_by_number_not_by_letter() {
        let names = ["lld-9", "lld-22", "lld-14", "lld-22-dev", "lld", "lldb-30"];
        let newest = |start| newest(names.into_iter(), start);
        assert_eq!(newest("lld-").as_deref(), Some("lld-22"));
        assert_eq!(newest("wasm-ld-"), None);
    }

    #[test]
    fn debian_s_compiler_is_named_to_cargo() {
        let compiler = DebianRust {
            sysroot: PathBuf::from("/tools/wasm-sysroot"),
            linker: PathBuf::from("/usr/bin/wasm-ld-22"),
        };
        let mut command = Command::new("cargo");
        compiler.set(&mut command);
        let value = |name: &str| {
            let mut all = command.get_envs();
            let found = all.find(|(other, _)| *other == name);
            found.and_then(|(_, value)| Some(value?.to_string_lossy().into_owned()))
        };
        assert_eq!(value("RUSTC").as_deref(), Some(RUSTC));
        assert_eq!(
            value("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS").as_deref(),
            Some("--sysroot=/tools/wasm-sysroot --cfg erase_components")
        );
        assert_eq!(value("RUSTFLAGS"), None);
    }
}
