//! The Clock screen: the batches under way, each with what is next and by when; and the log of
//! what was mixed.

mod alarm;
mod alarm_dialog;
mod book;
mod card;
mod correct;
mod count;
pub mod cup;
mod end;
mod hand_on;
mod seen;
mod stages;
mod strip;
mod tell;
pub(crate) mod watch;
mod watched;

use leptos::prelude::*;

use crate::desk::desk;
use crate::parts::caution::Caution;
use crate::screen::{ClockRoute, CurrentRoute};
use crate::text::{key, live};

pub(crate) use alarm_dialog::Alarm;
pub(crate) use strip::Strip;
pub(crate) use watch::Watch;

/// The Clock screen: batches under way and the log, or handing a batch on.
#[component]
pub(crate) fn Clock(here: CurrentRoute) -> impl IntoView {
    let spot = here.clock_spot();
    move || match spot.get() {
        ClockRoute::All => view! { <All /> }.into_any(),
        ClockRoute::HandOn(id) => {
            view! { <div class="products"><hand_on::HandOn id=id /></div> }.into_any()
        }
    }
}

/// All that is under way, and the log.
#[component]
fn All() -> impl IntoView {
    let watch = watch::watch();
    let ids = Memo::new(move |_| {
        watch.batches.with(|all| all.iter().map(|w| w.run.id.clone()).collect::<Vec<_>>())
    });
    let none = move || ids.with(Vec::is_empty);
    view! {
        <div class="products">
            <Show when=none>
                <section class="card">
                    <h2>{live(key::CLOCK)}</h2>
                    <p>{live(key::CLOCK_NONE)}</p>
                </section>
            </Show>
            <Lacks />
            {move || ids.get().into_iter().map(|id| view! { <card::Card id=id /> }).collect_view()}
            <cup::Cups />
            <Show when=move || !none()>
                <Caution text=key::CAUTION_HOT />
                <Caution text=key::CAUTION_LEFTOVERS />
                <Caution text=key::CAUTION_SLIP />
            </Show>
            <details class="fold card">
                <summary>{live(key::CLOCK_HELP)}</summary>
                <ul>
                    <li>{live(key::CLOCK_HELP_STAMP)}</li>
                    <li>{live(key::CLOCK_HELP_LOCKED)}</li>
                    <li>{live(key::CLOCK_HELP_SET)}</li>
                </ul>
            </details>
            <book::Book />
        </div>
    }
}

/// What this phone cannot do to call for attention, told once.
#[component]
fn Lacks() -> impl IntoView {
    let settings = desk().settings;
    let lacks = crate::attention::lacking();
    let told = Memo::new(move |_| settings.with(|s| s.lacks_told));
    let any = !lacks.is_empty();
    let lines = lacks.into_iter().map(|text| view! { <li>{live(text)}</li> }).collect_view();
    view! {
        <section class="notice" hidden=move || told.get() || !any>
            <ul>{lines}</ul>
            <button
                class="button"
                type="button"
                on:click=move |_| settings.update(|s| s.lacks_told = true)
            >
                {live(key::LACKS_TOLD)}
            </button>
        </section>
    }
}
