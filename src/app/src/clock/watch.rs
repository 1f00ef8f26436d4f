//! Watching the batches under way, wherever in the app one is: time goes by, stages fall due, and
//! the phone calls.

use std::time::Duration;

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::prelude::Closure;
use pailwise_calc::quantity::{Time, unit};
use pailwise_calc::running::{Running, Stage, Standing};
use web_sys::js_sys::Date;

use super::attention::{self, Urgency};
use super::run::{RunRecord, set_back};
use crate::desk::{Desk, Notice, desk};
use crate::place::Place;
use crate::store::{self, LATEST, RUNS};
use crate::text::{key, live, tr, tr_with};

/// How often time is looked at.
const TICK: Duration = Duration::from_millis(250);
/// How often the latest time is written down, in milliseconds.
const WRITTEN_EVERY: f64 = 5000.0;

/// A batch with its deadlines; those of one that cannot be laid any more are missing.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Watched {
    pub(crate) run: RunRecord,
    pub(crate) running: Option<Running>,
}

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
        let now = RwSignal::new(Date::now());
        let batches = Memo::new(move |_| {
            desk.runs.with(|runs| {
                runs.iter()
                    .map(|run| Watched { running: run.running().ok().flatten(), run: run.clone() })
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

    /// Calls once for each stage that falls due, and for each that is late.
    fn call_when_due(self, desk: Desk) {
        Effect::new(move |called: Option<Vec<(String, u8, Option<Stage>)>>| {
            let now = self.now.get();
            let states: Vec<_> = self
                .batches
                .with(|batches| batches.iter().map(|watched| state(watched, now)).collect());
            // What was so already when the page was opened is on the screen; nobody is startled.
            if let Some(called) = called {
                for state in states.iter().filter(|state| !called.contains(state)) {
                    let language = desk.settings.with_untracked(|s| s.language);
                    if let Some((urgency, words)) = self.words(&state.0, now) {
                        attention::call(urgency, &words, language);
                    }
                }
            }
            states
        });
    }

    /// What is said of a batch now.
    fn words(self, id: &str, now: f64) -> Option<(Urgency, String)> {
        self.batches.with_untracked(|batches| {
            let watched = batches.iter().find(|watched| watched.run.id == id)?;
            let Some(running) = &watched.running else {
                return Some((Urgency::Alarm, untrack(|| tr(key::CLOCK_LOST))));
            };
            let due = running.next(|stage| watched.run.is_done(stage))?;
            let standing = watched.run.standing(running, now);
            let next_mix = next_mix_due(watched, now);
            let (urgency, text) = match standing {
                Standing::PastPotLife => (Urgency::Alarm, key::CALL_PAST),
                Standing::PourOutNow => (Urgency::Alarm, key::CALL_POUR_OUT),
                Standing::Late => (Urgency::Late, call(due.stage)),
                Standing::OnTime if next_mix => (Urgency::Stage, key::CALL_NEXT_MIX),
                Standing::OnTime => (Urgency::Stage, call(due.stage)),
            };
            let name = &watched.run.job.product.name;
            Some((urgency, untrack(|| tr_with(text, &[("name", name)]))))
        })
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

/// What a batch is called for: how it stands, the stage that is due, whether the next is to be
/// mixed.
fn state(watched: &Watched, now: f64) -> (String, u8, Option<Stage>) {
    let id = watched.run.id.clone();
    let Some(running) = &watched.running else { return (id, 9, None) };
    let standing = match watched.run.standing(running, now) {
        Standing::OnTime => 0,
        Standing::Late => 1,
        Standing::PourOutNow => 2,
        Standing::PastPotLife => 3,
    };
    let next_mix = u8::from(next_mix_due(watched, now)) * 4;
    (id, standing + next_mix, running.next(|stage| watched.run.is_done(stage)).map(|due| due.stage))
}

/// Whether the next batch is to be mixed now, and nobody has said that it is.
pub(crate) fn next_mix_due(watched: &Watched, now: f64) -> bool {
    let due = watched.running.as_ref().is_some_and(|r| watched.run.since(now) >= r.next_mix);
    due && watched.run.next_called_ms.is_none() && !watched.run.job.bare.ends_at_joint
}

/// What to do in a stage.
pub(crate) fn call(stage: Stage) -> &'static str {
    match stage {
        Stage::Mix => key::CALL_MIX,
        Stage::Stand => key::CALL_STAND,
        Stage::Empty => key::CALL_EMPTY,
        Stage::Roll => key::CALL_ROLL,
        Stage::Flake => key::CALL_FLAKE,
    }
}

/// Looks at the clock. One that was set back gives no time back: the batches move with it.
fn mind_the_clock(desk: Desk, now: RwSignal<f64>) {
    let time = Date::now();
    let latest = store::raw(LATEST).and_then(|text| text.parse::<f64>().ok()).unwrap_or(0.0);
    let going = desk.runs.with_untracked(|runs| !runs.is_empty());
    if going && let Some(by) = set_back(time, latest) {
        // First the new latest, so that a second tab does not move them again.
        let _ = desk.wrote(store::put(LATEST, &format!("{time:.0}")));
        for run in desk.runs.get_untracked() {
            let _ = desk.put_run(run.set_back(by));
        }
        desk.tell(Notice::ClockSetBack);
    } else if going && time - latest >= WRITTEN_EVERY {
        let _ = desk.wrote(store::put(LATEST, &format!("{time:.0}")));
    }
    if now.get_untracked() != time {
        now.set(time);
    }
}

/// How long until something, as a clock shows it: `4:05`; with a sign once it is over.
pub(crate) fn countdown(left: Time) -> String {
    let seconds = left.get::<unit::second>();
    // Down while there is time, up once there is none: never a second too kind.
    let (sign, whole) =
        if seconds >= 0.0 { ("", seconds.floor()) } else { ("+", (-seconds).ceil()) };
    let (minutes, seconds) = ((whole / 60.0).floor(), whole.rem_euclid(60.0));
    format!("{sign}{minutes:.0}:{seconds:02.0}")
}

/// What fills the whole screen while something must leave the pail at once.
#[component]
pub(crate) fn Alarm() -> impl IntoView {
    let desk = desk();
    let watch = watch();
    let quiet = RwSignal::new(None::<String>);
    let alarming = Memo::new(move |_| {
        let now = watch.now.get();
        watch.batches.with(|batches| {
            batches.iter().find_map(|watched| {
                let running = watched.running.as_ref()?;
                let standing = watched.run.standing(running, now);
                matches!(standing, Standing::PourOutNow | Standing::PastPotLife)
                    .then(|| (watched.run.id.clone(), standing == Standing::PastPotLife))
            })
        })
    });
    let shown = move || alarming.get().filter(|(id, _)| quiet.get().as_ref() != Some(id));
    let empty = move |id: String| {
        let now = Date::now();
        let watched =
            watch.batches.with_untracked(|all| all.iter().find(|w| w.run.id == id).cloned());
        let Some(Watched { run, running: Some(running) }) = watched else { return };
        let keys = [format!("{RUNS}{id}")];
        let run = run.with_done(&running, Stage::Empty, now);
        let _ = desk.step(tr(key::DID_STAGE), &keys, || desk.put_run(run));
    };
    move || {
        shown().map(|(id, past)| {
            let (for_empty, for_quiet) = (id.clone(), id);
            view! {
                <div class="alarm" role="alertdialog" aria-modal="true" aria-labelledby="alarm-head">
                    <svg class="alarm-sign" viewBox="0 0 100 100" aria-hidden="true">
                        <path d="M30 4h40l26 26v40l-26 26h-40l-26-26v-40z" />
                        <path class="alarm-bang" d="M50 22v34M50 70v8" />
                    </svg>
                    <h2 id="alarm-head">
                        {move || tr(if past { key::ALARM_PAST } else { key::ALARM_POUR_OUT })}
                    </h2>
                    <p>{move || tr(if past { key::ALARM_PAST_DO } else { key::ALARM_POUR_OUT_DO })}</p>
                    <p>{live(key::RESCUE_HOW_TO_DISCARD)}</p>
                    <button
                        id="alarm-empty"
                        class="button alarm-button"
                        type="button"
                        on:click=move |_| empty(for_empty.clone())
                    >
                        {live(key::ALARM_EMPTY)}
                    </button>
                    <a
                        class="button button-link alarm-button"
                        href=Place::Clock.fragment()
                        on:click=move |_| quiet.set(Some(for_quiet.clone()))
                    >
                        {live(key::ALARM_CLOCK)}
                    </a>
                </div>
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::quantity::minutes;

    #[test]
    fn a_countdown_is_never_a_second_too_kind() {
        let seconds = Time::new::<unit::second>;
        assert_eq!(countdown(minutes(4.0) + seconds(5.9)), "4:05");
        assert_eq!(countdown(seconds(0.4)), "0:00");
        assert_eq!(countdown(seconds(-0.1)), "+0:01");
        assert_eq!(countdown(minutes(-75.0)), "+75:00");
    }
}
