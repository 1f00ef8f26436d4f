//! What the Mix screen was told, as it is kept.

use std::collections::BTreeMap;

use pailwise_calc::batch::Change;
use pailwise_calc::field::Field;
use pailwise_calc::kit::Portions;
use pailwise_calc::measure::marks::{JugMark, Mark, ScaleMark, StickMark};
use pailwise_calc::measure::{Measure, Measured};
use pailwise_calc::record::{InPlanRecord, ProductRecord, Role, VERSION};
use pailwise_calc::vessel::Generic;
use serde::{Deserialize, Serialize};

use super::Record as _;
use super::run::BandRecord;
use crate::entry::{Entry, Kind};
use crate::text::key;
use crate::units::Units;

/// A field of the Mix screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is the field of that name")]
pub enum Ask {
    Slab,
    Air,
    Material,
    Humidity,
    Area,
    Width,
    CrackLength,
    CrackWidth,
    CrackDepth,
    TakeUp,
    Loss,
    Rollers,
    Flakers,
    RollPace,
    FlakePace,
    CrackPace,
    Throw,
    Carry,
    Reading,
    CleanPail,
    Settle,
    /// How much of the time there is may be planned; it was kept as this before it had its name.
    #[serde(rename = "reserve")]
    Usable,
    LargestMass,
    OwnBottom,
    OwnTop,
    OwnHeight,
}

/// How the crew measures.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Parts are poured into a jug and read on its marks.
    #[default]
    Jug,
    /// To marks on a stick.
    Stick,
    /// Parts are weighed as they are poured, on a scale.
    Scale,
}

/// A finer measure that is here, for small batches.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Finer {
    /// The crew has no finer measure than its usual one.
    Nothing,
    /// A cup with fine marks.
    #[default]
    Cup,
    /// A small scale that weighs in steps of a gram.
    SmallScale,
}

impl Finer {
    /// Returns the step it is read in, or `None` without a finer measure.
    fn mark(self, units: Units) -> Option<Mark> {
        let us = units == Units::Us;
        match self {
            Self::Nothing => None,
            Self::Cup => {
                Some(Mark::Jug(if us { JugMark::FluidOunce } else { JugMark::TenMilliliters }))
            }
            // They count in grams wherever they are sold.
            Self::SmallScale => Some(Mark::Scale(ScaleMark::Gram)),
        }
    }
}

/// The steps in which a crew reads: of its usual measure, and of a finer one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ReadIn {
    /// What is measured with.
    pub usual: Mark,
    /// What is measured with where that is too coarse.
    pub finer: Option<Mark>,
}

impl ReadIn {
    /// The steps in which a batch is read.
    pub fn of(self, measured: &Measured) -> Mark {
        let by = |mark: &Mark| match (mark, measured.by) {
            (Mark::Jug(jug), Measure::Jug { step }) => jug.step() == step,
            (Mark::Scale(scale), Measure::Scale { step }) => scale.step() == step,
            (Mark::Stick(_), Measure::Stick { .. }) => true,
            _ => false,
        };
        self.finer.filter(|finer| by(finer) && !by(&self.usual)).unwrap_or(self.usual)
    }
}

impl Way {
    /// The way that has such steps.
    pub fn of(mark: Mark) -> Self {
        match mark {
            Mark::Jug(_) => Self::Jug,
            Mark::Stick(_) => Self::Stick,
            Mark::Scale(_) => Self::Scale,
        }
    }
}

impl Ask {
    /// Every field of the Mix screen that takes a typed figure.
    pub const ALL: [Self; 26] = [
        Self::Slab,
        Self::Air,
        Self::Material,
        Self::Humidity,
        Self::Area,
        Self::Width,
        Self::CrackLength,
        Self::CrackWidth,
        Self::CrackDepth,
        Self::TakeUp,
        Self::Loss,
        Self::Rollers,
        Self::Flakers,
        Self::RollPace,
        Self::FlakePace,
        Self::CrackPace,
        Self::Throw,
        Self::Carry,
        Self::Reading,
        Self::CleanPail,
        Self::Settle,
        Self::Usable,
        Self::LargestMass,
        Self::OwnBottom,
        Self::OwnTop,
        Self::OwnHeight,
    ];

    /// The text of its label.
    pub fn label(self) -> &'static str {
        match self {
            Self::Slab => key::ASK_SLAB,
            Self::Air => key::ASK_AIR,
            Self::Material => key::ASK_MATERIAL,
            Self::Humidity => key::ASK_HUMIDITY,
            Self::Area => key::ASK_AREA,
            Self::Width => key::ASK_WIDTH,
            Self::CrackLength => key::ASK_CRACK_LENGTH,
            Self::CrackWidth => key::ASK_CRACK_WIDTH,
            Self::CrackDepth => key::ASK_CRACK_DEPTH,
            Self::TakeUp => key::ASK_TAKE_UP,
            Self::Loss => key::ASK_LOSS,
            Self::Rollers => key::ASK_ROLLERS,
            Self::Flakers => key::ASK_FLAKERS,
            Self::RollPace => key::ASK_ROLL_PACE,
            Self::FlakePace => key::ASK_FLAKE_PACE,
            Self::CrackPace => key::ASK_CRACK_PACE,
            Self::Throw => key::ASK_THROW,
            Self::Carry => key::ASK_CARRY,
            Self::Reading => key::ASK_READING,
            Self::CleanPail => key::ASK_CLEAN_PAIL,
            Self::Settle => key::ASK_SETTLE,
            Self::Usable => key::ASK_RESERVE,
            Self::LargestMass => key::ASK_LARGEST_MASS,
            Self::OwnBottom => key::ASK_OWN_BOTTOM,
            Self::OwnTop => key::ASK_OWN_TOP,
            Self::OwnHeight => key::ASK_OWN_HEIGHT,
        }
    }

    /// The field of the calculation it feeds, and the kind of quantity it takes.
    pub fn field(self) -> (Field, Kind) {
        match self {
            Self::Slab => (Field::Slab, Kind::Temperature),
            Self::Air => (Field::Air, Kind::Temperature),
            Self::Material => (Field::Material, Kind::Temperature),
            Self::Humidity => (Field::Humidity, Kind::Percent),
            Self::Area => (Field::AreaLeft, Kind::Area),
            Self::Width => (Field::Width, Kind::Span),
            Self::CrackLength => (Field::CrackLength, Kind::Span),
            Self::CrackWidth => (Field::CrackWidth, Kind::Small),
            Self::CrackDepth => (Field::CrackDepth, Kind::Small),
            Self::TakeUp => (Field::TakeUp, Kind::Percent),
            Self::Loss => (Field::Loss, Kind::Percent),
            Self::Rollers => (Field::Rollers, Kind::Count),
            Self::Flakers => (Field::Flakers, Kind::Count),
            Self::RollPace => (Field::RollPace, Kind::Pace),
            Self::FlakePace => (Field::FlakePace, Kind::Pace),
            Self::CrackPace => (Field::CrackPace, Kind::CrackPace),
            Self::Throw => (Field::Throw, Kind::Span),
            Self::Carry => (Field::Carry, Kind::Minutes),
            Self::Reading => (Field::Reading, Kind::Minutes),
            Self::CleanPail => (Field::CleanPail, Kind::Minutes),
            Self::Settle => (Field::Settle, Kind::Minutes),
            Self::Usable => (Field::Usable, Kind::Percent),
            Self::LargestMass => (Field::LargestMass, Kind::Mass),
            Self::OwnBottom | Self::OwnTop => (Field::VesselDiameter, Kind::Small),
            Self::OwnHeight => (Field::VesselHeight, Kind::Small),
        }
    }

    /// Whether it is about one batch, and not about who lays it and with what.
    pub fn is_of_batch(self) -> bool {
        matches!(
            self,
            Self::Slab
                | Self::Air
                | Self::Material
                | Self::Humidity
                | Self::Area
                | Self::Width
                | Self::CrackLength
                | Self::CrackWidth
                | Self::CrackDepth
        )
    }

    /// Whether it may be left empty.
    pub fn optional(self) -> bool {
        matches!(self, Self::LargestMass | Self::Humidity)
    }

    /// Whether it is asked for.
    pub fn concerns(self, wants: Wants) -> bool {
        let Wants { role, flaked, own_pail } = wants;
        let filler = role == Role::Filler;
        match self {
            Self::OwnBottom | Self::OwnTop | Self::OwnHeight => own_pail,
            Self::Area | Self::Width | Self::RollPace | Self::TakeUp => !filler,
            Self::CrackLength | Self::CrackWidth | Self::CrackDepth | Self::CrackPace => filler,
            Self::Flakers | Self::FlakePace | Self::Throw | Self::Settle => flaked && !filler,
            _ => true,
        }
    }

    /// What stands there before anybody has typed: usual figures (common practice, no source).
    fn first(self, units: Units) -> Entry {
        let (us, metric) = match self {
            Self::Slab | Self::Air | Self::Material => ("74", "23"),
            Self::Area => ("400", "37"),
            Self::Width => ("20", "6"),
            Self::CrackLength => ("40", "12"),
            Self::CrackWidth => ("1/4", "6"),
            Self::CrackDepth => ("1/2", "12"),
            Self::TakeUp | Self::Loss => ("5", "5"),
            Self::Rollers | Self::Flakers | Self::Carry | Self::CleanPail => ("1", "1"),
            Self::Reading => ("0.5", "0.5"),
            Self::RollPace => ("12", "1.1"),
            Self::FlakePace => ("30", "2.8"),
            Self::CrackPace => ("4", "1.2"),
            Self::Throw => ("8", "2.4"),
            Self::Settle => ("0", "0"),
            Self::Usable => ("80", "80"),
            Self::LargestMass | Self::Humidity => ("", ""),
            Self::OwnBottom => ("10 1/4", "260"),
            Self::OwnTop => ("11 1/4", "285"),
            Self::OwnHeight => ("13 1/2", "340"),
        };
        let text = match units {
            Units::Us => us,
            Units::Metric => metric,
        };
        Entry::as_typed(text, units)
    }
}

/// What decides which fields are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wants {
    /// What the product is for.
    pub role: Role,
    /// Whether flake is broadcast into it.
    pub flaked: bool,
    /// Whether the pail is the crew's own.
    pub own_pail: bool,
}

/// The pail mixed in: one of the generic ones, or the crew's own by its measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is the pail of that name")]
pub enum PailPick {
    FiveQuart,
    TwoGallon,
    FiveGallon,
    Own,
}

impl PailPick {
    /// All of them, smallest first.
    pub const ALL: [Self; 4] = [Self::FiveQuart, Self::TwoGallon, Self::FiveGallon, Self::Own];

    /// The generic pail it is, if it is one.
    pub fn generic(self) -> Option<Generic> {
        match self {
            Self::FiveQuart => Some(Generic::FiveQuart),
            Self::TwoGallon => Some(Generic::TwoGallon),
            Self::FiveGallon => Some(Generic::FiveGallon),
            Self::Own => None,
        }
    }
}

/// The steps of jug, stick and scale, where one was chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct MarksRecord {
    /// From one mark of the jug to the next.
    pub jug: Option<JugMark>,
    /// How finely a mark on the stick can be made.
    pub stick: Option<StickMark>,
    /// What the scale counts in.
    pub scale: Option<ScaleMark>,
}

impl MarksRecord {
    /// The step of a way to measure: the one chosen, or the usual one of the person's units.
    pub fn mark(self, way: Way, units: Units) -> Mark {
        let us = units == Units::Us;
        let (jug, stick, scale) = if us {
            (JugMark::QuarterQuart, StickMark::SixteenthInch, ScaleMark::HundredthPound)
        } else {
            (JugMark::TenthLiter, StickMark::Millimeter, ScaleMark::FiveGrams)
        };
        match way {
            Way::Jug => Mark::Jug(self.jug.unwrap_or(jug)),
            Way::Stick => Mark::Stick(self.stick.unwrap_or(stick)),
            Way::Scale => Mark::Scale(self.scale.unwrap_or(scale)),
        }
    }

    /// The steps of the same kind, a chosen one in place of the one before.
    pub fn choose(&mut self, mark: Mark) {
        match mark {
            Mark::Jug(mark) => self.jug = Some(mark),
            Mark::Stick(mark) => self.stick = Some(mark),
            Mark::Scale(mark) => self.scale = Some(mark),
        }
    }
}

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
            place: BandRecord { coat: 0, bay: 0, to_m: None, next_after_min: None },
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
