//! What the app keeps on the phone: one record a key, in local storage.
//!
//! Every record says its format and version and stands in an envelope with a checksum ([`envelope`]).
//! One that cannot be read is moved aside under a name of its own, never wiped; one written by a
//! newer version is left as it is and not written over. A reserve is held back, so that a phone
//! that runs full says so while there is still room to write. What a dead battery must not take is
//! written a second time, in `mirror`.

pub(crate) mod latest;
pub(crate) mod mirror;

use std::cell::RefCell;
use std::collections::BTreeMap;

use gloo_storage::{LocalStorage, Storage as _};
use pailwise_calc::record::Unreadable;
use pailwise_kept::envelope;
pub(crate) use pailwise_kept::keys::*;
use pailwise_kept::records::Record;

/// Where the reserve is held.
const RESERVE: &str = "pailwise/reserve";
/// How many characters it has.
const RESERVED: usize = 50_000;

/// What was found under a key.
#[derive(Clone, Debug, PartialEq)]
pub enum Kept<T> {
    /// The record that stands there, read without fault.
    Found(T),
    /// No text stands under the key.
    Nothing,
    /// Something unreadable was there; it is now under this other key.
    SetAside(String),
    /// A newer version wrote it; it is still there and must not be written over.
    Newer,
    /// Something unreadable is there, and there is no room to set it aside: it is still there and
    /// must not be written over.
    Stuck,
}

/// Whether writing a record had to use up the reserve of storage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Saved {
    /// It is kept, and the reserve is still held back.
    Normally,
    /// It is kept, but it took the reserve: the next may not be.
    IntoReserve,
}

/// Why something is not kept. What was there before is still there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotKept {
    /// Storage would not take it: full, or switched off.
    NoRoom,
    /// A newer version's record stands under this key, and is not written over.
    Newer(String),
}

/// Reads the record under a key.
pub fn load<T: Record>(key: &str) -> Kept<T> {
    let Some(text) = raw(key) else { return Kept::Nothing };
    match envelope::read(&text) {
        Ok(record) => Kept::Found(record),
        Err(Unreadable::Newer { .. }) => Kept::Newer,
        Err(_) => match set_aside(key, &text) {
            Ok(aside) => Kept::SetAside(aside),
            Err(_) => Kept::Stuck,
        },
    }
}

/// Writes a record under a key. What is damaged there is set aside first.
///
/// # Errors
/// [`NotKept`] when storage will not take it, or holds a newer version's record there.
pub fn save<T: Record>(key: &str, record: &T) -> Result<Saved, NotKept> {
    let text = envelope::wrap(&serde_json::to_string(record).map_err(|_| NotKept::NoRoom)?);
    match raw(key) {
        Some(there) if there == text => return Ok(Saved::Normally),
        // As this page left it: nobody else has written there.
        Some(there) if LEFT.with_borrow(|left| left.get(key) == Some(&there)) => {}
        Some(there) if envelope::is_newer(&there) => return Err(NotKept::Newer(key.to_owned())),
        Some(there) if envelope::unwrap(&there).is_err() => drop(set_aside(key, &there)?),
        _ => {}
    }
    let room = write(key, &text)?;
    LEFT.with_borrow_mut(|left| left.insert(key.to_owned(), text));
    Ok(room)
}

thread_local! {
    /// What this page last saved under each key.
    static LEFT: RefCell<BTreeMap<String, String>> = const { RefCell::new(BTreeMap::new()) };
}

/// The text under a key, as it stands there.
pub fn raw(key: &str) -> Option<String> {
    LocalStorage::raw().get_item(key).ok().flatten()
}

/// Writes a text under a key as it is, whatever stands there, if need be into the reserve.
///
/// # Errors
/// [`NotKept::NoRoom`] when storage will not take it.
pub fn put(key: &str, text: &str) -> Result<Saved, NotKept> {
    if raw(key).as_deref() == Some(text) {
        return Ok(Saved::Normally);
    }
    write(key, text)
}

fn write(key: &str, text: &str) -> Result<Saved, NotKept> {
    let storage = LocalStorage::raw();
    if storage.set_item(key, text).is_ok() {
        mirror::note(key, Some(text));
        return Ok(Saved::Normally);
    }
    LocalStorage::delete(RESERVE);
    let kept =
        storage.set_item(key, text).map(|()| Saved::IntoReserve).map_err(|_| NotKept::NoRoom);
    if kept.is_ok() {
        mirror::note(key, Some(text));
    }
    // Without room even for the reserve there is none to give back; that is what `Last` says.
    let back = reserve();
    if kept == Ok(Saved::IntoReserve) && back { Ok(Saved::Normally) } else { kept }
}

/// Whether a product has changes that are not saved.
pub fn drafted(id: &str) -> bool {
    raw(&format!("{DRAFTS}{id}")).is_some()
}

/// Takes a key away.
pub fn remove(key: &str) {
    LocalStorage::delete(key);
    mirror::note(key, None);
}

/// Holds room back for the day storage runs full; `false` when there is none left to hold.
pub fn reserve() -> bool {
    let held = raw(RESERVE).is_some_and(|text| text.len() == RESERVED);
    held || LocalStorage::raw().set_item(RESERVE, &" ".repeat(RESERVED)).is_ok()
}

/// Every key that starts with a prefix, in order; of records only, so neither the reserve nor the
/// latest time.
pub fn keys(prefix: &str) -> Vec<String> {
    let storage = LocalStorage::raw();
    let mut keys: Vec<String> = (0..LocalStorage::length())
        .filter_map(|i| storage.key(i).ok().flatten())
        .filter(|key| {
            key.starts_with(prefix) && ![RESERVE, LATEST, mirror::STAMP].contains(&key.as_str())
        })
        .collect();
    keys.sort();
    keys
}

/// Moves a damaged record to a key of its own and says which.
fn set_aside(key: &str, text: &str) -> Result<String, NotKept> {
    let name = key.trim_start_matches(ALL).replace('/', "-");
    let free = |n: &u32| raw(&format!("{ASIDE}{name}-{n}")).is_none();
    let n = (1..10_000).find(free).ok_or(NotKept::NoRoom)?;
    let aside = format!("{ASIDE}{name}-{n}");
    put(&aside, text)?;
    remove(key);
    Ok(aside)
}
