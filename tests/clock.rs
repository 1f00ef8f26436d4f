//! The clock of a batch under way: stopped at any moment and started again, it stands as one that
//! was never stopped.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

use pailwise_calc::job::Job;
use pailwise_calc::quantity::{Time, unit};
use pailwise_calc::record::{ConditionsRecord, JobRecord, read};
use pailwise_calc::running::Stage;
use pailwise_kept::envelope;
use pailwise_kept::records::run::RunRecord;
use pailwise_tests::jobs;
use proptest::prelude::*;

const MET: f64 = 1.764e12;

/// What happens to a batch, so many milliseconds after A met B.
#[derive(Clone, Debug)]
enum Event {
    Done(Stage),
    Corrected(ConditionsRecord),
}

fn events() -> impl Strategy<Value = Vec<(f64, Event)>> {
    let event = prop_oneof![
        prop::sample::select(&Stage::ALL[..]).prop_map(Event::Done),
        jobs::conditions().prop_map(Event::Corrected),
    ];
    prop::collection::vec((0.0..7.2e6, event), 0..6).prop_map(|mut events| {
        events.sort_by(|a: &(f64, Event), b| a.0.total_cmp(&b.0));
        events
    })
}

/// Storage and back, as when the page is closed and opened.
fn closed_and_opened(run: &RunRecord) -> RunRecord {
    let text = envelope::wrap(&serde_json::to_string(run).unwrap());
    read(envelope::unwrap(&text).unwrap(), "pailwise-run").unwrap()
}

fn happen(run: RunRecord, event: &Event, at: f64) -> RunRecord {
    match event {
        Event::Done(stage) => match run.running() {
            Ok(running) => run.with_done(&running, *stage, at),
            _ => run,
        },
        Event::Corrected(conditions) => run.corrected(*conditions, at),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn a_restored_clock_stands_as_an_uninterrupted_one(
        job in jobs::jobs(),
        events in events(),
        closed in prop::collection::vec(0.0..7.2e6, 0..5),
        looks in prop::collection::vec(0.0..9.0e6, 1..6),
    ) {
        let Ok(batch) = Job::try_from(&job).unwrap().next_batch() else { return Ok(()) };
        let mixed_l = batch.measured.volume.get::<unit::liter>();
        let mut straight = RunRecord::start(MET, job, mixed_l, Vec::new(), None);
        let mut broken = straight.clone();
        for (after, event) in &events {
            straight = happen(straight, event, MET + after);
            if closed.iter().any(|closed| closed < after) {
                broken = closed_and_opened(&broken);
            }
            broken = happen(broken, event, MET + after);
        }
        broken = closed_and_opened(&broken);
        prop_assert_eq!(&broken, &straight);
        let (one, other) = (straight.running(), broken.running());
        prop_assert_eq!(&one, &other);
        if let Ok(running) = one {
            for look in looks {
                let now = MET + look;
                prop_assert_eq!(straight.status(&running, now), broken.status(&running, now));
                prop_assert_eq!(straight.since(now), broken.since(now));
            }
        }
    }

    /// A clock set back by any amount at any moment gives no time back.
    #[test]
    fn a_clock_set_back_never_stands_earlier(back in 2001.0..9.0e7, at in 0.0..7.2e6) {
        let job: JobRecord = pailwise_calc::demo::job();
        let run = RunRecord::start(MET, job, 4.0, Vec::new(), None);
        let running = run.running().unwrap();
        let before = run.status(&running, MET + at);
        let moved = run.clone().set_back(back);
        prop_assert_eq!(moved.status(&running, MET + at - back), before);
        let gone = moved.since(MET + at - back) - run.since(MET + at);
        prop_assert!(gone.value.abs() < Time::new::<unit::millisecond>(1.0).value);
    }
}
