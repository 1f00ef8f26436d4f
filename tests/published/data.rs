//! The reference data as it is stored.

use std::path::Path;

use serde::Deserialize;
use serde::de::DeserializeOwned;

/// The cases of a file of the reference data.
pub(crate) fn cases<T: DeserializeOwned>(name: &str) -> Vec<T> {
    #[derive(Deserialize)]
    struct File<T> {
        cases: Vec<T>,
    }
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/reference").join(name);
    let file: File<T> = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    file.cases
}
