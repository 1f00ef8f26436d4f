//! When the alarm sounds, and what is called out about a batch at a moment. How it is shown is
//! `alarm_dialog`'s, how a phone sounds and speaks `attention`'s.

use pailwise_calc::quantity::{Time, unit};
use pailwise_calc::running::{Limit, Stage, Status};

use super::watched::{Watched, next_mix, next_mix_due};

/// What is called out about a batch. A call that is another than the one before is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Call {
    /// A stage is next.
    Stage(Stage),
    /// A stage should be over by now.
    Late(Stage),
    /// The next batch is to be mixed.
    NextMix,
    /// The film has closed, and something was still to be done with it.
    Closed,
    /// So many minutes are left in the pail.
    Soon(u32),
    /// Only a part of it can be laid any more: said so often already.
    Part(u32),
    /// Out of the pail, now: likewise.
    PourOut(u32),
    /// Past its pot life: likewise.
    Past(u32),
}

/// How long before the limit of the pail it is said, in minutes.
const SOON: [u32; 2] = [2, 5];
/// How often an alarm is said, in milliseconds.
const AGAIN: f64 = 20_000.0;

/// What is to be said of a batch now; nothing once it is all done.
pub(super) fn call_for(watched: &Watched, now: f64) -> Option<Call> {
    let run = &watched.run;
    let times = |since: Time| {
        let over = (run.since(now) - since).get::<unit::millisecond>();
        (over.max(0.0) / AGAIN) as u32
    };
    // Nobody knows how long it has.
    let Some(running) = &watched.running else { return Some(Call::Past(times(Time::default()))) };
    let due = run.due(running)?;
    match run.status(running, now) {
        Status::PartOnly => return Some(Call::Part(times(Time::default()))),
        Status::PastPotLife => return Some(Call::Past(times(running.pot_life))),
        Status::PourOutNow => return Some(Call::PourOut(times(Time::default()))),
        // A next batch that is wanted later than that is still called.
        Status::FilmClosed
            if !next_mix(watched).is_some_and(|at| at > running.closes && run.since(now) >= at) =>
        {
            return Some(Call::Closed);
        }
        _ => {}
    }
    if let Some((Limit::LastPour | Limit::Empty, by)) = running.limit(|stage| run.is_done(stage)) {
        let left = (by - run.since(now)).get::<unit::minute>();
        if let Some(minutes) = SOON.into_iter().find(|minutes| left <= f64::from(*minutes)) {
            return Some(Call::Soon(minutes));
        }
    }
    // The latest stage whose time is over, whatever was tapped.
    let mut over = running.stages.iter().filter(|due| run.since(now) >= due.by);
    match over.rfind(|due| !run.is_done(due.stage)) {
        // Not while this one is late in its pail.
        Some(late) if late.stage <= Stage::Empty => Some(Call::Late(late.stage)),
        _ if next_mix_due(watched, now) => Some(Call::NextMix),
        Some(late) => Some(Call::Late(late.stage)),
        None => Some(Call::Stage(due.stage)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::quantity::minutes;
    use pailwise_kept::records::run::RunRecord;

    #[test]
    fn calls_come_before_the_limit_and_go_on_past_it() {
        let run = RunRecord::start(1.7e12, pailwise_calc::demo::job(), 5.0, Vec::new(), None);
        let running = run.running().unwrap();
        let watched = Watched { run, running: Some(running.clone()) };
        let call =
            |after: Time| call_for(&watched, 1.7e12 + after.get::<unit::millisecond>()).unwrap();
        assert_eq!(call(Time::default()), Call::Stage(Stage::Mix));
        assert_eq!(call(running.stages[0].by), Call::Late(Stage::Mix));
        let (all, none) = (running.pours[0].by, running.pours.last().unwrap().by);
        assert_eq!(call(all - minutes(4.0)), Call::Soon(5));
        assert_eq!(call(all - minutes(1.0)), Call::Soon(2));
        assert!(matches!(call(all), Call::Part(_)));
        let (first, again) = (call(none), call(none + minutes(0.5)));
        assert!(matches!((first, again), (Call::PourOut(a), Call::PourOut(b)) if a < b));
        assert_eq!(call(running.pot_life), Call::Past(0));
        assert_eq!(call(running.pot_life + minutes(1.0)), Call::Past(3));
        // Nobody knows how long it has: it rings as the worst.
        let unknown = Watched { running: None, ..watched.clone() };
        assert_eq!(call_for(&unknown, 1.7e12 + 1.0), Some(Call::Past(0)));
        assert_eq!(unknown.status(1.7e12), Status::PastPotLife);
        // Out of the pail and rolled, and not flaked when the film has closed.
        let mut laid = watched.clone();
        for (stage, by) in [(Stage::Empty, running.stages[1].by), (Stage::Roll, running.pour_out)] {
            let at = 1.7e12 + by.get::<unit::millisecond>();
            laid.run = laid.run.with_done(&running, stage, at);
        }
        let running = laid.run.running().unwrap();
        laid.running = Some(running.clone());
        laid.run.next_called_ms = Some(1.7e12);
        let call =
            |after: Time| call_for(&laid, 1.7e12 + after.get::<unit::millisecond>()).unwrap();
        assert_eq!(call(running.closes - minutes(0.1)), Call::Late(Stage::Flake));
        // Moments are held to a fraction of a microsecond.
        assert_eq!(call(running.closes + minutes(1e-6)), Call::Closed);
    }
}
