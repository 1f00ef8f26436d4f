//! What the Floor screen was told, as it is kept.

use std::collections::BTreeMap;

use pailwise_calc::field::Field;
use pailwise_calc::quantity::Length;
use pailwise_calc::record::{BrushedRecord, ProductRecord, Role, VERSION};
use serde::{Deserialize, Serialize};

use super::Record as _;
use super::hand_over::HandOverRecord;
use super::load::LoadRecord;
use crate::entry::{Entry, Invalid, Kind};
use crate::show::Reader;
use crate::text::key;
use crate::units::Units;

/// A measure of one of the things on the list: its label, the field that judges it, its kind.
#[derive(Clone, Copy, Debug)]
pub struct Measure {
    /// Its label, as a text key.
    pub label: &'static str,
    /// The range that it must be in.
    pub field: Field,
    /// How it is typed.
    pub kind: Kind,
    /// What stands there first, in US units and in metric.
    first: (&'static str, &'static str),
}

const fn measure(
    label: &'static str,
    field: Field,
    kind: Kind,
    first: (&'static str, &'static str),
) -> Measure {
    Measure { label, field, kind, first }
}

/// A kind of thing of which a floor has some.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Thing {
    /// A rectangle of floor.
    Room,
    /// A rectangle cut out of it.
    Hole,
    /// A low wall at the edge of the floor, coated by brush.
    Wall,
    /// A flight of steps.
    Steps,
    /// Cracks of one size.
    Crack,
}

impl Thing {
    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Room => key::THING_ROOM,
            Self::Hole => key::THING_HOLE,
            Self::Wall => key::THING_WALL,
            Self::Steps => key::THING_STEPS,
            Self::Crack => key::THING_CRACK,
        }
    }

    /// Returns the text key of the button that adds another of this kind.
    pub fn add(self) -> &'static str {
        match self {
            Self::Room => key::ADD_ROOM,
            Self::Hole => key::ADD_HOLE,
            Self::Wall => key::ADD_WALL,
            Self::Steps => key::ADD_STEPS,
            Self::Crack => key::ADD_CRACK,
        }
    }

    /// Its measures, in order.
    pub fn measures(self) -> &'static [Measure] {
        const WIDTH: Measure =
            measure(key::MEASURE_WIDTH, Field::PlanSize, Kind::Span, ("20", "6"));
        const DEPTH: Measure =
            measure(key::MEASURE_DEPTH, Field::PlanSize, Kind::Span, ("20", "6"));
        const LEFT: Measure = measure(key::MEASURE_LEFT, Field::PlanOffset, Kind::Span, ("0", "0"));
        const BACK: Measure = measure(key::MEASURE_BACK, Field::PlanOffset, Kind::Span, ("0", "0"));
        const ROOM: [Measure; 4] = [WIDTH, DEPTH, LEFT, BACK];
        const HOLE: [Measure; 4] = [
            measure(key::MEASURE_WIDTH, Field::PlanSize, Kind::Span, ("1", "0.3")),
            measure(key::MEASURE_DEPTH, Field::PlanSize, Kind::Span, ("1", "0.3")),
            measure(key::MEASURE_LEFT, Field::PlanOffset, Kind::Span, ("5", "1.5")),
            measure(key::MEASURE_BACK, Field::PlanOffset, Kind::Span, ("5", "1.5")),
        ];
        const WALL: [Measure; 2] = [
            measure(key::MEASURE_LENGTH, Field::WallLength, Kind::Span, ("20", "6")),
            measure(key::MEASURE_HEIGHT, Field::WallHeight, Kind::Span, ("6\"", "0.15")),
        ];
        const STEPS: [Measure; 5] = [
            measure(key::MEASURE_COUNT, Field::StepCount, Kind::Count, ("2", "2")),
            measure(key::MEASURE_WIDTH, Field::StepWidth, Kind::Span, ("3", "0.9")),
            measure(key::MEASURE_TREAD, Field::StepTread, Kind::Span, ("11\"", "0.28")),
            measure(key::MEASURE_RISER, Field::StepRiser, Kind::Span, ("7\"", "0.18")),
            measure(key::MEASURE_SIDES, Field::OpenSides, Kind::Count, ("0", "0")),
        ];
        const CRACK: [Measure; 3] = [
            measure(key::ASK_CRACK_LENGTH, Field::CrackLength, Kind::Span, ("10", "3")),
            measure(key::ASK_CRACK_WIDTH, Field::CrackWidth, Kind::Small, ("1/4", "6")),
            measure(key::ASK_CRACK_DEPTH, Field::CrackDepth, Kind::Small, ("1/2", "12")),
        ];
        match self {
            Self::Room => &ROOM,
            Self::Hole => &HOLE,
            Self::Wall => &WALL,
            Self::Steps => &STEPS,
            Self::Crack => &CRACK,
        }
    }

    /// One as it stands there first.
    pub fn first(self, units: Units) -> ThingRecord {
        let entries = self.measures().iter().map(|m| first(m, units));
        ThingRecord { thing: self, entries: entries.collect() }
    }
}

fn first(measure: &Measure, units: Units) -> Entry {
    let (us, metric) = measure.first;
    Entry::as_typed(if units == Units::Us { us } else { metric }, units)
}

impl ThingRecord {
    /// One of its measures, where it is fit.
    fn value(&self, place: usize) -> Option<f64> {
        let measure = self.thing.measures().get(place)?;
        self.entries.get(place)?.value(measure.kind, measure.field).ok()
    }
}

/// One thing with its measures as typed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ThingRecord {
    /// Which kind of thing was measured, such as a room or a wall.
    pub thing: Thing,
    /// In the order of [`Thing::measures`].
    pub entries: Vec<Entry>,
}

/// A single measure of the floor or of a coat.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is what its name says in the trade")]
pub enum Single {
    CutIn,
    Cutters,
    CutPace,
    Slab,
    Air,
    Material,
    Drift,
    Low,
    High,
    OnHand,
    Humidity,
    TonightSlab,
    TonightHumidity,
    SlabHumidity,
    VaporEmission,
    SurfacePh,
    Profile,
    Dried,
    FlakeCover,
    FlakeBox,
    FlakeHere,
    Spare,
    CombWet1,
    CombDry1,
    CombWet2,
    CombDry2,
    CombWet3,
    CombDry3,
}

impl Single {
    /// How it is asked for.
    pub fn measure(self) -> Measure {
        let temperature = |label, first| measure(label, Field::Air, Kind::Temperature, first);
        let humidity = |label, field| measure(label, field, Kind::Percent, ("", ""));
        let tooth = |label| measure(label, Field::CombTooth, Kind::Film, ("", ""));
        match self {
            Self::CutIn => measure(key::ASK_CUT_IN, Field::CutIn, Kind::Small, ("3", "80")),
            Self::Cutters => measure(key::ASK_CUTTERS, Field::Cutters, Kind::Count, ("0", "0")),
            Self::CutPace => measure(key::ASK_CUT_PACE, Field::CutPace, Kind::Pace, ("3", "0.28")),
            Self::Slab => measure(key::ASK_SLAB, Field::Slab, Kind::Temperature, ("74", "23")),
            Self::Air => temperature(key::ASK_AIR, ("74", "23")),
            Self::Material => temperature(key::ASK_MATERIAL, ("74", "23")),
            Self::Drift => measure(key::ASK_DRIFT, Field::DriftRate, Kind::Change, ("2", "1")),
            Self::Low => temperature(key::ASK_LOW, ("60", "15")),
            Self::High => temperature(key::ASK_HIGH, ("80", "27")),
            Self::OnHand => measure(key::ASK_ON_HAND, Field::OnHand, Kind::Volume, ("", "")),
            Self::Humidity => humidity(key::ASK_HUMIDITY, Field::Humidity),
            Self::TonightSlab => {
                measure(key::ASK_TONIGHT_SLAB, Field::TonightSlab, Kind::Temperature, ("", ""))
            }
            Self::TonightHumidity => humidity(key::ASK_TONIGHT_HUMIDITY, Field::Humidity),
            Self::SlabHumidity => humidity(key::TEST_SLAB_HUMIDITY, Field::SlabHumidity),
            Self::VaporEmission => {
                measure(key::TEST_VAPOR, Field::VaporEmission, Kind::Emission, ("", ""))
            }
            Self::SurfacePh => measure(key::TEST_PH, Field::SurfacePh, Kind::Number, ("", "")),
            Self::Profile => measure(key::TEST_PROFILE, Field::Profile, Kind::Count, ("", "")),
            Self::Dried => measure(key::TEST_DRIED, Field::Dried, Kind::Hours, ("", "")),
            Self::FlakeCover => {
                measure(key::ASK_FLAKE_COVER, Field::FlakeCover, Kind::Cover, ("", ""))
            }
            // A usual box (common practice, no source).
            Self::FlakeBox => {
                measure(key::ASK_FLAKE_BOX, Field::FlakeBox, Kind::Mass, ("25", "11.3"))
            }
            Self::FlakeHere => measure(key::ASK_FLAKE_HERE, Field::FlakeHere, Kind::Mass, ("", "")),
            Self::CombWet1 => tooth(key::COMB_WET_1),
            Self::CombDry1 => tooth(key::COMB_DRY_1),
            Self::CombWet2 => tooth(key::COMB_WET_2),
            Self::CombDry2 => tooth(key::COMB_DRY_2),
            Self::CombWet3 => tooth(key::COMB_WET_3),
            Self::CombDry3 => tooth(key::COMB_DRY_3),
            Self::Spare => measure(key::ASK_SPARE, Field::Spare, Kind::Percent, ("0", "0")),
        }
    }

    /// Whether it is of the floor, and not of one of its coats.
    fn of_floor(self) -> bool {
        matches!(
            self,
            Self::CutIn
                | Self::Cutters
                | Self::CutPace
                | Self::SlabHumidity
                | Self::VaporEmission
                | Self::SurfacePh
                | Self::Profile
                | Self::Dried
                | Self::FlakeCover
                | Self::FlakeBox
                | Self::FlakeHere
                | Self::Spare
        )
    }

    /// Whether it may be left empty.
    pub fn optional(self) -> bool {
        self.measure().first.0.is_empty()
    }

    /// What stands there at first.
    pub fn first(self, units: Units) -> Entry {
        first(&self.measure(), units)
    }
}

/// How a coat's day goes on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DayPick {
    /// Air and slab stay as warm as they were read.
    #[default]
    Steady,
    /// So much an hour.
    Drift,
    /// Between a low and a high.
    LowAndHigh,
    /// The temperature of the air is typed hour by hour.
    Hours,
}

/// The air at an hour, as it was entered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HourFormRecord {
    /// "18:00"; one that is not after the hour before is on the next day.
    pub at: String,
    /// How warm the air is then.
    pub air: Entry,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "so serde asks")]
fn is_first(bay: &u32) -> bool {
    *bay == 0
}

fn one_crew() -> u32 {
    1
}

/// A batch that is down, as it was entered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DownRecord {
    /// Where it really ended.
    pub ended_at: Entry,
    /// How many minutes rolling took; empty where nobody looked.
    pub rolled_in: Entry,
    /// How much was mixed for it, in litres: what the plan said.
    pub mixed_l: f64,
    /// In which bay, from the left: 0 is the first.
    #[serde(default, skip_serializing_if = "is_first")]
    pub bay: u32,
    /// When A met B, in minutes of its day, where that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub begun_min: Option<f64>,
    /// Its film closed before it was finished: its edge is dry.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub film_closed: bool,
    /// Its page in the log, by id; empty for one that no clock ran for.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub batch: String,
}

impl DownRecord {
    /// A batch that ended where its band does, as far as anybody knows: never further than it
    /// reached.
    pub fn planned(reader: Reader, (bay, to): (u32, Length), mixed_l: f64) -> Self {
        Self {
            ended_at: Entry::as_typed(reader.typed_distance(to), reader.units),
            rolled_in: Entry::as_typed("", reader.units),
            mixed_l,
            bay,
            begun_min: None,
            film_closed: false,
            batch: String::new(),
        }
    }
}

/// Where a batch ended, and how long rolling took.
pub fn down_measures() -> (Measure, Measure) {
    (
        measure(key::DOWN_ENDED, Field::EndedAt, Kind::Span, ("", "")),
        measure(key::DOWN_TOOK, Field::Took, Kind::Minutes, ("", "")),
    )
}

/// Where a tape line runs.
pub fn tape_line() -> Measure {
    measure(key::ASK_TAPE_LINE, Field::TapeLine, Kind::Span, ("", ""))
}

/// A coat as it was entered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CoatFormRecord {
    /// The product, by id.
    pub product: String,
    /// On which day: 0 is the first.
    pub day: u32,
    /// When it begins: "08:00".
    pub starts: String,
    /// How warm the slab is as the coat begins.
    pub slab: Entry,
    /// How warm the air is then.
    pub air: Entry,
    /// How warm the material is as the coat begins.
    pub material: Entry,
    /// The material was read in the pail, after mixing.
    #[serde(default)]
    pub read_after_mixing: bool,
    #[serde(default)]
    /// How the air goes on through the day.
    pub pick: DayPick,
    /// By how much it warms in an hour.
    pub drift: Entry,
    /// The low of the day.
    pub low: Entry,
    /// When that is: "05:00".
    pub low_at: String,
    /// The high of the day.
    pub high: Entry,
    /// When that is, as the phone's field for a time writes it.
    pub high_at: String,
    /// How much of the product was on site before the first batch.
    pub on_hand: Entry,
    /// Tape lines between bays, from the left wall.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tapes: Vec<Entry>,
    /// So many crews lay bays at the same time.
    #[serde(default = "one_crew")]
    pub crews: u32,
    /// What was entered beyond that.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub more: BTreeMap<Single, Entry>,
    /// The air hour by hour.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub hours: Vec<HourFormRecord>,
    #[serde(default)]
    /// Walls and steps are brushed.
    pub verticals_done: bool,
    /// Batches that were brushed on walls and steps.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub brushed: Vec<BrushedRecord>,
    /// What was mixed and thrown away, in litres.
    #[serde(default)]
    pub discarded_l: f64,
    /// When the next batch is mixed, once one is down: "09:30".
    #[serde(default)]
    pub resumes: Option<String>,
    #[serde(default)]
    /// Batches that are down, in order.
    pub down: Vec<DownRecord>,
}

impl CoatFormRecord {
    /// A coat of a product, in the morning.
    pub fn first(product: &str, day: u32, units: Units) -> Self {
        Self {
            product: product.to_owned(),
            day,
            starts: "08:00".to_owned(),
            slab: Single::Slab.first(units),
            air: Single::Air.first(units),
            material: Single::Material.first(units),
            read_after_mixing: false,
            pick: DayPick::Steady,
            drift: Single::Drift.first(units),
            low: Single::Low.first(units),
            low_at: "05:00".to_owned(),
            high: Single::High.first(units),
            high_at: "15:00".to_owned(),
            on_hand: Single::OnHand.first(units),
            tapes: Vec::new(),
            crews: 1,
            more: BTreeMap::new(),
            hours: Vec::new(),
            verticals_done: false,
            brushed: Vec::new(),
            discarded_l: 0.0,
            resumes: None,
            down: Vec::new(),
        }
    }

    /// Takes over how warm and how damp it is, and how that goes on, from another coat.
    pub fn weather_of(&mut self, other: &Self) {
        for single in [Single::Humidity, Single::TonightSlab, Single::TonightHumidity] {
            match other.more.get(&single) {
                Some(entry) => self.more.insert(single, entry.clone()),
                None => self.more.remove(&single),
            };
        }
        *self = Self {
            product: std::mem::take(&mut self.product),
            day: self.day,
            starts: std::mem::take(&mut self.starts),
            on_hand: self.on_hand.clone(),
            tapes: std::mem::take(&mut self.tapes),
            crews: self.crews,
            more: std::mem::take(&mut self.more),
            verticals_done: self.verticals_done,
            brushed: std::mem::take(&mut self.brushed),
            discarded_l: self.discarded_l,
            resumes: self.resumes.take(),
            down: std::mem::take(&mut self.down),
            ..other.clone()
        };
    }

    /// How many of its batches are down.
    pub fn downs(&self) -> usize {
        self.brushed.len() + self.down.len()
    }

    /// How many batches of walls and steps, and of a bay, are down.
    pub fn downs_of(&self, bay: u32) -> usize {
        self.brushed.len() + self.down.iter().filter(|down| down.bay == bay).count()
    }

    /// Parts the floor into so many bays of the same width.
    pub fn part(&mut self, bays: u32, width_m: f64, units: Units) {
        let line = |i: u32| {
            let at = width_m * f64::from(i) / f64::from(bays);
            Entry::from_value(tape_line().kind, at, units)
        };
        self.tapes = (1..bays).map(line).collect();
        self.crews = self.crews.clamp(1, bays.max(1));
    }

    /// Whether anything of it has been mixed or is down.
    pub fn begun(&self) -> bool {
        self.verticals_done || self.downs() > 0 || self.discarded_l > 0.0
    }

    /// What was typed for one of its measures.
    pub fn entry(&self, single: Single) -> Option<&Entry> {
        Some(match single {
            Single::Slab => &self.slab,
            Single::Air => &self.air,
            Single::Material => &self.material,
            Single::Drift => &self.drift,
            Single::Low => &self.low,
            Single::High => &self.high,
            Single::OnHand => &self.on_hand,
            _ => return self.more.get(&single),
        })
    }

    fn entry_mut(&mut self, single: Single) -> &mut Entry {
        match single {
            Single::Slab => &mut self.slab,
            Single::Air => &mut self.air,
            Single::Material => &mut self.material,
            Single::Drift => &mut self.drift,
            Single::Low => &mut self.low,
            Single::High => &mut self.high,
            Single::OnHand => &mut self.on_hand,
            _ => self.more.entry(single).or_insert_with(|| single.first(Units::Us)),
        }
    }
}

/// The inputs of the Floor screen as they are kept. People, pail and measuring are the Mix
/// screen's.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FloorFormRecord {
    /// Names the kind of record, here the Floor screen's form; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
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

impl FloorFormRecord {
    /// A garage with a base coat today and a topcoat tomorrow, of the products there are.
    pub fn first(shelf: &[ProductRecord], units: Units) -> Self {
        let of = |role: Role| shelf.iter().find(|product| product.role == role);
        let base = of(Role::Base).or(shelf.first());
        let coats = [(base, 0), (of(Role::Topcoat), 1)].into_iter();
        let coats = coats.filter_map(|(product, day)| Some((product?, day)));
        Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
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

    #[test]
    fn it_is_kept_and_read_back() {
        let record = FloorFormRecord::first(&demo::records(), Units::Metric);
        let text = serde_json::to_string(&record).unwrap();
        let back: FloorFormRecord =
            pailwise_calc::record::read(&text, FloorFormRecord::FORMAT).unwrap();
        assert_eq!(back, record);
    }
}
