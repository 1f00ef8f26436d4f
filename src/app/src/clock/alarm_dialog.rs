//! What fills the whole screen while something must leave its pail at once.

use leptos::html;
use leptos::prelude::*;
use pailwise_calc::quantity::{Time, Volume, unit};
use pailwise_calc::running::{Stage, Status};

use super::count::order;
use super::end::{End, end};
use super::stages::mark;
use super::watch::watch;
use super::watched::Watched;
use crate::desk::{Desk, desk};
use crate::moments::clock;
use crate::screen::Screen;
use crate::steady::now_ms;
use crate::text::{key, live, tr_with};

/// The alarm, wherever in the app one is. Each limit that is passed raises it anew.
#[component]
pub(crate) fn Alarm() -> impl IntoView {
    let watch = watch();
    // Seen, by batch and how it stood then.
    let seen = RwSignal::new(Vec::<(String, Status)>::new());
    let alarming = Memo::new(move |_| {
        let now = watch.now.get();
        watch.batches.with(|batches| {
            let alarm = |watched: &Watched| {
                let status = watched.status(now);
                (status >= Status::PartOnly).then(|| (watched.run.id.clone(), status))
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
fn OneAlarm(alarm: (String, Status), seen: RwSignal<Vec<(String, Status)>>) -> impl IntoView {
    let desk = desk();
    let watch = watch();
    let (id, status) = alarm.clone();
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
    let (head, act) = match (&watched.running, status) {
        (None, _) => (key::ALARM_UNKNOWN, key::CLOCK_LOST),
        (_, Status::PartOnly) => (key::ALARM_PART, key::ALARM_PART_DO),
        (_, Status::PastPotLife) => (key::ALARM_PAST, key::ALARM_PAST_DO),
        _ => (key::ALARM_POUR_OUT, key::ALARM_POUR_OUT_DO),
    };
    let ordered = StoredValue::new(watched.clone());
    let order = (status == Status::PartOnly).then(|| {
        let order = move || ordered.with_value(|w| order(desk.reader(), w, watch.now.get()));
        view! { <p class="alarm-order" role="status">{order}</p> }
    });
    let deeds = if status == Status::PartOnly {
        part(desk, watched.clone()).into_any()
    } else {
        let out = move |_| end(desk, &watched, End::Discarded);
        view! {
            <button id="alarm-empty" class="button alarm-button" type="button" on:click=out>
                {live(key::ALARM_OUT)}
            </button>
        }
        .into_any()
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
            {order}
            <p>{live(act)}</p>
            <p class="alarm-small">{live(key::RESCUE_HOW_TO_DISCARD)}</p>
            {deeds}
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

/// How much of it can still be laid, less by the minute, and what was done.
fn part(desk: Desk, watched: Watched) -> impl IntoView {
    let of = StoredValue::new(watched);
    let still = move || {
        of.with_value(|w| {
            let since = w.run.since(now_ms());
            w.running.as_ref()?.still(since).map(|still| still.volume)
        })
    };
    let poured = move |volume: Option<Volume>| {
        of.with_value(|w| {
            let Some(running) = &w.running else { return };
            let Some(now) = desk.run_of(&w.run.id) else { return };
            let now = volume.map_or(now.clone(), |volume| now.poured_in_part(volume));
            mark(desk, now, running, Stage::Empty);
        });
    };
    view! {
        <button
            id="alarm-part"
            class="button alarm-button"
            type="button"
            on:click=move |_| poured(still())
        >
            {live(key::ALARM_PART_DONE)}
        </button>
        <button
            id="alarm-all"
            class="button alarm-button alarm-quiet"
            type="button"
            on:click=move |_| poured(None)
        >
            {live(key::ALARM_ALL_POURED)}
        </button>
    }
}
