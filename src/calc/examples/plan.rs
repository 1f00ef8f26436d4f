//! Prints the plan for a floor file as JSON: `cargo run -p pailwise-calc --example plan -- FILE.json`.

use std::process::ExitCode;

use pailwise_calc::report::PlanRecord;

fn main() -> ExitCode {
    match plan() {
        Ok(text) => {
            println!("{text}");
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn plan() -> Result<String, String> {
    let mut files = std::env::args().skip(1);
    let (Some(file), None) = (files.next(), files.next()) else {
        return Err("usage: plan FILE.json".to_owned());
    };
    let text = std::fs::read_to_string(&file).map_err(|error| format!("{file}: {error}"))?;
    let report = PlanRecord::from_floor_json(&text).map_err(|error| format!("{file}: {error}"))?;
    serde_json::to_string_pretty(&report).map_err(|error| format!("{file}: {error}"))
}
