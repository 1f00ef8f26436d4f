//! The lot in hand: its number, and what the crew has seen of it against its sheet.

use leptos::prelude::*;
use pailwise_calc::lot::{LearntBy, Seen};
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Mass, Time, celsius, unit};
use pailwise_calc::record::{LearntRecord, ProductRecord};
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use crate::desk::{Desk, desk};
use crate::moments;
use crate::parts::words::Words;
use crate::screen::{Screen, ShelfRoute};
use crate::store::{NotKept, PRODUCTS};
use crate::text::{key, live, tr, tr_with};

/// The page of a product's lot, by the product's id.
#[component]
pub(super) fn Lot(id: String) -> impl IntoView {
    let desk = desk();
    let product = Memo::new(move |_| desk.product_of(&id));
    let body = move || {
        product.with(|product| match product {
            Some(product) => known(desk, product).into_any(),
            None => view! { <p>{live(key::NO_SUCH_PRODUCT)}</p> }.into_any(),
        })
    };
    let name = move || product.with(|p| p.as_ref().map(|p| p.name.clone()));
    let there = move || product.with(Option::is_some);
    let typed = move |lot: String| {
        let Some(mut product) = product.get_untracked() else { return };
        product.lot = lot.chars().filter(|sign| !sign.is_control()).collect();
        // Told of where it fails.
        let _ = desk.put_product(product);
    };
    let number = Signal::derive(move || {
        product.with(|p| p.as_ref().map_or_else(String::new, |p| p.lot.clone()))
    });
    view! {
        <section class="card" id="lot">
            <h2>{live(key::LOT)}</h2>
            <p>{name}</p>
            <Show when=there>
                <Words
                    id="lot-number"
                    label=key::LOT_NUMBER
                    hint=Some(key::LOT_NUMBER_HINT)
                    most=40
                    text=number
                    set=typed
                />
            </Show>
            {body}
            <div class="deeds">
                <a class="button button-link" href=Screen::Mix.fragment()>{live(key::PLACE_MIX)}</a>
                <a class="button button-link" href=Screen::Clock.fragment()>
                    {live(key::PLACE_CLOCK)}
                </a>
                <a class="button button-link" href=ShelfRoute::Shelf.fragment()>{live(key::SHELF)}</a>
            </div>
        </section>
    }
}

/// How the lot runs, and what says so.
fn known(desk: Desk, record: &ProductRecord) -> impl IntoView + use<> {
    let reader = desk.reader();
    let product = Product::try_from(record).ok();
    let sheet = Product::try_from(&ProductRecord { learnt: Vec::new(), ..record.clone() }).ok();
    let runs = product.as_ref().map(|product| runs_said(reader, product));
    let spread = product.as_ref().and_then(|product| spread_said(reader, product));
    let line = |(at, learnt): (usize, &LearntRecord)| {
        let says = sheet.as_ref().and_then(|sheet| says(reader, sheet, learnt));
        let (id, learnt_at) = (record.id.clone(), learnt.at.clone());
        let forget = move |_| forget(desk, &id, |i, one| i == at && one.at == learnt_at);
        view! {
            <li class="card-row">
                <p class="card-main">{seen(reader, learnt)}" "{says}</p>
                <div class="card-deeds">
                    <button class="button button-quiet" type="button" on:click=forget>
                        {live(key::LOT_FORGET)}
                    </button>
                </div>
            </li>
        }
    };
    let (now, before): (Vec<_>, Vec<_>) =
        record.learnt.iter().enumerate().rev().partition(|(_, one)| one.lot == record.lot);
    let all = record.learnt.len() > 1;
    let id = record.id.clone();
    view! {
        <p class="notice" id="lot-runs" role="status">{runs}</p>
        {spread.map(|text| view! { <p id="lot-spread">{text}</p> })}
        <ul class="cards" id="lot-seen">{now.into_iter().map(line).collect_view()}</ul>
        {(!before.is_empty()).then(|| view! {
            <h3>{live(key::LOT_BEFORE)}</h3>
            <ul class="cards">{before.into_iter().map(line).collect_view()}</ul>
        })}
        {all.then(|| view! {
            <button
                class="button button-quiet"
                type="button"
                on:click=move |_| forget(desk, &id, |_, _| true)
            >
                {live(key::LOT_FORGET_ALL)}
            </button>
        })}
        <details class="fold">
            <summary>{live(key::LOT_HOW)}</summary>
            <ul>
                <li>{tr_with(key::LOT_HOW_CUP, &[("set", &tr(key::CUP_SET))])}</li>
                <li>{live(key::LOT_HOW_READ)}</li>
                <li>{tr_with(key::LOT_HOW_OFF, &[("off", &tr(key::CLOCK_WENT_OFF))])}</li>
                <li>{live(key::LOT_HOW_COUNTS)}</li>
            </ul>
        </details>
    }
}

/// How the lot of a product runs against its sheet, in words.
fn runs_said(reader: Reader, product: &Product) -> String {
    let as_sheet = if product.lot().seen.is_empty() { key::LOT_UNSEEN } else { key::LOT_AS_SHEET };
    say::lot_runs(reader, product.lot()).unwrap_or_else(|| tr(as_sheet))
}

/// How far apart what was seen of a lot lies; nothing of fewer than two.
fn spread_said(reader: Reader, product: &Product) -> Option<String> {
    let seen = &product.lot().seen;
    (seen.len() > 1).then(|| {
        let least = seen.iter().copied().fold(f64::MAX, f64::min);
        let most = seen.iter().copied().fold(f64::MIN, f64::max);
        let figures = [("least", &*reader.times_down(least)), ("most", &*reader.times_up(most))];
        tr_with(key::LOT_SPREAD, &figures)
    })
}

/// What was seen, when, of how much and how warm.
fn seen(reader: Reader, learnt: &LearntRecord) -> String {
    let text = match learnt.by {
        LearntBy::Cup => key::SEEN_CUP,
        LearntBy::WentOff => key::SEEN_WENT_OFF,
        LearntBy::Reading => key::SEEN_READING,
    };
    let time = reader.time(Time::new::<unit::minute>(learnt.time_min));
    let mass = reader.mass(Mass::new::<unit::kilogram>(learnt.mass_kg));
    let mixed = reader.temperature(celsius(learnt.mixed_c));
    let read = learnt.read_c.map_or_else(String::new, |read| reader.temperature(celsius(read)));
    let at = moments::local(&learnt.at, reader.language);
    let figures = [
        ("at", &*at),
        ("time", &*time),
        ("mass", &*mass),
        ("mixed", &*mixed),
        ("read", &*read),
        ("lot", &*learnt.lot),
    ];
    let said = tr_with(text, &figures);
    if learnt.lot.is_empty() {
        said
    } else {
        format!("{said} {}", tr_with(key::SEEN_LOT, &figures))
    }
}

/// How fast that is against the sheet.
fn says(reader: Reader, sheet: &Product, learnt: &LearntRecord) -> Option<String> {
    let pace = sheet.pace_by(&Seen::try_from(learnt).ok()?).ok()?;
    Some(match pace {
        Some(pace) if pace >= 1.0 => {
            tr_with(key::SEEN_FASTER, &[("times", &reader.times_up(pace))])
        }
        Some(pace) => tr_with(key::SEEN_SLOWER, &[("times", &reader.times_down(1.0 / pace))]),
        None => tr(key::SEEN_NOTHING),
    })
}

/// Forgets some of what was seen of a product.
fn forget(desk: Desk, id: &str, which: impl Fn(usize, &LearntRecord) -> bool) {
    let Some(mut product) = untrack(|| desk.product_of(id)) else { return };
    let mut at = 0..;
    product.learnt.retain(|one| !which(at.next().unwrap_or_default(), one));
    let what = tr_with(key::DID_FORGET_SEEN, &[("name", &product.name)]);
    let _ = desk.step(what, &[format!("{PRODUCTS}{id}")], || {
        desk.put_product(product.clone())?;
        Ok::<(), NotKept>(())
    });
}
