//! A coat of the floor as it is kept: its day, what is here, and what of it is down.

use std::collections::BTreeMap;

use pailwise_calc::quantity::Length;
use pailwise_calc::record::BrushedRecord;
use serde::{Deserialize, Serialize};

use super::measures::{Single, tape_line};
use crate::entry::Entry;
use crate::show::Reader;
use crate::units::Units;

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
    #[serde(default, skip_serializing_if = "crate::records::is_default")]
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

    pub(super) fn entry_mut(&mut self, single: Single) -> &mut Entry {
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
