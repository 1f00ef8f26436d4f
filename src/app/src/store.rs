//! What the app keeps on the phone: one record a key, in local storage.
//!
//! Every record says its format and version. One that cannot be read is moved aside under a name
//! of its own, never wiped; one written by a newer version is left as it is and not written over.

use gloo_storage::{LocalStorage, Storage as _};
use pailwise_calc::record::{ProductRecord, Unreadable, read};
use serde::{Serialize, de::DeserializeOwned};

use crate::floor::form::FloorFormRecord;
use crate::mix::slip::SlipRecord;
use crate::mix::state::MixRecord;
use crate::settings::SettingsRecord;

/// A record that can be kept.
pub trait Record: Serialize + DeserializeOwned {
    /// What its `format` says.
    const FORMAT: &'static str;
}

impl Record for ProductRecord {
    const FORMAT: &'static str = ProductRecord::FORMAT;
}

impl Record for MixRecord {
    const FORMAT: &'static str = "pailwise-mix";
}

impl Record for SlipRecord {
    const FORMAT: &'static str = "pailwise-slip";
}

impl Record for FloorFormRecord {
    const FORMAT: &'static str = "pailwise-floor-form";
}

impl Record for SettingsRecord {
    const FORMAT: &'static str = "pailwise-settings";
}

/// Where settings are kept.
pub const SETTINGS: &str = "pailwise/settings";
/// Where the last inputs of the Mix screen are kept.
pub const MIX: &str = "pailwise/mix";
/// Where a pail that is being brought back is kept.
pub const SLIP: &str = "pailwise/slip";
/// Where the inputs of the Floor screen are kept.
pub const FLOOR: &str = "pailwise/floor";
/// What the keys of products start with.
pub const PRODUCTS: &str = "pailwise/product/";
/// What the keys of records set aside start with.
pub const ASIDE: &str = "pailwise/aside/";

/// What was found under a key.
#[derive(Clone, Debug, PartialEq)]
pub enum Kept<T> {
    /// The record.
    Found(T),
    /// Nothing was there.
    Nothing,
    /// Something unreadable was there; it is now under this other key.
    SetAside(String),
    /// A newer version wrote it; it is still there and must not be written over.
    Newer,
}

/// Storage would not take it: full, or switched off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotKept;

/// Reads the record under a key.
pub fn load<T: Record>(key: &str) -> Kept<T> {
    let storage = LocalStorage::raw();
    let Ok(Some(text)) = storage.get_item(key) else { return Kept::Nothing };
    match read::<T>(&text, T::FORMAT) {
        Ok(record) => Kept::Found(record),
        Err(Unreadable::Newer { .. }) => Kept::Newer,
        Err(_) => match set_aside(key, &text) {
            Ok(aside) => Kept::SetAside(aside),
            // It could not be moved, so it stays where it is, and nothing may be written there.
            Err(NotKept) => Kept::Newer,
        },
    }
}

/// Writes a record under a key.
///
/// # Errors
/// [`NotKept`] when storage will not take it.
pub fn save<T: Record>(key: &str, record: &T) -> Result<(), NotKept> {
    LocalStorage::set(key, record).map_err(|_| NotKept)
}

/// Every key that starts with a prefix, in order.
pub fn keys(prefix: &str) -> Vec<String> {
    let storage = LocalStorage::raw();
    let mut keys: Vec<String> = (0..LocalStorage::length())
        .filter_map(|i| storage.key(i).ok().flatten())
        .filter(|key| key.starts_with(prefix))
        .collect();
    keys.sort();
    keys
}

/// Moves a damaged record to a key of its own and says which.
fn set_aside(key: &str, text: &str) -> Result<String, NotKept> {
    let storage = LocalStorage::raw();
    let name = key.trim_start_matches("pailwise/").replace('/', "-");
    let free = |n: &u32| matches!(storage.get_item(&format!("{ASIDE}{name}-{n}")), Ok(None));
    let n = (1..10_000).find(free).ok_or(NotKept)?;
    let aside = format!("{ASIDE}{name}-{n}");
    storage.set_item(&aside, text).map_err(|_| NotKept)?;
    storage.remove_item(key).map_err(|_| NotKept)?;
    Ok(aside)
}
