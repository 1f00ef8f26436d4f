//! The project's own commands, run as `cargo xtask NAME`.
//!
//! Everything a fresh machine lacks is installed on the way, by name, from the package registries
//! its package managers already use; so `cargo xtask serve` and `cargo xtask test` are the only
//! steps after a clone.

mod args;
mod bench;
mod checks;
mod clock;
mod pictures;
mod project;
mod reference;
mod run;
mod schema;
mod serve;
mod site;
mod test;
mod tools;

use std::process::ExitCode;

use anyhow::{Result, bail};

use crate::args::Args;
use crate::project::Project;

/// One command of `cargo xtask`.
struct Command {
    name: &'static str,
    /// The one line shown in the list of commands.
    about: &'static str,
    /// What `cargo xtask NAME --help` prints below that line.
    help: fn() -> String,
    run: fn(&Project, Args) -> Result<()>,
}

/// Every command there is; a new one is a file and a row here.
const COMMANDS: &[Command] = &[
    Command {
        name: "serve",
        about: "Build the site and serve it on this machine, rebuilding when a source file changes",
        help: serve::help,
        run: serve::run,
    },
    Command {
        name: "build",
        about: "Build the site, optimised, into dist/",
        help: site::help,
        run: site::run,
    },
    Command {
        name: "test",
        about: "Run every check: format, lints, tests, documentation, the app in a browser",
        help: test::help,
        run: test::run,
    },
    Command {
        name: "pictures",
        about: "Take a picture of every screen, to look at",
        help: pictures::help,
        run: pictures::run,
    },
    Command {
        name: "checks",
        about: "Write the page of what is checked against outside sources",
        help: checks::help,
        run: checks::run,
    },
    Command {
        name: "reference",
        about: "Make the tests' reference data again with pinned libraries",
        help: reference::help,
        run: reference::run,
    },
    Command {
        name: "schema",
        about: "Write the JSON Schema of what is kept and handed on, from the types",
        help: schema::help,
        run: schema::run,
    },
    Command {
        name: "bench",
        about: "Measure the calculation beside scipy and CVODE, and visits to the site",
        help: bench::help,
        run: bench::run,
    },
];

fn main() -> ExitCode {
    match start() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("\nerror: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn start() -> Result<()> {
    let mut words = std::env::args().skip(1);
    let name = match words.next().as_deref() {
        None | Some("help" | "--help" | "-h") => {
            print!("{}", list());
            return Ok(());
        }
        Some(name) => name.to_owned(),
    };
    let Some(command) = COMMANDS.iter().find(|command| command.name == name) else {
        bail!("there is no command `{name}`.\n\n{}", list());
    };
    let args = Args::new(command.name, words);
    if args.ask_for_help() {
        println!("{}.\n\n{}", command.about, (command.help)());
        return Ok(());
    }
    (command.run)(&Project::find()?, args)
}

/// The commands, one a line.
fn list() -> String {
    let rows: Vec<String> =
        COMMANDS.iter().map(|command| format!("  {:<9} {}", command.name, command.about)).collect();
    format!(
        "cargo xtask COMMAND\n\n{}\n\n`cargo xtask COMMAND --help` tells a command's options.\n",
        rows.join("\n")
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_list_has_a_line_for_every_command() {
        let list = list();
        for command in COMMANDS {
            assert!(list.contains(&format!("\n  {} ", command.name)), "{list}");
        }
    }

    #[test]
    fn no_two_commands_share_a_name() {
        for (at, command) in COMMANDS.iter().enumerate() {
            let same = |other: &Command| other.name == command.name;
            assert_eq!(COMMANDS.iter().position(same), Some(at));
        }
    }
}
