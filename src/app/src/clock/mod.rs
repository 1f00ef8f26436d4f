//! The Clock screen: the batches under way, each with what is next and by when; and the log of
//! what was mixed.

mod attention;
mod book;
mod card;
pub mod log;
pub mod run;
mod start;
pub(crate) mod watch;

use leptos::prelude::*;

use crate::text::{key, live, tr};

pub(crate) use start::StartButton;
pub(crate) use watch::{Alarm, Watch};

/// The screen.
#[component]
pub(crate) fn Clock() -> impl IntoView {
    let watch = watch::watch();
    let ids = Memo::new(move |_| {
        watch.batches.with(|all| all.iter().map(|w| w.run.id.clone()).collect::<Vec<_>>())
    });
    let none = move || ids.with(Vec::is_empty);
    let lacks = attention::lacking();
    view! {
        <div class="products">
            <Show when=none>
                <section class="card">
                    <h2>{live(key::CLOCK)}</h2>
                    <p>{live(key::CLOCK_NONE)}</p>
                </section>
            </Show>
            {move || ids.get().into_iter().map(|id| view! { <card::Card id=id /> }).collect_view()}
            <details class="fold card">
                <summary>{live(key::CLOCK_HELP)}</summary>
                <ul>
                    <li>{live(key::CLOCK_HELP_STAMP)}</li>
                    <li>{live(key::CLOCK_HELP_LOCKED)}</li>
                    <li>{live(key::CLOCK_HELP_SET)}</li>
                    {lacks.into_iter().map(|text| view! { <li>{move || tr(text)}</li> }).collect_view()}
                </ul>
            </details>
            <book::Book />
        </div>
    }
}
