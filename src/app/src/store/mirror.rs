//! What must outlive a dead battery, written a second time: batches under way, cups, the log and the
//! latest time go into `IndexedDB` too, on the disk before anything else is done (strict durability).
//!
//! Browsers keep local storage in memory for up to a minute before they write it. A stamp that grows
//! with every write stands in both; at the start the one with the larger stamp is the truth. Where a
//! browser has no `IndexedDB`, local storage is all there is.

use std::cell::RefCell;

use gloo_storage::{LocalStorage, Storage as _};
use leptos::prelude::window;
use leptos::wasm_bindgen::closure::Closure;
use leptos::wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::js_sys::{Array, Function, Object, Promise, Reflect};
use web_sys::{IdbDatabase, IdbObjectStore, IdbOpenDbRequest, IdbRequest, IdbTransaction};

use super::{CUPS, LATEST, LOG, RUNS, keys, raw};

/// The name of the database, of the one store in it, and of the stamp among its keys.
const DATABASE: &str = "pailwise";
const KEPT: &str = "kept";
/// Where the stamp of the last mirrored write is kept.
pub(super) const STAMP: &str = "pailwise/stamp";

/// What is written a second time.
const MIRRORED: [&str; 3] = [RUNS, CUPS, LOG];

fn mirrored(key: &str) -> bool {
    key == LATEST || MIRRORED.iter().any(|prefix| key.starts_with(prefix))
}

/// A text that was written under a key, or that it was taken away.
type Change = (String, Option<String>);

/// How far the database is.
enum Mirror {
    /// Not looked at yet: what is written meanwhile waits, and is newer than anything in it.
    Waits(Vec<Change>),
    /// It is written to.
    Open(IdbDatabase),
    /// This browser has none, or would not open it.
    Without,
}

thread_local! {
    static MIRROR: RefCell<Mirror> = const { RefCell::new(Mirror::Waits(Vec::new())) };
    /// A transaction that is given up, as on a full phone, lacks what the stamp says it has: nothing
    /// more goes there until the next start, which writes all of it again.
    static ABORTED: Function = {
        let aborted = Closure::<dyn FnMut()>::new(|| MIRROR.set(Mirror::Without));
        aborted.into_js_value().unchecked_into()
    };
}

/// Notes that something was written to local storage, or taken away.
pub(super) fn note(key: &str, text: Option<&str>) {
    if !mirrored(key) {
        return;
    }
    MIRROR.with_borrow_mut(|mirror| match mirror {
        Mirror::Waits(changes) => changes.push((key.to_owned(), text.map(str::to_owned))),
        Mirror::Open(database) => {
            if write(database, key, text).is_err() {
                *mirror = Mirror::Without;
            }
        }
        // The stamp grows all the same: the database lacks something from now on.
        Mirror::Without => stamp(stamp_here() + 1.0),
    });
}

/// Opens the database and brings both to what is newer; `changed` is called when local storage had
/// lost something and has it again.
pub(crate) fn start(changed: impl FnOnce() + 'static) {
    spawn_local(async move {
        let opened = match open().await {
            Ok(database) => level(&database).await.map(|level| (database, level)),
            Err(why) => Err(why),
        };
        let waiting = MIRROR.replace(Mirror::Without);
        let Ok((database, level)) = opened else { return };
        if level == Level::LostHere {
            // What was written since the start is newer than what is in the database.
            if let Mirror::Waits(changes) = &waiting {
                for (key, text) in changes {
                    put_here(key, text.as_deref());
                }
            }
        }
        if level == Level::BehindThere && write_all(&database).is_err() {
            return;
        }
        MIRROR.set(Mirror::Open(database));
        if let Mirror::Waits(changes) = waiting {
            for (key, text) in changes {
                note(&key, text.as_deref());
            }
        }
        if level == Level::LostHere {
            changed();
        }
    });
}

/// How the two stand to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Level {
    /// Both have the same stamp, so neither lacks anything.
    Same,
    /// Local storage had lost what the database has; it has it again.
    LostHere,
    /// The database lacks what local storage has.
    BehindThere,
}

async fn open() -> Result<IdbDatabase, JsValue> {
    let factory = window().indexed_db()?.ok_or(JsValue::NULL)?;
    let request = factory.open_with_u32(DATABASE, 1)?;
    let made: IdbOpenDbRequest = request.clone();
    let make = Closure::once(move || {
        // Where it is there already there is nothing to make.
        if let Ok(database) = made.result().and_then(JsCast::dyn_into::<IdbDatabase>) {
            let _ = database.create_object_store(KEPT);
        }
    });
    request.set_onupgradeneeded(Some(make.as_ref().unchecked_ref()));
    let database = done(&request).await?;
    database.dyn_into()
}

/// Compares the stamps, and takes over from the database what local storage has lost.
async fn level(database: &IdbDatabase) -> Result<Level, JsValue> {
    let there = done(&store(database, "readonly")?.get(&STAMP.into())?).await?;
    let there = there.as_f64().unwrap_or(0.0);
    let here = stamp_here();
    if there <= here {
        let same = there == here && here > 0.0;
        return Ok(if same { Level::Same } else { Level::BehindThere });
    }
    let (names, texts) = {
        let store = store(database, "readonly")?;
        (store.get_all_keys()?, store.get_all()?)
    };
    let names: Array = done(&names).await?.dyn_into()?;
    let texts: Array = done(&texts).await?.dyn_into()?;
    let all = names.iter().zip(texts.iter());
    let all: Vec<(String, String)> =
        all.filter_map(|(key, text)| Some((key.as_string()?, text.as_string()?))).collect();
    // What has ended is not under way again. A page of the log is never taken away for it.
    for key in [RUNS, CUPS].into_iter().flat_map(keys) {
        if all.iter().all(|(kept, _)| *kept != key) {
            LocalStorage::delete(&key);
        }
    }
    for (key, text) in &all {
        put_here(key, Some(text));
    }
    stamp(there);
    Ok(Level::LostHere)
}

fn put_here(key: &str, text: Option<&str>) {
    match text {
        // Only how full it is could keep it away; the next write says so.
        Some(text) => drop(LocalStorage::raw().set_item(key, text)),
        None => LocalStorage::delete(key),
    }
}

fn stamp_here() -> f64 {
    raw(STAMP).and_then(|text| text.parse().ok()).filter(|n: &f64| n.is_finite()).unwrap_or(0.0)
}

fn stamp(to: f64) {
    // As above.
    let _ = LocalStorage::raw().set_item(STAMP, &format!("{to:.0}"));
}

/// Writes a change and the next stamp in one transaction.
fn write(database: &IdbDatabase, key: &str, text: Option<&str>) -> Result<(), JsValue> {
    let next = stamp_here() + 1.0;
    stamp(next);
    let store = store(database, "readwrite")?;
    match text {
        Some(text) => store.put_with_key(&text.into(), &key.into())?,
        None => store.delete(&key.into())?,
    };
    store.put_with_key(&next.into(), &STAMP.into())?;
    Ok(())
}

/// Writes all there is, in place of what is there, and the next stamp in one transaction.
fn write_all(database: &IdbDatabase) -> Result<(), JsValue> {
    let next = stamp_here() + 1.0;
    stamp(next);
    let store = store(database, "readwrite")?;
    store.clear()?;
    for key in MIRRORED.into_iter().flat_map(keys) {
        if let Some(text) = raw(&key) {
            store.put_with_key(&text.into(), &key.into())?;
        }
    }
    store.put_with_key(&next.into(), &STAMP.into())?;
    Ok(())
}

/// The store in a transaction of its own, on the disk before it counts as done.
fn store(database: &IdbDatabase, mode: &str) -> Result<IdbObjectStore, JsValue> {
    let options = Object::new();
    Reflect::set(&options, &"durability".into(), &"strict".into())?;
    let begin: Function = Reflect::get(database, &"transaction".into())?.dyn_into()?;
    let transaction = begin.call3(database, &KEPT.into(), &mode.into(), &options)?;
    let transaction: IdbTransaction = transaction.dyn_into()?;
    transaction.set_onabort(Some(&ABORTED.with(Clone::clone)));
    transaction.object_store(KEPT)
}

/// What a request comes to.
async fn done(request: &IdbRequest) -> Result<JsValue, JsValue> {
    let of = request.clone();
    let promise = Promise::new(&mut move |resolve, reject| {
        let result = of.clone();
        let good = Closure::once_into_js(move || {
            // A promise takes whatever it is given.
            let _ = resolve.call1(&JsValue::NULL, &result.result().unwrap_or_default());
        });
        let bad = Closure::once_into_js(move || {
            let _ = reject.call0(&JsValue::NULL);
        });
        of.set_onsuccess(Some(good.unchecked_ref()));
        of.set_onerror(Some(bad.unchecked_ref()));
    });
    JsFuture::from(promise).await
}
