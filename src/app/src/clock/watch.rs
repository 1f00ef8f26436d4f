//! Watching the batches under way, wherever in the app one is: time goes by, stages fall due, and
//! the phone calls.

use std::time::Duration;

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::prelude::Closure;
use pailwise_kept::records::run::set_back;

use super::alarm::{Call, call_for};
use super::count::order;
use super::watched::{Watched, closed, words};
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
