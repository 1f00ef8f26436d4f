//! The deadline that counts, against people and patches followed second by second: a pour that is
//! still promised is finished before its film closes, one a little later is not, the countdown never
//! rises by itself, and what an alarm orders can be done when it is given.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on stops")]

use std::cell::Cell;

use pailwise_calc::crew::Pouring;
use pailwise_calc::job::Job;
use pailwise_calc::quantity::{Time, unit};
use pailwise_calc::record::{JobRecord, ProductRecord};
use pailwise_calc::running::{Limit, Poured, Running, Stage, Status};
use pailwise_tests::jobs::jobs;
use pailwise_tests::simulated::{Laying, Pail, STEP, back, ready, spare};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

fn seconds(s: f64) -> Time {
    Time::new::<unit::second>(s)
}

/// A batch under way.
struct Batch {
    job: Job,
    sheet: ProductRecord,
    running: Running,
    pail: Pail,
}

impl Batch {
    /// The next batch of a job, if it has one.
    fn of(record: &JobRecord) -> Option<Self> {
        let job = Job::try_from(record).ok()?;
        let volume = job.next_batch().ok()?.measured.volume;
        let running = job.running(volume, &Poured::default()).unwrap();
        let pail = Pail::walk(&job, volume.value);
        Some(Self { job, sheet: record.product.clone(), running, pail })
    }

    /// Seconds to spare for a share of it, by its place, whose pour begins at a moment.
    fn spare(&self, share: usize, begins: f64) -> f64 {
        let pour = &self.running.pours[share];
        let laying = Laying {
            area: pour.area.value,
            volume: pour.volume.value,
            another_follows: false,
            next: None,
            late: begins - ready(&self.job),
            of_film: 1.0,
            // Or held back until whoever mixes is there again.
            told: pour.area.value / back(&self.job, pour.volume.value),
        };
        spare(&self.job, &self.sheet, &self.pail, &laying)
    }
}

/// What the simulation rounds: a step where brushing ends, one where flaking begins, and what the
/// pail's own walk is off by.
fn rounded(batch: &Batch) -> f64 {
    2.5 * STEP + 2e-3 * batch.pail.pot_life
}

#[test]
fn what_is_promised_can_be_poured_and_a_little_later_cannot() {
    let mut runner = TestRunner::new(Config { cases: 10_000, ..Config::default() });
    let (kept, tight, loose) = (Cell::new(0), Cell::new(0), Cell::new(0));
    runner
        .run(&(jobs(), 0.0..1.0_f64, 0.0..1.0_f64), |(record, when, which)| {
            let Some(batch) = Batch::of(&record) else { return Ok(()) };
            let (running, first) = (&batch.running, ready(&batch.job));
            prop_assert!(!running.pours.is_empty(), "planned, and cannot be poured");
            kept.set(kept.get() + 1);
            // All of it, and one of its parts, poured at any moment that is still promised.
            let part = (which * running.pours.len() as f64) as usize;
            for share in [0, part] {
                let by = running.pours[share].by.value;
                let begins = first + when * (by - first);
                let now = batch.spare(share, begins);
                prop_assert!(now > -rounded(&batch), "{now} s to spare at {begins} s of {by}");
            }
            // Once later than the last pour of all of it, all of it cannot.
            let late = running.pours[0].by.value + 2.0 * rounded(&batch);
            let cannot = batch.spare(0, late) < rounded(&batch);
            let counter = if cannot { &tight } else { &loose };
            counter.set(counter.get() + 1);
            // What an alarm orders is possible when it is given.
            let since = running.pours[0].by.value
                + when * (running.pot_life.value - running.pours[0].by.value);
            match running.status(seconds(since), |stage| stage < Stage::Pour) {
                Status::PartOnly => {
                    let still = running.still(seconds(since)).unwrap();
                    let place = running.pours.iter().position(|pour| pour == still).unwrap();
                    let now = batch.spare(place, since);
                    prop_assert!(now > -rounded(&batch), "ordered {now} s too late");
                }
                standing => prop_assert!(standing >= Status::PourOutNow, "{standing:?}"),
            }
            Ok(())
        })
        .unwrap();
    let (kept, tight, loose) = (kept.get(), tight.get(), loose.get());
    println!("{kept} batches; {tight} last pours are the last, {loose} are not");
    assert!(kept > 5_000, "{kept} batches");
    assert!(loose * 20 < tight, "{loose} of {tight} could be poured later");
}

/// A crew that taps what it does, when it does it, in its order.
fn taps() -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec(0.0..1.0_f64, Stage::ALL.len())
}

#[test]
fn the_countdown_never_rises_by_itself_and_a_tap_only_changes_what_it_counts() {
    let mut runner = TestRunner::new(Config { cases: 10_000, ..Config::default() });
    let seen = Cell::new((0, 0));
    runner
        .run(&(jobs(), taps()), |(record, taps)| {
            let Ok(job) = Job::try_from(&record) else { return Ok(()) };
            let Ok(batch) = job.next_batch() else { return Ok(()) };
            let volume = batch.measured.volume;
            let mut poured = Poured::default();
            let mut running = job.running(volume, &poured).unwrap();
            let last = running.closes.max(running.pot_life).value * 1.1;
            let mut done: Vec<Stage> = Vec::new();
            let mut taps = taps.into_iter();
            let mut next_tap = taps.next().map(|share| share * 0.3 * last);
            let mut before: Option<(Limit, f64)> = None;
            let mut stood = Status::OnTime;
            for step in 0..300 {
                let since = last * f64::from(step) / 300.0;
                if let Some(due) = running.next(|stage| done.contains(&stage))
                    && next_tap.is_some_and(|at| since >= at)
                {
                    done.push(due.stage);
                    match due.stage {
                        Stage::Pour => poured.began = Some(seconds(since)),
                        Stage::Empty => poured.emptied = Some(seconds(since)),
                        _ => {}
                    }
                    let again = job.running(volume, &poured).unwrap();
                    prop_assert!(again.pot_life == running.pot_life);
                    running = again;
                    next_tap = taps.next().map(|share| since + share * 0.3 * last);
                    stood = Status::OnTime;
                }
                let is_done = |stage: Stage| done.contains(&stage);
                let Some((limit, by)) = running.limit(is_done) else { break };
                let left = by.value - since;
                if let Some((counted, was)) = before
                    && counted == limit
                    && !(poured.emptied.is_some() && limit == Limit::LastPour)
                {
                    prop_assert!(left <= was + 1e-6, "{limit:?} rises from {was} to {left}");
                    seen.set((seen.get().0 + 1, seen.get().1));
                }
                before = Some((limit, left));
                // Nothing gets better by waiting.
                let standing = running.status(seconds(since), is_done);
                prop_assert!(standing >= stood, "{stood:?}, then {standing:?}");
                stood = standing;
                if left <= 0.0 {
                    prop_assert!(standing >= Status::FilmClosed, "{limit:?} over, {standing:?}");
                    seen.set((seen.get().0, seen.get().1 + 1));
                }
            }
            // Whoever uses it from the pail has a moment at which that begins, and nobody else.
            let from_pail = job.crew.pouring == Pouring::FromPail;
            prop_assert_eq!(from_pail, running.stages.iter().any(|due| due.stage == Stage::Pour));
            Ok(())
        })
        .unwrap();
    let (counted, over) = seen.get();
    assert!(counted > 100_000 && over > 10_000, "{counted} counted, {over} past a limit");
}
