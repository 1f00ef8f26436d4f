//! How products, crews and jobs are written down: JSON, with the unit in every key.
//!
//! A record is what a person gave, exactly, before anything is checked; `TryFrom` turns it into
//! the checked type the calculation uses. The same records are kept on the phone, shared between
//! phones and read by the `plan` example. `format` and `version` come first; an unknown version
//! is refused and left as it is.

mod aspect;
mod floor;
mod product;
mod read;
mod words;

use serde::{Deserialize, Serialize};

use crate::crew;
use crate::kit::Portions;
use crate::vessel::Generic;

pub use aspect::Aspect;
pub use floor::{
    BrushedRecord, CoatRecord, CourseRecord, CrackRecord, DoneRecord, FloorRecord, HourRecord,
    RectangleRecord, StemWallRecord, StepsRecord, SurfaceRecord, TonightRecord, UnderWayRecord,
};
pub use product::{
    AdditiveRecord, AfterRecord, ComponentRecord, EquivalentWeightsRecord, KitRecord, LearntRecord,
    LimitsRecord, OpenTimeRecord, PotLifeRecord, ProductRecord, Role, SheetRecord, ShelfRecord,
};
pub use read::{Unreadable, open, read, shape};
pub(crate) use words::{check_date, length};

/// The newest version of every record this crate writes and reads.
pub const VERSION: u32 = 5;

#[expect(clippy::trivially_copy_pass_by_ref, reason = "so serde asks")]
fn is_false(flag: &bool) -> bool {
    !*flag
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "so serde asks")]
fn is_zero(value: &f64) -> bool {
    *value == 0.0
}

/// Temperatures of slab, air and material as they were read, and the humidity.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ConditionsRecord {
    /// Temperature of the slab, in °C.
    pub slab_c: f64,
    /// Temperature of the air, in °C.
    pub air_c: f64,
    /// Material in the cans, or in the pail after mixing.
    pub material_c: f64,
    /// It was read in the pail after mixing, so that the drill's heat is in it.
    #[serde(default, skip_serializing_if = "is_false")]
    pub read_after_mixing: bool,
    /// Relative humidity of the air, where it was read.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub humidity_percent: Option<f64>,
}

/// Who is here and how fast they work.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
#[expect(clippy::struct_excessive_bools, reason = "each is a question with two answers")]
pub struct CrewRecord {
    /// How many people roll, or fill cracks where the product is a filler.
    pub rollers: u32,
    /// People throwing flake and nothing else; 0 when the rollers do it themselves.
    pub flakers: u32,
    /// People who mix and nothing else, each with a drill; 0 when the rollers do it.
    pub mixers: u32,
    /// People cutting in edges and nothing else; 0 when the rollers do it themselves.
    #[serde(default)]
    pub cutters: u32,
    /// What one person brushes: edges, walls, steps.
    #[serde(default = "usual_cut_pace")]
    pub cut_m2_per_min: f64,
    /// How much crack one person fills.
    #[serde(default = "usual_crack_pace")]
    pub crack_m_per_min: f64,
    /// What one roller spreads and back-rolls.
    pub roll_m2_per_min: f64,
    /// What one person flakes.
    pub flake_m2_per_min: f64,
    /// How far a throw of flake reaches from a dry edge.
    pub throw_m: f64,
    /// Who throws walks the wet film on spikes, and reaches everything.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub spikes: bool,
    /// Every strip begins at the same wall, instead of turning round at the far one.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub same_wall: bool,
    /// From the mixing place to the floor.
    pub carry_min: f64,
    /// What filling a jug to its mark takes, or bringing a scale or a stick to one.
    #[serde(default = "usual_reading")]
    pub reading_min: f64,
    /// Fetching a clean pail and setting it up.
    #[serde(default = "usual_clean_pail")]
    pub clean_pail_min: f64,
    /// Every batch stands measured out, A and B apart, before the first is mixed.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub measured_ahead: bool,
    /// How long the film settles between rolling and flake.
    pub settle_min: f64,
    /// Poured out in a ribbon at once, or used from the pail.
    pub ribbon: bool,
    /// How fast a ribbon is poured.
    pub pour_l_per_min: f64,
    /// How much of the time there is may be planned.
    pub reserve_percent: f64,
}

fn usual_cut_pace() -> f64 {
    crew::USUAL_CUT
}

fn usual_crack_pace() -> f64 {
    crew::USUAL_CRACK
}

fn usual_reading() -> f64 {
    crew::USUAL_READING
}

fn usual_clean_pail() -> f64 {
    crew::USUAL_CLEAN_PAIL
}

/// Floor that is still bare, or cracks still open.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct BareRecord {
    /// Area of bare floor in m²; for cracks, length times width.
    pub area_m2: f64,
    /// Width across the direction of work; for cracks, the width of the crack.
    pub width_m: f64,
    /// Depth of the crack, for a filler.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crack_depth_mm: Option<f64>,
    /// Extra for the texture of the slab.
    #[serde(default)]
    pub take_up_percent: f64,
    /// Left on pail and tools.
    #[serde(default)]
    pub loss_percent: f64,
    /// The batch may end at a joint or a tape line, so its edge need not stay wet.
    #[serde(default)]
    pub ends_at_joint: bool,
    /// What the plan of its floor adds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub in_plan: Option<InPlanRecord>,
}

/// What the plan of a floor knows of one of its batches, and nobody types for that batch alone.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct InPlanRecord {
    /// How far the material has gone so far, over how far it should.
    pub went: f64,
    /// How fast it has been rolled so far, over the pace given.
    pub pace: f64,
    /// Edge that is cut in by brush where the batch begins.
    pub edge_at_start_m2: f64,
    /// Edge that is cut in as it goes on, for each square metre of floor.
    pub edge_per_m2: f64,
    /// Edge of sides across that the batch meets, as it was written before there were all of them.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub edge_across_m2: f64,
    /// Edge of sides across that the next batch may meet, likewise.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub edge_ahead_m2: f64,
    /// Sides across where the floor widens, narrows or ends, nearest first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sides_across: Option<[SideAcrossRecord; 4]>,
    /// When another of several who mix is back, from when A meets B.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub another_back_min: Option<f64>,
    /// How much longer the next batch may wait for whoever mixes, where they mix for other bays too.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub wait_min: f64,
    /// The wet edge of the batch before, that this one is to meet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub edge_before: Option<EdgeBeforeRecord>,
}

/// A side across that a batch meets once it is so large.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct SideAcrossRecord {
    /// A batch larger than this.
    pub beyond_m2: f64,
    /// Edge along it, as much as is not counted with the floor before it.
    pub edge_m2: f64,
    /// All of that edge.
    pub whole_m2: f64,
}

/// The wet edge of the batch before, from when A meets B in this one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct EdgeBeforeRecord {
    /// The first drop is to meet it by then.
    pub until_min: f64,
    /// So long was counted for brushing sides across before that.
    pub brushing_min: f64,
    /// So long was counted for rolling the first strip along it.
    pub first_strip_min: f64,
}

/// A pail of one's own, by inside measures.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct OwnVesselRecord {
    /// Diameter at the bottom.
    pub bottom_diameter_mm: f64,
    /// Diameter at the rim.
    pub top_diameter_mm: f64,
    /// Inside height of the pail from bottom to rim, in millimetres.
    pub height_mm: f64,
}

/// The pail mixed in.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum VesselRecord {
    /// One of the generic pails.
    Generic(Generic),
    /// One measured by the crew.
    Own(OwnVesselRecord),
}

/// How the crew measures.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum MeasureRecord {
    /// Each part is measured to the marks of a jug.
    Jug {
        /// From mark to mark.
        jug_step_ml: f64,
    },
    /// All parts are weighed into one pail on a tared scale.
    Scale {
        /// The smallest step the scale shows, in grams.
        scale_step_g: f64,
    },
    /// By marks on a stick in the pail.
    Stick {
        /// How finely a mark can be made.
        mark_step_mm: f64,
    },
}

/// What the crew mixes in and measures with.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct GearRecord {
    /// The pail that batches are mixed in.
    pub vessel: VesselRecord,
    /// The usual way to measure: jug, scale or stick.
    pub measure: MeasureRecord,
    /// A finer one that is here, for what that cannot hold on ratio.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub finer: Option<MeasureRecord>,
    /// Only kits are mixed, split so far.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kits: Option<Portions>,
    /// The most the owner allows in one pail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub largest_mass_kg: Option<f64>,
}

/// A job: everything a plan needs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct JobRecord {
    /// The kind of record, always [`JobRecord::FORMAT`].
    pub format: String,
    /// Version of the format it is written in; the newest is [`VERSION`].
    pub version: u32,
    /// The product to be laid, with its whole data sheet.
    pub product: ProductRecord,
    /// How warm it is.
    pub conditions: ConditionsRecord,
    /// The people who lay it, and how fast they work.
    pub crew: CrewRecord,
    /// The bare floor or open cracks that the batch can be laid on.
    pub bare: BareRecord,
    /// The pail, the measure and the kit rule the crew works with.
    pub gear: GearRecord,
}

impl JobRecord {
    /// What `format` says in a job record.
    pub const FORMAT: &'static str = "pailwise-job";

    /// Reads a job from JSON.
    ///
    /// # Errors
    /// One line that names the place in the file and what is wrong there.
    ///
    /// ```
    /// use pailwise_calc::record::JobRecord;
    /// let wrong = JobRecord::from_json(r#"{"format": "pailwise-job", "version": 1}"#);
    /// assert!(wrong.unwrap_err().to_string().contains("missing field `product`"));
    /// ```
    pub fn from_json(text: &str) -> Result<Self, Unreadable> {
        read(text, Self::FORMAT)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    #[test]
    fn a_product_returns_as_it_was_written() {
        for product in demo::records() {
            let text = serde_json::to_string(&product).unwrap();
            assert_eq!(ProductRecord::from_json(&text).unwrap(), product);
        }
    }

    #[test]
    fn what_is_wrong_is_said_with_its_place() {
        let good = serde_json::to_string(&demo::record_base()).unwrap();
        let cases = [
            ("{", "file: EOF"),
            (
                &good.replace("\"parts\":2.0", "\"parts\":\"NaN\""),
                "components[0].parts: invalid type",
            ),
            (&good.replace("\"version\":5", "\"version\":9"), "version: 9 is newer"),
            (&good.replace("pailwise-product", "other"), "format: this is \"other\""),
            (&good.replace("\"flaked\"", "\"flacked\""), "unknown field `flacked`"),
            (&format!("{good}x"), "file: trailing characters"),
        ];
        for (text, wanted) in cases {
            let said = ProductRecord::from_json(text).unwrap_err().to_string();
            assert!(said.contains(wanted), "{said:?} lacks {wanted:?}");
        }
    }
}
