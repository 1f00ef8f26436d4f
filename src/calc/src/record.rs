//! How products, crews and jobs are written down: JSON, with the unit in every key.
//!
//! A record is what a person gave, exactly, before anything is checked; `TryFrom` turns it into
//! the checked type the calculation uses. The same records are kept on the phone, shared between
//! phones and read by the `plan` example. `format` and `version` come first; an unknown version
//! is refused and left as it is.

mod floor;
mod read;

use serde::{Deserialize, Serialize};

use crate::cure::Chemistry;
use crate::kit::Portions;
use crate::ratio::{Basis, Ingredient};
use crate::vessel::Generic;

pub use floor::{
    CoatRecord, CourseRecord, CrackRecord, DoneRecord, FloorRecord, HourRecord, RectangleRecord,
    StemWallRecord, StepsRecord,
};
pub use read::{Unreadable, read};

/// The newest version of every record this crate writes and reads.
pub const VERSION: u32 = 1;

/// What a product is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Paste for cracks and spalls.
    Filler,
    /// First coat, soaking in.
    Primer,
    /// The coat that takes the flake.
    Base,
    /// The last coat.
    Topcoat,
    /// Anything else.
    Other,
}

/// One part of a product.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ComponentRecord {
    /// What the can says: "A".
    pub label: String,
    /// Its parts in the ratio.
    pub parts: f64,
    /// Its density.
    pub density_kg_per_l: f64,
}

/// An additive of a product. One of the three doses.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AdditiveRecord {
    /// What it is.
    pub name: String,
    /// The label of the part it goes into, or "mix".
    pub onto: String,
    /// How much, as a percentage of what it goes into.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dose_percent: Option<f64>,
    /// Whether that percentage is by volume or by weight.
    #[serde(default = "by_volume")]
    pub dose_by: Basis,
    /// How much for one kit, by volume; of several sizes, the first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dose_ml_per_kit: Option<f64>,
    /// How much for one kit, by weight.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dose_g_per_kit: Option<f64>,
    /// Its density.
    pub density_kg_per_l: f64,
}

fn by_volume() -> Basis {
    Basis::Volume
}

/// A kit as it is sold: the parts together, by volume or by weight.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum KitRecord {
    /// By volume.
    VolumeL(f64),
    /// By weight.
    MassKg(f64),
}

/// Grams of each part that carry one mole of reactive groups.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EquivalentWeightsRecord {
    /// Of part A: the epoxide equivalent weight, say.
    pub a_g_per_mol: f64,
    /// Of part B: the amine hydrogen equivalent weight, say.
    pub b_g_per_mol: f64,
}

/// One pot life as the data sheet prints it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PotLifeRecord {
    /// How long.
    pub time_min: f64,
    /// At what temperature.
    pub temperature_c: f64,
    /// Of how much; without it a laboratory cup is taken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_kg: Option<f64>,
}

/// One open time as the data sheet prints it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpenTimeRecord {
    /// How long.
    pub time_min: f64,
    /// At what temperature.
    pub temperature_c: f64,
}

/// A product: the owner's copy of a data sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ProductRecord {
    /// Always [`ProductRecord::FORMAT`].
    pub format: String,
    /// See [`VERSION`].
    pub version: u32,
    /// Stable name of the record.
    pub id: String,
    /// What the crew calls it.
    pub name: String,
    /// Made up, for trying the tool out.
    #[serde(default)]
    pub invented: bool,
    /// What it is for.
    pub role: Role,
    /// What family it belongs to.
    pub chemistry: Chemistry,
    /// Whether its parts are counted by volume or by weight.
    pub ratio_by: Basis,
    /// Its parts, A first.
    pub components: Vec<ComponentRecord>,
    /// How far off ratio it may be.
    pub ratio_tolerance_percent: f64,
    /// What is stirred in beside.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub additives: Vec<AdditiveRecord>,
    /// The kits it comes in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kits: Vec<KitRecord>,
    /// Equivalent weights, if the sheet has them; for products of two parts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub equivalent_weights: Option<EquivalentWeightsRecord>,
    /// Pot life, at one temperature or more.
    pub pot_life: Vec<PotLifeRecord>,
    /// Open time, if the sheet has any.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub open_time: Vec<OpenTimeRecord>,
    /// How long to mix.
    pub mixing_min: f64,
    /// How long to let it stand before use.
    #[serde(default)]
    pub induction_min: f64,
    /// Wet film to lay; one of this, a dry film with solids, or a spread rate. A filler has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wet_film_um: Option<f64>,
    /// Dry film to be left.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dry_film_um: Option<f64>,
    /// Solids by volume.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solids_by_volume_percent: Option<f64>,
    /// Spread rate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spread_m2_per_l: Option<f64>,
    /// Whether flake is broadcast into it.
    #[serde(default)]
    pub flaked: bool,
    /// Activation energy, where the owner knows better than the typical value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub activation_energy_kj_per_mol: Option<f64>,
    /// Heat of reaction, likewise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat_of_reaction_j_per_g: Option<f64>,
    /// Heat capacity, likewise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat_capacity_j_per_g_k: Option<f64>,
    /// Ratio of the uncatalysed to the autocatalysed rate, likewise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kappa: Option<f64>,
}

impl ProductRecord {
    /// What `format` says in a product record.
    pub const FORMAT: &'static str = "pailwise-product";

    /// The label of a part, or the name of an additive; empty for one that is not there.
    pub fn name_of(&self, what: Ingredient) -> &str {
        match what {
            Ingredient::Component(i) => self.components.get(i).map_or("", |c| &c.label),
            Ingredient::Additive(i) => self.additives.get(i).map_or("", |a| &a.name),
        }
    }
}

/// Temperatures as read.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConditionsRecord {
    /// Slab.
    pub slab_c: f64,
    /// Air.
    pub air_c: f64,
    /// Material in the cans.
    pub material_c: f64,
}

/// Who is here and how fast they work.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CrewRecord {
    /// People rolling.
    pub rollers: u32,
    /// People throwing flake and nothing else; 0 when the rollers do it themselves.
    pub flakers: u32,
    /// Whether somebody is free to mix the next batch meanwhile.
    pub mixer: bool,
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
    /// How far a throw reaches: the depth of one strip.
    pub throw_m: f64,
    /// From the mixing place to the floor.
    pub carry_min: f64,
    /// How long the film settles between rolling and flake.
    pub settle_min: f64,
    /// Poured out in a ribbon at once, or used from the pail.
    pub ribbon: bool,
    /// How fast a ribbon is poured.
    pub pour_l_per_min: f64,
    /// How much of the time there is may be planned.
    pub reserve_percent: f64,
}

/// Three square feet a minute (common practice, no source).
fn usual_cut_pace() -> f64 {
    0.28
}

/// Four feet a minute (common practice, no source).
fn usual_crack_pace() -> f64 {
    1.2
}

/// Floor that is still bare, or cracks still open.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BareRecord {
    /// Area.
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
}

/// A pail of one's own, by inside measures.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnVesselRecord {
    /// Diameter at the bottom.
    pub bottom_diameter_mm: f64,
    /// Diameter at the rim.
    pub top_diameter_mm: f64,
    /// Height.
    pub height_mm: f64,
}

/// The pail mixed in.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum VesselRecord {
    /// One of the generic pails.
    Generic(Generic),
    /// One measured by the crew.
    Own(OwnVesselRecord),
}

/// How the crew measures.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum MeasureRecord {
    /// In a jug.
    Jug {
        /// From mark to mark.
        jug_step_ml: f64,
    },
    /// On a scale.
    Scale {
        /// Resolution.
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
#[serde(deny_unknown_fields)]
pub struct GearRecord {
    /// The pail.
    pub vessel: VesselRecord,
    /// The measure.
    pub measure: MeasureRecord,
    /// Only kits are mixed, split so far.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kits: Option<Portions>,
    /// The most the owner allows in one pail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub largest_mass_kg: Option<f64>,
}

/// A job: everything a plan needs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JobRecord {
    /// Always [`JobRecord::FORMAT`].
    pub format: String,
    /// See [`VERSION`].
    pub version: u32,
    /// What is laid.
    pub product: ProductRecord,
    /// How warm it is.
    pub conditions: ConditionsRecord,
    /// Who lays it.
    pub crew: CrewRecord,
    /// Where.
    pub bare: BareRecord,
    /// With what.
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

impl ProductRecord {
    /// Reads a product from JSON.
    ///
    /// # Errors
    /// As [`JobRecord::from_json`].
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
            (&good.replace("\"version\":1", "\"version\":9"), "version: 9 is newer"),
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
