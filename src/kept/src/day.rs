//! Times of day, as a phone's own field for one writes them.

/// The time of day of minutes after midnight, as the phone's own field takes it.
pub fn time_of_day(minutes: f64) -> String {
    let whole = (minutes.max(0.0) as u32) % (24 * 60);
    format!("{:02}:{:02}", whole / 60, whole % 60)
}

/// Minutes after midnight of `09:24`, as the phone's own field for a time writes it; nothing for
/// what is no time of day.
pub fn minutes_of_day(text: &str) -> Option<f64> {
    let (hours, minutes) = text.split_once(':')?;
    let (hours, minutes): (u32, u32) = (hours.parse().ok()?, minutes.get(..2)?.parse().ok()?);
    (hours < 24 && minutes < 60).then(|| f64::from(hours * 60 + minutes))
}
