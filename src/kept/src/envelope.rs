//! How a record stands in storage: in an envelope with a checksum of its text.
//!
//! `{"format":"pailwise-kept","version":1,"crc32":…,"record":{…}}`. The checksum is CRC-32/ISO-HDLC
//! over the bytes of the record as they stand there. Records of the first version of the app stand
//! bare, without envelope; they are read for ever.

use crc::{CRC_32_ISO_HDLC, Crc};
use pailwise_calc::record::{self, Unreadable};
use serde::Deserialize;
use serde_json::value::RawValue;

use crate::records::Record;

const CRC: Crc<u32> = Crc::<u32>::new(&CRC_32_ISO_HDLC);
const FORMAT: &str = "pailwise-kept";
const VERSION: u32 = 1;

/// The checksum of a text.
pub fn checksum(text: &str) -> u32 {
    CRC.checksum(text.as_bytes())
}

/// A record's text in its envelope.
///
/// ```
/// use pailwise_kept::envelope::{unwrap, wrap};
/// let kept = wrap(r#"{"a":1}"#);
/// assert_eq!(unwrap(&kept).unwrap(), r#"{"a":1}"#);
/// assert!(unwrap(&kept.replace("\"a\":1", "\"a\":2")).is_err());
/// ```
pub fn wrap(record: &str) -> String {
    let sum = checksum(record);
    format!(r#"{{"format":"{FORMAT}","version":{VERSION},"crc32":{sum},"record":{record}}}"#)
}

#[derive(Deserialize)]
struct Envelope<'a> {
    format: String,
    version: u64,
    crc32: u32,
    #[serde(borrow)]
    record: &'a RawValue,
}

#[derive(Deserialize)]
struct Said {
    format: String,
    version: u64,
}

/// Whether a newer version of the app wrote a text, envelope or record.
///
/// ```
/// use pailwise_kept::envelope::{is_newer, wrap};
/// assert!(is_newer(&wrap(r#"{"format":"pailwise-mix","version":999}"#)));
/// assert!(!is_newer(&wrap(r#"{"format":"pailwise-mix","version":1}"#)) && !is_newer("{"));
/// ```
pub fn is_newer(text: &str) -> bool {
    match unwrap(text) {
        Ok(record) => serde_json::from_str::<Said>(record)
            .is_ok_and(|said| said.version > u64::from(record::VERSION)),
        Err(why) => matches!(why, Unreadable::Newer { .. }),
    }
}

/// The record's text out of its envelope; a text without one as it is.
///
/// # Errors
/// [`Unreadable::Newer`] for an envelope to come, [`Unreadable::Malformed`] for one that is broken
/// or whose checksum is not that of what it holds.
pub fn unwrap(text: &str) -> Result<&str, Unreadable> {
    let broken = |problem: &str| Unreadable::Malformed {
        at: "envelope".to_owned(),
        problem: problem.to_owned(),
    };
    let said: Said = serde_json::from_str(text).map_err(|error| broken(&error.to_string()))?;
    if said.format != FORMAT {
        return Ok(text);
    }
    if said.version > u64::from(VERSION) {
        return Err(Unreadable::Newer { found: said.version });
    }
    let envelope: Envelope =
        serde_json::from_str(text).map_err(|error| broken(&error.to_string()))?;
    debug_assert!(envelope.format == FORMAT && envelope.version == said.version);
    let record = envelope.record.get();
    if checksum(record) == envelope.crc32 {
        Ok(record)
    } else {
        Err(broken("the checksum is not that of the record"))
    }
}

/// The record that a text in storage holds.
///
/// # Errors
/// Why it holds none.
pub fn read<T: Record>(text: &str) -> Result<T, Unreadable> {
    record::read(unwrap(text)?, T::FORMAT)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms
    /// (G. Cook, reveng.sourceforge.io/crc-catalogue).
    #[test]
    fn the_checksum_is_the_published_one() {
        assert_eq!(checksum("123456789"), 0xCBF4_3926);
    }

    #[test]
    fn any_single_byte_that_changes_is_noticed() {
        let record = r#"{"format":"pailwise-mix","version":2,"n":12.5}"#;
        let kept = wrap(record);
        for at in 0..kept.len() {
            let mut bytes = kept.clone().into_bytes();
            // Digits to other digits, all else to a letter: what stays JSON is the harder case.
            bytes[at] = if bytes[at].is_ascii_digit() { b'7' } else { b'q' };
            let changed = String::from_utf8(bytes).unwrap();
            assert!(changed == kept || unwrap(&changed) != Ok(record), "{changed}");
        }
    }

    #[test]
    fn a_bare_record_is_itself_and_a_newer_envelope_is_said() {
        let bare = r#"{"format":"pailwise-mix","version":1}"#;
        assert_eq!(unwrap(bare).unwrap(), bare);
        let newer = wrap(bare).replacen("\"version\":1", "\"version\":2", 1);
        assert_eq!(unwrap(&newer), Err(Unreadable::Newer { found: 2 }));
        assert!(unwrap("").is_err());
    }
}
