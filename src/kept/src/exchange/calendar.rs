//! Entries for a calendar: iCalendar, RFC 5545. Times are in UTC, so that every calendar shows
//! them rightly in its own zone and on both sides of a clock change.

use time::OffsetDateTime;

/// One event in a calendar, such as a recoat window.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its name in the world: the same entry saved again takes the place of the one before.
    pub uid: String,
    /// When it begins, in milliseconds since 1970.
    pub starts_ms: f64,
    /// When it ends, in milliseconds since 1970, UTC.
    pub ends_ms: f64,
    /// The title that a calendar shows for it.
    pub summary: String,
    /// What else is to be known.
    pub description: String,
    /// So many minutes before it a phone reminds, if it is to.
    pub reminds_min: Option<u32>,
}

/// A calendar of some entries, as it was made at a moment in milliseconds since 1970.
///
/// ```
/// use pailwise_kept::exchange::calendar::{Entry, calendar};
/// let entry = Entry {
///     uid: "a@pailwise.invalid".to_owned(),
///     starts_ms: 1_795_608_000_000.0,
///     ends_ms: 1_795_611_600_000.0,
///     summary: "Light use; walk on it".to_owned(),
///     description: String::new(),
///     reminds_min: None,
/// };
/// let text = calendar(&[entry], 1_795_600_000_000.0);
/// assert!(text.contains("\r\nDTSTART:20261125T120000Z\r\n"));
/// assert!(text.contains("\r\nSUMMARY:Light use\\; walk on it\r\n"));
/// ```
pub fn calendar(entries: &[Entry], made_ms: f64) -> String {
    let mut lines = Lines(String::new());
    for line in ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Pailwise//Pailwise//EN"] {
        lines.line(line);
    }
    for entry in entries {
        lines.line("BEGIN:VEVENT");
        lines.line(&format!("UID:{}", text(&entry.uid)));
        for (name, at) in
            [("DTSTAMP", made_ms), ("DTSTART", entry.starts_ms), ("DTEND", entry.ends_ms)]
        {
            lines.line(&format!("{name}:{}", moment(at)));
        }
        lines.line(&format!("SUMMARY:{}", text(&entry.summary)));
        if !entry.description.is_empty() {
            lines.line(&format!("DESCRIPTION:{}", text(&entry.description)));
        }
        if let Some(minutes) = entry.reminds_min {
            lines.line("BEGIN:VALARM");
            lines.line("ACTION:DISPLAY");
            lines.line(&format!("TRIGGER:-PT{minutes}M"));
            lines.line(&format!("DESCRIPTION:{}", text(&entry.summary)));
            lines.line("END:VALARM");
        }
        lines.line("END:VEVENT");
    }
    lines.line("END:VCALENDAR");
    lines.0
}

/// Content lines, each folded after 75 octets (section 3.1).
struct Lines(String);

impl Lines {
    fn line(&mut self, line: &str) {
        let mut room = 75;
        for sign in line.chars() {
            if sign.len_utf8() > room {
                self.0.push_str("\r\n ");
                room = 74;
            }
            self.0.push(sign);
            room -= sign.len_utf8();
        }
        self.0.push_str("\r\n");
    }
}

/// A text as a value (section 3.3.11).
fn text(plain: &str) -> String {
    let mut escaped = String::new();
    for sign in plain.chars() {
        match sign {
            '\\' | ';' | ',' => escaped.extend(['\\', sign]),
            '\n' => escaped.push_str("\\n"),
            sign if sign.is_control() => {}
            sign => escaped.push(sign),
        }
    }
    escaped
}

/// A moment in UTC, to the second (section 3.3.5). What no calendar reaches is its first day.
fn moment(at_ms: f64) -> String {
    let at = OffsetDateTime::from_unix_timestamp((at_ms / 1000.0) as i64)
        .unwrap_or(OffsetDateTime::UNIX_EPOCH);
    format!(
        "{:04}{:02}{:02}T{:02}{:02}{:02}Z",
        at.year(),
        u8::from(at.month()),
        at.day(),
        at.hour(),
        at.minute(),
        at.second()
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lines_are_folded_between_signs() {
        let mut lines = Lines(String::new());
        lines.line(&"ñ".repeat(100));
        assert!(lines.0.split("\r\n").all(|line| line.len() <= 75));
        assert_eq!(lines.0.replace("\r\n ", "").trim_end(), "ñ".repeat(100));
    }

    #[test]
    fn what_would_end_a_line_or_a_value_is_escaped() {
        assert_eq!(text("a,b;c\\d\ne\r"), "a\\,b\\;c\\\\d\\ne");
    }
}
