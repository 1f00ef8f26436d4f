//! Test programs run side by side, as many as the machine has cores: each of them has one or two long
//! tests, and one after the other they leave a core idle.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::{available_parallelism, sleep};
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail};
use serde_json::Value;

use crate::clock::spent;

/// A test program that was built.
struct Program {
    /// Package and target, as `cargo` calls them.
    name: String,
    /// The built program, to be run.
    file: PathBuf,
    /// The folder of its package, in which it runs.
    folder: PathBuf,
}

/// A test program at work.
struct Running {
    name: String,
    child: Child,
    /// The file that keeps what it prints.
    log: PathBuf,
    start: Instant,
}

/// Builds the test programs of a `cargo test` and runs them all, whichever fails.
pub(super) fn run(build: &mut Command, target: &Path) -> Result<()> {
    let output = build
        .args(["--no-run", "--message-format", "json-render-diagnostics"])
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()
        .context("cargo could not be run")?;
    if !output.status.success() {
        bail!("the tests could not be built; what is wrong is above.\n  what to do: mend it.");
    }
    let said = String::from_utf8_lossy(&output.stdout);
    let programs: Vec<Program> = said.lines().filter_map(program).collect();
    let folder = target.join("test-output");
    fs::create_dir_all(&folder)?;
    let took_file = folder.join("took.json");
    let mut took: BTreeMap<String, f64> = fs::read(&took_file)
        .ok()
        .and_then(|text| serde_json::from_slice(&text).ok())
        .unwrap_or_default();
    let failed = run_all(programs, &folder, &mut took)?;
    // Only the order of the next run hangs on it.
    let _ = fs::write(&took_file, serde_json::to_vec(&took)?);
    if failed.is_empty() {
        return Ok(());
    }
    bail!(
        "{} of the test programs failed: {}.\n  what to do: mend the code, or the test that is wrong \
         about it. What each printed is above.",
        failed.len(),
        failed.join(", ")
    );
}

/// A test program among the messages of a build.
fn program(line: &str) -> Option<Program> {
    let said: Value = serde_json::from_str(line).ok()?;
    if said["reason"] != "compiler-artifact" || said["profile"]["test"] != true {
        return None;
    }
    let file = PathBuf::from(said["executable"].as_str()?);
    let folder = Path::new(said["manifest_path"].as_str()?).parent()?.to_owned();
    let kind = said["target"]["kind"][0].as_str()?;
    let (package, name) = (folder.file_name()?.to_str()?, said["target"]["name"].as_str()?);
    Some(Program { name: format!("{package} {kind} {name}"), file, folder })
}

/// Runs them, those that took longest the last time first; the names of those that failed.
fn run_all(
    mut programs: Vec<Program>,
    logs: &Path,
    took: &mut BTreeMap<String, f64>,
) -> Result<Vec<String>> {
    // One that was never run may be the longest.
    let last = |program: &Program| took.get(&program.name).copied().unwrap_or(f64::INFINITY);
    programs.sort_by(|a, b| last(b).total_cmp(&last(a)));
    let most = available_parallelism().map_or(1, usize::from);
    let mut waiting = programs.into_iter();
    let (mut running, mut failed): (Vec<Running>, Vec<String>) = (Vec::new(), Vec::new());
    loop {
        while running.len() < most {
            let Some(program) = waiting.next() else { break };
            running.push(start(program, logs)?);
        }
        if running.is_empty() {
            return Ok(failed);
        }
        let mut at_work = Vec::new();
        for mut one in running {
            let Some(status) = one.child.try_wait()? else {
                at_work.push(one);
                continue;
            };
            let time = one.start.elapsed();
            took.insert(one.name.clone(), time.as_secs_f64());
            tell(&one, status.success(), time);
            if !status.success() {
                failed.push(one.name);
            }
        }
        running = at_work;
        sleep(Duration::from_millis(50));
    }
}

fn start(program: Program, logs: &Path) -> Result<Running> {
    let log = logs.join(format!("{}.log", program.name.replace([' ', '/'], "-")));
    let file = File::create(&log)?;
    let child = Command::new(&program.file)
        .current_dir(&program.folder)
        .stdin(Stdio::null())
        .stdout(file.try_clone()?)
        .stderr(file)
        .spawn()
        .with_context(|| format!("{} could not be run", program.file.display()))?;
    Ok(Running { name: program.name, child, log, start: Instant::now() })
}

/// All that a program printed where it failed, else what it comes to.
fn tell(one: &Running, passed: bool, time: Duration) {
    let text = fs::read(&one.log).unwrap_or_default();
    let text = String::from_utf8_lossy(&text);
    if passed {
        let sum = text.lines().rev().find(|line| line.starts_with("test result:")).unwrap_or("");
        println!("{}: {} ({})", one.name, sum.trim_start_matches("test result: "), spent(time));
    } else {
        println!("{}: FAILED after {}\n{text}", one.name, spent(time));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_test_program_is_known_by_its_message() {
        let line = r#"{"reason":"compiler-artifact","manifest_path":"/p/tests/Cargo.toml",
            "target":{"kind":["test"],"name":"bays"},"profile":{"test":true},
            "executable":"/p/target/debug/deps/bays-1"}"#;
        let found = program(&line.replace('\n', "")).map(|found| found.name);
        assert_eq!(found.as_deref(), Some("tests test bays"));
        for other in ["{}", "not json", r#"{"reason":"build-finished","success":true}"#] {
            assert!(program(other).is_none(), "{other}");
        }
        let library = line.replace("\"test\":true", "\"test\":false").replace('\n', "");
        assert!(program(&library).is_none(), "a library is no test");
    }
}
