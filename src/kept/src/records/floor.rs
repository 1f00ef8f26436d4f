//! What the Floor screen was told, as it is kept.

mod coat;
mod measures;

use std::collections::BTreeMap;

use pailwise_calc::record::{ProductRecord, Role, VERSION};
use serde::{Deserialize, Serialize};

pub use coat::{CoatFormRecord, DayPick, DownRecord, HourFormRecord};
pub use measures::{Measure, Single, Thing, ThingRecord, down_measures, tape_line};

use super::Record as _;
use super::hand_over::HandOverRecord;
use super::load::{CheckRecord, LoadRecord};
use super::mix::MixRecord;
use crate::entry::{Entry, Invalid, Kind};
use crate::units::Units;

/// The inputs of the Floor screen as they are kept. People, pail and measuring are the Mix
/// screen's.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FloorFormRecord {
    /// Names the kind of record, here the Floor screen's form; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// Its number among the floors, the moment it was begun in milliseconds since 1970; 0 where an
    /// earlier version kept the only one.
    #[serde(default, skip_serializing_if = "crate::records::is_default")]
    pub id: u64,
    /// What it is called, and where it is.
    #[serde(default)]
    pub label: FloorLabelRecord,
    /// Rooms, holes, walls, steps and cracks.
    pub things: Vec<ThingRecord>,
    /// The width of the edge that is brushed.
    pub cut_in: Entry,
    /// People who brush edges and nothing else.
    pub cutters: Entry,
    /// How fast one person brushes.
    pub cut_pace: Entry,
    #[serde(default)]
    /// Every batch may end at a joint or a tape line.
    pub ends_at_joint: bool,
    /// The coats, in order.
    pub coats: Vec<CoatFormRecord>,
    /// Which coat is looked at.
    #[serde(default)]
    pub shown: usize,
    /// What was entered beyond that.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub more: BTreeMap<Single, Entry>,
    /// The date of the first day: "2026-11-25"; empty while it is not said.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub first_day: String,
    /// Whether the slab was dry under a plastic sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plastic_sheet_dry: Option<bool>,
    /// What there is to load.
    #[serde(default)]
    pub load: LoadRecord,
    /// What the sheet for the client says beyond the times.
    #[serde(default)]
    pub hand_over: HandOverRecord,
    /// Cautions that were read and put away, by the name of their text.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cautions_read: Vec<String>,
}

/// What a floor is called, where it stands on the shelf, and who lays it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct FloorLabelRecord {
    /// What the crew calls the floor: a client, a street.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Where it is, as one would tell a driver.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub address: String,
    /// The crew says that nothing more is to be done there.
    pub finished: bool,
    /// It is not listed with the others.
    pub put_away: bool,
    /// The Mix screen as it stood when the floor went back to the shelf: its crew and their gear.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub crew: Option<Box<MixRecord>>,
}

/// How far a floor has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FloorState {
    /// Something of it is down, and it is not finished.
    UnderWay,
    /// Nothing of it is down.
    Planned,
    /// The crew said that it is finished.
    Finished,
}

impl FloorFormRecord {
    /// Whether a coat can go before the one that is before it: nothing of either is down.
    pub fn may_rise(&self, at: usize) -> bool {
        let begun = |at: usize| self.coats.get(at).is_none_or(CoatFormRecord::begun);
        at > 0 && !begun(at) && !begun(at - 1)
    }

    /// Puts a coat before the one that is before it, where that can be.
    pub fn raise(&mut self, at: usize) {
        if self.may_rise(at) {
            self.coats.swap(at - 1, at);
        }
    }

    /// Puts a coat before those that it goes under, as far as nothing of them is down, on their day:
    /// what fills cracks before a primer, and a primer before what covers it.
    pub fn put_under(&mut self, at: usize, goes_under: impl Fn(&str) -> bool) {
        let mut at = at;
        while self.may_rise(at) && goes_under(&self.coats[at - 1].product) {
            let day = self.coats[at - 1].day;
            self.coats[at].day = self.coats[at].day.min(day);
            self.raise(at);
            at -= 1;
        }
    }

    /// How far it has come.
    pub fn state(&self) -> FloorState {
        if self.label.finished {
            FloorState::Finished
        } else if self.coats.iter().any(CoatFormRecord::begun) {
            FloorState::UnderWay
        } else {
            FloorState::Planned
        }
    }

    /// Whether every one of some words stands in its name, its address or its client's name.
    pub fn says(&self, words: &[String]) -> bool {
        let Self { label, hand_over, first_day, .. } = self;
        let all = [&label.name, &label.address, &hand_over.client, first_day];
        let all = all.map(|text| text.to_lowercase()).join(" ");
        words.iter().all(|word| all.contains(word))
    }

    /// Another floor like this one: its measures, its coats and their bays, with nothing down and
    /// nothing read yet.
    #[must_use]
    pub fn like_this(&self, id: u64, units: Units) -> Self {
        let coat = |coat: &CoatFormRecord| CoatFormRecord {
            starts: coat.starts.clone(),
            tapes: coat.tapes.clone(),
            crews: coat.crews,
            ..CoatFormRecord::first(&coat.product, coat.day, units)
        };
        let first = Self::first(&[], units);
        Self {
            id,
            things: self.things.clone(),
            cut_in: self.cut_in.clone(),
            cutters: self.cutters.clone(),
            cut_pace: self.cut_pace.clone(),
            ends_at_joint: self.ends_at_joint,
            coats: self.coats.iter().map(coat).collect(),
            load: LoadRecord {
                list: CheckRecord { done: Vec::new(), ..self.load.list.clone() },
                ..LoadRecord::default()
            },
            hand_over: HandOverRecord {
                crew: self.hand_over.crew.clone(),
                ..HandOverRecord::default()
            },
            label: FloorLabelRecord { crew: self.label.crew.clone(), ..Default::default() },
            ..first
        }
    }

    /// A garage with a base coat today and a topcoat tomorrow, of the products there are.
    pub fn first(shelf: &[ProductRecord], units: Units) -> Self {
        let of = |role: Role| shelf.iter().find(|product| product.role == role);
        let base = of(Role::Base).or(shelf.first());
        let coats = [(base, 0), (of(Role::Topcoat), 1)].into_iter();
        let coats = coats.filter_map(|(product, day)| Some((product?, day)));
        Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
            id: 0,
            label: FloorLabelRecord::default(),
            things: vec![Thing::Room.first(units)],
            cut_in: Single::CutIn.first(units),
            cutters: Single::Cutters.first(units),
            cut_pace: Single::CutPace.first(units),
            ends_at_joint: false,
            coats: coats.map(|(p, day)| CoatFormRecord::first(&p.id, day, units)).collect(),
            shown: 0,
            more: BTreeMap::new(),
            first_day: String::new(),
            plastic_sheet_dry: None,
            load: LoadRecord::default(),
            hand_over: HandOverRecord::default(),
            cautions_read: Vec::new(),
        }
    }

    /// Whether a product is that of one of its coats.
    pub fn uses(&self, product: &str) -> bool {
        self.coats.iter().any(|coat| coat.product == product)
    }

    /// Another thing: a rectangle of floor stands before those that are there, not on them.
    pub fn next(&self, thing: Thing, units: Units) -> ThingRecord {
        let mut next = thing.first(units);
        let rooms = self.things.iter().filter(|other| other.thing == Thing::Room);
        let front = rooms.filter_map(|room| Some(room.value(3)? + room.value(1)?));
        let front = front.fold(0.0, f64::max);
        if let (Thing::Room, Some(back), true) = (thing, next.entries.get_mut(3), front > 0.0) {
            *back = Entry::from_value(Kind::Span, front, units);
        }
        next
    }

    /// How wide its rooms are together, from the left wall; nothing where no width is fit.
    pub fn width_m(&self) -> Option<f64> {
        let rooms = self.things.iter().filter(|thing| thing.thing == Thing::Room);
        let right = rooms.filter_map(|room| Some(room.value(2)? + room.value(0)?));
        right.reduce(f64::max)
    }

    /// The entry of a single measure, of the floor or of one of its coats.
    pub fn entry(&self, coat: usize, single: Single) -> Option<&Entry> {
        match single {
            Single::CutIn => Some(&self.cut_in),
            Single::Cutters => Some(&self.cutters),
            Single::CutPace => Some(&self.cut_pace),
            _ if single.of_floor() => self.more.get(&single),
            _ => self.coats.get(coat)?.entry(single),
        }
    }

    /// What a single measure of the floor says, in the unit of its record; nothing where it may be
    /// left empty and is.
    ///
    /// # Errors
    /// [`Invalid`], saying what it is.
    pub fn value(&self, single: Single, units: Units) -> Result<Option<f64>, Invalid> {
        let measure = single.measure();
        let first = single.first(units);
        let entry = self.entry(0, single).unwrap_or(&first);
        let empty = single.optional() && entry.text.trim().is_empty();
        (!empty).then(|| entry.value(measure.kind, measure.field)).transpose()
    }

    /// As [`FloorFormRecord::entry`], to be written.
    pub fn entry_mut(&mut self, coat: usize, single: Single) -> Option<&mut Entry> {
        match single {
            Single::CutIn => Some(&mut self.cut_in),
            Single::Cutters => Some(&mut self.cutters),
            Single::CutPace => Some(&mut self.cut_pace),
            _ if single.of_floor() => {
                Some(self.more.entry(single).or_insert_with(|| single.first(Units::Us)))
            }
            _ => self.coats.get_mut(coat).map(|coat| coat.entry_mut(single)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::demo;

    #[test]
    fn what_stands_there_first_is_fit_in_both_units() {
        for units in Units::ALL {
            for thing in [Thing::Room, Thing::Hole, Thing::Wall, Thing::Steps, Thing::Crack] {
                let first = thing.first(units);
                for (entry, measure) in first.entries.iter().zip(thing.measures()) {
                    let value = entry.value(measure.kind, measure.field);
                    assert!(value.is_ok(), "{thing:?} {} in {units:?}: {value:?}", measure.label);
                }
            }
        }
    }

    /// Paste that is put on last goes first, but not before what is down already.
    #[test]
    fn what_fills_cracks_goes_first() {
        let mut floor = FloorFormRecord::first(&demo::records(), Units::Us);
        let [base, top] = [0, 1].map(|i| floor.coats[i].product.clone());
        floor.coats.push(CoatFormRecord::first("paste", 1, Units::Us));
        let order = |floor: &FloorFormRecord| {
            floor.coats.iter().map(|coat| coat.product.clone()).collect::<Vec<_>>()
        };
        let mut begun = floor.clone();
        floor.put_under(2, |_| true);
        assert_eq!(order(&floor), ["paste", &base, &top]);
        assert_eq!(floor.coats[0].day, 0);
        begun.coats[0].verticals_done = true;
        begun.put_under(2, |_| true);
        assert_eq!(order(&begun), [&base, "paste", &top]);
        assert!(!begun.may_rise(1) && !begun.may_rise(0) && !begun.may_rise(9));
    }

    /// Another floor like one that is half down: the same rooms, coats and bays, nothing down.
    #[test]
    fn another_floor_like_it_has_its_rooms_and_nothing_down() {
        let mut floor = FloorFormRecord::first(&demo::records(), Units::Us);
        floor.label = FloorLabelRecord { name: "Elm Street 4".to_owned(), ..Default::default() };
        floor.things.push(Thing::Crack.first(Units::Us));
        floor.coats[0].crews = 2;
        floor.coats[0].discarded_l = 3.0;
        floor.coats[0].verticals_done = true;
        floor.load.list.own.push("Fan".to_owned());
        floor.load.list.done.push("Fan".to_owned());
        assert_eq!(floor.state(), FloorState::UnderWay);
        let other = floor.like_this(7, Units::Us);
        assert_eq!((other.id, other.state()), (7, FloorState::Planned));
        assert_eq!(other.things, floor.things);
        assert_eq!((other.coats.len(), other.coats[0].crews), (2, 2));
        assert_eq!(other.load.list.own, ["Fan"]);
        assert!(other.label.name.is_empty() && other.load.list.done.is_empty());
        floor.label.finished = true;
        assert_eq!(floor.state(), FloorState::Finished);
        let words = |text: &str| vec![text.to_owned()];
        assert!(floor.says(&words("elm")) && !floor.says(&words("oak")));
    }

    #[test]
    fn it_is_kept_and_read_back() {
        let record = FloorFormRecord::first(&demo::records(), Units::Metric);
        let text = serde_json::to_string(&record).unwrap();
        let back: FloorFormRecord =
            pailwise_calc::record::read(&text, FloorFormRecord::FORMAT).unwrap();
        assert_eq!(back, record);
    }
}
