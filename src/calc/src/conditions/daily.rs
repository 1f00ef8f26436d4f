//! The air of a day: straight lines between points in time, and the days that come back.

/// A day in seconds.
pub(super) const DAY: f64 = 86_400.0;

/// After so long, in seconds, a floor has come over to its air but for 0.04 % of what it was off.
pub(super) const LEVEL: f64 = 2.0 * DAY;

/// Every half hour of three days, in seconds: a floor comes over in two of them, and the third
/// comes back.
pub(super) fn half_hours() -> impl Iterator<Item = f64> {
    (0..=144).map(|i| f64::from(i) * 1800.0)
}

/// When in [`half_hours`] it is as it is at a time, in seconds from the start.
pub(super) fn in_daily(at: f64) -> f64 {
    if at > LEVEL + DAY { LEVEL + at.rem_euclid(DAY) } else { at }
}

/// Straight lines between points, level before the first and after the last; 0 without any.
pub(super) fn linear(points: &[(f64, f64)], at: f64) -> f64 {
    let next = points.partition_point(|(t, _)| *t <= at);
    match (points.get(next.wrapping_sub(1)), points.get(next)) {
        (Some(a), Some(b)) => a.1 + (b.1 - a.1) * (at - a.0) / (b.0 - a.0),
        (Some(only), None) | (None, Some(only)) => only.1,
        (None, None) => 0.0,
    }
}

/// Half cosines between a low and a high that come back every day.
pub(super) fn between(low: (f64, f64), high: (f64, f64), at: f64) -> f64 {
    let since = |then: f64| (at - then).rem_euclid(DAY);
    let rise = (high.0 - low.0).rem_euclid(DAY);
    let share = if since(low.0) < rise {
        0.5 - 0.5 * (std::f64::consts::PI * since(low.0) / rise).cos()
    } else {
        0.5 + 0.5 * (std::f64::consts::PI * since(high.0) / (DAY - rise)).cos()
    };
    low.1 + (high.1 - low.1) * share
}
