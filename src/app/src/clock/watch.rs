//! Watching the batches under way, wherever in the app one is: time goes by, stages fall due, and
//! the phone calls.

use std::time::Duration;

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::prelude::Closure;
use pailwise_calc::quantity::{Time, unit};
use pailwise_calc::running::{Limit, Stage, Status};
use pailwise_kept::records::run::set_back;

use super::count::order;
use super::watched::{Watched, closed, next_mix, next_mix_due, words};
use crate::attention::{self, Urgency};
use crate::desk::{Desk, Notice};
use crate::steady::{Look, look};
use crate::store::{self, LATEST, latest};
use crate::text::key;

/// How often time is looked at.
const TICK: Duration = Duration::from_millis(250);
/// How often the latest time is written down, in milliseconds.
const WRITTEN_EVERY: f64 = 5000.0;

/// The watch, in the context of the app.
#[derive(Clone, Copy)]
pub(crate) struct Watch {
    /// Now, in milliseconds of the phone's clock.
    pub(crate) now: RwSignal<f64>,
    /// The batches under way, the oldest first.
    pub(crate) batches: Memo<Vec<Watched>>,
}

/// The watch from the context of the app.
///
/// # Panics
/// Outside the app, where there is none.
pub(crate) fn watch() -> Watch {
    use_context::<Watch>().unwrap_or_else(|| unreachable!("every screen stands inside the app"))
}

impl Watch {
    /// Watches from now on.
    pub(crate) fn begin(desk: Desk) -> Self {
        let now = RwSignal::new(look().now);
        let batches = Memo::new(move |_| {
            desk.runs.with(|runs| {
                runs.iter()
                    .map(|run| Watched { running: run.running().ok(), run: run.clone() })
                    .collect::<Vec<_>>()
            })
        });
        let watch = Self { now, batches };
        mind_the_clock(desk, now);
        // Without a timer the screens show the time they were opened at; phones have one.
        let _ = set_interval_with_handle(
            move || {
                mind_the_clock(desk, now);
            },
            TICK,
        );
        watch.call_when_due(desk);
        watch.stay_awake();
        watch
    }

    /// Calls for each stage that falls due, before the limit of the pail, and, past it, again and
    /// again until the pail is empty.
    fn call_when_due(self, desk: Desk) {
        Effect::new(move |called: Option<Vec<(String, Call)>>| {
            let now = self.now.get();
            let calls: Vec<(String, Call)> = self.batches.with(|batches| {
                let call = |w: &Watched| Some((w.run.id.clone(), call_for(w, now)?));
                batches.iter().filter_map(call).collect()
            });
            // What was so already when the page was opened is on the screen; nobody is startled.
            if let Some(called) = called {
                for (id, call) in calls.iter().filter(|call| !called.contains(call)) {
                    self.say(desk, id, *call);
                }
            }
            calls
        });
    }

    /// Says a call, with the name of its product.
    fn say(self, desk: Desk, id: &str, call: Call) {
        let language = desk.settings.with_untracked(|s| s.language);
        let of = self
            .batches
            .with_untracked(|batches| batches.iter().find(|watched| watched.run.id == id).cloned());
        let Some(watched) = of else { return };
        let (name, role) = (watched.run.job.product.name.clone(), watched.run.job.product.role);
        let (urgency, text) = match call {
            Call::Stage(stage) => (Urgency::Stage, words(stage, role)),
            Call::Late(stage) => (Urgency::Late, words(stage, role)),
            Call::NextMix => (Urgency::Stage, key::CALL_NEXT_MIX),
            Call::Soon(_) => (Urgency::Late, key::CALL_SOON),
            Call::Part(_) => {
                let reader = untrack(|| desk.reader());
                let said = order(reader, &watched, self.now.get_untracked());
                return attention::call(Urgency::Alarm, &said, language);
            }
            Call::PourOut(_) => (Urgency::Alarm, key::CALL_POUR_OUT),
            Call::Past(_) => (Urgency::Alarm, key::CALL_PAST),
            Call::Closed => (Urgency::Late, closed(role)),
        };
        let minutes =
            if let Call::Soon(minutes) = call { minutes.to_string() } else { String::new() };
        let said = language.say(text, &[("name", &name), ("minutes", &minutes)]);
        attention::call(urgency, &said, language);
    }

    /// Keeps the screen on while something is in a pail, and again after it was away.
    fn stay_awake(self) {
        let running = Memo::new(move |_| self.batches.with(|batches| !batches.is_empty()));
        Effect::new(
            move |_| {
                if running.get() { attention::keep_awake() } else { attention::let_sleep() }
            },
        );
        let back = Closure::<dyn FnMut()>::new(move || {
            if !document().hidden() && running.get_untracked() {
                attention::keep_awake();
            }
        });
        // Without this the screen may go dark after it was away; the help says so.
        let _ = document()
            .add_event_listener_with_callback("visibilitychange", back.as_ref().unchecked_ref());
        back.forget();
    }
}

/// What is called out about a batch. A call that is another than the one before is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Call {
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
fn call_for(watched: &Watched, now: f64) -> Option<Call> {
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

/// Looks at the clock. One that was set back gives no time back: the batches move with it.
fn mind_the_clock(desk: Desk, now: RwSignal<f64>) {
    let Look { now: time, believed, set_back: behind } = look();
    let going = desk.runs.with_untracked(|runs| !runs.is_empty())
        || desk.cups.with_untracked(|cups| !cups.is_empty());
    // With nothing under way storage is left in peace.
    let latest = if going { latest::read(believed) } else { believed };
    if behind.is_some() {
        // The page was open and has counted on: nothing moves, and it is said.
        desk.tell(Notice::ClockSetBack);
    }
    // A tab opened since then has moved the batches already, and written the clock's own time.
    let moved = behind.is_some_and(|by| believed - latest >= by);
    if let Some(by) = set_back(believed, latest).filter(|_| behind.is_none()) {
        // First the new latest, so that a second tab does not move them again.
        let _ = desk.wrote(store::put(LATEST, &latest::text(believed)));
        for run in desk.runs.get_untracked() {
            let _ = desk.put_run(run.set_back(by));
        }
        for cup in desk.cups.get_untracked() {
            let _ = desk.put_cup(cup.set_back(by));
        }
        // What stood before a step stood by the clock of before: undone, it would give time back.
        desk.steps.update(Vec::clear);
        desk.tell(Notice::ClockSetBack);
    } else if believed - latest >= WRITTEN_EVERY && !moved {
        let _ = desk.wrote(store::put(LATEST, &latest::text(believed)));
    }
    if now.get_untracked() != time {
        now.set(time);
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
