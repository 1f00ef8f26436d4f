//! What was not tapped is told afterwards: which stage, and when it really was.

use leptos::prelude::*;
use pailwise_calc::quantity::Time;
use pailwise_calc::running::Stage;
use pailwise_kept::day;
use pailwise_kept::records::run::RunRecord;

use super::watched::stage_name;
use crate::desk::desk;
use crate::moments;
use crate::moments::clock;
use crate::parts::pick::Pick;
use crate::steady::now_ms;
use crate::store::RUNS;
use crate::text::{key, live, tr, tr_with};

/// The field knows no seconds; in milliseconds.
const MINUTE: f64 = 60_000.0;

/// Which stage, and when; kept with what stood there before.
#[component]
pub(super) fn Tell(run: RunRecord, done: Callback<()>) -> impl IntoView {
    let desk = desk();
    let role = run.job.product.role;
    let stages: Vec<Stage> = run
        .running()
        .map(|running| running.stages.iter().map(|due| due.stage).collect())
        .unwrap_or_default();
    // What is mostly forgotten is that it was poured.
    let stage = RwSignal::new(Stage::Empty);
    let time = RwSignal::new(day::time_of_day(moments::minute_of_day(now_ms())));
    let wrong = RwSignal::new(None::<String>);
    let (id, met) = (run.id, run.met_at_ms);
    let accept = move |_| {
        let now = now_ms();
        let at = day::minutes_of_day(&time.get_untracked());
        let at = at.map(|minute| moments::last_time(minute, now));
        let Some(at) = at.filter(|at| *at > met - MINUTE) else {
            let met = clock(untrack(|| desk.reader()), met, Time::default());
            wrong.set(Some(tr_with(key::TELL_WRONG, &[("met", &met)])));
            return;
        };
        let Some(run) = desk.run_of(&id) else { return };
        let Ok(running) = run.running() else { return };
        let what =
            tr_with(key::DID_TELL, &[("what", &tr(stage_name(stage.get_untracked(), role)))]);
        let told = run.told(&running, stage.get_untracked(), at, now);
        let keys = [format!("{RUNS}{}", told.id)];
        if desk.step(what, &keys, || desk.put_run(told.clone())).is_ok() {
            done.run(());
        }
    };
    let named = |of: &Stage| (*of, tr(stage_name(*of, role)));
    let options: Vec<(Stage, String)> = stages.iter().map(named).collect();
    view! {
        <div class="tell-body">
            <p class="hint">{live(key::TELL_HINT)}</p>
            <Pick
                id="tell-stage"
                label=key::TELL_WHAT
                options=options
                chosen=Stage::Empty
                choose=move |to| stage.set(to)
            />
            <label class="field-label" for="tell-time">{live(key::TELL_AT)}</label>
            <input
                id="tell-time"
                class="pick-list"
                type="time"
                required=true
                prop:value=time
                on:input:target=move |event| time.set(event.target().value())
            />
            <p class="field-problem" role="alert">{move || wrong.get()}</p>
            <button id="tell-accept" class="button button-deed" type="button" on:click=accept>
                {live(key::TELL_ACCEPT)}
            </button>
        </div>
    }
}
