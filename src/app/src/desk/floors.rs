//! The floors on the shelf: one is in hand, the others are kept each under a key of its own, with the
//! crew that was on them.

use leptos::prelude::*;
use pailwise_kept::keys::{FLOOR, FLOORS, MIX};
use pailwise_kept::records::floor::FloorFormRecord;
use pailwise_kept::records::run::RunRecord;

use super::Desk;
use crate::steady::now_ms;
use crate::store::{self, Kept, NotKept};

/// The key of a floor on the shelf.
fn key_of(id: u64) -> String {
    format!("{FLOORS}{id:015}")
}

impl Desk {
    /// The number of the floor in hand.
    pub(crate) fn floor_id(self) -> u64 {
        self.floor.with(|floor| floor.id)
    }

    /// Whether a number is that of the floor in hand, which an earlier version knew as 0.
    fn is_in_hand(self, id: u64) -> bool {
        id == 0 || id == self.floor.with_untracked(|floor| floor.id)
    }

    /// A number that no floor has: the moment, or the first free one after it.
    pub(crate) fn free_floor_id(self) -> u64 {
        let taken = |id: u64| {
            id == self.floor.with_untracked(|floor| floor.id) || store::raw(&key_of(id)).is_some()
        };
        let mut id = now_ms().max(1.0) as u64;
        while taken(id) {
            id += 1;
        }
        id
    }

    /// The floors on the shelf, the one begun last first; the one in hand may be among them, as it
    /// stood before.
    pub(crate) fn shelved_floors(self) -> Vec<FloorFormRecord> {
        self.rereads.track();
        let kept = self.records::<FloorFormRecord>(FLOORS).into_iter().rev();
        kept.map(|(_, floor)| floor).collect()
    }

    /// Puts the floor in hand back on the shelf, with the crew that is on it.
    pub(super) fn shelve(self) -> Result<(), NotKept> {
        let mut floor = self.floor.get_untracked();
        let crew = self.mix.get_untracked();
        floor.label.crew = Some(Box::new(crew));
        self.wrote(store::save(&key_of(floor.id), &floor))
    }

    /// Takes a floor in hand: it is written before anything of it is taken from the shelf, so that a
    /// phone that dies in between has it twice and never not at all.
    fn hold(self, floor: FloorFormRecord) -> Result<(), NotKept> {
        self.wrote(store::save(FLOOR, &floor))?;
        if let Some(crew) = &floor.label.crew {
            self.mix.update(|mix| mix.take_crew_of(crew));
        }
        let id = floor.id;
        self.floor.set(floor);
        store::remove(&key_of(id));
        Ok(())
    }

    /// Takes another floor in hand in a step that can be undone; the one in hand goes to the shelf.
    ///
    /// # Errors
    /// [`NotKept`] where storage will not take it; the one in hand is then still there.
    pub(crate) fn take_in_hand(
        self,
        what: String,
        mut floor: FloorFormRecord,
    ) -> Result<(), NotKept> {
        floor.label.put_away = false;
        let before = self.floor.with_untracked(|floor| floor.id);
        let keys = [FLOOR.to_owned(), MIX.to_owned(), key_of(before), key_of(floor.id)];
        let done = self.step(what, &keys, || {
            self.shelve()?;
            self.hold(floor)
        });
        self.rereads.update(|n| *n += 1);
        done
    }

    /// Changes what stands on a floor, in hand or on the shelf; nothing where there is none of that
    /// number.
    pub(crate) fn on_floor(self, id: u64, change: impl FnOnce(&mut FloorFormRecord)) {
        if self.is_in_hand(id) {
            self.floor.update(change);
            return;
        }
        let key = key_of(id);
        if let Kept::Found(mut floor) = store::load::<FloorFormRecord>(&key) {
            change(&mut floor);
            // Told of; the batch itself is in the log.
            let _ = self.wrote(store::save(&key, &floor));
            self.rereads.update(|n| *n += 1);
        }
    }

    /// Under which key a floor is written, in hand or on the shelf.
    pub(crate) fn floor_key(self, id: u64) -> String {
        if self.is_in_hand(id) { FLOOR.to_owned() } else { key_of(id) }
    }

    /// Takes a floor off the shelf for good, in a step that can be undone.
    pub(crate) fn drop_floor(self, what: String, id: u64) {
        let key = key_of(id);
        let _ = self.step(what, std::slice::from_ref(&key), || {
            store::remove(&key);
            Ok::<(), NotKept>(())
        });
        self.rereads.update(|n| *n += 1);
    }

    /// Changes the label of a floor in a step that can be undone.
    pub(crate) fn relabel(self, what: String, id: u64, change: impl FnOnce(&mut FloorFormRecord)) {
        let _ = self.step(what, &[self.floor_key(id)], || {
            self.on_floor(id, change);
            Ok::<(), NotKept>(())
        });
    }

    /// What the floor of a batch is called; nothing where it is gone or has no name.
    pub(crate) fn floor_name_of(self, run: &RunRecord) -> String {
        let Some(place) = run.place else { return String::new() };
        if self.is_in_hand(place.floor) {
            return self.floor.with_untracked(|floor| floor.label.name.clone());
        }
        match store::load::<FloorFormRecord>(&key_of(place.floor)) {
            Kept::Found(floor) => floor.label.name,
            _ => String::new(),
        }
    }
}
