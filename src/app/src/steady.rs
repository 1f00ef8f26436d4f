//! The time: the phone's clock, held steady as long as the page is open.
//!
//! A phone's clock may be put right, or wrong, at any moment; what has gone by since A met B does not
//! change with it. So the clock is read once, and from then on the browser's own count of
//! milliseconds goes on from there. Where the phone's clock is ahead of that the later of both is the
//! time: a phone that slept may not have counted. Ahead for a minute, it is believed; ahead for
//! less, it was a slip that leaves nothing behind.

use std::cell::Cell;

use leptos::prelude::window;
use web_sys::js_sys::Date;

/// Clocks are put right by a fraction of a second all the time.
const ALWAYS: f64 = 2000.0;
/// A clock that is ahead for so long is believed.
const BELIEVED: f64 = 60_000.0;

/// Where the count of the page stood when the phone's clock was believed.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Steady {
    wall: f64,
    count: f64,
    /// Since when the phone's clock is ahead, by the count.
    ahead_since: Option<f64>,
}

thread_local! {
    static STEADY: Cell<Option<Steady>> = const { Cell::new(None) };
}

/// What a look at both clocks says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Look {
    /// Now, in milliseconds since 1970, UTC.
    pub(crate) now: f64,
    /// What of that is believed, and may be written down.
    pub(crate) believed: f64,
    /// The phone's clock was set back by so much since the page was opened.
    pub(crate) set_back: Option<f64>,
}

/// Now, in milliseconds since 1970, UTC.
pub(crate) fn now_ms() -> f64 {
    look().now
}

/// Looks at both clocks.
pub(crate) fn look() -> Look {
    let wall = Date::now();
    // Without a count of its own a browser leaves the phone's clock.
    let count = window().performance().map_or(wall, |performance| performance.now());
    let (steady, look) = follow(STEADY.get(), wall, count);
    STEADY.set(Some(steady));
    look
}

/// The clocks followed from one look to the next.
fn follow(before: Option<Steady>, wall: f64, count: f64) -> (Steady, Look) {
    let believed = Steady { wall, count, ahead_since: None };
    let Some(before) = before else {
        return (believed, Look { now: wall, believed: wall, set_back: None });
    };
    let steady = before.wall + (count - before.count).max(0.0);
    if wall > steady + ALWAYS {
        let since = before.ahead_since.unwrap_or(count);
        if count - since >= BELIEVED {
            return (believed, Look { now: wall, believed: wall, set_back: None });
        }
        let ahead = Steady { ahead_since: Some(since), ..before };
        return (ahead, Look { now: wall, believed: steady, set_back: None });
    }
    let set_back = (wall < steady - ALWAYS).then_some(steady - wall);
    // A little ahead is followed, a little behind is not: no time is given back.
    let now = if set_back.is_some() { steady } else { steady.max(wall) };
    (Steady { wall: now, count, ahead_since: None }, Look { now, believed: now, set_back })
}

#[cfg(test)]
mod tests {
    use super::*;

    const START: f64 = 1.7e12;

    /// Looks at moments of the phone's clock and of the count, both after the start.
    fn looks(moments: &[(f64, f64)]) -> Vec<Look> {
        let mut steady = None;
        moments
            .iter()
            .map(|(wall, count)| {
                let (after, look) = follow(steady, START + wall, *count);
                steady = Some(after);
                look
            })
            .collect()
    }

    #[test]
    fn a_clock_wrong_for_a_second_leaves_nothing_behind() {
        let hour = 3_600_000.0;
        let back = looks(&[(0.0, 0.0), (1000.0 - hour, 1000.0), (2200.0, 2200.0)]);
        assert_eq!(back[1].now, START + 1000.0);
        assert_eq!(back[1].set_back, Some(hour));
        assert_eq!((back[2].now, back[2].set_back), (START + 2200.0, None));
        let ahead = looks(&[(0.0, 0.0), (hour * 1e5, 1000.0), (2200.0, 2200.0)]);
        assert_eq!(ahead[1].believed, START + 1000.0);
        assert_eq!(ahead[2].now, START + 2200.0);
    }

    #[test]
    fn a_phone_that_slept_has_slept() {
        // The count stood still for twenty minutes.
        let slept = 1_200_000.0;
        let looks = looks(&[(0.0, 0.0), (slept, 500.0), (slept + 70_000.0, 70_500.0)]);
        assert_eq!(looks[1].now, START + slept);
        assert_eq!(looks[2].believed, START + slept + 70_000.0);
    }

    #[test]
    fn time_never_goes_back() {
        let mut before = 0.0;
        for look in looks(&[(0.0, 0.0), (990.0, 1000.0), (1990.0, 2000.0), (2900.0, 3000.0)]) {
            assert!(look.now >= before, "{look:?}");
            before = look.now;
        }
    }
}
