//! How a whole floor is written down: its shape, what stands up from it, and its coats.

use serde::{Deserialize, Serialize};

use super::{ConditionsRecord, CrewRecord, GearRecord, ProductRecord, Unreadable, read};

#[expect(clippy::trivially_copy_pass_by_ref, reason = "so serde asks")]
fn is_first(bay: &u32) -> bool {
    *bay == 0
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "so serde asks")]
fn is_one(crews: &u32) -> bool {
    *crews == 1
}

fn one() -> u32 {
    1
}

/// A rectangle of floor, or one cut out of it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RectangleRecord {
    /// From the left end of the back wall to its left side.
    #[serde(default)]
    pub left_m: f64,
    /// From the back wall to its back side.
    #[serde(default)]
    pub back_m: f64,
    /// Along the back wall.
    pub width_m: f64,
    /// Away from the back wall.
    pub depth_m: f64,
}

/// A short foundation wall, coated with the floor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct StemWallRecord {
    /// Length of the wall, measured along the floor, in metres.
    pub length_m: f64,
    /// Height of the coated face, in metres.
    pub height_m: f64,
}

/// A flight of steps.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct StepsRecord {
    /// How many steps the flight has, each one tread and one riser.
    pub count: u32,
    /// Width of each step from side to side, in metres.
    pub width_m: f64,
    /// Depth of a tread.
    pub tread_m: f64,
    /// Height of a riser.
    pub riser_m: f64,
    /// Sides that stand free, and are coated: 0, 1 or 2.
    #[serde(default)]
    pub open_sides: u32,
}

/// Cracks of one size.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct CrackRecord {
    /// Length of all cracks of this size added up, in metres.
    pub length_m: f64,
    /// Width of the cracks, in millimetres.
    pub width_mm: f64,
    /// How deep they are filled.
    pub depth_mm: f64,
}

/// A reading expected at a time of day.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct HourRecord {
    /// Minutes after midnight of the first day.
    pub at_min: f64,
    /// Temperature of the air at that time, in °C.
    pub air_c: f64,
}

/// How temperatures go on from where they are.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum CourseRecord {
    /// All temperatures stay as they were read.
    #[default]
    Steady,
    /// So much an hour.
    DriftKPerHour(f64),
    /// Between a low and a high of the air.
    LowAndHigh {
        /// The coldest, and when.
        low: HourRecord,
        /// The warmest, and when.
        high: HourRecord,
    },
    /// Air hour by hour.
    Hours(Vec<HourRecord>),
}

/// What the readings are expected to be when it is coldest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct TonightRecord {
    /// The slab then; without it the slab is taken to cool as much as the air.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub slab_c: Option<f64>,
    /// Relative humidity of the air then; without it the air is taken to keep its moisture.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub humidity_percent: Option<f64>,
}

impl TonightRecord {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// What was read of the surface before it was coated.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct SurfaceRecord {
    /// Relative humidity in the slab, as ASTM F2170 measures it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub slab_humidity_percent: Option<f64>,
    /// Moisture the slab gives off, as ASTM F1869 measures it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub vapor_emission_g_per_m2_day: Option<f64>,
    /// Whether the slab was dry under a plastic sheet, as ASTM D4263 looks for it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plastic_sheet_dry: Option<bool>,
    /// pH of the surface, as ASTM D4262 measures it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub surface_ph: Option<f64>,
    /// Roughness, as an ICRI concrete surface profile.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub profile_csp: Option<u32>,
    /// How long it has dried since it was last wet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dried_h: Option<f64>,
}

impl SurfaceRecord {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// Where a batch really ended.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct DoneRecord {
    /// Distance from the back wall.
    pub ended_at_m: f64,
    /// How much was mixed for it.
    pub mixed_l: f64,
    /// In which bay, from the left: 0 is the first.
    #[serde(default, skip_serializing_if = "is_first")]
    pub bay: u32,
    /// How long rolling it took, where that was seen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rolled_in_min: Option<f64>,
    /// When A met B, from midnight of the coat's day, where that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub begun_min: Option<f64>,
    /// Its film closed before it was finished: its edge is dry.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub film_closed: bool,
}

/// A batch that is under way: mixed, and not yet down.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct UnderWayRecord {
    /// In which bay, from the left: 0 is the first.
    #[serde(default, skip_serializing_if = "is_first")]
    pub bay: u32,
    /// It is brushed on walls and steps.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub on_walls: bool,
    /// When A met B, from midnight of the coat's day.
    pub begun_min: f64,
    /// How much of it there is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mixed_l: Option<f64>,
    /// Where it is to end: distance from the back wall, or along the cracks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to_m: Option<f64>,
}

/// A batch that was brushed on walls and steps.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct BrushedRecord {
    /// Area of wall and steps that the batch covered, in m².
    pub area_m2: f64,
    /// How much was mixed for it.
    pub mixed_l: f64,
}

/// One coat: what, when, how warm, and how far it has come.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct CoatRecord {
    /// The product of this coat, with its whole data sheet.
    pub product: ProductRecord,
    /// How warm it is when it begins.
    pub conditions: ConditionsRecord,
    /// How that goes on.
    #[serde(default)]
    pub course: CourseRecord,
    /// What is expected when it is coldest.
    #[serde(default, skip_serializing_if = "TonightRecord::is_empty")]
    pub tonight: TonightRecord,
    /// When it begins: minutes after midnight.
    pub start_min: f64,
    /// On which day: 0 is the first.
    #[serde(default)]
    pub day: u32,
    /// Tape lines along the direction of work, as distances from the left wall: each parts the floor
    /// into one more bay.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tape_lines_m: Vec<f64>,
    /// So many crews lay bays at the same time.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub crews: u32,
    /// How much of it is here, mixed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on_hand_l: Option<f64>,
    /// Walls and steps are done.
    #[serde(default)]
    pub verticals_done: bool,
    /// Batches that were brushed on them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub brushed: Vec<BrushedRecord>,
    /// What was mixed and thrown away.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub discarded_l: Option<f64>,
    /// When the next batch is mixed, where some are down: minutes after midnight of its day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub resumes_min: Option<f64>,
    /// Batches that are down, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub done: Vec<DoneRecord>,
    /// Batches that are under way.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub under_way: Vec<UnderWayRecord>,
}

/// A whole floor: everything its plan needs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct FloorRecord {
    /// The kind of record, always [`FloorRecord::FORMAT`].
    pub format: String,
    /// Version of the format it is written in; the newest is [`super::VERSION`].
    pub version: u32,
    /// Stable name of the record.
    pub id: String,
    /// What the crew calls it.
    pub name: String,
    /// The date of the first day: `2026-11-25`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub first_day: Option<String>,
    /// What was read of the surface.
    #[serde(default, skip_serializing_if = "SurfaceRecord::is_empty")]
    pub surface: SurfaceRecord,
    /// The flat: rectangles that add up.
    pub flat: Vec<RectangleRecord>,
    /// Rectangles cut out of it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cut_out: Vec<RectangleRecord>,
    /// Short foundation walls that are coated with the floor.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stem_walls: Vec<StemWallRecord>,
    /// Flights of steps that are coated with the floor.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<StepsRecord>,
    /// Cracks to be filled, one entry for each size.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cracks: Vec<CrackRecord>,
    /// Width of the edge that is cut in by brush; 0 where the roller goes to the wall.
    #[serde(default)]
    pub cut_in_m: f64,
    /// Extra for the texture of the slab, on the first coat.
    #[serde(default)]
    pub take_up_percent: f64,
    /// Left on pail and tools.
    #[serde(default)]
    pub loss_percent: f64,
    /// Each batch may end at a joint or a tape line.
    #[serde(default)]
    pub ends_at_joint: bool,
    /// The people who lay the floor, and how fast they work.
    pub crew: CrewRecord,
    /// The pail, the measure and the kit rule the crew works with.
    pub gear: GearRecord,
    /// The coats, in order.
    pub coats: Vec<CoatRecord>,
}

impl FloorRecord {
    /// What `format` says in a floor record.
    pub const FORMAT: &'static str = "pailwise-floor";

    /// Reads a floor from JSON.
    ///
    /// # Errors
    /// As [`super::JobRecord::from_json`].
    pub fn from_json(text: &str) -> Result<Self, Unreadable> {
        read(text, Self::FORMAT)
    }
}
