//! Numbers as they are written: rounded to a side, with thousands apart, or as whole and fraction.

/// To which side a number is rounded when it is written.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Rounding {
    /// Never more than it is: for amounts, areas, times.
    Down,
    /// Never less than it is.
    Up,
    Nearest,
}

/// A part of a quarter quart (or of an eighth inch) small enough to be rounding noise.
pub(super) const NOISE: f64 = 1e-5;

/// A number with at most so many places, thousands separated, zeros at the end dropped.
pub(super) fn decimal(value: f64, places: u8, rounding: Rounding) -> String {
    let scale = 10_f64.powi(i32::from(places));
    let scaled = match rounding {
        // A hair up first, so that what is a whole step already stays one.
        Rounding::Down => (value * scale * (1.0 + 1e-9)).floor(),
        Rounding::Up => (value * scale * (1.0 - 1e-9)).ceil(),
        Rounding::Nearest => (value * scale).round(),
    };
    let text = format!("{:.*}", usize::from(places), (scaled / scale).abs());
    let (whole, part) = text.split_once('.').unwrap_or((&text, ""));
    let mut grouped = String::new();
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    let part = part.trim_end_matches('0');
    let sign = if scaled < 0.0 { "\u{2212}" } else { "" };
    if part.is_empty() { format!("{sign}{grouped}") } else { format!("{sign}{grouped}.{part}") }
}

pub(super) fn tenths(value: f64) -> String {
    decimal(value, 1, Rounding::Nearest)
}

/// So many parts of a whole, as a whole number and a fraction: 11 quarters are 2¾, 5 sixteenths
/// 5/16.
pub(super) fn mixed(parts: f64, of: u8) -> String {
    let parts = parts.max(0.0);
    let (whole, rest) = ((parts / f64::from(of)).floor(), parts.rem_euclid(f64::from(of)));
    let sixteenths = (rest / f64::from(of) * 16.0) as u8;
    let fraction = match sixteenths {
        0 => String::new(),
        2 => "⅛".to_owned(),
        4 => "¼".to_owned(),
        6 => "⅜".to_owned(),
        8 => "½".to_owned(),
        10 => "⅝".to_owned(),
        12 => "¾".to_owned(),
        14 => "⅞".to_owned(),
        odd => format!("{odd}/16"),
    };
    if whole == 0.0 && !fraction.is_empty() {
        return fraction;
    }
    let gap = if fraction.contains('/') { " " } else { "" };
    format!("{}{gap}{fraction}", decimal(whole, 0, Rounding::Nearest))
}
