//! The floors: the one in hand, and the others on the shelf, found by name, address or client.

use leptos::prelude::*;
use pailwise_kept::records::floor::{FloorFormRecord, FloorState};

use crate::desk::{Desk, desk};
use crate::parts::search::Search;
use crate::parts::words::Words;
use crate::screen::FloorTab;
use crate::text::{key, live, tr, tr_with};

/// From so many floors on they can be searched.
const MANY: usize = 6;
/// The most characters of a name and of an address.
const NAME: u32 = 80;
const ADDRESS: u32 = 160;

/// Which floor is in hand, over its tabs, with the way to the others.
#[component]
pub(super) fn InHand() -> impl IntoView {
    let desk = desk();
    let name = Memo::new(move |_| desk.floor.with(called));
    view! {
        <p class="floor-in-hand no-print">
            <span class="chip-name" id="floor-name">{name}</span>
            <a class="button button-quiet button-link" href=FloorTab::Floors.fragment()>
                {live(key::FLOORS_ALL)}
            </a>
        </p>
    }
}

/// What a floor is called: by its name, its address or its client, or as one without a name.
fn called(floor: &FloorFormRecord) -> String {
    let names = [&floor.label.name, &floor.label.address, &floor.hand_over.client];
    let name = names.into_iter().map(|name| name.trim()).find(|name| !name.is_empty());
    name.map_or_else(|| tr(key::FLOOR_UNNAMED), str::to_owned)
}

/// The page of all floors.
#[component]
pub(super) fn Shelf() -> impl IntoView {
    let desk = desk();
    let sought = RwSignal::new(String::new());
    // Read once, not with every letter of a name.
    let kept = Memo::new(move |_| desk.shelved_floors());
    let all = Memo::new(move |_| {
        let in_hand = desk.floor.get();
        kept.with(|kept| {
            let others = kept.iter().filter(|floor| floor.id != in_hand.id).cloned();
            std::iter::once(in_hand.clone()).chain(others).collect::<Vec<_>>()
        })
    });
    let many = Memo::new(move |_| all.with(Vec::len) >= MANY);
    let found = Memo::new(move |_| {
        let words: Vec<String> =
            sought.with(|text| text.to_lowercase().split_whitespace().map(str::to_owned).collect());
        all.with(|all| all.iter().filter(|floor| floor.says(&words)).cloned().collect::<Vec<_>>())
    });
    let cards = move |away: bool| {
        let in_hand = desk.floor_id();
        let shown = found.get().into_iter();
        let shown =
            shown.filter(move |floor| (floor.label.put_away && floor.id != in_hand) == away);
        shown.map(move |floor| view! { <Card floor=floor in_hand=in_hand /> }).collect_view()
    };
    let put_away = move || {
        let in_hand = desk.floor_id();
        found.with(|all| all.iter().any(|floor| floor.label.put_away && floor.id != in_hand))
    };
    view! {
        <section class="card" id="floors">
            <h2>{live(key::FLOORS)}</h2>
            <Named />
            <Show when=move || many.get()>
                <Search id="floors-search" label=key::FLOORS_SEARCH words=sought />
            </Show>
            <ul class="cards">{move || cards(false)}</ul>
            <Show when=move || found.with(Vec::is_empty)><p>{live(key::FLOORS_NONE)}</p></Show>
        </section>
        <Show when=put_away>
            <details class="fold card">
                <summary>{live(key::SHELF_ARCHIVED)}</summary>
                <ul class="cards">{move || cards(true)}</ul>
            </details>
        </Show>
    }
}

/// The name and the address of the floor in hand, to be typed.
#[component]
fn Named() -> impl IntoView {
    let desk = desk();
    let name = Signal::derive(move || desk.floor.with(|floor| floor.label.name.clone()));
    let address = Signal::derive(move || desk.floor.with(|floor| floor.label.address.clone()));
    view! {
        <Words
            id="floor-label"
            label=key::FLOOR_NAME
            most=NAME
            text=name
            set=move |text| desk.floor.update(|floor| floor.label.name = text)
        />
        <Words
            id="floor-address"
            label=key::FLOOR_ADDRESS
            most=ADDRESS
            text=address
            set=move |text| desk.floor.update(|floor| floor.label.address = text)
        />
    }
}

/// One floor of the list, with what can be done with it.
#[component]
fn Card(floor: FloorFormRecord, in_hand: u64) -> impl IntoView {
    let desk = desk();
    let (id, name) = (floor.id, called(&floor));
    let here = id == in_hand;
    let coats: Vec<String> = floor.coats.iter().map(|coat| desk.name_of(&coat.product)).collect();
    let about = [floor.first_day.clone(), floor.label.address.clone(), coats.join(", ")];
    let about = about.into_iter().filter(|text| !text.is_empty() && *text != name);
    let about = about.collect::<Vec<_>>().join(" · ");
    let state = match floor.state() {
        FloorState::UnderWay => key::FLOOR_UNDER_WAY,
        FloorState::Planned => key::FLOOR_PLANNED,
        FloorState::Finished => key::FLOOR_FINISHED,
    };
    view! {
        <li class="card-row" aria-current=here.then_some("true")>
            <div class="card-main">
                <span class="chip-name">{name}</span>
                <span class="chip-role">
                    {move || here.then(|| format!("{} · ", tr(key::FLOOR_IN_HAND)))}
                    {live(state)}
                    {format!(" · {about}")}
                </span>
            </div>
            <Deeds floor=floor here=here />
        </li>
    }
}

/// What can be done with a floor of the list.
#[component]
fn Deeds(floor: FloorFormRecord, here: bool) -> impl IntoView {
    let desk = desk();
    let (id, name, label) = (floor.id, called(&floor), floor.label.clone());
    let floor = StoredValue::new(floor);
    let name = StoredValue::new(name);
    let say = move |text: &'static str| name.with_value(|name| tr_with(text, &[("name", name)]));
    let open = move |()| open_floor(desk, say(key::DID_FLOOR_OPEN), floor.get_value());
    let copy = move |()| {
        let units = desk.settings.with_untracked(|s| s.units);
        let mut like = floor.with_value(|floor| floor.like_this(desk.free_floor_id(), units));
        if here {
            like.label.crew = None;
        }
        open_floor(desk, say(key::DID_FLOOR_COPY), like);
    };
    let finish = move |()| {
        desk.relabel(say(key::DID_FLOOR_FINISHED), id, |floor| {
            floor.label.finished = !floor.label.finished;
        });
    };
    let away = move |()| {
        desk.relabel(say(key::DID_ARCHIVE), id, |floor| {
            floor.label.put_away = !floor.label.put_away;
        });
    };
    let drop = move |()| desk.drop_floor(say(key::DID_DELETE), id);
    let finish_label = if label.finished { key::FLOOR_NOT_FINISHED } else { key::FLOOR_FINISH };
    let away_label = if label.put_away { key::UNARCHIVE } else { key::ARCHIVE };
    let quiet = |text: &'static str, act: Callback<()>| {
        view! {
            <button class="button button-quiet" type="button" on:click=move |_| act.run(())>
                {live(text)}
            </button>
        }
    };
    view! {
        <div class="card-deeds">
            {(!here).then(|| quiet(key::FLOOR_OPEN, Callback::new(open)))}
            {quiet(key::FLOOR_COPY, Callback::new(copy))}
            {quiet(finish_label, Callback::new(finish))}
            {(!here).then(|| quiet(away_label, Callback::new(away)))}
            {(!here && label.put_away).then(|| quiet(key::DELETE, Callback::new(drop)))}
        </div>
    }
}

/// Takes a floor in hand and shows its plan.
fn open_floor(desk: Desk, what: String, floor: FloorFormRecord) {
    // Told of where it fails; the floor in hand is then still there.
    if desk.take_in_hand(what, floor).is_ok() {
        FloorTab::Plan.go();
    }
}
