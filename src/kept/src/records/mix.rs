//! What the Mix screen was told, as it is kept.

mod ask;
mod gear;
mod planned;

use std::collections::BTreeMap;

use pailwise_calc::batch::Change;
use pailwise_calc::kit::Portions;
use pailwise_calc::record::{ProductRecord, Role, VERSION};
use serde::{Deserialize, Serialize};

pub use ask::{Ask, Wants};
pub use gear::{Finer, MarksRecord, PailPick, ReadIn, Way};
pub use planned::{FromFloorRecord, PlanInputsRecord, TeamRecord};

use super::Record as _;
use super::run::BandRecord;
use crate::entry::Entry;
use crate::units::Units;

/// The inputs of the Mix screen as they are kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[expect(clippy::struct_excessive_bools, reason = "each is one switch of the screen")]
pub struct MixRecord {
    /// Names the kind of record, here the Mix screen's inputs; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// The product, by id.
    pub product: String,
    /// What was typed. A field that is not here has not been touched.
    pub entries: BTreeMap<Ask, Entry>,
    /// The material was read in the pail, after mixing.
    #[serde(default)]
    pub read_after_mixing: bool,
    /// People who mix and nothing else.
    pub mixers: u32,
    /// Poured out in a ribbon at once.
    pub ribbon: bool,
    /// Who throws flake walks the wet film on spikes.
    #[serde(default)]
    pub spikes: bool,
    /// Every strip begins at the same wall.
    #[serde(default)]
    pub same_wall: bool,
    /// Every batch stands measured out before the first is mixed.
    #[serde(default)]
    pub measured_ahead: bool,
    /// The batch may end at a joint or a tape line.
    pub ends_at_joint: bool,
    /// The pail mixed in.
    pub vessel: PailPick,
    /// How the crew measures.
    pub way: Way,
    /// The steps of jug, stick and scale, where one was chosen.
    #[serde(default)]
    pub marks: MarksRecord,
    /// A finer measure that is here.
    #[serde(default)]
    pub finer: Finer,
    /// Only kits are mixed, split so far.
    #[serde(default)]
    pub kits: Option<Portions>,
    /// The place in a floor's plan that it was taken from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from_floor: Option<FromFloorRecord>,
}

impl MixRecord {
    /// Usual figures for a product.
    pub fn first(product: &str, units: Units) -> Self {
        Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
            product: product.to_owned(),
            entries: Ask::ALL.into_iter().map(|ask| (ask, ask.first(units))).collect(),
            read_after_mixing: false,
            mixers: 0,
            ribbon: true,
            spikes: false,
            same_wall: false,
            measured_ahead: false,
            ends_at_joint: false,
            vessel: PailPick::FiveGallon,
            way: Way::Jug,
            marks: MarksRecord::default(),
            finer: Finer::default(),
            kits: None,
            from_floor: None,
        }
    }

    /// The steps in which this crew reads.
    pub fn read_in(&self, units: Units) -> ReadIn {
        ReadIn { usual: self.marks.mark(self.way, units), finer: self.finer.mark(units) }
    }

    /// The batch taken from the floor's plan, while it is still that one.
    fn still_planned(&self) -> Option<&FromFloorRecord> {
        let from = self.from_floor.as_ref()?;
        let same = from.product == self.product && from.area == self.entry(from.left);
        same.then_some(from)
    }

    /// Where in the floor's plan this batch belongs.
    pub fn place(&self) -> Option<BandRecord> {
        self.still_planned().map(|from| from.place)
    }

    /// What the floor's plan adds to it.
    pub fn plan(&self) -> Option<PlanInputsRecord> {
        self.still_planned()?.plan
    }

    /// What a field stands for exactly, where it still is as the floor's plan wrote it.
    pub fn exact(&self, ask: Ask) -> Option<f64> {
        let (entry, value) = self.still_planned()?.exact.get(&ask)?;
        (*entry == self.entry(ask)).then_some(*value)
    }

    /// What decides which fields are asked for, with a product.
    pub fn wants(&self, product: Option<&ProductRecord>) -> Wants {
        Wants {
            role: product.map_or(Role::Other, |product| product.role),
            flaked: product.is_some_and(|product| product.flaked),
            own_pail: self.vessel == PailPick::Own,
        }
    }

    /// Takes over who is here and what they work with from another time; what is asked about one batch
    /// stays.
    pub fn take_crew_of(&mut self, other: &Self) {
        let of_batch = |ask: &Ask| ask.is_of_batch();
        let kept: Vec<_> = self.entries.iter().filter(|(ask, _)| of_batch(ask)).collect();
        let kept: BTreeMap<Ask, Entry> = kept.into_iter().map(|(a, e)| (*a, e.clone())).collect();
        let theirs = other.entries.iter().filter(|(ask, _)| !of_batch(ask));
        let entries = theirs.map(|(a, e)| (*a, e.clone())).chain(kept).collect();
        *self = Self {
            entries,
            product: std::mem::take(&mut self.product),
            read_after_mixing: self.read_after_mixing,
            from_floor: None,
            ..other.clone()
        };
    }

    /// Makes a change that a crew can make on the spot. How warm the cans are is read, not chosen.
    pub fn make(&mut self, change: Change) {
        let before = self.people();
        let mut one_more = |ask: Ask| {
            let entry = self.entry(ask);
            let now = entry.text.trim().parse::<u32>().unwrap_or(0);
            self.entries.insert(ask, Entry::as_typed((now + 1).to_string(), entry.units));
        };
        match change {
            Change::OneMoreRoller => one_more(Ask::Rollers),
            Change::OneMoreFlaker => one_more(Ask::Flakers),
            Change::OneMoreMixer => self.mixers += 1,
            Change::PourRibbon => self.ribbon = true,
            Change::SameWall => self.same_wall = true,
            Change::Spikes => self.spikes = true,
            Change::EndAtJoint => self.ends_at_joint = true,
            Change::HalfKits => self.kits = Some(Portions::Half),
            Change::SplitKits => self.kits = None,
            Change::MeasuredAhead => self.measured_ahead = true,
            Change::OnAScale => self.finer = Finer::SmallScale,
            Change::CoolerMaterial(_) | Change::MixFor(_) => {}
        }
        self.joined(change, before);
    }

    /// Somebody came to the crew that lays the batch from the floor's plan, where that is one of
    /// several.
    fn joined(&mut self, change: Change, before: [u32; 3]) {
        let people = self.people();
        let plan = self.from_floor.as_mut().and_then(|from| from.plan.as_mut());
        let team = plan.and_then(|plan| plan.team.as_mut()).filter(|team| team.of == before);
        let Some(team) = team else { return };
        match change {
            Change::OneMoreRoller => team.rollers += 1,
            Change::OneMoreFlaker => team.flakers += 1,
            Change::OneMoreMixer => team.mixers += 1,
            _ => return,
        }
        team.of = people;
    }

    /// People rolling, flaking and mixing, as they are typed; nobody where that is invalid.
    pub fn people(&self) -> [u32; 3] {
        let count = |ask: Ask| {
            let (field, kind) = ask.field();
            self.entry(ask).value(kind, field).map_or(0, |count| count as u32)
        };
        [count(Ask::Rollers), count(Ask::Flakers), self.mixers]
    }

    /// The entry of a field.
    pub fn entry(&self, ask: Ask) -> Entry {
        self.entries.get(&ask).cloned().unwrap_or_else(|| ask.first(Units::Us))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_there_first_is_fit_in_both_units() {
        for units in Units::ALL {
            let record = MixRecord::first("x", units);
            for ask in Ask::ALL.into_iter().filter(|ask| !ask.optional()) {
                let (field, kind) = ask.field();
                let value = record.entry(ask).value(kind, field);
                assert!(value.is_ok(), "{ask:?} in {units:?}: {value:?}");
            }
        }
    }

    /// A batch of one of two crews: who comes at a tap comes to that crew, and typed over they are
    /// all who are here.
    #[test]
    fn who_comes_at_a_tap_joins_the_crew_of_the_batch() {
        let mut record = MixRecord::first("x", Units::Us);
        record.entries.insert(Ask::Rollers, Entry::as_typed("4".to_owned(), Units::Us));
        let area = record.entry(Ask::Area);
        let in_plan = pailwise_calc::floor::Floor::try_from(&pailwise_calc::demo::floor()).unwrap();
        let in_plan = in_plan.plan(&in_plan.coats[0]).batches[0].in_plan(None);
        let team = TeamRecord { rollers: 2, flakers: 1, mixers: 1, of: record.people() };
        record.from_floor = Some(FromFloorRecord {
            place: BandRecord { floor: 0, coat: 0, bay: 0, to_m: None, next_after_min: None },
            product: "x".to_owned(),
            area,
            left: Ask::Area,
            downs: None,
            exact: BTreeMap::new(),
            plan: Some(PlanInputsRecord {
                area_m2: 10.0,
                in_plan,
                cutters: 0,
                cut_m2_per_min: 0.28,
                ends_at_joint: false,
                soaks: false,
                share_l: None,
                team: Some(team),
            }),
        });
        record.make(Change::OneMoreRoller);
        let joined = record.plan().and_then(|plan| plan.team).unwrap();
        assert_eq!((joined.rollers, joined.of), (3, record.people()));
        assert_eq!(record.people()[0], 5);
        record.entries.insert(Ask::Rollers, Entry::as_typed("1".to_owned(), Units::Us));
        record.make(Change::OneMoreRoller);
        let typed = record.plan().and_then(|plan| plan.team).unwrap();
        assert_ne!(typed.of, record.people(), "a crew typed over is not the plan's");
    }

    /// As the first version wrote it, before steps and kits could be chosen.
    #[test]
    fn what_an_earlier_version_kept_is_read() {
        let text = r#"{"format":"pailwise-mix","version":1,"product":"x",
            "entries":{"slab":{"text":"81","units":"us"}},"mixer":true,"ribbon":false,
            "ends_at_joint":false,"vessel":"two_gallon","way":"scale"}"#;
        let record: MixRecord = pailwise_calc::record::read(text, MixRecord::FORMAT).unwrap();
        assert_eq!((record.vessel, record.way), (PailPick::TwoGallon, Way::Scale));
        assert_eq!((record.marks, record.kits), (MarksRecord::default(), None));
        assert_eq!(record.entry(Ask::Slab).text, "81");
        assert_eq!(record.entry(Ask::Settle).text, "0");
    }

    #[test]
    fn it_is_kept_and_read_back() {
        let record = MixRecord::first("x", Units::Metric);
        let text = serde_json::to_string(&record).unwrap();
        let back: MixRecord = pailwise_calc::record::read(&text, MixRecord::FORMAT).unwrap();
        assert_eq!(back, record);
    }
}
