//! Reading a record from JSON, and saying what is wrong with one.

use serde::de::DeserializeOwned;
use serde_json::Value;

use super::VERSION;

/// Why a record could not be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    /// Not JSON, or not the fields a record has.
    #[error("{at}: {problem}")]
    Malformed {
        /// Where in the file.
        at: String,
        /// What is wrong there.
        problem: String,
    },
    /// The file can be read, but it is another kind than was asked for.
    #[error("format: this is \"{found}\", not \"{wanted}\"")]
    OtherFormat {
        /// What it says it is.
        found: String,
        /// What was looked for.
        wanted: &'static str,
    },
    /// Written by a newer version of the tool.
    #[error("version: {found} is newer than this tool reads (up to {VERSION})")]
    Newer {
        /// The version it says.
        found: u64,
    },
}

/// Reads a record of a format, bringing one of an earlier version up to this one.
///
/// # Errors
/// [`Unreadable`], naming where and why.
pub fn read<T: DeserializeOwned>(text: &str, format: &'static str) -> Result<T, Unreadable> {
    let (found, json) = open(text)?;
    if found != format {
        return Err(Unreadable::OtherFormat { found, wanted: format });
    }
    shape(&json)
}

/// The JSON of any record of this project, brought up to this version, and what format it says
/// it is: for whoever reads several formats.
///
/// # Errors
/// [`Unreadable::Malformed`] for what is no record at all, [`Unreadable::Newer`].
pub fn open(text: &str) -> Result<(String, String), Unreadable> {
    let mut value: Value = serde_json::from_str(text).map_err(|error| malformed("file", &error))?;
    bring_up(&mut value)?;
    match value.get("format").and_then(Value::as_str) {
        Some(format) => Ok((format.to_owned(), value.to_string())),
        None => Err(Unreadable::Malformed {
            at: "format".to_owned(),
            problem: "missing, so this is no file of this tool".to_owned(),
        }),
    }
}

/// The record that JSON of its format holds.
///
/// ```
/// use pailwise_calc::record::{Unreadable, DoneRecord, shape};
/// let wrong = shape::<Vec<DoneRecord>>(r#"[{"ended_at_m": true}]"#);
/// let Err(Unreadable::Malformed { at, .. }) = wrong else { panic!("{wrong:?}") };
/// assert_eq!(at, "[0].ended_at_m");
/// ```
///
/// # Errors
/// [`Unreadable::Malformed`], naming where and why.
pub fn shape<T: DeserializeOwned>(text: &str) -> Result<T, Unreadable> {
    serde_json::from_str(text).map_err(|error| {
        // Where it stands is named by its fields; lines mean nothing to whoever typed none.
        let problem = error.to_string();
        let problem = problem.split(" at line ").next().unwrap_or_default().to_owned();
        Unreadable::Malformed { at: place(text, &error), problem }
    })
}

/// The fields that lead to where reading stopped. The text up to there is read as any JSON: it
/// breaks off at that very place, and one kind of value is tracked instead of every record's own,
/// which would be a tenth of the app.
fn place(text: &str, error: &serde_json::Error) -> String {
    let lines = text.split_inclusive('\n').take(error.line().saturating_sub(1));
    let stopped = lines.map(str::len).sum::<usize>() + error.column();
    let before = &text.as_bytes()[..stopped.saturating_sub(1).min(text.len())];
    let broken_off = &mut serde_json::Deserializer::from_slice(before);
    let at = serde_path_to_error::deserialize::<_, Value>(broken_off)
        .map_or_else(|error| error.path().to_string(), |_| ".".to_owned());
    if at == "." || at == "?" { "file".to_owned() } else { at }
}

fn malformed(at: &str, error: &serde_json::Error) -> Unreadable {
    Unreadable::Malformed { at: at.to_owned(), problem: error.to_string() }
}

/// Brings a record, and every record inside it, up to this version.
///
/// Version 1 to 2: a product got prices, recoat and service times, limits, notes and the name of
/// its sheet, a pot life the volume of its sample. All of them may be missing, so only the number
/// changes; an older tool must not read what it would drop. Version 2 to 3, likewise: a floor got
/// its date and the readings of its surface, conditions the humidity, a coat what is expected
/// tonight. Version 3 to 4, likewise: a pot life got how it was measured, an open time its humidity,
/// conditions where the material was read, a product what the crew learnt of a lot. Version 4 to 5:
/// a crew counts who mixes, where it said whether somebody does; a coat got tape lines and crews.
fn bring_up(value: &mut Value) -> Result<(), Unreadable> {
    match value {
        Value::Array(items) => items.iter_mut().try_for_each(bring_up),
        Value::Object(fields) => {
            if fields.contains_key("format") {
                match fields.get("version").and_then(Value::as_u64) {
                    Some(found @ 1..) if found <= u64::from(VERSION) => {
                        fields.insert("version".to_owned(), VERSION.into());
                    }
                    Some(found @ 1..) => return Err(Unreadable::Newer { found }),
                    _ => {
                        return Err(Unreadable::Malformed {
                            at: "version".to_owned(),
                            problem: "missing, or not a whole number from 1".to_owned(),
                        });
                    }
                }
            }
            if let Some(mixes) = fields.get("mixer").and_then(Value::as_bool) {
                fields.remove("mixer");
                fields.insert("mixers".to_owned(), u32::from(mixes).into());
            }
            fields.values_mut().try_for_each(bring_up)
        }
        _ => Ok(()),
    }
}
