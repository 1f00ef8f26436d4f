//! Running other programs: said before, timed after, and explained when they fail.

use std::env;
use std::ffi::OsStr;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::{Command, ExitStatus, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use anyhow::{Context, Error, Result, anyhow};

use crate::clock::spent;

/// How much of a failed command's output is repeated.
const TAIL: usize = 20;
/// How often a long step says that it is still at work.
const HEARTBEAT: Duration = Duration::from_secs(30);

/// A set-up step: its output goes to a log, and it says what it does and how long that took.
pub(crate) struct Step<'a> {
    /// What is being done, as a phrase.
    pub(crate) what: &'a str,
    /// The file that keeps the command's output.
    pub(crate) log: &'a Path,
    /// What a person can do when it fails.
    pub(crate) advice: &'a str,
}

impl Step<'_> {
    /// Runs the command to its end.
    pub(crate) fn run(&self, command: &mut Command) -> Result<()> {
        note(&format!("{} ...", self.what));
        let start = Instant::now();
        let status = self.watch(command, start);
        match status {
            Ok(status) if status.success() => {
                note(&format!("{}: done in {}", self.what, spent(start.elapsed())));
                Ok(())
            }
            Ok(status) => Err(self.failure(command, &status.to_string())),
            Err(error) => Err(self.failure(command, &format!("could not be run: {error:#}"))),
        }
    }

    /// Starts the command and waits, telling now and then what its log has come to.
    fn watch(&self, command: &mut Command, start: Instant) -> Result<ExitStatus> {
        if let Some(folder) = self.log.parent() {
            fs::create_dir_all(folder)?;
        }
        let log = File::create(self.log)?;
        let mut child =
            command.stdin(Stdio::null()).stdout(log.try_clone()?).stderr(log).spawn()?;
        let mut next = HEARTBEAT;
        loop {
            if let Some(status) = child.try_wait()? {
                return Ok(status);
            }
            sleep(Duration::from_millis(50));
            if start.elapsed() >= next {
                next += HEARTBEAT;
                let latest = tail(&self.read_log(), 1);
                note(&format!("  {}: {}", spent(start.elapsed()), latest.trim()));
            }
        }
    }

    fn failure(&self, command: &Command, outcome: &str) -> Error {
        let mut text = explain(self.what, command, outcome);
        let said = tail(&self.read_log(), TAIL);
        if !said.is_empty() {
            text += "\n  its last words (all of them are in ";
            text += &self.log.to_string_lossy();
            text += "):\n    ";
            text += &said.replace('\n', "\n    ");
        }
        anyhow!("{text}\n  what to do: {}", self.advice)
    }

    fn read_log(&self) -> String {
        let bytes = fs::read(self.log).unwrap_or_default();
        String::from_utf8_lossy(&bytes).into_owned()
    }
}

/// Runs a command whose output is the point of running it, so that it goes straight to the screen.
pub(crate) fn shown(what: &str, command: &mut Command, advice: &str) -> Result<()> {
    let outcome = match command.stdin(Stdio::null()).status() {
        Ok(status) if status.success() => return Ok(()),
        Ok(status) => format!("{status}; its output is above"),
        Err(error) => format!("could not be run: {error}"),
    };
    let text = explain(what, command, &outcome);
    Err(anyhow!("{text}\n  what to do: {advice}"))
}

/// What a command printed, if it is there and succeeded.
pub(crate) fn answer(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).output().ok()?;
    output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

/// One line about set-up. It goes to the error stream, so that a command's own output stays clean.
pub(crate) fn note(text: &str) {
    eprintln!("set-up: {text}");
}

/// The program of that name on the search path.
pub(crate) fn find(name: &str) -> Option<PathBuf> {
    let file = format!("{name}{}", env::consts::EXE_SUFFIX);
    env::split_paths(&env::var_os("PATH")?)
        .map(|folder| folder.join(&file))
        .find(|path| path.is_file())
}

/// The search path with some folders put first.
pub(crate) fn search_path(first: &[PathBuf]) -> Result<std::ffi::OsString> {
    let rest = env::var_os("PATH").unwrap_or_default();
    env::join_paths(first.iter().cloned().chain(env::split_paths(&rest)))
        .context("a folder of the tools has a name that cannot stand in PATH")
}

fn explain(what: &str, command: &Command, outcome: &str) -> String {
    format!("{what} failed.\n\n  command: {}\n  outcome: {outcome}", line(command))
}

/// A command as it could be typed into a shell. PATH is left out: it is long, and only leads to
/// the tools.
fn line(command: &Command) -> String {
    let mut words = Vec::new();
    if let Some(folder) = command.get_current_dir() {
        words.push(format!("cd {} &&", quoted(folder.as_os_str())));
    }
    for (name, value) in command.get_envs() {
        if let Some(value) = value
            && name != "PATH"
        {
            words.push(format!("{}={}", name.to_string_lossy(), quoted(value)));
        }
    }
    words.push(quoted(command.get_program()));
    words.extend(command.get_args().map(quoted));
    words.join(" ")
}

fn quoted(word: &OsStr) -> String {
    let word = word.to_string_lossy();
    let plain = |c: char| c.is_alphanumeric() || "-_./=:,@+".contains(c);
    if !word.is_empty() && word.chars().all(plain) {
        word.into_owned()
    } else {
        format!("'{}'", word.replace('\'', r"'\''"))
    }
}

/// The last lines that have anything on them.
fn tail(text: &str, lines: usize) -> String {
    // A progress bar redraws its line after a bare carriage return: only its last state counts.
    let mut kept: Vec<&str> = text
        .lines()
        .map(|line| {
            let line = line.trim_end();
            line.rsplit_once('\r').map_or(line, |(_, last)| last)
        })
        .filter(|line| !line.is_empty())
        .collect();
    let from = kept.len().saturating_sub(lines);
    kept.split_off(from).join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tail_is_the_last_lines_without_the_empty_ones() {
        assert_eq!(tail("a\n\nb\nc\n\n", 2), "b\nc");
        assert_eq!(tail("a", 5), "a");
        assert_eq!(tail("", 5), "");
    }

    #[test]
    fn a_tail_keeps_the_last_state_of_a_redrawn_line() {
        assert_eq!(tail("10 %\r50 %\r100 %\nend", 2), "100 %\nend");
    }

    #[test]
    fn a_command_is_told_as_a_shell_would_take_it() {
        let mut command = Command::new("cargo");
        command
            .args(["test", "it's here"])
            .env("MODE", "a b")
            .env("PATH", "/usr/bin")
            .env_remove("GONE")
            .current_dir("/usr");
        assert_eq!(line(&command), r"cd /usr && MODE='a b' cargo test 'it'\''s here'");
    }

    #[test]
    fn a_failed_step_tells_command_output_and_advice() {
        let log = env::temp_dir().join(format!("pailwise-run-{}.log", std::process::id()));
        let step = Step { what: "a step", log: &log, advice: "try again." };
        let cargo = env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
        let result = step.run(Command::new(cargo).arg("no-such-command"));
        let text = result.map_err(|error| error.to_string()).err();
        let text = text.unwrap_or_default();
        let _ = fs::remove_file(&log);
        assert!(text.starts_with("a step failed."), "{text}");
        assert!(text.contains("cargo no-such-command"), "{text}");
        assert!(text.contains("no such command"), "{text}");
        assert!(text.ends_with("what to do: try again."), "{text}");
    }

    #[test]
    fn a_program_that_is_not_there_is_a_failure_with_advice() {
        let result = shown("it", &mut Command::new("no-such-program-xyz"), "install it.");
        let text = result.map_err(|error| error.to_string()).err();
        let text = text.unwrap_or_default();
        assert!(text.contains("could not be run"), "{text}");
        assert!(text.ends_with("what to do: install it."), "{text}");
    }
}
