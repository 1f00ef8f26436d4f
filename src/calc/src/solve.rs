//! Finding where a monotone function crosses zero, and walking an equation forward.

/// The largest `x` in `low..=high` at which `margin` is not negative, to `tolerance` from below.
///
/// `margin` must fall as `x` grows. `None` when it is negative already at `low`. Uses the
/// Illinois form of false position (Dowell & Jarratt, BIT 11 (1971) 168), which keeps a bracket:
/// the answer is always from the side that holds.
pub(crate) fn largest_feasible(
    low: f64,
    high: f64,
    tolerance: f64,
    mut margin: impl FnMut(f64) -> f64,
) -> Option<f64> {
    let (mut a, mut b) = (low, high);
    let mut fb = margin(b);
    if fb >= 0.0 {
        return Some(b);
    }
    let mut fa = margin(a);
    if fa.is_nan() || fa < 0.0 {
        return None;
    }
    let mut last_moved_low = None;
    for round in 0..120 {
        if b - a <= tolerance {
            break;
        }
        // Every third step halves the bracket: where the margin is flat, as at no time needed and
        // none to spare, false position alone would creep.
        let cross = if round % 3 != 2 && fa.is_finite() && fb.is_finite() {
            a + (b - a) * fa / (fa - fb)
        } else {
            0.5 * (a + b)
        };
        // Stay a little off the ends, so that the bracket shrinks from both sides.
        let x = cross.clamp(a + 0.25 * tolerance, b - 0.25 * tolerance);
        let fx = margin(x);
        if fx >= 0.0 {
            (a, fa) = (x, fx);
            if last_moved_low == Some(true) {
                fb *= 0.5;
            }
            last_moved_low = Some(true);
        } else {
            (b, fb) = (x, fx);
            if last_moved_low == Some(false) {
                fa *= 0.5;
            }
            last_moved_low = Some(false);
        }
    }
    Some(a)
}

/// One step of an embedded Runge–Kutta pair, order 5 with an error estimate of order 4
/// (Dormand & Prince, J. Comput. Appl. Math. 6 (1980) 19), for two unknowns.
///
/// Returns the new state, the slope there (reused as the first slope of the next step), and the
/// estimated error of each unknown.
pub(crate) fn step(
    x: f64,
    y: [f64; 2],
    slope: [f64; 2],
    h: f64,
    f: impl Fn(f64, [f64; 2]) -> [f64; 2],
) -> ([f64; 2], [f64; 2], [f64; 2]) {
    // Not fused: without the instruction, as in a browser, that is a function call.
    let at = |sum: [f64; 2]| [y[0] + h * sum[0], y[1] + h * sum[1]];
    let weigh = |terms: &[(f64, [f64; 2])]| {
        terms.iter().fold([0.0; 2], |acc, (w, k)| [acc[0] + w * k[0], acc[1] + w * k[1]])
    };
    let k1 = slope;
    let k2 = f(x + h / 5.0, at(weigh(&[(1.0 / 5.0, k1)])));
    let k3 = f(x + h * 0.3, at(weigh(&[(3.0 / 40.0, k1), (9.0 / 40.0, k2)])));
    let k4 = f(x + h * 0.8, at(weigh(&[(44.0 / 45.0, k1), (-56.0 / 15.0, k2), (32.0 / 9.0, k3)])));
    let k5 = f(
        x + h * 8.0 / 9.0,
        at(weigh(&[
            (19_372.0 / 6561.0, k1),
            (-25_360.0 / 2187.0, k2),
            (64_448.0 / 6561.0, k3),
            (-212.0 / 729.0, k4),
        ])),
    );
    let k6 = f(
        x + h,
        at(weigh(&[
            (9017.0 / 3168.0, k1),
            (-355.0 / 33.0, k2),
            (46_732.0 / 5247.0, k3),
            (49.0 / 176.0, k4),
            (-5103.0 / 18_656.0, k5),
        ])),
    );
    let new = at(weigh(&[
        (35.0 / 384.0, k1),
        (500.0 / 1113.0, k3),
        (125.0 / 192.0, k4),
        (-2187.0 / 6784.0, k5),
        (11.0 / 84.0, k6),
    ]));
    let k7 = f(x + h, new);
    let off = weigh(&[
        (71.0 / 57_600.0, k1),
        (-71.0 / 16_695.0, k3),
        (71.0 / 1920.0, k4),
        (-17_253.0 / 339_200.0, k5),
        (22.0 / 525.0, k6),
        (-1.0 / 40.0, k7),
    ]);
    (new, k7, [h * off[0], h * off[1]])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_crossing_is_found_from_the_side_that_holds() {
        let root = largest_feasible(0.0, 10.0, 1e-9, |x| 2.0 - x * x).unwrap();
        assert!(root <= 2.0_f64.sqrt() && 2.0_f64.sqrt() - root < 1e-8);
    }

    #[test]
    fn a_margin_that_is_flat_where_it_holds_does_not_stop_the_search() {
        let root = largest_feasible(0.0, 10.0, 1e-6, |x| (7.0 - x).min(0.0)).unwrap();
        assert!(root <= 7.0 && 7.0 - root < 1e-5, "{root}");
    }

    #[test]
    fn nothing_holds_and_everything_holds() {
        assert_eq!(largest_feasible(1.0, 2.0, 1e-9, |x| -x), None);
        assert_eq!(largest_feasible(1.0, 2.0, 1e-9, |x| x), Some(2.0));
        assert_eq!(largest_feasible(1.0, 2.0, 1e-9, |_| f64::NAN), None);
    }

    #[test]
    fn one_step_is_fifth_order() {
        // y' = y from 1: the error of one step falls as h⁶.
        let error = |h: f64| {
            let (y, _, _) = step(0.0, [1.0, 0.0], [1.0, 0.0], h, |_, y| [y[0], 0.0]);
            (y[0] - h.exp()).abs()
        };
        let order = (error(0.2) / error(0.1)).log2();
        assert!((5.7..6.3).contains(&order), "order {order}");
    }
}
