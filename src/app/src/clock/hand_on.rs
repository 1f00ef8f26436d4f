//! Handing a batch under way on: a slip for the lid of its pail, and a code for a second phone.

use leptos::prelude::*;
use pailwise_calc::quantity::{Time, Volume, unit};
use pailwise_calc::running::{Limit, Running};
use pailwise_kept::records::run::RunRecord;
use pailwise_kept::show::Reader;

use super::watch::watch;
use crate::desk::desk;
use crate::moments::clock;
use crate::parts::link_code::link_code;
use crate::screen::Screen;
use crate::text::{key, live, tr_with};

/// The page of a batch, by its id.
#[component]
pub(super) fn HandOn(id: String) -> impl IntoView {
    let desk = desk();
    let watch = watch();
    let batch = Memo::new(move |_| {
        watch.batches.with(|all| all.iter().find(|watched| watched.run.id == id).cloned())
    });
    let body = move || {
        batch.get().map_or_else(
            || view! { <p>{live(key::CLOCK_NONE)}</p> }.into_any(),
            |watched| {
                let slip = watched
                    .running
                    .as_ref()
                    .map(|running| slip(desk.reader(), &watched.run, running));
                view! { {slip} {second_phone(&watched.run)} }.into_any()
            },
        )
    };
    view! {
        {body}
        <a class="button button-link" href=Screen::Clock.fragment()>{live(key::PLACE_CLOCK)}</a>
    }
}

/// What is written on the lid: in figures that are read from where one stands.
fn slip(reader: Reader, run: &RunRecord, running: &Running) -> impl IntoView + use<> {
    let at = |after| clock(reader, run.met_at_ms, after);
    let (last, label) = match running.limit(|stage| run.is_done(stage)) {
        Some((Limit::Film, by)) => (at(by), key::LID_CLOSES),
        Some((_, by)) => (at(by), key::LID_LAST_POUR),
        None => (at(running.closes), key::LID_CLOSES),
    };
    let met = at(Time::default());
    let volume = reader.volume(Volume::new::<unit::liter>(run.mixed_l));
    let lot = run.job.product.lot.clone();
    let lot = (!lot.is_empty()).then(|| tr_with(key::LID_LOT, &[("lot", &lot)]));
    let print = move |_| {
        // A phone that cannot print says so itself.
        let _ = window().print();
    };
    view! {
        <section class="card lid" id="lid">
            <h2 class="lid-name">{run.job.product.name.clone()}</h2>
            <p>{volume}{lot.map(|lot| format!(" · {lot}"))}</p>
            <p class="lid-label">{live(key::LID_MET)}</p>
            <p class="lid-time">{met}</p>
            <p class="lid-label">{live(label)}</p>
            <p class="lid-time lid-last">{last}</p>
            <p class="small">{live(key::LID_AFTER)}</p>
            <button class="button no-print" type="button" on:click=print>{live(key::LOG_PRINT)}</button>
        </section>
    }
}

/// A code and a link by which a second phone takes the batch, and rings too.
fn second_phone(run: &RunRecord) -> impl IntoView + use<> {
    let text = serde_json::to_string(run).unwrap_or_default();
    view! {
        <section class="card share no-print" id="second-phone">
            <h2>{live(key::SECOND_PHONE)}</h2>
            <p>{live(key::SECOND_PHONE_HINT)}</p>
            {link_code(&run.job.product.name, &text)}
        </section>
    }
}
