//! Words in a record: names, labels, notes. They come from other people's phones too.

use crate::error::Error;
use crate::field::Field;

/// A text of `least` to `most` characters, none of which moves or hides what stands around it.
///
/// Control characters and the marks that turn the direction of writing can make a text read as
/// something it is not (Unicode Technical Report 36). Notes may have lines.
pub(crate) fn check(field: Field, text: &str) -> Result<(), Error> {
    let (least, most) = length(field);
    let count = text.chars().take(most + 1).count();
    if count > most || text.trim().chars().count() < least {
        return Err(Error::TextLength { field, least, most });
    }
    let lines = field == Field::Notes;
    match text.chars().find(|c| deceives(*c) && !(lines && *c == '\n')) {
        Some(sign) => Err(Error::TextSign { field, sign: sign as u32 }),
        None => Ok(()),
    }
}

/// A name for a key: letters, digits, `-` and `_`.
pub(crate) fn check_id(text: &str) -> Result<(), Error> {
    check(Field::Id, text)?;
    match text.chars().find(|c| !(c.is_ascii_alphanumeric() || matches!(c, '-' | '_'))) {
        Some(sign) => Err(Error::TextSign { field: Field::Id, sign: sign as u32 }),
        None => Ok(()),
    }
}

/// A moment: RFC 3339 in UTC to the second, so that later ones sort after earlier ones.
pub(crate) fn check_moment(text: &str) -> Result<(), Error> {
    let shape = b"0000-00-00T00:00:00Z";
    let fits = text.len() == shape.len()
        && text.bytes().zip(shape).all(|(given, wanted)| match wanted {
            b'0' => given.is_ascii_digit(),
            sign => given == *sign,
        });
    if fits { Ok(()) } else { Err(Error::Unreadable { field: Field::Revised }) }
}

/// A date: `2026-11-25`, its month from 1 to 12, its day from 1 to 31.
pub(crate) fn check_date(text: &str) -> Result<(), Error> {
    let number = |part: Option<&str>, digits: usize| {
        let part = part.filter(|part| part.len() == digits)?;
        part.bytes().all(|b| b.is_ascii_digit()).then(|| part.parse::<u32>().ok()).flatten()
    };
    let mut parts = text.split('-');
    let date = (number(parts.next(), 4), number(parts.next(), 2), number(parts.next(), 2));
    let fits = matches!(date, (Some(_), Some(1..=12), Some(1..=31))) && parts.next().is_none();
    if fits { Ok(()) } else { Err(Error::Unreadable { field: Field::FirstDay }) }
}

/// Three letters of ISO 4217.
pub(crate) fn check_currency(text: &str) -> Result<(), Error> {
    let fits = text.len() == 3 && text.bytes().all(|letter| letter.is_ascii_uppercase());
    if fits { Ok(()) } else { Err(Error::Unreadable { field: Field::Currency }) }
}

/// How many characters a text may have.
pub(crate) fn length(field: Field) -> (usize, usize) {
    match field {
        Field::Label => (1, 12),
        Field::Notes => (0, 4000),
        Field::Lot => (0, 40),
        Field::Sheet => (0, 120),
        Field::Id => (1, 64),
        _ => (1, 80),
    }
}

fn deceives(sign: char) -> bool {
    sign.is_control()
        || matches!(sign,
            '\u{061c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
            | '\u{feff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_that_deceive_or_flood_are_refused() {
        assert!(check(Field::Name, "Capa base 2:1 “gris”").is_ok());
        assert!(check(Field::Notes, "one\ntwo").is_ok());
        for (field, text) in [
            (Field::Name, ""),
            (Field::Name, "   "),
            (Field::Name, "two\nlines"),
            (Field::Name, "1:2 \u{202e}2:1"),
            (Field::Label, "A\u{200b}"),
            (Field::Label, "thirteen char"),
            (Field::Notes, "\u{0}"),
        ] {
            assert!(check(field, text).is_err(), "{text:?}");
        }
        assert!(check(Field::Notes, &"x".repeat(4001)).is_err());
        assert!(check_id("a-b_3").is_ok() && check_id("a/b").is_err() && check_id("").is_err());
        assert!(check_moment("2026-11-25T16:30:00Z").is_ok());
        assert!(check_moment("2026-11-25 16:30:00Z").is_err() && check_moment("").is_err());
        assert!(check_date("2026-11-25").is_ok() && check_date("2026-1-5").is_err());
        assert!(check_date("2026-13-01").is_err() && check_date("2026-11-25-1").is_err());
        assert!(check_currency("USD").is_ok() && check_currency("usd").is_err());
    }
}
