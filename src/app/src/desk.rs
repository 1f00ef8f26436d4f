//! The app's state: what every screen shares, read from the phone once and written back on change.

use leptos::prelude::*;
use pailwise_calc::demo;
use pailwise_calc::record::{ProductRecord, Role};

use crate::floor::form::FloorFormRecord;
use crate::mix::slip::SlipRecord;
use crate::mix::state::MixRecord;
use crate::settings::SettingsRecord;
use crate::show::Reader;
use crate::store::{self, Kept, Record};
use crate::text::Language;

/// Something the person must know about what is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// A damaged record was moved to this key.
    SetAside(String),
    /// A newer version's record is left alone; changes to it are not kept.
    Newer(String),
    /// The product used last is gone; this one is shown instead.
    ProductGone(String),
    /// Storage would not take a record.
    NotKept,
}

/// The state, in the app's context.
#[derive(Clone, Copy)]
pub struct Desk {
    /// How this phone likes things.
    pub settings: RwSignal<SettingsRecord>,
    /// The inputs of the Mix screen.
    pub mix: RwSignal<MixRecord>,
    /// A pail that is being brought back.
    pub slip: RwSignal<SlipRecord>,
    /// The inputs of the Floor screen.
    pub floor: RwSignal<FloorFormRecord>,
    /// The products, in the order of the shelf.
    pub shelf: RwSignal<Vec<ProductRecord>>,
    /// What the person must know.
    pub notices: RwSignal<Vec<Notice>>,
}

impl Desk {
    /// Reads everything from the phone, and keeps it there from now on.
    pub fn open(languages: &[String]) -> Self {
        let notices = RwSignal::new(Vec::new());
        let (settings, keep_settings) =
            read_or(store::SETTINGS, notices, || SettingsRecord::first(languages));
        let shelf = read_shelf(notices);
        // The coat that most batches are of, if there is one.
        let first = shelf.iter().find(|product| product.role == Role::Base).or(shelf.first());
        let (first, name) = first.map_or_else(Default::default, |p| (p.id.clone(), p.name.clone()));
        let units = settings.units;
        let (mut mix, keep_mix) = read_or(store::MIX, notices, || MixRecord::first(&first, units));
        if shelf.iter().all(|product| product.id != mix.product) {
            mix.product = first;
            notices.update(|n| n.push(Notice::ProductGone(name)));
        }
        let (slip, keep_slip) = read_or(store::SLIP, notices, SlipRecord::default);
        let (floor, keep_floor) =
            read_or(store::FLOOR, notices, || FloorFormRecord::first(&shelf, units));
        let desk = Self {
            settings: RwSignal::new(settings),
            mix: RwSignal::new(mix),
            slip: RwSignal::new(slip),
            floor: RwSignal::new(floor),
            shelf: RwSignal::new(shelf),
            notices,
        };
        if keep_settings {
            keep(store::SETTINGS, desk.settings, notices);
        }
        if keep_mix {
            keep(store::MIX, desk.mix, notices);
        }
        if keep_floor {
            keep(store::FLOOR, desk.floor, notices);
        }
        if keep_slip {
            keep(store::SLIP, desk.slip, notices);
        }
        desk
    }

    /// Who reads: language and units.
    pub fn reader(self) -> Reader {
        self.settings.with(|s| Reader { language: s.language, units: s.units })
    }

    /// The language, for the texts.
    pub fn language(self) -> Signal<Language> {
        let settings = self.settings;
        Signal::derive(move || settings.with(|s| s.language))
    }

    /// The product now chosen.
    pub fn product(self) -> Option<ProductRecord> {
        let id = self.mix.with(|mix| mix.product.clone());
        self.shelf.with(|shelf| shelf.iter().find(|product| product.id == id).cloned())
    }
}

/// The state from the context of the app.
///
/// # Panics
/// Outside the app, where there is no state.
pub fn desk() -> Desk {
    use_context::<Desk>().unwrap_or_else(|| unreachable!("every screen stands inside the app"))
}

/// The record under a key, or a first one; and whether changes may be written there.
fn read_or<T: Record>(
    key: &str,
    notices: RwSignal<Vec<Notice>>,
    first: impl FnOnce() -> T,
) -> (T, bool) {
    match store::load::<T>(key) {
        Kept::Found(record) => (record, true),
        Kept::Nothing => (first(), true),
        Kept::SetAside(aside) => {
            notices.update(|n| n.push(Notice::SetAside(aside)));
            (first(), true)
        }
        Kept::Newer => {
            notices.update(|n| n.push(Notice::Newer(key.to_owned())));
            (first(), false)
        }
    }
}

/// The products on the phone. A phone without any gets the invented ones.
fn read_shelf(notices: RwSignal<Vec<Notice>>) -> Vec<ProductRecord> {
    let mut shelf = Vec::new();
    for key in store::keys(store::PRODUCTS) {
        match store::load::<ProductRecord>(&key) {
            Kept::Found(product) => shelf.push(product),
            Kept::Nothing => {}
            Kept::SetAside(aside) => notices.update(|n| n.push(Notice::SetAside(aside))),
            Kept::Newer => notices.update(|n| n.push(Notice::Newer(key))),
        }
    }
    if shelf.is_empty() {
        shelf = demo::records().into();
        for product in &shelf {
            let key = format!("{}{}", store::PRODUCTS, product.id);
            // A newer record under that name is not written over.
            let free = matches!(store::load::<ProductRecord>(&key), Kept::Nothing);
            if free && store::save(&key, product).is_err() {
                notices.update(|n| push_once(n, Notice::NotKept));
            }
        }
    }
    shelf.sort_by_key(|product| product.role as u8);
    shelf
}

/// Writes a record whenever it changes.
fn keep<T: Record + PartialEq + Clone + Send + Sync + 'static>(
    key: &'static str,
    record: RwSignal<T>,
    notices: RwSignal<Vec<Notice>>,
) {
    Effect::new(move |_| {
        if record.with(|record| store::save(key, record)).is_err() {
            notices.update(|n| push_once(n, Notice::NotKept));
        }
    });
}

fn push_once(notices: &mut Vec<Notice>, notice: Notice) {
    if !notices.contains(&notice) {
        notices.push(notice);
    }
}
