//! The latest time that the phone's clock has shown, as it is kept: with a checksum, since every
//! batch under way is counted against it.
//!
//! `1795000000000 3f1a2b4c`: milliseconds since 1970, UTC, and the CRC-32 of those figures. The first
//! versions of the app wrote it bare; that is still read where it is no more than a day ahead.

use pailwise_kept::envelope::checksum;

use super::{LATEST, raw};

/// A day, in milliseconds.
const DAY: f64 = 86_400_000.0;

/// As it is kept.
pub(crate) fn text(ms: f64) -> String {
    let figures = format!("{ms:.0}");
    format!("{figures} {:08x}", checksum(&figures))
}

/// What is kept, at a moment that is believed; the beginning of time where nothing is, or what
/// stands there is damaged.
pub(crate) fn read(now_ms: f64) -> f64 {
    raw(LATEST).and_then(|text| of_text(&text, now_ms)).unwrap_or(0.0)
}

fn of_text(text: &str, now_ms: f64) -> Option<f64> {
    let (figures, sum) = text.split_once(' ').map_or((text, None), |(f, sum)| (f, Some(sum)));
    let ms: f64 = figures.parse().ok()?;
    let fits = match sum {
        Some(sum) => u32::from_str_radix(sum, 16).is_ok_and(|sum| sum == checksum(figures)),
        None => ms <= now_ms + DAY,
    };
    // A calendar goes no further (ECMA-262, time values).
    (fits && (0.0..=8.64e15).contains(&ms)).then_some(ms)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_is_read_and_what_is_damaged_is_not() {
        let now = 1.795e12;
        assert_eq!(of_text(&text(now), now), Some(now));
        // A clock that really was far ahead, and is right again.
        assert_eq!(of_text(&text(now * 2.0), now), Some(now * 2.0));
        assert_eq!(of_text("1795000000000", now), Some(now));
        let wrong = ["inf", "Infinity", "1e400", "NaN", "1e300", "9795000000000", "-1", ""];
        for damaged in wrong {
            assert_eq!(of_text(damaged, now), None, "{damaged}");
        }
        let flipped = text(now).replacen('1', "9", 1);
        assert_eq!(of_text(&flipped, now), None);
    }
}
