//! Ready to coat: the readings of a coat, the verdict on them, and the surface.

use leptos::prelude::*;
use pailwise_calc::quantity::Time;
use pailwise_calc::ready::{Readiness, ready};
use pailwise_kept::answers::floor::{Found, Good};
use pailwise_kept::day;
use pailwise_kept::records::floor::Single;
use pailwise_kept::show::Reader;
use web_sys::js_sys::Date;

use super::ahead::takes_at_least;
use super::coats::{CoatPick, refusal, shown_coat};
use super::days::{Days, Toward};
use super::fields::{TimeField, alter, of_coat, step};
use super::surface;
use super::weather::{Weather, read_said};
use crate::desk::{Desk, desk};
use crate::moments;
use crate::parts::caution::Caution;
use crate::parts::question::Question;
use crate::parts::verdict::{readings, verdict};
use crate::screen::FloorTab;
use crate::text::{key, live, tr, tr_with};

/// How ready the coat that is looked at is, worked out once for all that say so.
pub(super) fn judged(found: Memo<Found>) -> Memo<Option<Readiness>> {
    let desk = desk();
    let shown = Memo::new(move |_| desk.floor.with(shown_coat));
    Memo::new(move |_| {
        found.with(|found| match found {
            Found::Plans(good) => readiness(good, shown.get()),
            _ => None,
        })
    })
}

/// The word where no reading forbids: another beside a plan that stops.
pub(super) fn go_beside(good: &Good, coat: usize) -> &'static str {
    let stopped = good.plans.get(coat).is_some_and(|plan| plan.stopped.is_some());
    if stopped { key::READY_GO_STOPS } else { key::READY_GO }
}

/// Floor tab with a coat's readings and the verdict whether it may be laid.
#[component]
pub(super) fn Ready(found: Memo<Found>) -> impl IntoView {
    let desk = desk();
    let shown = Memo::new(move |_| desk.floor.with(shown_coat));
    let judged = judged(found);
    let answer = move || {
        let reader = desk.reader();
        found.with(|found| match found {
            Found::Plans(good) => {
                let of = |found: &Readiness| card(reader, desk, good, found);
                judged.with(|judged| judged.as_ref().and_then(of)).into_any()
            }
            other => refusal(reader, other).into_any(),
        })
    };
    let table = move || {
        let reader = desk.reader();
        found.with(|found| match found {
            Found::Plans(good) => {
                let of = |found: &Readiness| table(reader, desk, good, found);
                judged.with(|judged| judged.as_ref().and_then(of)).into_any()
            }
            _ => ().into_any(),
        })
    };
    let surface = move || {
        let reader = desk.reader();
        found.with(|found| match found {
            Found::Plans(good) => surface::findings(reader, good).into_any(),
            _ => ().into_any(),
        })
    };
    let now = move || read_said(shown.get());
    let unread = desk.floor.with_untracked(|form| {
        let coat = form.coats.get(shown_coat(form));
        coat.is_some_and(|coat| coat.entry(Single::Humidity).is_none_or(|e| e.text.is_empty()))
    });
    view! {
        <section class="answer ready-top" aria-label=live(key::FLOOR_ANSWER)>{answer}</section>
        <section class="questions" aria-label=live(key::SIDE_READY)>
            <Question label=key::READY_READINGS now=Signal::derive(now) open=unread>
                <CoatPick />
                {move || view! { <Begins at=shown.get() /> <Weather at=shown.get() /> }}
            </Question>
            <surface::Questions />
        </section>
        <section class="answer ready-rest" aria-label=live(key::READY_READINGS)>
            {table}
            {surface}
            <Caution text=key::CAUTION_ACID />
            <Caution text=key::CAUTION_SLIP />
        </section>
    }
}

/// How ready a coat is, when it begins; the one that goes on the slab also by the slab's surface.
pub(super) fn readiness(good: &Good, coat: usize) -> Option<Readiness> {
    let of = good.floor.coats.get(coat)?;
    let found = ready(&of.product, &of.course, takes_at_least(good, coat));
    let on_slab = surface::on_slab(good) == Some(coat);
    Some(if on_slab { found.on(&surface::found(good)) } else { found })
}

fn card(reader: Reader, desk: Desk, good: &Good, found: &Readiness) -> Option<AnyView> {
    let shown = desk.floor.with(shown_coat);
    let coat = good.floor.coats.get(shown)?;
    let days = desk.floor.with(|form| Days::of(reader, form));
    let begins = coat.begins;
    let at = move |since: Time| days.said(begins, since, Toward::Earlier);
    let name = good.products.get(shown).map(|product| product.name.clone());
    let from = days.said(begins, Time::default(), Toward::Earlier);
    let from = tr_with(key::READY_RECKONED, &[("time", &from)]);
    let no_night = (!coat.course.knows_a_night()).then(|| {
        view! { <p class="caution" id="no-night">{live(key::READY_NO_NIGHT)}</p> }
    });
    let go = go_beside(good, shown);
    let stops = (go == key::READY_GO_STOPS).then(|| {
        view! {
            <p class="caution" id="ready-stops">
                <a href=FloorTab::Plan.fragment()>{live(key::READY_STOPS)}</a>
            </p>
        }
    });
    Some(
        view! {
            <h2 class="plan-heading">{name}</h2>
            {verdict(reader, found, "floor-verdict", go, at)}
            <p class="small">{from}</p>
            {stops}
            {no_night}
        }
        .into_any(),
    )
}

/// Every reading beside its limit.
fn table(reader: Reader, desk: Desk, good: &Good, found: &Readiness) -> Option<AnyView> {
    let shown = desk.floor.with(shown_coat);
    let begins = good.floor.coats.get(shown)?.begins;
    let days = desk.floor.with(|form| Days::of(reader, form));
    let at = move |since: Time| days.said(begins, since, Toward::Earlier);
    Some(
        view! {
            <div class="card">
                {readings(reader, found, at)}
                <p class="small">{live(key::READY_HOW)}</p>
            </div>
        }
        .into_any(),
    )
}

/// When the coat at a place begins, which is when its readings are from; now, by a tap.
#[component]
fn Begins(at: usize) -> impl IntoView {
    let now = move |_| {
        let minutes = moments::minute_of_day(Date::now());
        step(tr(key::DID_BEGIN_NOW), move |form| {
            if let Some(coat) = form.coats.get_mut(at) {
                coat.starts = day::time_of_day(minutes);
            }
        });
    };
    view! {
        <TimeField
            id=format!("ready-starts-{at}")
            label=key::ASK_STARTS
            time=Signal::derive(move || of_coat(at, |coat| coat.starts.clone()))
            set=move |time| alter(at, |coat| coat.starts = time)
        />
        <button class="button" type="button" on:click=now>{live(key::READY_NOW)}</button>
    }
}
