//! Reading a record from JSON, and saying what is wrong with one.

use serde::Deserialize;

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
    /// Some other file.
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
        found: u32,
    },
}

#[derive(Deserialize)]
struct Envelope {
    format: String,
    version: u32,
}

/// Reads a record of a format: the envelope first, so that a newer file is told from a broken one.
///
/// # Errors
/// [`Unreadable`], naming where and why.
pub fn read<T: for<'de> Deserialize<'de>>(
    text: &str,
    format: &'static str,
) -> Result<T, Unreadable> {
    let envelope: Envelope = parse(text)?;
    if envelope.format != format {
        return Err(Unreadable::OtherFormat { found: envelope.format, wanted: format });
    }
    if envelope.version > VERSION {
        return Err(Unreadable::Newer { found: envelope.version });
    }
    parse(text)
}

fn parse<T: for<'de> Deserialize<'de>>(text: &str) -> Result<T, Unreadable> {
    let mut deserializer = serde_json::Deserializer::from_str(text);
    let value = serde_path_to_error::deserialize(&mut deserializer).map_err(|error| {
        let at = error.path().to_string();
        let at = if at == "." || at == "?" { "file".to_owned() } else { at };
        Unreadable::Malformed { at, problem: error.into_inner().to_string() }
    })?;
    deserializer.end().map_err(|error| Unreadable::Malformed {
        at: "file".to_owned(),
        problem: error.to_string(),
    })?;
    Ok(value)
}
