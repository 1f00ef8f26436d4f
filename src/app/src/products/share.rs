//! Handing on: as a file, as a link, as a code to point a camera at.

use leptos::prelude::*;
use pailwise_calc::record::{FloorRecord, ProductRecord, ShelfRecord};
use pailwise_kept::exchange::link;
use serde::Serialize;

use crate::desk::handed;
use crate::desk::{Desk, desk};
use crate::files;
use crate::parts::link_code::link_code;
use crate::screen::{Screen, ShelfRoute};
use crate::store::{self, RECEIVED};
use crate::text::{key, live, tr, tr_with};

/// What is handed on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum What {
    /// One product, by id.
    Product(String),
    /// All that are not put away.
    Shelf,
    /// The floor with its coats.
    Floor,
}

/// Whether what is handed on has changes that are not saved.
fn drafted(products: &[ProductRecord]) -> bool {
    products.iter().any(|product| store::drafted(&product.id))
}

/// Something to hand on: its name, its text, and the products in it.
struct Parcel {
    name: String,
    text: String,
    products: Vec<ProductRecord>,
}

fn parcel(desk: Desk, what: &What) -> Option<Parcel> {
    fn text<T: Serialize>(record: &T) -> Option<String> {
        serde_json::to_string(record).ok()
    }
    match what {
        What::Product(id) => {
            let product = desk.product_of(id)?;
            let (name, text) = (product.name.clone(), text(&product)?);
            Some(Parcel { name, text, products: vec![product] })
        }
        What::Shelf => {
            let away = desk.settings.with(|s| s.archived.clone());
            let mut products = desk.shelf.get();
            products.retain(|product| !away.contains(&product.id));
            let text = text(&ShelfRecord::of(products.clone()))?;
            Some(Parcel { name: tr(key::SHELF), text, products })
        }
        What::Floor => {
            let record: FloorRecord = handed::record(desk)?;
            let products = record.coats.iter().map(|coat| coat.product.clone()).collect();
            Some(Parcel { name: tr(key::PLACE_FLOOR), text: text(&record)?, products })
        }
    }
}

/// Panel to hand on products or the floor by file, link or code.
#[component]
pub(super) fn Share(what: What) -> impl IntoView {
    let desk = desk();
    let back = if what == What::Floor {
        Screen::Floor.fragment().to_owned()
    } else {
        ShelfRoute::Shelf.fragment()
    };
    let floor = what == What::Floor;
    let body = move || match parcel(desk, &what) {
        Some(parcel) => panel(parcel),
        None if floor => view! { <p>{live(key::SHARE_FLOOR_UNFIT)}</p> }.into_any(),
        None => view! { <p>{live(key::NO_SUCH_PRODUCT)}</p> }.into_any(),
    };
    view! {
        <section class="card share">
            {body}
            <a class="button button-link" href=back>{live(key::BACK)}</a>
        </section>
    }
}

fn panel(parcel: Parcel) -> AnyView {
    let Parcel { name, text, products } = parcel;
    let unsaved = drafted(&products);
    let saved = RwSignal::new(None);
    // What is handed on is what a changed one that comes back is compared with.
    let remember = StoredValue::new(products);
    let handed_on = move || {
        remember.with_value(|products| {
            for product in products {
                // Without it a later comparison only knows less.
                let _ = store::save(&format!("{RECEIVED}{}", product.id), product);
            }
        });
    };
    let (file, to_save) = (files::file_name(&name), text.clone());
    let heading = tr_with(key::SHARE_OF, &[("name", &name)]);
    let by_file = view! {
        <button
            class="button button-deed"
            id="share-file"
            type="button"
            on:click=move |_| {
                handed_on();
                saved.set(Some(files::save(&file, &to_save)));
            }
        >
            {live(key::SHARE_FILE)}
        </button>
        <p role="status">{move || saved.get().map(|ok| tr(if ok { key::SAVED } else { key::NOT_SAVED }))}</p>
    };
    // By link it is handed on as soon as its code is on the screen.
    if link::pack(&text).is_some() {
        handed_on();
    }
    let by_link = link_code(&name, &text);
    view! {
        <h2>{heading}</h2>
        {unsaved.then(|| view! { <p class="caution">{live(key::SHARE_DRAFT)}</p> })}
        {by_file}
        {by_link}
    }
    .into_any()
}
