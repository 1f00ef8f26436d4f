//! What is checked against something outside the project: asserted, and said in a line that
//! `cargo xtask checks` gathers into a page.

use std::fmt::Debug;

/// A result of ours, and where the value comes from that it is held against.
pub struct Check {
    what: String,
    source: &'static str,
}

/// Names a result and its source.
pub fn check(what: impl Into<String>, source: &'static str) -> Check {
    Check { what: what.into(), source }
}

impl Check {
    /// Holds a figure to the source's within a share of it.
    ///
    /// # Panics
    /// When it is further off.
    #[track_caller]
    pub fn within(self, share: f64, expected: f64, got: f64) {
        let off = (got / expected - 1.0).abs();
        self.said(&format!("{} ± {}", shown(expected), percent(share)), &shown(got), off <= share);
    }

    /// Holds a figure to the source's within an amount.
    ///
    /// # Panics
    /// When it is further off.
    #[track_caller]
    pub fn near(self, amount: f64, expected: f64, got: f64) {
        let fits = (got - expected).abs() <= amount;
        self.said(&format!("{} ± {}", shown(expected), shown(amount)), &shown(got), fits);
    }

    /// Holds a figure between two of the source's.
    ///
    /// # Panics
    /// When it is not there.
    #[track_caller]
    pub fn between(self, low: f64, high: f64, got: f64) {
        let fits = low <= got && got <= high;
        self.said(&format!("{} to {}", shown(low), shown(high)), &shown(got), fits);
    }

    /// Holds the furthest that any of many cases is off to the most that one may be.
    ///
    /// # Panics
    /// When one is further off, or there are no cases.
    #[track_caller]
    pub fn furthest(self, most: f64, off: &[f64]) {
        let furthest = off.iter().copied().fold(0.0, |far: f64, off| {
            // What is not a number is further off than anything.
            if off.is_nan() { f64::INFINITY } else { far.max(off.abs()) }
        });
        let cases = off.len();
        let expected = format!("off by {} at most, in {cases} cases", shown(most));
        self.said(&expected, &shown(furthest), cases > 0 && furthest <= most);
    }

    /// Holds what is no figure to what the source says.
    ///
    /// # Panics
    /// When it is something else.
    #[track_caller]
    pub fn is<T: Debug + PartialEq>(self, expected: &T, got: &T) {
        self.said(&format!("{expected:?}"), &format!("{got:?}"), expected == got);
    }

    #[track_caller]
    fn said(self, expected: &str, got: &str, fits: bool) {
        let Self { what, source } = self;
        assert!(fits, "{what} ({source}): expected {expected}, got {got}");
        // On a line of its own, whatever the tests' runner has begun.
        println!("\nchecked\t{what}\t{source}\t{expected}\t{got}");
    }
}

fn percent(share: f64) -> String {
    format!("{} %", shown(share * 100.0))
}

/// A figure with no more digits than say something.
fn shown(figure: f64) -> String {
    let size = figure.abs();
    if size == 0.0 || !(1e-3..1e9).contains(&size) {
        return if size == 0.0 { "0".to_owned() } else { format!("{figure:.1e}") };
    }
    let places = (8 - size.log10().floor() as i32).max(0) as usize;
    let text = format!("{figure:.places$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_short() {
        for (figure, text) in [
            (0.0, "0"),
            (3.785_411_784, "3.78541178"),
            (52_950.0, "52950"),
            (1e-14, "1.0e-14"),
            (-0.05, "-0.05"),
        ] {
            assert_eq!(shown(figure), text);
        }
    }

    #[test]
    #[should_panic(expected = "expected 1 ± 1 %, got 1.02")]
    fn what_is_off_fails() {
        check("something", "somebody").within(0.01, 1.0, 1.02);
    }

    #[test]
    #[should_panic(expected = "got inf")]
    fn what_is_not_a_number_fails() {
        check("something", "somebody").furthest(1.0, &[0.1, f64::NAN]);
    }

    #[test]
    #[should_panic(expected = "in 0 cases")]
    fn no_cases_fail() {
        check("something", "somebody").furthest(1.0, &[]);
    }
}
