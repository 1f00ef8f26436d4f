//! The Floor screen: the floor as measured, its coats, and the plan of each from the back wall to
//! the door; on its other sides what to load, whether it is ready, what comes after, and handing
//! it over.

mod after;
mod ahead;
mod answer;
mod batches;
mod checklist;
mod coats;
mod days;
mod down;
mod fields;
mod film;
mod flake;
mod hand_over;
mod load;
mod pictures;
mod questions;
mod ready;
mod sheet;
mod shelf;
mod surface;
mod weather;

use leptos::prelude::*;

use crate::desk::desk;
use crate::moments;
use crate::screen::{CurrentRoute, FloorTab, ShelfRoute};
use crate::text::{key, live};
use pailwise_calc::record::UnderWayRecord;
use pailwise_kept::answers::floor::{Checked, Found, UnderWay, ask, plan};
use pailwise_kept::records::run::RunRecord;

/// The Floor screen, with tabs for plan, load, readiness, aftercare and hand-over.
#[component]
pub fn Floor(
    /// Where in the app one is.
    here: CurrentRoute,
) -> impl IntoView {
    let desk = desk();
    let under_way = Memo::new(move |_| {
        let floor = desk.floor_id();
        desk.runs.with(|runs| runs.iter().filter_map(|run| of(run, floor)).collect())
    });
    // The plans are made anew where the floor is another, not with every letter of a client's name.
    let asked = Memo::new(move |_| {
        let under_way: Vec<UnderWay> = under_way.get();
        let units = desk.settings.with(|s| s.units);
        let shelf = desk.shelf.get();
        desk.floor.with(|form| desk.mix.with(|mix| ask(form, mix, &shelf, (units, &under_way))))
    });
    let checked = StoredValue::new(Checked::default());
    let found = Memo::new(move |_| {
        let planned = checked.try_update_value(|checked| asked.with(|asked| plan(asked, checked)));
        planned.unwrap_or(Found::NoCoat)
    });
    let side = here.side();
    view! {
        <shelf::InHand />
        <Sides side=side found=found />
        <div class="mix">
            {move || match side.get() {
                FloorTab::Plan => view! { <Plan found=found /> }.into_any(),
                FloorTab::Ready => view! { <ready::Ready found=found /> }.into_any(),
                FloorTab::After => view! { <after::After found=found /> }.into_any(),
                FloorTab::Load => view! { <load::Load found=found /> }.into_any(),
                FloorTab::HandOver => view! { <hand_over::HandOver found=found /> }.into_any(),
                FloorTab::Floors => view! { <shelf::Shelf /> }.into_any(),
            }}
        </div>
    }
}

/// A batch of the clock that belongs on the floor in hand.
fn of(run: &RunRecord, floor: u64) -> Option<UnderWay> {
    let place = run.place.filter(|place| place.is_of(floor))?;
    let begun_min = moments::minute_of_day(run.met_at_ms);
    let batch = UnderWayRecord {
        bay: place.bay,
        on_walls: place.to_m.is_none(),
        begun_min,
        mixed_l: Some(run.mixed_l),
        to_m: place.to_m,
    };
    let product = run.job.product.id.clone();
    Some(UnderWay { coat: place.coat, product, batch })
}

/// The sides, each a tap away.
#[component]
fn Sides(side: Memo<FloorTab>, found: Memo<Found>) -> impl IntoView {
    let short = Memo::new(move |_| found.with(load::falls_short));
    let links = FloorTab::OF_ONE.into_iter().map(|to| {
        let here = move || (side.get() == to).then_some("page");
        let alarm = move || {
            (to == FloorTab::Load && short.get()).then(|| {
                view! { <span class="side-alarm">{live(key::SIDE_SHORT)}</span> }
            })
        };
        view! {
            <a class="side" href=to.fragment() aria-current=here>{live(to.name())} {alarm}</a>
        }
    });
    view! { <nav class="sides no-print" aria-label=live(key::SIDES)>{links.collect_view()}</nav> }
}

/// The floor and its plan.
#[component]
fn Plan(found: Memo<Found>) -> impl IntoView {
    view! {
        <section class="questions" aria-label=live(key::FLOOR_QUESTIONS)>
            <questions::Questions />
            <a class="button button-link" href=ShelfRoute::ShareFloor.fragment()>
                {live(key::SHARE_FLOOR)}
            </a>
            <questions::NewFloor />
        </section>
        <section class="answer" aria-label=live(key::FLOOR_ANSWER)>
            <answer::Answer found=found />
        </section>
    }
}
