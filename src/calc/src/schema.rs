//! The JSON Schema of each record, made from the types; only with the feature `schema`.

use schemars::schema_for;

use crate::record::{FloorRecord, JobRecord, ProductRecord, ShelfRecord, VERSION};

/// The file name of each schema, and its text.
pub fn schemas() -> Vec<(&'static str, String)> {
    [
        ("product.schema.json", ProductRecord::FORMAT, schema_for!(ProductRecord)),
        ("products.schema.json", ShelfRecord::FORMAT, schema_for!(ShelfRecord)),
        ("floor.schema.json", FloorRecord::FORMAT, schema_for!(FloorRecord)),
        ("job.schema.json", JobRecord::FORMAT, schema_for!(JobRecord)),
    ]
    .into_iter()
    .map(|(name, format, mut schema)| {
        if let Some(properties) = schema.get_mut("properties") {
            properties["format"]["const"] = format.into();
            properties["version"]["maximum"] = VERSION.into();
            properties["version"]["minimum"] = 1.into();
        }
        let text = serde_json::to_string_pretty(&schema).unwrap_or_default();
        (name, text + "\n")
    })
    .collect()
}
