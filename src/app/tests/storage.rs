//! What is kept on the phone, against a real browser's local storage.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

use std::cell::Cell;
use std::rc::Rc;

use gloo_storage::{LocalStorage, Storage};
use leptos::leptos_dom::helpers::window;
use leptos::mount::mount_to;
use leptos::prelude::{GetUntracked as _, Update as _, WithUntracked as _, document};
use leptos::task::tick;
use pailwise_app::desk::{Desk, Notice};
use pailwise_app::store::{Kept, NotKept, Saved, keys, load, save};
use pailwise_calc::demo;
use pailwise_calc::record::ProductRecord;
use pailwise_kept::entry::Entry;
use pailwise_kept::keys::{ASIDE, FLOOR, MIX, PRODUCTS, SETTINGS, SLIP};
use pailwise_kept::records::floor::FloorFormRecord;
use pailwise_kept::records::mix::{Ask, MixRecord};
use pailwise_kept::records::settings::SettingsRecord;
use pailwise_kept::records::slip::{MetRecord, SlipRecord};
use pailwise_kept::units::Units;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn put(key: &str, text: &str) {
    LocalStorage::raw().set_item(key, text).unwrap();
}

/// The app's state as a phone with these languages finds it.
fn open(languages: &[String]) -> Desk {
    let opened = Rc::new(Cell::new(None));
    let (found, languages) = (Rc::clone(&opened), languages.to_vec());
    // Inside a page, as in the app, so that effects run; the page stays for the rest of the test.
    mount_to(document().body().unwrap(), move || found.set(Some(Desk::open(&languages)))).forget();
    opened.get().unwrap()
}

fn text(key: &str) -> Option<String> {
    LocalStorage::raw().get_item(key).unwrap()
}

#[wasm_bindgen_test]
fn a_record_comes_back_as_it_was_kept() {
    LocalStorage::clear();
    let mut record = MixRecord::first("x", Units::Us);
    record.entries.insert(Ask::Width, Entry::as_typed("7'6\"", Units::Us));
    assert_eq!(load::<MixRecord>(MIX), Kept::Nothing);
    save(MIX, &record).unwrap();
    assert_eq!(load(MIX), Kept::Found(record));
}

#[wasm_bindgen_test]
fn a_damaged_record_is_set_aside_and_never_wiped() {
    LocalStorage::clear();
    for (n, damaged) in ["{\"format\":", "{}", "[1]"].into_iter().enumerate() {
        put(MIX, damaged);
        let aside = format!("{ASIDE}mix-{}", n + 1);
        assert_eq!(load::<MixRecord>(MIX), Kept::SetAside(aside.clone()));
        assert_eq!(text(&aside).as_deref(), Some(damaged));
        assert_eq!(text(MIX), None);
    }
    assert_eq!(keys(ASIDE).len(), 3);
}

/// As the first version of the app wrote them: bare, without envelope.
#[wasm_bindgen_test]
fn records_of_version_1_are_read_for_ever() {
    const AT: [(&str, &str); 4] = [
        (SETTINGS, include_str!("../../../tests/data/records/v1/settings.json")),
        (MIX, include_str!("../../../tests/data/records/v1/mix.json")),
        (FLOOR, include_str!("../../../tests/data/records/v1/floor-form.json")),
        (SLIP, include_str!("../../../tests/data/records/v1/slip.json")),
    ];
    LocalStorage::clear();
    for (key, text) in AT {
        assert!(text.contains("\"version\":1"));
        put(key, text.trim());
    }
    let product = include_str!("../../../tests/data/records/v1/invented-base.json");
    put(&format!("{PRODUCTS}invented-base"), product.trim());
    let desk = open(&["en-US".to_owned()]);
    assert_eq!(desk.notices.get_untracked(), []);
    assert_eq!(desk.settings.with_untracked(|s| s.favourites.clone()), ["invented-topcoat"]);
    assert_eq!(desk.mix.with_untracked(|mix| mix.entry(Ask::Slab).text), "81");
    // The only floor of that time gets a number, and is as it was.
    let id = desk.floor.with_untracked(|floor| floor.id);
    assert!(id > 0);
    let floor = FloorFormRecord { id, ..FloorFormRecord::first(&demo::records(), Units::Metric) };
    assert_eq!(desk.floor.get_untracked(), floor);
    assert_eq!(desk.slip.with_untracked(|slip| slip.poured.len()), 1);
    let shelf = desk.shelf.get_untracked();
    assert_eq!(shelf[0].components, demo::record_base().components);
}

#[wasm_bindgen_test]
fn a_record_that_is_not_what_was_kept_is_set_aside() {
    LocalStorage::clear();
    save(MIX, &MixRecord::first("x", Units::Us)).unwrap();
    let kept = text(MIX).unwrap();
    put(MIX, &kept.replace("\"400\"", "\"900\""));
    assert_ne!(text(MIX).unwrap(), kept);
    assert_eq!(load::<MixRecord>(MIX), Kept::SetAside(format!("{ASIDE}mix-1")));
}

#[wasm_bindgen_test]
fn steps_are_undone_one_after_the_other() {
    LocalStorage::clear();
    let desk = open(&["en-US".to_owned()]);
    let before = desk.shelf.get_untracked();
    let own = ProductRecord { id: "own".to_owned(), ..demo::record_base() };
    let at = |id: &str| [format!("{PRODUCTS}{id}")];
    desk.step("added".to_owned(), &at("own"), || desk.put_product(own)).unwrap();
    desk.step("deleted".to_owned(), &at("invented-filler"), || {
        desk.remove_product("invented-filler");
        Ok::<(), NotKept>(())
    })
    .unwrap();
    assert_eq!(desk.shelf.with_untracked(Vec::len), before.len());
    assert_eq!(desk.steps.with_untracked(Vec::len), 2);
    desk.undo().unwrap();
    desk.undo().unwrap();
    assert_eq!(desk.shelf.get_untracked(), before);
    assert!(text(&at("own")[0]).is_none());
    // With nothing left to undo nothing happens.
    desk.undo().unwrap();
    assert_eq!(desk.shelf.get_untracked(), before);
}

/// A step that was taken on a screen is taken back, and what was typed there since stays.
#[wasm_bindgen_test]
async fn undo_takes_back_its_own_change_only() {
    LocalStorage::clear();
    let desk = open(&["en-US".to_owned()]);
    tick().await;
    let keys = [MIX.to_owned()];
    desk.step("one more".to_owned(), &keys, || {
        desk.mix.update(|mix| mix.mixers += 1);
        Ok::<(), NotKept>(())
    })
    .unwrap();
    tick().await;
    tick().await;
    desk.mix.update(|mix| {
        mix.entries.insert(Ask::Width, Entry::as_typed("31", Units::Us));
    });
    tick().await;
    desk.undo().unwrap();
    let mix = desk.mix.get_untracked();
    assert_eq!((mix.mixers, &*mix.entry(Ask::Width).text), (0, "31"));
    // So is a product that was changed on the shelf, but for its lot, read since.
    let id = desk.shelf.with_untracked(|shelf| shelf[0].id.clone());
    let at = [format!("{PRODUCTS}{id}")];
    let named = ProductRecord {
        name: "other".to_owned(),
        ..desk.shelf.with_untracked(|shelf| shelf[0].clone())
    };
    desk.step("named".to_owned(), &at, || desk.put_product(named.clone())).unwrap();
    tick().await;
    tick().await;
    desk.put_product(ProductRecord { lot: "A17".to_owned(), ..named }).unwrap();
    desk.undo().unwrap();
    let product = desk.shelf.with_untracked(|shelf| shelf.iter().find(|p| p.id == id).cloned());
    let product = product.unwrap();
    assert_eq!(&*product.lot, "A17");
    assert_ne!(&*product.name, "other");
}

#[wasm_bindgen_test]
fn what_another_tab_writes_is_followed() {
    LocalStorage::clear();
    let desk = open(&["en-US".to_owned()]);
    desk.follow_other_tabs();
    let mut settings: SettingsRecord = desk.settings.get_untracked();
    settings.units = Units::Metric;
    save(SETTINGS, &settings).unwrap();
    let own = ProductRecord { id: "own".to_owned(), ..demo::record_base() };
    save(&format!("{PRODUCTS}own"), &own).unwrap();
    assert_eq!(desk.settings.with_untracked(|s| s.units), Units::Us);
    // The browser tells the other tabs so.
    window().dispatch_event(&web_sys::Event::new("storage").unwrap()).unwrap();
    assert_eq!(desk.settings.with_untracked(|s| s.units), Units::Metric);
    assert!(desk.shelf.with_untracked(|shelf| shelf.contains(&own)));
}

#[wasm_bindgen_test]
fn a_phone_that_runs_full_keeps_what_it_has_and_what_still_fits() {
    LocalStorage::clear();
    let desk = open(&["en-US".to_owned()]);
    let damaged = format!("{{{}", "d".repeat(60_000));
    put(FLOOR, &damaged);
    let mut n = 0;
    for size in (0..=20).rev().map(|bit| 1_usize << bit) {
        let piece = "x".repeat(size);
        while LocalStorage::raw().set_item(&format!("other-{n}"), &piece).is_ok() {
            n += 1;
        }
    }
    // What is damaged cannot be moved: it is left, and not taken for a newer version's.
    assert_eq!(load::<FloorFormRecord>(FLOOR), Kept::Stuck);
    assert_eq!(text(FLOOR), Some(damaged));
    // Longer by a little: into the reserve. Longer by far: not at all, and what was there stays.
    let mut mix = MixRecord::first("x", Units::Us);
    mix.product = "y".repeat(1000);
    assert_eq!(save(MIX, &mix), Ok(Saved::IntoReserve));
    let kept = text(MIX);
    let big = MixRecord { product: "z".repeat(200_000), ..mix.clone() };
    assert_eq!(save(MIX, &big), Err(NotKept::NoRoom));
    assert_eq!(text(MIX), kept);
    // Of several texts all are written, or none.
    let texts = [
        (SLIP.to_owned(), None),
        (SETTINGS.to_owned(), Some("{}".to_owned())),
        (MIX.to_owned(), Some("w".repeat(200_000))),
    ];
    let before = (text(SLIP), text(SETTINGS), text(MIX));
    assert_eq!(desk.write_all(&texts), Err(NotKept::NoRoom));
    assert_eq!((text(SLIP), text(SETTINGS), text(MIX)), before);
    LocalStorage::clear();
}

#[wasm_bindgen_test]
fn a_newer_record_is_left_alone() {
    LocalStorage::clear();
    let newer = r#"{"format":"pailwise-mix","version":99,"what":"is this"}"#;
    put(MIX, newer);
    assert_eq!(load::<MixRecord>(MIX), Kept::Newer);
    let desk = open(&["en-US".to_owned()]);
    assert!(desk.notices.with_untracked(|n| n.contains(&Notice::Newer(MIX.to_owned()))));
    assert_eq!(text(MIX).as_deref(), Some(newer));
    // Whoever writes there: a record that came in, a second tab that is still the old build.
    let product = format!("{PRODUCTS}own");
    let newer = r#"{"format":"pailwise-product","version":99}"#;
    put(&product, newer);
    let own = ProductRecord { id: "own".to_owned(), ..demo::record_base() };
    assert_eq!(desk.put_product(own.clone()), Err(NotKept::Newer(product.clone())));
    assert!(desk.notices.with_untracked(|n| n.contains(&Notice::Newer(product.clone()))));
    assert_eq!(text(&product).as_deref(), Some(newer));
    // What is damaged there is set aside before it is written over.
    put(&product, "{");
    assert_eq!(desk.put_product(own), Ok(()));
    assert_eq!(text(&format!("{ASIDE}product-own-1")).as_deref(), Some("{"));
}

#[wasm_bindgen_test]
fn a_new_phone_gets_the_invented_products_and_a_known_one_keeps_its_own() {
    LocalStorage::clear();
    let desk = open(&["en-US".to_owned()]);
    assert_eq!(desk.shelf.with_untracked(Vec::len), demo::records().len());
    assert_eq!(keys(PRODUCTS).len(), demo::records().len());

    LocalStorage::clear();
    let own = ProductRecord { id: "own".to_owned(), ..demo::record_base() };
    save(&format!("{PRODUCTS}own"), &own).unwrap();
    put(&format!("{PRODUCTS}broken"), "not json");
    let desk = open(&["en-US".to_owned()]);
    assert_eq!(desk.shelf.get_untracked(), [own]);
    let aside = format!("{ASIDE}product-broken-1");
    assert_eq!(desk.notices.get_untracked(), [Notice::SetAside(aside)]);
}

#[wasm_bindgen_test]
fn a_product_that_is_gone_is_said() {
    LocalStorage::clear();
    save(MIX, &MixRecord::first("gone", Units::Us)).unwrap();
    let desk = open(&["en-US".to_owned()]);
    let shown = demo::record_base();
    assert_eq!(desk.notices.get_untracked(), [Notice::ProductGone(shown.name)]);
    assert_eq!(desk.mix.with_untracked(|mix| mix.product.clone()), shown.id);
}

#[wasm_bindgen_test]
fn a_floor_and_a_pail_being_brought_back_are_there_again() {
    LocalStorage::clear();
    let floor =
        FloorFormRecord { id: 7, ..FloorFormRecord::first(&demo::records(), Units::Metric) };
    save(FLOOR, &floor).unwrap();
    let mut slip = SlipRecord::default();
    slip.poured.insert("x/jug/1".to_owned(), Entry::as_typed("3 qt", Units::Us));
    slip.met = Some(MetRecord { ago: Entry::as_typed("4", Units::Us), typed_at_ms: 1.7e12 });
    save(SLIP, &slip).unwrap();
    let desk = open(&["en-US".to_owned()]);
    assert_eq!((desk.floor.get_untracked(), desk.slip.get_untracked()), (floor, slip));
    put(FLOOR, "{");
    let desk = open(&["en-US".to_owned()]);
    let aside = format!("{ASIDE}floor-1");
    assert_eq!(desk.notices.get_untracked(), [Notice::SetAside(aside)]);
}

#[wasm_bindgen_test]
fn full_storage_is_said() {
    LocalStorage::clear();
    let mut big = MixRecord::first("x", Units::Us);
    big.product = "x".repeat(20_000_000);
    assert_eq!(save(MIX, &big), Err(NotKept::NoRoom));
    LocalStorage::clear();
}

#[wasm_bindgen_test]
fn settings_of_a_spanish_phone_are_spanish() {
    LocalStorage::clear();
    let desk = open(&["es-MX".to_owned()]);
    assert_eq!(desk.settings.with_untracked(|s| s.units), Units::Metric);
    save(SETTINGS, &desk.settings.get_untracked()).unwrap();
    let again = open(&["en-US".to_owned()]);
    assert_eq!(again.settings.get_untracked(), desk.settings.get_untracked());
}
