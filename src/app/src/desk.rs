//! The app's state: what every screen shares, read from the phone once and written back on change.
//!
//! Storage is the truth that tabs share: a change in another tab, a step undone and a backup
//! restored all write storage and then have this state read again.

mod floors;
pub(crate) mod handed;
pub(crate) mod laid;
mod revert;
mod undo;

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::prelude::Closure;
use pailwise_calc::demo;
use pailwise_calc::record::{ProductRecord, Role};
use pailwise_kept::records::Record;
use pailwise_kept::records::cup::CupRecord;
use pailwise_kept::records::floor::FloorFormRecord;
use pailwise_kept::records::log::{Ended, LogRecord, Said};
use pailwise_kept::records::mix::MixRecord;
use pailwise_kept::records::progress::PracticeRecord;
use pailwise_kept::records::run::RunRecord;
use pailwise_kept::records::settings::SettingsRecord;
use pailwise_kept::records::slip::SlipRecord;
use pailwise_kept::show::Reader;
use web_sys::StorageEvent;

use crate::store::{self, Kept, NotKept, Saved};
use crate::text::{Language, key};

pub use undo::Step;

/// Something the person must know about what is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// A damaged record was moved to this key.
    SetAside(String),
    /// A newer version's record is left alone; changes to it are not kept.
    Newer(String),
    /// A damaged record could not be moved: there is no room. Changes to it are not kept.
    Stuck(String),
    /// The product used last is gone; this one is shown instead.
    ProductGone(String),
    /// Storage would not take a record.
    NotKept,
    /// Storage took the last record it has room for.
    NearlyFull,
    /// The phone's clock was set back while something was under way.
    ClockSetBack,
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
    /// Everybody's progress in practice.
    pub practice: RwSignal<PracticeRecord>,
    /// The products, in the order of the shelf.
    pub shelf: RwSignal<Vec<ProductRecord>>,
    /// The batches under way, the oldest first.
    pub runs: RwSignal<Vec<RunRecord>>,
    /// The cups that stand aside, the oldest first.
    pub cups: RwSignal<Vec<CupRecord>>,
    /// What the person must know.
    pub notices: RwSignal<Vec<Notice>>,
    /// What can be undone, the last at the end.
    pub steps: RwSignal<Vec<Step>>,
    /// How often another hand than the screen's own has changed storage.
    pub rereads: RwSignal<u32>,
}

impl Desk {
    /// Reads everything from the phone, and keeps it there from now on.
    pub fn open(languages: &[String]) -> Self {
        let notices = RwSignal::new(Vec::new());
        if !store::reserve() {
            tell(notices, Notice::NearlyFull);
        }
        let (settings, keep_settings) =
            read_or(store::SETTINGS, notices, || SettingsRecord::first(languages));
        let shelf = read_shelf(notices, settings.language);
        let first = first_of(&shelf).map_or_else(String::new, |p| p.id.clone());
        let units = settings.units;
        let (mix, keep_mix) = read_or(store::MIX, notices, || MixRecord::first(&first, units));
        let (slip, keep_slip) = read_or(store::SLIP, notices, SlipRecord::default);
        let (floor, keep_floor) =
            read_or(store::FLOOR, notices, || FloorFormRecord::first(&shelf, units));
        let (practice, keep_practice) = read_or(store::PRACTICE, notices, PracticeRecord::first);
        let desk = Self {
            practice: RwSignal::new(practice),
            settings: RwSignal::new(settings),
            mix: RwSignal::new(mix),
            slip: RwSignal::new(slip),
            floor: RwSignal::new(floor),
            shelf: RwSignal::new(shelf),
            runs: RwSignal::new(all(store::RUNS, notices)),
            cups: RwSignal::new(all(store::CUPS, notices)),
            notices,
            steps: RwSignal::new(Vec::new()),
            rereads: RwSignal::new(0),
        };
        desk.put_gone_right();
        if desk.floor.with_untracked(|floor| floor.id == 0) {
            let id = desk.free_floor_id();
            desk.floor.update(|floor| floor.id = id);
        }
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
        if keep_practice {
            keep(store::PRACTICE, desk.practice, notices);
        }
        desk
    }

    /// Follows what another tab writes.
    pub fn follow_other_tabs(self) {
        let changed = Closure::<dyn FnMut(StorageEvent)>::new(move |event: StorageEvent| {
            // The watch of the other tab writes the time every few seconds: no record changed.
            if event.key().as_deref() != Some(store::LATEST) {
                self.reread();
            }
        });
        // Without this a second tab shows the change after a reload.
        let _ =
            window().add_event_listener_with_callback("storage", changed.as_ref().unchecked_ref());
        changed.forget();
    }

    /// Reads everything again, after something else than this state has written storage.
    pub fn reread(self) {
        reread(store::SETTINGS, self.settings, self.notices);
        let language = self.settings.with_untracked(|s| s.language);
        let shelf = read_shelf(self.notices, language);
        if self.shelf.with_untracked(|now| *now != shelf) {
            self.shelf.set(shelf);
        }
        reread_all(store::RUNS, self.runs, self.notices);
        reread_all(store::CUPS, self.cups, self.notices);
        reread(store::MIX, self.mix, self.notices);
        reread(store::SLIP, self.slip, self.notices);
        reread(store::FLOOR, self.floor, self.notices);
        reread(store::PRACTICE, self.practice, self.notices);
        self.put_gone_right();
        self.rereads.update(|n| *n += 1);
    }

    /// A product that the Mix screen names and the shelf has not is said, and another taken.
    fn put_gone_right(self) {
        let gone = self.mix.with_untracked(|mix| {
            self.shelf.with_untracked(|shelf| shelf.iter().all(|p| p.id != mix.product))
        });
        if !gone {
            let said = |notice: &Notice| matches!(notice, Notice::ProductGone(_));
            if self.notices.with_untracked(|all| all.iter().any(said)) {
                self.notices.update(|all| all.retain(|notice| !said(notice)));
            }
            return;
        }
        let first = self.shelf.with_untracked(|shelf| {
            first_of(shelf).map(|p| (p.id.clone(), p.name.clone())).unwrap_or_default()
        });
        let (id, name) = first;
        self.mix.update(|mix| mix.product = id);
        tell(self.notices, Notice::ProductGone(name));
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
        self.product_of(&self.mix.with(|mix| mix.product.clone()))
    }

    /// The product of an id.
    pub fn product_of(self, id: &str) -> Option<ProductRecord> {
        self.shelf.with(|shelf| shelf.iter().find(|product| product.id == id).cloned())
    }

    /// The name of the product of an id; nothing where it is not there.
    pub fn name_of(self, id: &str) -> String {
        self.shelf.with(|shelf| {
            shelf.iter().find(|p| p.id == id).map_or_else(String::new, |p| p.name.clone())
        })
    }

    /// The products that have not been put away, and the one now chosen.
    pub fn offered(self) -> Vec<ProductRecord> {
        let chosen = self.mix.with(|mix| mix.product.clone());
        let away = self.settings.with(|s| s.archived.clone());
        let offered = |p: &&ProductRecord| p.id == chosen || !away.contains(&p.id);
        self.shelf.with(|shelf| shelf.iter().filter(offered).cloned().collect())
    }

    /// Products with the favourites before the rest.
    pub fn favourites_first(self, products: Vec<ProductRecord>) -> Vec<ProductRecord> {
        let favourites = self.settings.with(|s| s.favourites.clone());
        let favourite = |product: &ProductRecord| favourites.contains(&product.id);
        let (first, rest): (Vec<_>, Vec<_>) = products.into_iter().partition(favourite);
        first.into_iter().chain(rest).collect()
    }

    /// Puts a product on the shelf, in place of the one of its id.
    ///
    /// # Errors
    /// [`NotKept`] when storage will not take it; the shelf is then as before.
    pub fn put_product(self, product: ProductRecord) -> Result<(), NotKept> {
        self.wrote(store::save(&format!("{}{}", store::PRODUCTS, product.id), &product))?;
        self.shelf.update(|shelf| {
            shelf.retain(|other| other.id != product.id);
            shelf.push(product);
            shelf.sort_by(in_order);
        });
        Ok(())
    }

    /// Every fit record whose key starts with a prefix, with its key, in the order of the keys; of
    /// the others the person is told.
    pub(crate) fn records<T: Record>(self, prefix: &str) -> Vec<(String, T)> {
        records(prefix, self.notices)
    }

    /// The record under a key, or a first one; and whether changes may be written there.
    pub(crate) fn record_or<T: Record>(self, key: &str, first: impl FnOnce() -> T) -> (T, bool) {
        read_or(key, self.notices, first)
    }

    /// Takes a product off the shelf.
    pub fn remove_product(self, id: &str) {
        store::remove(&format!("{}{id}", store::PRODUCTS));
        self.shelf.update(|shelf| shelf.retain(|product| product.id != id));
        self.put_gone_right();
    }

    /// The batch under way of an id, as it stands now.
    pub(crate) fn run_of(self, id: &str) -> Option<RunRecord> {
        self.runs.with_untracked(|runs| runs.iter().find(|run| run.id == id).cloned())
    }

    /// Keeps a batch under way, and then shows it.
    ///
    /// # Errors
    /// [`NotKept`] when storage will not take it; it is then shown as before.
    pub fn put_run(self, run: RunRecord) -> Result<(), NotKept> {
        self.wrote(store::save(&format!("{}{}", store::RUNS, run.id), &run))?;
        self.runs.update(|runs| {
            runs.retain(|other| other.id != run.id);
            runs.push(run);
            runs.sort_by(|a, b| a.id.cmp(&b.id));
        });
        Ok(())
    }

    /// Begins a batch, in a step that can be undone.
    ///
    /// # Errors
    /// As [`Desk::put_run`].
    pub(crate) fn begin(self, run: &RunRecord) -> Result<(), NotKept> {
        let name = run.job.product.name.as_str();
        let what = untrack(|| self.reader()).language.say(key::DID_START, &[("name", name)]);
        self.step(what, &[format!("{}{}", store::RUNS, run.id)], || self.put_run(run.clone()))
    }

    /// Keeps a cup that stands aside, and then shows it.
    ///
    /// # Errors
    /// [`NotKept`] when storage will not take it.
    pub(crate) fn put_cup(self, cup: CupRecord) -> Result<(), NotKept> {
        self.wrote(store::save(&format!("{}{}", store::CUPS, cup.id), &cup))?;
        self.cups.update(|cups| {
            cups.retain(|other| other.id != cup.id);
            cups.push(cup);
            cups.sort_by(|a, b| a.id.cmp(&b.id));
        });
        Ok(())
    }

    /// Takes a cup away.
    pub(crate) fn remove_cup(self, id: &str) {
        store::remove(&format!("{}{id}", store::CUPS));
        self.cups.update(|cups| cups.retain(|cup| cup.id != id));
    }

    /// Moves a batch that has ended into the log, with the product as it was.
    ///
    /// # Errors
    /// [`NotKept`] when storage will not take it; the batch is then still under way.
    pub(crate) fn log_run(
        self,
        run: &RunRecord,
        ended: (Ended, f64),
        ahead_min: f64,
        planned_m2: f64,
    ) -> Result<LogRecord, NotKept> {
        let product = serde_json::to_string(&run.job.product).map_err(|_| NotKept::NoRoom)?;
        let sum = pailwise_kept::envelope::checksum(&product);
        self.wrote(store::save(&format!("{}{sum:08x}", store::VERSIONS), &run.job.product))?;
        let mut record = LogRecord::of(run, sum, ended, ahead_min, planned_m2);
        let floor = self.floor_name_of(run);
        if !floor.is_empty() {
            record.said.insert(Said::Floor, floor);
        }
        self.wrote(store::save(&format!("{}{}", store::LOG, run.id), &record))?;
        store::remove(&format!("{}{}", store::RUNS, run.id));
        self.runs.update(|runs| runs.retain(|other| other.id != run.id));
        Ok(record)
    }

    /// Tells the person something.
    pub fn tell(self, notice: Notice) {
        tell(self.notices, notice);
    }

    /// Passes on how writing went, and tells the person of what did not go well.
    ///
    /// # Errors
    /// As given.
    pub fn wrote(self, result: Result<Saved, NotKept>) -> Result<(), NotKept> {
        wrote(result, self.notices)
    }
}

/// The state from the context of the app.
///
/// # Panics
/// Outside the app, where there is no state.
pub fn desk() -> Desk {
    use_context::<Desk>().unwrap_or_else(|| unreachable!("every screen stands inside the app"))
}

/// The coat that most batches are of, if there is one.
fn first_of(shelf: &[ProductRecord]) -> Option<&ProductRecord> {
    shelf.iter().find(|product| product.role == Role::Base).or(shelf.first())
}

/// Products in the order they go down, then by name.
fn in_order(one: &ProductRecord, other: &ProductRecord) -> std::cmp::Ordering {
    (one.role as u8, &one.name, &one.id).cmp(&(other.role as u8, &other.name, &other.id))
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
            tell(notices, Notice::SetAside(aside));
            (first(), true)
        }
        Kept::Newer => {
            tell(notices, Notice::Newer(key.to_owned()));
            (first(), false)
        }
        Kept::Stuck => {
            tell(notices, Notice::Stuck(key.to_owned()));
            (first(), false)
        }
    }
}

/// Takes over the record under a key, where there is a fit one.
fn reread<T: Record + PartialEq + Send + Sync + 'static>(
    key: &str,
    record: RwSignal<T>,
    notices: RwSignal<Vec<Notice>>,
) {
    match store::load::<T>(key) {
        Kept::Found(kept) if record.with_untracked(|now| *now != kept) => record.set(kept),
        Kept::SetAside(aside) => tell(notices, Notice::SetAside(aside)),
        _ => {}
    }
}

fn records<T: Record>(prefix: &str, notices: RwSignal<Vec<Notice>>) -> Vec<(String, T)> {
    let mut all = Vec::new();
    for key in store::keys(prefix) {
        match store::load::<T>(&key) {
            Kept::Found(record) => all.push((key, record)),
            Kept::Nothing => {}
            Kept::SetAside(aside) => tell(notices, Notice::SetAside(aside)),
            Kept::Newer => tell(notices, Notice::Newer(key)),
            Kept::Stuck => tell(notices, Notice::Stuck(key)),
        }
    }
    all
}

/// The fit records whose keys start with a prefix, the oldest first.
fn all<T: Record>(prefix: &str, notices: RwSignal<Vec<Notice>>) -> Vec<T> {
    records(prefix, notices).into_iter().map(|(_, record)| record).collect()
}

/// Takes over the records whose keys start with a prefix.
fn reread_all<T: Record + PartialEq + Send + Sync + 'static>(
    prefix: &str,
    records: RwSignal<Vec<T>>,
    notices: RwSignal<Vec<Notice>>,
) {
    let kept = all(prefix, notices);
    if records.with_untracked(|now| *now != kept) {
        records.set(kept);
    }
}

/// The invented products, named so that whoever reads this language sees what they are for.
fn invented(language: Language) -> [ProductRecord; 3] {
    let mut products = demo::records();
    let names = [key::DEMO_BASE, key::DEMO_TOPCOAT, key::DEMO_FILLER];
    for (product, name) in products.iter_mut().zip(names) {
        product.name = language.say(name, &[]);
        for additive in &mut product.additives {
            additive.name = language.say(key::DEMO_ABSORBER, &[]);
        }
    }
    products
}

/// The products on the phone. A phone without any gets the invented ones.
fn read_shelf(notices: RwSignal<Vec<Notice>>, language: Language) -> Vec<ProductRecord> {
    let kept = records::<ProductRecord>(store::PRODUCTS, notices);
    let mut shelf: Vec<ProductRecord> = kept.into_iter().map(|(_, product)| product).collect();
    if shelf.is_empty() {
        shelf = invented(language).into();
        for product in &shelf {
            let key = format!("{}{}", store::PRODUCTS, product.id);
            // Told of; the products are there until the page closes.
            let _ = wrote(store::save(&key, product), notices);
        }
    }
    shelf.sort_by(in_order);
    shelf
}

/// Writes a record whenever it changes.
fn keep<T: Record + PartialEq + Clone + Send + Sync + 'static>(
    key: &'static str,
    record: RwSignal<T>,
    notices: RwSignal<Vec<Notice>>,
) {
    Effect::new(move |_| {
        // Told of; what was typed stays on the screen.
        let _ = wrote(record.with(|record| store::save(key, record)), notices);
    });
}

fn wrote(result: Result<Saved, NotKept>, notices: RwSignal<Vec<Notice>>) -> Result<(), NotKept> {
    match &result {
        Ok(Saved::Normally) => {}
        Ok(Saved::IntoReserve) => tell(notices, Notice::NearlyFull),
        Err(NotKept::NoRoom) => tell(notices, Notice::NotKept),
        Err(NotKept::Newer(key)) => tell(notices, Notice::Newer(key.clone())),
    }
    result.map(drop)
}

fn tell(notices: RwSignal<Vec<Notice>>, notice: Notice) {
    if notices.with_untracked(|all| !all.contains(&notice)) {
        notices.update(|all| all.push(notice));
    }
}
