//! What the Floor screen asks to be measured: rooms and walls, and one measure at a time.

use pailwise_calc::field::Field;
use serde::{Deserialize, Serialize};

use crate::entry::{Entry, Kind};
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
    pub(super) fn value(&self, place: usize) -> Option<f64> {
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
    pub(super) fn of_floor(self) -> bool {
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
