//! Reading quantities as people type them: `3/4`, `7 1/2`, `1,5`, `7'6"`, `2 gal 1 qt`.

/// A number as a person writes it: with a point or a comma, a fraction, or both.
///
/// `None` for anything that is not one. A comma followed by exactly three digits after one to
/// three others separates thousands; any other comma is a decimal one.
///
/// ```
/// use pailwise_kept::read::number;
/// assert_eq!(number("7 1/2"), Some(7.5));
/// assert_eq!(number("1,5"), Some(1.5));
/// assert_eq!(number("1,500"), Some(1500.0));
/// assert_eq!(number("seven"), None);
/// ```
pub fn number(text: &str) -> Option<f64> {
    let text = text.trim().replace(['\u{2212}', '\u{2013}'], "-");
    let text = SIGNS.iter().fold(text, |text, (sign, typed)| text.replace(*sign, typed));
    let mut words = text.split_whitespace();
    let (first, second) = (words.next()?, words.next());
    if words.next().is_some() {
        return None;
    }
    match second {
        None => fraction(first).or_else(|| plain(first)),
        Some(part) => {
            let (whole, part) = (plain(first)?, fraction(part)?);
            (whole.fract() == 0.0 && part < 1.0)
                .then(|| if first.starts_with('-') { whole - part } else { whole + part })
        }
    }
}

/// Fractions that have a sign of their own.
const SIGNS: [(char, &str); 7] = [
    ('⅛', " 1/8"),
    ('¼', " 1/4"),
    ('⅜', " 3/8"),
    ('½', " 1/2"),
    ('⅝', " 5/8"),
    ('¾', " 3/4"),
    ('⅞', " 7/8"),
];

/// Amounts with their units, added up: `2 gal 1 qt`, `9 lb 10.3 oz`; or a bare number.
///
/// Each unit is named with how much it is in the unit that a bare number means; lower case. `None`
/// for a unit that is not there, or a bare number after one with a unit.
///
/// ```
/// use pailwise_kept::read::amounts;
/// let quarts = [("qt", 1.0), ("gal", 4.0), ("fl oz", 1.0 / 32.0)];
/// assert_eq!(amounts("2 gal 1½ qt", &quarts), Some(9.5));
/// assert_eq!(amounts("3", &quarts), Some(3.0));
/// assert_eq!(amounts("3 lb", &quarts), None);
/// ```
pub fn amounts(text: &str, units: &[(&str, f64)]) -> Option<f64> {
    let text = typewritten(text).to_lowercase();
    let mut rest = text.as_str();
    let mut sum = None;
    while !rest.is_empty() {
        let end = rest.find(|c: char| !is_of_number(c)).unwrap_or(rest.len());
        let (amount, after) = (number(&rest[..end])?, &rest[end..]);
        let named = units.iter().filter(|(unit, _)| after.starts_with(unit));
        let factor = match named.max_by_key(|(unit, _)| unit.len()) {
            Some((unit, factor)) => {
                rest = after[unit.len()..].trim_start_matches(['.', ',']).trim_start();
                *factor
            }
            None if sum.is_none() && after.is_empty() => {
                rest = after;
                1.0
            }
            None => return None,
        };
        if sum.is_some() && amount < 0.0 {
            return None;
        }
        sum = Some(sum.unwrap_or(0.0) + amount * factor);
    }
    sum
}

/// Whether a character may stand in a number or between its parts.
fn is_of_number(c: char) -> bool {
    c.is_ascii_digit()
        || c.is_whitespace()
        || matches!(c, '.' | ',' | '/' | '-' | '+' | '\u{2212}' | '\u{2013}')
        || SIGNS.iter().any(|(sign, _)| *sign == c)
}

/// A length in feet: plain feet, or feet and inches as `7'6"`, `7' 6 1/2"`, `6"`.
///
/// ```
/// use pailwise_kept::read::feet;
/// assert_eq!(feet("7'6\""), Some(7.5));
/// assert_eq!(feet("7.5"), Some(7.5));
/// assert_eq!(feet("6\""), Some(0.5));
/// ```
pub fn feet(text: &str) -> Option<f64> {
    let text = typewritten(text);
    let (feet, inches) = match text.split_once('\'') {
        Some((feet, inches)) => (number(feet)?, inches.trim()),
        None if text.ends_with('"') => (0.0, text.as_str()),
        None => {
            return amounts(
                &text,
                &[("ft", 1.0), ("in", 1.0 / 12.0), ("pies", 1.0), ("pulg", 1.0 / 12.0)],
            );
        }
    };
    if inches.is_empty() {
        return Some(feet);
    }
    let inches = number(inches.strip_suffix('"').unwrap_or(inches))?;
    (0.0..12.0).contains(&inches).then_some(feet + inches / 12.0)
}

/// A text with the marks of feet and inches as a typewriter has them.
fn typewritten(text: &str) -> String {
    text.trim().replace(['\u{2019}', '\u{2032}'], "'").replace(['\u{201d}', '\u{2033}'], "\"")
}

fn fraction(text: &str) -> Option<f64> {
    let (over, under) = text.split_once('/')?;
    let digits = |s: &str| !s.is_empty() && s.bytes().all(|b| b.is_ascii_digit());
    if !digits(over) || !digits(under) {
        return None;
    }
    let (over, under): (f64, f64) = (over.parse().ok()?, under.parse().ok()?);
    (under > 0.0).then(|| over / under)
}

fn plain(text: &str) -> Option<f64> {
    let digits = text.strip_prefix(['-', '+']).unwrap_or(text);
    let allowed = |b: u8| b.is_ascii_digit() || b == b'.' || b == b',';
    if digits.is_empty()
        || !digits.bytes().all(allowed)
        || !digits.bytes().any(|b| b.is_ascii_digit())
    {
        return None;
    }
    let text = if is_grouped(digits) { text.replace(',', "") } else { text.replace(',', ".") };
    text.parse().ok().filter(|x: &f64| x.is_finite())
}

/// Commas that separate thousands: `1,500` or `12,000.5`, not `1,5`.
fn is_grouped(digits: &str) -> bool {
    let whole = digits.split('.').next().unwrap_or(digits);
    let mut groups = whole.split(',');
    let first = groups.next().unwrap_or("");
    let rest: Vec<&str> = groups.collect();
    !rest.is_empty()
        && (1..=3).contains(&first.len())
        && first != "0"
        && rest.iter().all(|group| group.len() == 3)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_as_people_type_them() {
        let cases = [
            ("3/4", Some(0.75)),
            (" 2 ", Some(2.0)),
            ("¼", Some(0.25)),
            ("2½", Some(2.5)),
            ("2.5", Some(2.5)),
            ("2,5", Some(2.5)),
            ("0,375", Some(0.375)),
            ("12,000.5", Some(12_000.5)),
            ("-4", Some(-4.0)),
            ("-4 1/2", Some(-4.5)),
            ("\u{2212}4", Some(-4.0)),
            (".5", Some(0.5)),
            ("", None),
            (".", None),
            ("1/0", None),
            ("1.2.3", None),
            ("1 2", None),
            ("1 3/2", None),
            ("1e9", None),
            ("NaN", None),
            ("inf", None),
            ("7'6", None),
        ];
        for (text, wanted) in cases {
            assert_eq!(number(text), wanted, "{text:?}");
        }
    }

    #[test]
    fn amounts_with_their_units() {
        let pounds = [("lb", 1.0), ("oz", 1.0 / 16.0)];
        let cases = [
            ("9 lb 8 oz", Some(9.5)),
            ("9LB", Some(9.0)),
            ("8 oz", Some(0.5)),
            ("9,5", Some(9.5)),
            ("2⅜ lb", Some(2.375)),
            ("9 lb -8 oz", None),
            ("9 lb 8", None),
            ("lb", None),
            ("9 stone", None),
            ("", None),
        ];
        for (text, wanted) in cases {
            assert_eq!(amounts(text, &pounds), wanted, "{text:?}");
        }
    }

    #[test]
    fn feet_and_inches() {
        let cases = [
            ("7'6\"", Some(7.5)),
            ("7' 6 3/4\"", Some(7.5625)),
            ("7\u{2019}", Some(7.0)),
            ("7'13\"", None),
            ("7' x", None),
            ("18\"", None),
            ("20", Some(20.0)),
            ("7 ft 6 in", Some(7.5)),
            ("7 pies 6 pulg.", Some(7.5)),
            ("18 in", Some(1.5)),
            ("7 ft 6", None),
        ];
        for (text, wanted) in cases {
            assert_eq!(feet(text), wanted, "{text:?}");
        }
    }

    #[test]
    fn inches_with_feet_before_them() {
        let inches = [("\"", 1.0), ("'", 12.0)];
        assert_eq!(amounts("5'3 1/8\"", &inches), Some(63.125));
        assert_eq!(amounts("5\u{2032} 3\u{2033}", &inches), Some(63.0));
    }
}
