//! The shelf: every product, those put away below.

use leptos::prelude::*;
use pailwise_calc::record::ProductRecord;
use pailwise_kept::records::draft::DraftRecord;
use pailwise_kept::records::settings::turn;
use pailwise_kept::say;

use crate::desk::desk;
use crate::files::{self, Opened};
use crate::moments;
use crate::parts::search::Search;
use crate::screen::ShelfRoute;
use crate::store::{self, DRAFTS, PRODUCTS, SETTINGS};
use crate::text::{key, live, tr, tr_with};

/// From so many products on there is a field to search them.
const MANY: usize = 7;

/// The list of products, with search, unfinished ones, and those put away.
#[component]
pub(super) fn Shelf(
    /// Where the text of a file that was opened goes.
    opened: RwSignal<Opened>,
) -> impl IntoView {
    let desk = desk();
    let sought = RwSignal::new(String::new());
    let many = Memo::new(move |_| desk.shelf.with(Vec::len) >= MANY);
    let found = move |archived: bool| {
        let away = desk.settings.with(|s| s.archived.clone());
        let sought = sought.get().to_lowercase();
        let mut shelf: Vec<ProductRecord> = desk.shelf.get();
        shelf.retain(|p| {
            away.contains(&p.id) == archived
                && (sought.is_empty() || p.name.to_lowercase().contains(sought.trim()))
        });
        desk.favourites_first(shelf)
    };
    let cards = move |archived| {
        found(archived).into_iter().map(|product| view! { <Card product=product /> }).collect_view()
    };
    let none = move || found(false).is_empty() && !sought.with(String::is_empty);
    view! {
        <section class="card">
            <h2>{live(key::SHELF)}</h2>
            <Show when=move || many.get()>
                <Search id="shelf-search" label=key::SHELF_SEARCH words=sought />
            </Show>
            <ul class="cards">{move || cards(false)}</ul>
            <Show when=none><p>{live(key::SHELF_NONE_FOUND)}</p></Show>
            <Unfinished />
            <div class="deeds">
                <button
                    class="button button-deed"
                    type="button"
                    on:click=move |_| ShelfRoute::New(free_id("product")).go()
                >
                    {live(key::SHELF_ADD)}
                </button>
                <OpenFile opened=opened />
                <a class="button button-link" href=ShelfRoute::ShareAll.fragment()>
                    {live(key::SHELF_SHARE_ALL)}
                </a>
                <a class="button button-link" href=ShelfRoute::Phone.fragment()>{live(key::PHONE)}</a>
            </div>
        </section>
        <Show when=move || !found(true).is_empty()>
            <details class="fold card">
                <summary>{live(key::SHELF_ARCHIVED)}</summary>
                <ul class="cards">{move || cards(true)}</ul>
            </details>
        </Show>
    }
}

/// Products that were begun and never put on the shelf.
#[component]
fn Unfinished() -> impl IntoView {
    let desk = desk();
    let begun = move || {
        desk.rereads.track();
        let drafts = desk.records::<DraftRecord>(DRAFTS).into_iter();
        let ids = drafts.filter_map(|(key, draft)| {
            let id = key.strip_prefix(DRAFTS)?.to_owned();
            desk.product_of(&id).is_none().then(|| (id, draft.name.trim().to_owned()))
        });
        ids.collect::<Vec<_>>()
    };
    let line = |(id, name): (String, String)| {
        let name = if name.is_empty() { tr(key::SHEET_NO_NAME) } else { name };
        view! {
            <li class="card-row">
                <a class="card-main" href=ShelfRoute::New(id.clone()).fragment()>
                    <span class="chip-name">{name.clone()}</span>
                </a>
                <div class="card-deeds">
                    <button
                        class="button button-quiet"
                        type="button"
                        on:click=move |_| drop_draft(&id, &name)
                    >
                        {live(key::DELETE)}
                    </button>
                </div>
            </li>
        }
    };
    move || {
        let begun = begun();
        (!begun.is_empty()).then(|| {
            view! {
                <h3>{live(key::SHELF_UNFINISHED)}</h3>
                <ul class="cards">{begun.into_iter().map(line).collect_view()}</ul>
            }
        })
    }
}

/// Throws a product away that was begun.
fn drop_draft(id: &str, name: &str) {
    let desk = desk();
    let keys = [format!("{DRAFTS}{id}")];
    let _ = desk.step(tr_with(key::DID_DISCARD, &[("name", name)]), &keys, || {
        store::remove(&keys[0]);
        Ok::<(), ()>(())
    });
    desk.rereads.update(|n| *n += 1);
}

/// An id that no product and no draft has, from now and from what it is of.
fn free_id(of: &str) -> String {
    let stamp: String = moments::now().chars().filter(char::is_ascii_digit).collect();
    let base = format!("{of}-{stamp}");
    let free =
        |id: &String| store::raw(&format!("{PRODUCTS}{id}")).is_none() && !store::drafted(id);
    let numbered = (2..).map(|n| format!("{base}-{n}"));
    std::iter::once(base.clone()).chain(numbered).find(free).unwrap_or(base)
}

/// A button that opens a file.
#[component]
pub(super) fn OpenFile(opened: RwSignal<Opened>) -> impl IntoView {
    view! {
        <label class="button button-link file">
            {live(key::OPEN_FILE)}
            <input
                id="open-file"
                class="unseen"
                type="file"
                accept=".json,application/json"
                on:change:target=move |event| {
                    files::read_chosen(&event.target(), move |text| {
                        opened.set(text.map_or(Opened::NoText, Opened::Text));
                        ShelfRoute::File.go();
                    });
                }
            />
        </label>
    }
}

#[component]
fn Card(product: ProductRecord) -> impl IntoView {
    let desk = desk();
    let (id, name) = (StoredValue::new(product.id.clone()), StoredValue::new(product.name.clone()));
    let of = move || id.get_value();
    let favourite = Signal::derive(move || desk.settings.with(|s| s.favourites.contains(&of())));
    let archived = Signal::derive(move || desk.settings.with(|s| s.archived.contains(&of())));
    let drafted = move || {
        desk.rereads.track();
        store::drafted(&of())
    };
    let invented = product.invented;
    let role = product.role;
    let called = move |text: &'static str| tr_with(text, &[("name", &name.get_value())]);
    let in_floor = move || desk.floor.with(|form| form.uses(&of()));
    let settings = [SETTINGS.to_owned()];
    let settings_too = settings.clone();
    let star = move |_| {
        let what = called(if favourite.get_untracked() { key::DID_UNSTAR } else { key::DID_STAR });
        let _ = desk.step(what, &settings, || {
            desk.settings.update(|s| turn(&mut s.favourites, &of()));
            Ok::<(), ()>(())
        });
    };
    let archive = move |_| {
        let what =
            called(if archived.get_untracked() { key::DID_UNARCHIVE } else { key::DID_ARCHIVE });
        let _ = desk.step(what, &settings_too, || {
            desk.settings.update(|s| turn(&mut s.archived, &of()));
            Ok::<(), ()>(())
        });
    };
    let duplicate = move |_| {
        let copy = ProductRecord {
            id: free_id("product"),
            name: called(key::COPY_OF).chars().take(80).collect(),
            revised: Some(moments::now()),
            ..product.clone()
        };
        let key = format!("{PRODUCTS}{}", copy.id);
        // Told of where it fails.
        let _ = desk.step(called(key::DID_DUPLICATE), &[key], || desk.put_product(copy));
    };
    let delete = move |_| {
        let keys = [format!("{PRODUCTS}{}", of()), SETTINGS.to_owned(), store::MIX.to_owned()];
        let _ = desk.step(called(key::DID_DELETE), &keys, || {
            desk.remove_product(&of());
            desk.settings.update(|s| s.archived.retain(|other| *other != of()));
            Ok::<(), ()>(())
        });
    };
    view! {
        <li class="card-row">
            <a class="card-main" href=ShelfRoute::Edit(of()).fragment()>
                <span class="chip-name">{name.get_value()}</span>
                <span class="chip-role">
                    {live(say::role(role))}
                    {move || invented.then(|| format!(" · {}", tr(key::PRODUCT_INVENTED)))}
                    {move || drafted().then(|| format!(" · {}", tr(key::DRAFT_UNSAVED)))}
                </span>
            </a>
            <button
                class="star"
                type="button"
                aria-pressed=move || favourite.get().to_string()
                aria-label=move || called(key::FAVOURITE)
                on:click=star
            >
                {move || if favourite.get() { "★" } else { "☆" }}
            </button>
            <div class="card-deeds">
                <a class="button button-quiet button-link" href=ShelfRoute::Lot(of()).fragment()>
                    {live(key::LOT)}
                </a>
                <a class="button button-quiet button-link" href=ShelfRoute::Share(of()).fragment()>
                    {live(key::SHARE)}
                </a>
                <button class="button button-quiet" type="button" on:click=duplicate>
                    {live(key::DUPLICATE)}
                </button>
                <button class="button button-quiet" type="button" on:click=archive>
                    {move || tr(if archived.get() { key::UNARCHIVE } else { key::ARCHIVE })}
                </button>
                <Show when=move || archived.get()>
                    {move || in_floor().then(|| view! {
                        <p class="hint card-hint">{live(key::DELETE_IN_FLOOR)}</p>
                    })}
                    <button class="button button-quiet" type="button" on:click=delete>
                        {live(key::DELETE)}
                    </button>
                </Show>
            </div>
        </li>
    }
}
