//! Times, as a person reads them.

use std::time::Duration;

/// A length of time: tenths of a second while they matter, minutes once there are any.
pub(crate) fn spent(time: Duration) -> String {
    let seconds = time.as_secs();
    if seconds < 60 {
        format!("{:.1} s", time.as_secs_f64())
    } else {
        format!("{} min {:02} s", seconds / 60, seconds % 60)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_times_have_tenths_and_long_ones_minutes() {
        assert_eq!(spent(Duration::from_millis(1_449)), "1.4 s");
        assert_eq!(spent(Duration::from_millis(59_900)), "59.9 s");
        assert_eq!(spent(Duration::from_secs(367)), "6 min 07 s");
    }
}
