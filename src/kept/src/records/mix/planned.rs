//! A batch that was taken over from the floor's plan: its place, and what only the plan knows.

use std::collections::BTreeMap;

use pailwise_calc::record::InPlanRecord;
use serde::{Deserialize, Serialize};

use super::Ask;
use crate::entry::Entry;
use crate::records::run::BandRecord;

/// The place in a floor's plan that a batch was taken from, with what was typed for it: another
/// area is another batch.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FromFloorRecord {
    /// The coat, bay and band of the plan that it was taken from.
    pub place: BandRecord,
    /// The product, by id.
    pub product: String,
    /// What was written as what is left.
    pub area: Entry,
    /// Where: the area, or the length of the crack.
    #[serde(default = "the_area")]
    pub left: Ask,
    /// How many batches of its place were down then.
    #[serde(default)]
    pub downs: Option<usize>,
    /// What was written into each field, and what that stands for exactly.
    #[serde(default)]
    pub exact: BTreeMap<Ask, (Entry, f64)>,
    /// What else the plan reckons with.
    #[serde(default)]
    pub plan: Option<PlanInputsRecord>,
}

fn the_area() -> Ask {
    Ask::Area
}

/// What a floor's plan reckons with for a batch beside what the Mix screen asks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PlanInputsRecord {
    /// What the batch is laid on.
    pub area_m2: f64,
    /// What was learnt, and the edges of its place.
    pub in_plan: InPlanRecord,
    /// People who only cut in.
    pub cutters: u32,
    /// What one person cuts in.
    pub cut_m2_per_min: f64,
    /// Every batch may end at a joint or a tape line.
    pub ends_at_joint: bool,
    /// It is the first coat: a rough slab soaks up of no other.
    pub soaks: bool,
    /// Its share of the coat, in litres: no more is mixed of it.
    #[serde(default)]
    pub share_l: Option<f64>,
    /// The crew that lays it, where several lay bays at the same time.
    #[serde(default)]
    pub team: Option<TeamRecord>,
}

/// One of the crews on a floor, of all who are here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TeamRecord {
    /// How many people of this crew roll.
    pub rollers: u32,
    /// How many people of this crew throw flake.
    pub flakers: u32,
    /// People who mix for it.
    pub mixers: u32,
    /// Everybody who was here when it was taken over, in the same order: with other people typed
    /// since, those count.
    pub of: [u32; 3],
}
