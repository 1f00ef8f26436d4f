//! What fills the whole screen while something must leave its pail at once.

use leptos::html;
use leptos::prelude::*;
use pailwise_calc::quantity::{Time, Volume, unit};
use pailwise_calc::running::{Stage, Standing};

use super::card::{End, clock, end, mark};
use super::watch::{Watched, watch};
use crate::desk::desk;
use crate::screen::Screen;
use crate::text::{key, live, tr_with};

/// The alarm, wherever in the app one is. Each limit that is passed raises it anew.
#[component]
pub(crate) fn Alarm() -> impl IntoView {
    let watch = watch();
    // Seen, by batch and whether it was past its pot life then.
    let seen = RwSignal::new(Vec::<(String, bool)>::new());
    let alarming = Memo::new(move |_| {
        let now = watch.now.get();
        watch.batches.with(|batches| {
            let alarm = |watched: &Watched| {
                let standing = watched.run.standing(watched.running.as_ref()?, now);
                let past = standing == Standing::PastPotLife;
                (past || standing == Standing::PourOutNow).then(|| (watched.run.id.clone(), past))
            };
            batches.iter().filter_map(alarm).collect::<Vec<_>>()
        })
    });
    let shown = Memo::new(move |_| {
        alarming.with(|all| seen.with(|seen| all.iter().find(|a| !seen.contains(a)).cloned()))
    });
    move || shown.get().map(|alarm| view! { <OneAlarm alarm=alarm seen=seen /> })
}

#[component]
fn OneAlarm(alarm: (String, bool), seen: RwSignal<Vec<(String, bool)>>) -> impl IntoView {
    let desk = desk();
    let watch = watch();
    let (id, past) = alarm.clone();
    let dialog = NodeRef::<html::Dialog>::new();
    Effect::new(move |_| {
        if let Some(dialog) = dialog.get() {
            // One that is open already is what is wanted.
            let _ = dialog.show_modal();
        }
    });
    let watched = watch.batches.with_untracked(|all| all.iter().find(|w| w.run.id == id).cloned());
    let Some(watched) = watched else { return ().into_any() };
    let reader = untrack(|| desk.reader());
    let name = watched.run.job.product.name.clone();
    let volume = reader.volume(Volume::new::<unit::liter>(watched.run.mixed_l));
    let met = clock(reader, watched.run.met_at_ms, Time::default());
    let which =
        move || tr_with(key::ALARM_WHICH, &[("name", &name), ("volume", &volume), ("time", &met)]);
    let empty = move |_| {
        if past {
            // What is past its pot life is not laid any more.
            end(desk, &watched, End::Discarded);
            return;
        }
        let Some(running) = &watched.running else { return };
        let now = desk
            .runs
            .with_untracked(|runs| runs.iter().find(|run| run.id == watched.run.id).cloned());
        let Some(now) = now else { return };
        mark(desk, now, running, Stage::Empty);
    };
    let (head, act, button) = if past {
        (key::ALARM_PAST, key::ALARM_PAST_DO, key::ALARM_OUT)
    } else {
        (key::ALARM_POUR_OUT, key::ALARM_POUR_OUT_DO, key::ALARM_EMPTY)
    };
    view! {
        <dialog
            class="alarm"
            node_ref=dialog
            aria-labelledby="alarm-head"
            on:cancel=|event: web_sys::Event| event.prevent_default()
        >
            <svg class="alarm-sign" viewBox="0 0 100 100" aria-hidden="true">
                <path d="M30 4h40l26 26v40l-26 26h-40l-26-26v-40z" />
                <path class="alarm-bang" d="M50 22v34M50 70v8" />
            </svg>
            <h2 id="alarm-head">{live(head)}</h2>
            <p class="alarm-which">{which}</p>
            <p>{live(act)}</p>
            <p class="alarm-small">{live(key::RESCUE_HOW_TO_DISCARD)}</p>
            <button id="alarm-empty" class="button alarm-button" type="button" on:click=empty>
                {live(button)}
            </button>
            <a
                class="button button-link alarm-button alarm-quiet"
                href=Screen::Clock.fragment()
                on:click=move |_| seen.update(|seen| seen.push(alarm.clone()))
            >
                {live(key::ALARM_CLOCK)}
            </a>
        </dialog>
    }
    .into_any()
}
