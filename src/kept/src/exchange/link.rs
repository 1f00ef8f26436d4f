//! How a record is packed into a link, small enough for a code; what a link can carry is in
//! `received.rs`.
//!
//! A record in the fragment of a link: compressed, and nothing of it goes to any server.
//!
//! `1` and, in base64url (RFC 4648), four bytes of CRC-32 of the record's text, least first, and
//! the text in DEFLATE (RFC 1951). The compressor's window begins with a text that both sides
//! know, so that the keys of a record cost hardly anything and the QR code stays coarse.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::deflate::core::{
    CompressorOxide, TDEFLFlush, TDEFLStatus, compress, create_comp_flags_from_zip_params,
};
use miniz_oxide::inflate::TINFLStatus;
use miniz_oxide::inflate::core::inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
use miniz_oxide::inflate::core::{DecompressorOxide, decompress};

use crate::envelope::checksum;

/// What both sides know. It belongs to version 1 of the links and never changes.
const KNOWN: &str = include_str!("known-1.txt");
/// The version of links.
const VERSION: char = '1';
/// The most bytes of a record in a link.
const LONGEST: usize = 250_000;
/// The most characters of a link's packed part.
const LONGEST_PACKED: usize = 100_000;

/// What is the matter with a link.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Damaged {
    /// Cut off or changed on its way.
    Broken,
    /// Of a version to come.
    Newer,
    /// Longer than any link of this tool.
    TooLong,
}

/// Packs a record's text; `None` when it is too long for a link.
///
/// ```
/// use pailwise_kept::exchange::link::{pack, unpack};
/// let text = r#"{"format":"pailwise-product"}"#;
/// assert_eq!(unpack(&pack(text).unwrap()).unwrap(), text);
/// ```
pub fn pack(text: &str) -> Option<String> {
    if text.len() > LONGEST {
        return None;
    }
    let mut bytes = checksum(text).to_le_bytes().to_vec();
    bytes.extend(deflate(text.as_bytes())?);
    Some(format!("{VERSION}{}", URL_SAFE_NO_PAD.encode(bytes)))
}

/// The text that was packed.
///
/// # Errors
/// [`Damaged`].
pub fn unpack(packed: &str) -> Result<String, Damaged> {
    if packed.len() > LONGEST_PACKED {
        return Err(Damaged::TooLong);
    }
    // Messengers may add a blank or turn signs into their percent codes; neither is of the alphabet.
    let packed = packed.trim();
    let Some(body) = packed.strip_prefix(VERSION) else {
        let newer = packed.starts_with(|sign: char| ('2'..='9').contains(&sign));
        return Err(if newer { Damaged::Newer } else { Damaged::Broken });
    };
    let bytes = URL_SAFE_NO_PAD.decode(body).map_err(|_| Damaged::Broken)?;
    let (sum, body) = bytes.split_first_chunk::<4>().ok_or(Damaged::Broken)?;
    let text = String::from_utf8(inflate(body)?).map_err(|_| Damaged::Broken)?;
    if checksum(&text) == u32::from_le_bytes(*sum) { Ok(text) } else { Err(Damaged::Broken) }
}

/// Compressed after the known text, which is not in the result.
fn deflate(bytes: &[u8]) -> Option<Vec<u8>> {
    // Level 9; a negative window: no header and no trailer.
    let mut compressor = CompressorOxide::new(create_comp_flags_from_zip_params(9, -15, 0));
    let mut out = vec![0; 2 * (KNOWN.len() + bytes.len()) + 1024];
    let (status, ..) = compress(&mut compressor, KNOWN.as_bytes(), &mut out, TDEFLFlush::Sync);
    if status != TDEFLStatus::Okay {
        return None;
    }
    // What follows the flush begins on a byte, and reaches back into the known text.
    let (status, _, written) = compress(&mut compressor, bytes, &mut out, TDEFLFlush::Finish);
    out.truncate(written);
    (status == TDEFLStatus::Done).then_some(out)
}

fn inflate(bytes: &[u8]) -> Result<Vec<u8>, Damaged> {
    let start = KNOWN.len();
    let mut out = vec![0; start + LONGEST];
    out[..start].copy_from_slice(KNOWN.as_bytes());
    let flags = TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
    let (status, _, written) =
        decompress(&mut DecompressorOxide::new(), bytes, &mut out, start, flags);
    match status {
        TINFLStatus::Done => {
            out.truncate(start + written);
            Ok(out.split_off(start))
        }
        TINFLStatus::HasMoreOutput => Err(Damaged::TooLong),
        _ => Err(Damaged::Broken),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::demo;

    #[test]
    fn the_known_text_of_version_1_never_changes() {
        assert_eq!(
            checksum(KNOWN),
            0x6ff0_3257,
            "links that are out there could no longer be read"
        );
    }

    #[test]
    fn records_come_back_and_are_short() {
        for product in demo::records() {
            let text = serde_json::to_string(&product).unwrap();
            let packed = pack(&text).unwrap();
            assert_eq!(unpack(&packed).unwrap(), text);
            // 80 characters for the address: version 14 of a QR code at level L holds 458 bytes
            // (ISO/IEC 18004, table 7).
            assert!(packed.len() + 80 <= 458, "{}: {}", product.name, packed.len());
        }
    }

    #[test]
    fn a_link_cut_off_or_changed_is_refused() {
        let text = serde_json::to_string(&demo::record_base()).unwrap();
        let packed = pack(&text).unwrap();
        for end in 0..packed.len() {
            assert!(unpack(&packed[..end]).is_err(), "{end}");
        }
        for at in 1..packed.len() {
            let other = if packed.as_bytes()[at] == b'A' { "B" } else { "A" };
            let changed = format!("{}{other}{}", &packed[..at], &packed[at + 1..]);
            // Some bits of the last characters belong to no byte: then nothing is changed by them.
            assert!(unpack(&changed).map_or(true, |read| read == text), "{at}");
        }
        assert_eq!(unpack("2abc"), Err(Damaged::Newer));
        assert_eq!(unpack(""), Err(Damaged::Broken));
        assert_eq!(unpack(&"1".repeat(LONGEST_PACKED + 1)), Err(Damaged::TooLong));
    }

    #[test]
    fn a_small_link_that_swells_is_refused() {
        let mut bytes = vec![0; 4];
        bytes.extend(deflate(&vec![b' '; 10 * LONGEST]).unwrap());
        let packed = format!("{VERSION}{}", URL_SAFE_NO_PAD.encode(bytes));
        assert!(packed.len() < LONGEST_PACKED);
        assert_eq!(unpack(&packed), Err(Damaged::TooLong));
    }
}
