//! Writes the JSON Schema of each record into a folder: `cargo xtask schema`.

use std::path::Path;
use std::process::ExitCode;

use pailwise_calc::schema::schemas;

fn main() -> ExitCode {
    let Some(folder) = std::env::args().nth(1) else {
        eprintln!("usage: schema FOLDER");
        return ExitCode::FAILURE;
    };
    for (name, text) in schemas() {
        let path = Path::new(&folder).join(name);
        if let Err(error) = std::fs::write(&path, text) {
            eprintln!("{}: {error}", path.display());
            return ExitCode::FAILURE;
        }
    }
    ExitCode::SUCCESS
}
