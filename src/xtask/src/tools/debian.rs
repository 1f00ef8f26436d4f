//! Packages of the system, where the system is Debian or its like.

use std::process::Command;
use std::sync::atomic::{AtomicBool, Ordering};

use anyhow::{Result, bail};

use super::folder::Tools;
use crate::run::{self, Step};

/// Installs packages by name; `purpose` says what they are, as a noun.
pub(super) fn install(tools: &Tools, packages: &[&str], purpose: &str) -> Result<()> {
    let names = packages.join(" ");
    may_install(&names, purpose)?;
    update(tools, &names)?;
    let what = format!("installing {purpose} from Debian ({names})");
    let name = format!("apt-{}", packages.first().unwrap_or(&"install"));
    Step { what: &what, log: &tools.log(&name), advice: &advice(&names) }
        // Nothing that is installed may go for it.
        .run(
            apt()
                .args(["install", "--yes", "--no-remove", "--no-install-recommends"])
                .args(packages),
        )
}

/// Refuses, with what to do instead, where packages cannot be installed from here.
fn may_install(names: &str, purpose: &str) -> Result<()> {
    if run::find("apt-get").is_none() {
        bail!(
            "{purpose} cannot be found, and this system has no apt-get to install it with.\n  \
             what to do: install it so that it is on PATH (Debian's packages are called {names}), \
             then run the same command again."
        );
    }
    if !is_root() && run::find("sudo").is_none() {
        bail!(
            "{purpose} cannot be found, and installing it takes the rights of root.\n  \
             what to do: as root, run `{}`, then run the same command again.",
            by_hand(names)
        );
    }
    Ok(())
}

/// Whether a package is installed.
pub(super) fn has(package: &str) -> bool {
    run::answer(Command::new("dpkg-query").args(["-W", "-f=${Status}", package]))
        .is_some_and(|status| status.ends_with(" installed"))
}

/// The packages whose names start so, among those that could be installed for `purpose`.
pub(super) fn names(tools: &Tools, start: &str, purpose: &str) -> Result<Vec<String>> {
    may_install(start, purpose)?;
    update(tools, start)?;
    let said = run::answer(Command::new("apt-cache").args(["pkgnames", start]));
    Ok(said.unwrap_or_default().lines().map(str::to_owned).collect())
}

/// Whether this process has read the list of packages.
static UPDATED: AtomicBool = AtomicBool::new(false);

/// Reads the list of packages, which a fresh system lacks and an old one has of an old day.
fn update(tools: &Tools, wanted: &str) -> Result<()> {
    if !UPDATED.load(Ordering::Relaxed) {
        Step {
            what: "reading Debian's list of packages",
            log: &tools.log("apt-update"),
            advice: &advice(wanted),
        }
        .run(apt().arg("update"))?;
        UPDATED.store(true, Ordering::Relaxed);
    }
    Ok(())
}

fn by_hand(packages: &str) -> String {
    format!("apt-get update && apt-get install --no-install-recommends {packages}")
}

fn advice(packages: &str) -> String {
    format!(
        "see whether this machine reaches its Debian mirror; then, as root, run `{}`.",
        by_hand(packages)
    )
}

/// `apt-get`, with the rights of root and no questions asked.
fn apt() -> Command {
    let mut command = if is_root() {
        Command::new("env")
    } else {
        let mut sudo = Command::new("sudo");
        sudo.arg("env");
        sudo
    };
    command.args(["DEBIAN_FRONTEND=noninteractive", "apt-get"]);
    // A machine that has just started may be updating itself.
    command.args(["-o", "DPkg::Lock::Timeout=300"]);
    command
}

fn is_root() -> bool {
    run::answer(Command::new("id").arg("-u")).as_deref() == Some("0")
}
