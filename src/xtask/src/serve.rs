//! `cargo xtask serve`: the site on this machine, built again whenever a source file changes.

use std::env;
use std::net::{Ipv4Addr, TcpListener};
use std::process::Command;

use anyhow::{Context, Result, anyhow};

use crate::args::Args;
use crate::project::Project;
use crate::run;
use crate::tools::Web;

const PORT: u16 = 8080;

pub(crate) fn help() -> String {
    format!(
        "cargo xtask serve [--dev] [--port N] [--no-open]\n\n\
         What it lacks it installs first.\n\n  \
         --dev      Build without optimising: quicker to rebuild, larger and slower to run\n  \
         --port N   Serve on this port instead of {PORT}\n  \
         --no-open  Do not open a browser"
    )
}

/// What was asked for.
#[derive(Debug, PartialEq)]
struct Options {
    dev: bool,
    port: u16,
    open: bool,
}

impl Options {
    fn read(mut args: Args) -> Result<Self> {
        let mut options = Self { dev: false, port: PORT, open: true };
        while let Some(word) = args.next() {
            match word.as_str() {
                "--dev" => options.dev = true,
                "--no-open" => options.open = false,
                "--port" => {
                    let value = args.value("--port")?;
                    options.port = port(&value)?;
                }
                _ => return Err(args.unknown(&word)),
            }
        }
        Ok(options)
    }
}

pub(crate) fn run(project: &Project, args: Args) -> Result<()> {
    let options = Options::read(args)?;
    // Before the set-up and the build, after which it would be a pity.
    check_free(options.port)?;
    let web = Web::ready(project)?;
    let mut trunk = web.trunk("serve");
    // A folder of its own: Trunk adds to the served pages a script that reloads them, and dist/
    // is to hold nothing but the site.
    trunk.arg("--dist").arg(project.target.join("serve"));
    trunk.arg("--ignore").arg(&project.target);
    trunk.args(["--address", "127.0.0.1", "--port"]);
    trunk.arg(options.port.to_string());
    if !options.dev {
        trunk.arg("--release");
    }
    if options.open && has_screen() {
        trunk.arg("--open");
    }
    println!(
        "Pailwise will be at http://127.0.0.1:{}/ as soon as it is built; Ctrl-C stops it.",
        options.port
    );
    hand_over(&mut trunk)
}

/// Becomes the command, so that a signal sent to this process reaches it.
#[cfg(unix)]
fn hand_over(command: &mut Command) -> Result<()> {
    use std::os::unix::process::CommandExt;
    Err(command.exec()).context("Trunk could not be started")
}

/// Runs the command to its end.
#[cfg(not(unix))]
fn hand_over(command: &mut Command) -> Result<()> {
    run::shown("serving the site", command, "see what Trunk says above.")
}

fn port(text: &str) -> Result<u16> {
    text.parse()
        .ok()
        .filter(|port| *port != 0)
        .ok_or_else(|| anyhow!("`{text}` is no port: give a number from 1 to 65535"))
}

fn check_free(port: u16) -> Result<()> {
    TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map(drop).map_err(|error| {
        anyhow!(
            "port {port} of this machine cannot be had: {error}.\n  what to do: stop the \
                 program that has it, or name another port: `cargo xtask serve --port N`"
        )
    })
}

/// Whether there is a screen to open a browser on.
fn has_screen() -> bool {
    let set = |name: &str| env::var_os(name).is_some_and(|value| !value.is_empty());
    cfg!(any(target_os = "macos", windows))
        || ((set("DISPLAY") || set("WAYLAND_DISPLAY")) && run::find("xdg-open").is_some())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(words: &[&str]) -> Result<Options> {
        let words = words.iter().map(|word| (*word).to_owned());
        Options::read(Args::new("serve", words))
    }

    #[test]
    fn without_options_it_serves_the_optimised_site_and_opens_it() -> Result<()> {
        let options = read(&[])?;
        assert_eq!(options, Options { dev: false, port: 8080, open: true });
        Ok(())
    }

    #[test]
    fn options_are_taken_in_any_order() -> Result<()> {
        let options = read(&["--port", "8081", "--no-open", "--dev"])?;
        assert_eq!(options, Options { dev: true, port: 8081, open: false });
        Ok(())
    }

    #[test]
    fn a_wrong_option_or_port_is_refused() {
        for words in [&["--prod"][..], &["--port"], &["--port", "0"], &["--port", "http"]] {
            assert!(read(words).is_err(), "{words:?}");
        }
    }

    #[test]
    fn a_taken_port_is_told_before_anything_is_built() -> Result<()> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
        let port = listener.local_addr()?.port();
        assert!(check_free(port).is_err());
        drop(listener);
        Ok(())
    }
}
