//! The one figure that counts down, and the order that stands over it.

use pailwise_calc::batch::LastPour;
use pailwise_calc::quantity::{Time, unit};
use pailwise_calc::running::{Limit, Running, Status};
use pailwise_kept::show::Reader;

use super::watched::{Watched, closed, words};
use crate::text::{key, tr_with};

/// What is counted, and how long until it; below zero once that is over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Count {
    limit: Limit,
    pub(super) left: Time,
}

impl Count {
    /// Of a batch at a moment; nothing once it is all done.
    pub(super) fn of(watched: &Watched, running: &Running, now_ms: f64) -> Option<Self> {
        let run = &watched.run;
        let (limit, by) = running.limit(|stage| run.is_done(stage))?;
        let left = by - run.since(now_ms);
        // What stood past its limit before its temperatures were corrected has no time again.
        let lost = run.status(running, now_ms) >= Status::PartOnly;
        Some(Self { limit, left: if lost { left.min(Time::default()) } else { left } })
    }

    /// The words under the figure.
    pub(super) fn says(self) -> &'static str {
        match (self.limit, self.left < Time::default()) {
            (Limit::LastPour, false) => key::COUNT_LAST_POUR,
            (Limit::LastPour, true) => key::COUNT_LAST_POUR_OVER,
            (Limit::Empty, false) => key::CLOCK_TO_LIMIT,
            (Limit::Empty, true) => key::CLOCK_OVER_LIMIT,
            (Limit::Film, false) => key::CLOCK_TO_CLOSED,
            (Limit::Film, true) => key::CLOCK_OVER_CLOSED,
        }
    }
}

/// What to do now, in a sentence.
pub(super) fn order(reader: Reader, watched: &Watched, now_ms: f64) -> String {
    let run = &watched.run;
    let name = run.job.product.name.as_str();
    let Some(running) = &watched.running else {
        return tr_with(key::CALL_PAST, &[("name", name)]);
    };
    let text = match run.status(running, now_ms) {
        Status::PastPotLife => key::CALL_PAST,
        Status::PourOutNow => key::CALL_POUR_OUT,
        Status::PartOnly => {
            return running.still(run.since(now_ms)).map_or_else(String::new, |still| {
                tr_with(key::CALL_PART, &part(reader, name, still).each_ref().map(pair))
            });
        }
        Status::FilmClosed => closed(run.job.product.role),
        Status::OnTime | Status::Late => match run.due(running) {
            Some(due) => words(due.stage, run.job.product.role),
            None => key::CALL_ALL_DONE,
        },
    };
    tr_with(text, &[("name", name)])
}

/// The figures of a part that can still be laid, rounded down.
pub(super) fn part(reader: Reader, name: &str, still: &LastPour) -> [(&'static str, String); 3] {
    [
        ("name", name.to_owned()),
        ("volume", reader.volume_at_most(still.volume)),
        ("area", reader.area(still.area)),
    ]
}

fn pair<'a>(figure: &'a (&'static str, String)) -> (&'static str, &'a str) {
    (figure.0, figure.1.as_str())
}

/// How long until something, with its unit: a figure alone could be read as a time of day. Down
/// while there is time, up with a sign once there is none: never a second too kind.
pub(crate) fn countdown(left: Time) -> String {
    let (over, [hours, minutes, seconds]) = parts(left);
    let [h, m, s] = [hours, minutes, seconds].map(|n| format!("{n:.0}"));
    let padded = format!("{seconds:02.0}");
    let said = if hours > 0.0 {
        tr_with(key::COUNT_HOURS, &[("h", &h), ("min", &m)])
    } else if minutes > 0.0 {
        tr_with(key::COUNT_MINUTES, &[("min", &m), ("s", &padded)])
    } else {
        tr_with(key::COUNT_SECONDS, &[("s", &s)])
    };
    if over { format!("+{said}") } else { said }
}

/// Whether it is over, and its hours, minutes and seconds.
fn parts(left: Time) -> (bool, [f64; 3]) {
    let seconds = left.get::<unit::second>();
    let over = seconds < 0.0;
    let whole = if over { (-seconds).ceil() } else { seconds.floor() };
    let hours = (whole / 3600.0).floor();
    (over, [hours, ((whole - hours * 3600.0) / 60.0).floor(), whole.rem_euclid(60.0)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::quantity::minutes;

    #[test]
    fn a_countdown_is_never_a_second_too_kind() {
        let seconds = Time::new::<unit::second>;
        assert_eq!(parts(minutes(4.0) + seconds(5.9)), (false, [0.0, 4.0, 5.0]));
        assert_eq!(parts(seconds(0.4)), (false, [0.0, 0.0, 0.0]));
        assert_eq!(parts(seconds(-0.1)), (true, [0.0, 0.0, 1.0]));
        assert_eq!(parts(minutes(-75.0)), (true, [1.0, 15.0, 0.0]));
    }
}
