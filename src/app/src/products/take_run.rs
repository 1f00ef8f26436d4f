//! A batch under way on another phone is taken: it counts down and rings here too.

use leptos::prelude::*;
use pailwise_calc::quantity::{Time, Volume, unit};
use pailwise_kept::records::run::RunRecord;

use crate::attention;
use crate::desk::desk;
use crate::moments::clock;
use crate::screen::Screen;
use crate::steady::now_ms;
use crate::text::{key, live, tr_with};

/// What came, and taking it.
#[component]
pub(crate) fn TakeRun(run: RunRecord) -> impl IntoView {
    let desk = desk();
    let reader = untrack(|| desk.reader());
    let name = run.job.product.name.clone();
    let volume = reader.volume(Volume::new::<unit::liter>(run.mixed_l));
    let met = clock(reader, run.met_at_ms, Time::default());
    let said = tr_with(key::ALARM_WHICH, &[("name", &name), ("volume", &volume), ("time", &met)]);
    // A clock that is behind the other phone's would count from a moment to come.
    let ahead = run.met_at_ms > now_ms() + 2000.0;
    // Its floor is the other phone's.
    let run = StoredValue::new(RunRecord { place: None, ..run });
    let accept = move |_| {
        attention::make_ready();
        if desk.begin(&run.get_value()).is_ok() {
            // The address of the page itself cannot fail to be set.
            let _ = window().location().set_hash(Screen::Clock.fragment());
        }
    };
    view! {
        <section class="card" id="take-run">
            <h2>{live(key::TAKE_RUN)}</h2>
            <p>{said}</p>
            <p class="hint">{live(key::TAKE_RUN_HINT)}</p>
            {ahead.then(|| view! { <p class="caution">{live(key::TAKE_RUN_AHEAD)}</p> })}
            <div class="deeds">
                <button id="take-accept" class="button button-deed" type="button" on:click=accept>
                    {live(key::TAKE_RUN_ACCEPT)}
                </button>
                <a class="button button-link" href=Screen::Clock.fragment()>{live(key::BACK)}</a>
            </div>
        </section>
    }
}
