//! How a floor comes over to the temperature of its air.

/// So long a floor takes to come two thirds of the way to its air: `τ = ρ c d / h`, 100 mm of
/// concrete that gives its heat to the air above it.
///
/// 2300 kg/m³ × 880 J/(kg·K) × 0.1 m / 9.26 W/(m²·K) = 21 900 s, 6.07 h. Figures of the ASHRAE
/// Handbook, Fundamentals, for normal concrete and for a floor that is warmer than the air, from
/// memory.
const PACE: f64 = 2300.0 * 880.0 * 0.1 / 9.26;

/// A floor that comes over to its air: `dy/dt = (x − y) / τ`, solved exactly along the straight
/// lines of the air, which stays level after the last.
///
/// All in kelvin above the air at the start.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Lag(Vec<Point>);

/// Where a straight line of the air begins.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Point {
    /// Seconds from the start.
    at: f64,
    air: f64,
    /// How much the air changes in a second from here on.
    slope: f64,
    floor: f64,
}

impl Point {
    fn floor(&self, at: f64) -> f64 {
        let since = at - self.at;
        let behind = self.slope * PACE;
        let line = self.air + self.slope * since - behind;
        line + (self.floor - self.air + behind) * (-since / PACE).exp()
    }
}

impl Lag {
    /// A floor that is so much above the air at the start, under air that follows these points,
    /// given by seconds and rising in them.
    pub(super) fn new(air: &[(f64, f64)], floor: f64) -> Self {
        let mut points: Vec<Point> = Vec::with_capacity(air.len());
        for (i, &(at, value)) in air.iter().enumerate() {
            let next = air.get(i + 1).filter(|next| next.0 > at);
            let slope = next.map_or(0.0, |next| (next.1 - value) / (next.0 - at));
            let floor = points.last().map_or(floor, |last| last.floor(at));
            points.push(Point { at, air: value, slope, floor });
        }
        Self(points)
    }

    /// How much the floor has changed by a time in seconds from the start; nothing where nothing
    /// is known of the air.
    pub(super) fn change(&self, at: f64) -> f64 {
        let first = self.0.first();
        let next = self.0.partition_point(|point| point.at <= at);
        let point = self.0.get(next.saturating_sub(1)).zip(first);
        point.map_or(0.0, |(point, first)| point.floor(at) - first.floor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HOUR: f64 = 3600.0;

    #[test]
    fn an_excess_dies_out_as_in_the_text_books() {
        // 8 K above level air: after one τ 8/e are left.
        let lag = Lag::new(&[(0.0, 0.0)], 8.0);
        let left = 8.0 + lag.change(PACE);
        assert!((left - 8.0 / std::f64::consts::E).abs() < 1e-12);
        assert!((PACE / HOUR - 6.07).abs() < 0.01);
    }

    #[test]
    fn behind_air_that_warms_steadily_it_stays_its_pace_behind() {
        // 1 K/h for four days: 6.07 K behind in the end, then it catches up.
        let lag = Lag::new(&[(0.0, 0.0), (96.0 * HOUR, 96.0)], 0.0);
        assert!((96.0 - lag.change(96.0 * HOUR) - PACE / HOUR).abs() < 1e-5);
        assert!((lag.change(200.0 * HOUR) - 96.0).abs() < 1e-5);
    }

    #[test]
    fn a_line_cut_in_two_is_the_same_line() {
        let whole = Lag::new(&[(0.0, 0.0), (7200.0, 5.0)], -2.0);
        let cut = Lag::new(&[(0.0, 0.0), (1800.0, 1.25), (7200.0, 5.0)], -2.0);
        for h in [0.2, 0.5, 1.0, 2.0, 9.0] {
            assert!((whole.change(h * HOUR) - cut.change(h * HOUR)).abs() < 1e-12);
        }
    }

    /// Two readings of one hour are a jump of the air, which the floor follows at its pace.
    #[test]
    fn an_hour_said_twice_is_a_jump() {
        let lag = Lag::new(&[(0.0, 0.0), (HOUR, 0.0), (HOUR, 6.0)], 0.0);
        assert_eq!(lag.change(HOUR), 0.0);
        let expected = 6.0 * (1.0 - (-HOUR / PACE).exp());
        assert!((lag.change(2.0 * HOUR) - expected).abs() < 1e-12);
    }

    #[test]
    fn nothing_known_of_the_air_changes_nothing() {
        assert_eq!(Lag::new(&[], 5.0).change(30.0 * HOUR), 0.0);
    }
}
