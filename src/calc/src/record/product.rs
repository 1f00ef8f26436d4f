//! How a product is written down: the owner's copy of a data sheet.

use serde::{Deserialize, Serialize};

use super::{Unreadable, read, words};
use crate::calibrate::Sample;
use crate::cure::Chemistry;
use crate::error::Error;
use crate::field::Field;
use crate::lot::LearntBy;
use crate::quantity::Figure;
use crate::ratio::{Basis, Ingredient};

/// What a product is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Paste for cracks and spalls.
    Filler,
    /// First coat, soaking in.
    Primer,
    /// The coat that takes the flake.
    Base,
    /// The last coat, laid over all others.
    Topcoat,
    /// A product that fits none of the other kinds.
    Other,
}

impl Role {
    /// All of them, in the order they go down.
    pub const ALL: [Self; 5] = [Self::Filler, Self::Primer, Self::Base, Self::Topcoat, Self::Other];
}

/// One part of a product.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ComponentRecord {
    /// What the can says: "A".
    pub label: String,
    /// Its parts in the ratio.
    pub parts: f64,
    /// Density of this part, in kilograms per litre.
    pub density_kg_per_l: f64,
}

/// An additive of a product. One of the three doses.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct AdditiveRecord {
    /// Name of the additive, as the crew knows it.
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
    /// Density of the additive, in kilograms per litre.
    pub density_kg_per_l: f64,
}

fn by_volume() -> Basis {
    Basis::Volume
}

/// A kit as it is sold: the parts together, by volume or by weight, one of the two.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct KitRecord {
    /// Volume of all parts of one kit, in litres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub volume_l: Option<f64>,
    /// Mass of all parts of one kit, in kilograms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_kg: Option<f64>,
    /// What it costs, in the product's currency.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<f64>,
}

/// Grams of each part that carry one mole of reactive groups.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct EquivalentWeightsRecord {
    /// Of part A: the epoxide equivalent weight, say.
    pub a_g_per_mol: f64,
    /// Of part B: the amine hydrogen equivalent weight, say.
    pub b_g_per_mol: f64,
}

/// One pot life as the data sheet prints it. Without mass or volume the usual sample of its method
/// is taken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PotLifeRecord {
    /// How long the mix stays usable, or takes to gel, in minutes.
    pub time_min: f64,
    /// Temperature of the sample and the air around it, in °C.
    pub temperature_c: f64,
    /// Of how much, by weight.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_kg: Option<f64>,
    /// Of how much, by volume, where the sheet says it so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub volume_l: Option<f64>,
    /// How it was measured, where the sheet says so; a cup on the bench otherwise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured: Option<Sample>,
}

/// One open time as the data sheet prints it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct OpenTimeRecord {
    /// How long the rolled film stays workable, in minutes.
    pub time_min: f64,
    /// Temperature of the film and floor that this open time holds for, in °C.
    pub temperature_c: f64,
    /// In air of what relative humidity, where the sheet says it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub humidity_percent: Option<f64>,
}

/// How long after it is laid something may be done, as the data sheet prints it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct AfterRecord {
    /// Time from laying until it may be done, or no longer may, in hours.
    pub time_h: f64,
    /// At what temperature of the floor.
    pub temperature_c: f64,
}

/// The conditions and the surface a product may be laid in and on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct LimitsRecord {
    /// The lowest slab temperature allowed, in °C.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub slab_min_c: Option<f64>,
    /// The highest slab temperature allowed, in °C.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub slab_max_c: Option<f64>,
    /// The lowest air temperature allowed, in °C.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub air_min_c: Option<f64>,
    /// The highest air temperature allowed, in °C.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub air_max_c: Option<f64>,
    /// The most relative humidity of the air.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub humidity_max_percent: Option<f64>,
    /// How far the slab must be above the dew point.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dew_point_spread_k: Option<f64>,
    /// The most relative humidity in the slab, as ASTM F2170 measures it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub slab_humidity_max_percent: Option<f64>,
    /// The most moisture the slab may give off, as ASTM F1869 measures it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub vapor_emission_max_g_per_m2_day: Option<f64>,
    /// The least pH of the surface, as ASTM D4262 measures it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub surface_ph_min: Option<f64>,
    /// The greatest pH of the surface.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub surface_ph_max: Option<f64>,
    /// The smoothest surface, as an ICRI concrete surface profile.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub profile_min_csp: Option<u32>,
    /// The roughest surface, likewise.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub profile_max_csp: Option<u32>,
    /// How long the slab must dry after it was washed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dry_after_wash_h: Option<f64>,
}

impl LimitsRecord {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// Something the crew saw of a lot: how long a cup or a pail lasted, or how warm a pail was.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct LearntRecord {
    /// The lot it was of, as the cans name it; empty where nobody wrote it down.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub lot: String,
    /// When: RFC 3339, in UTC, to the second.
    pub at: String,
    /// Whether it was seen in a cup, a spoilt pail or a temperature reading.
    pub by: LearntBy,
    /// How long after A met B.
    pub time_min: f64,
    /// Mass of mixed material in the cup or pail, in kilograms.
    pub mass_kg: f64,
    /// How warm the material was once it was mixed.
    pub mixed_c: f64,
    /// How warm the air was.
    pub air_c: f64,
    /// How warm the pail was read; of a reading only.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub read_c: Option<f64>,
}

/// Where the figures come from.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct SheetRecord {
    /// Name of the data sheet.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Its date or revision, as it is printed.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub dated: String,
}

impl SheetRecord {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// A product: the owner's copy of a data sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ProductRecord {
    /// The kind of record, always "pailwise-product".
    pub format: String,
    /// The version of the format this is written in.
    pub version: u32,
    /// Stable name of the record: letters, digits, `-` and `_`.
    pub id: String,
    /// What the crew calls it.
    pub name: String,
    /// Made up, for trying the tool out.
    #[serde(default)]
    pub invented: bool,
    /// When it was last changed: RFC 3339, in UTC, to the second.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub revised: Option<String>,
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
    /// What prices are in: three letters of ISO 4217.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub currency: Option<String>,
    /// Equivalent weights, if the sheet has them; for products of two parts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub equivalent_weights: Option<EquivalentWeightsRecord>,
    /// Pot life, at one temperature or more.
    pub pot_life: Vec<PotLifeRecord>,
    /// The lot in hand, as its cans name it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub lot: String,
    /// What the crew saw of this lot and earlier ones. Not the sheet's: the crew's.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub learnt: Vec<LearntRecord>,
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
    /// Share of the wet film's volume that stays when dry, in percent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solids_by_volume_percent: Option<f64>,
    /// Floor area that one litre covers, in m², before take-up and loss.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spread_m2_per_l: Option<f64>,
    /// Whether flake is broadcast into it.
    #[serde(default)]
    pub flaked: bool,
    /// How much flake is thrown on a floor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flake_kg_per_m2: Option<f64>,
    /// When the next coat may go on.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub recoat_opens: Vec<AfterRecord>,
    /// Until when it may.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub recoat_closes: Vec<AfterRecord>,
    /// When the floor may be walked on and light things stand on it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub light_use: Vec<AfterRecord>,
    /// Times from laying until vehicles may drive and park on the floor.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub vehicles: Vec<AfterRecord>,
    /// When it has cured.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub full_cure: Vec<AfterRecord>,
    /// The conditions and the surface it may be laid in and on.
    #[serde(default, skip_serializing_if = "LimitsRecord::is_empty")]
    pub limits: LimitsRecord,
    /// Activation energy, where the owner knows better than the typical value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub activation_energy_kj_per_mol: Option<f64>,
    /// Heat of reaction, likewise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat_of_reaction_j_per_g: Option<f64>,
    /// Heat capacity in J/(g·K), where the owner knows better than the typical value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat_capacity_j_per_g_k: Option<f64>,
    /// Ratio of the uncatalysed to the autocatalysed rate, likewise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kappa: Option<f64>,
    /// What else the crew should know.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// Where the figures come from.
    #[serde(default, skip_serializing_if = "SheetRecord::is_empty")]
    pub sheet: SheetRecord,
}

impl ProductRecord {
    /// What `format` says in a product record.
    pub const FORMAT: &'static str = "pailwise-product";

    /// A product of which nothing is known yet but what it is: by volume, ratio held to 5 %, mixed
    /// for three minutes (common practice, no source). It lacks parts, pot life and film.
    pub fn blank(id: &str, role: Role, chemistry: Chemistry) -> Self {
        Self {
            format: Self::FORMAT.to_owned(),
            version: super::VERSION,
            id: id.to_owned(),
            name: String::new(),
            invented: false,
            revised: None,
            role,
            chemistry,
            ratio_by: Basis::Volume,
            components: Vec::new(),
            ratio_tolerance_percent: 5.0,
            additives: Vec::new(),
            kits: Vec::new(),
            currency: None,
            equivalent_weights: None,
            pot_life: Vec::new(),
            lot: String::new(),
            learnt: Vec::new(),
            open_time: Vec::new(),
            mixing_min: 3.0,
            induction_min: 0.0,
            wet_film_um: None,
            dry_film_um: None,
            solids_by_volume_percent: None,
            spread_m2_per_l: None,
            flaked: false,
            flake_kg_per_m2: None,
            recoat_opens: Vec::new(),
            recoat_closes: Vec::new(),
            light_use: Vec::new(),
            vehicles: Vec::new(),
            full_cure: Vec::new(),
            limits: LimitsRecord::default(),
            activation_energy_kj_per_mol: None,
            heat_of_reaction_j_per_g: None,
            heat_capacity_j_per_g_k: None,
            kappa: None,
            notes: String::new(),
            sheet: SheetRecord::default(),
        }
    }

    /// Every text in it: neither empty nor endless, with no sign that hides or turns others.
    ///
    /// # Errors
    /// [`Error::TextLength`], [`Error::TextSign`], [`Error::Unreadable`], naming the text.
    ///
    /// ```
    /// use pailwise_calc::demo;
    /// let mut record = demo::record_base();
    /// assert!(record.check_words().is_ok());
    /// record.name = "Base \u{202e}1:2".to_owned(); // would read as 2:1
    /// assert!(record.check_words().is_err());
    /// ```
    pub fn check_words(&self) -> Result<(), Error> {
        words::check_id(&self.id)?;
        words::check(Field::Name, &self.name)?;
        if let Some(moment) = &self.revised {
            words::check_moment(moment)?;
        }
        for (i, component) in self.components.iter().enumerate() {
            words::check(Field::Label, &component.label)?;
            if self.components.iter().take(i).any(|other| other.label == component.label) {
                return Err(Error::Contradiction { field: Field::Label, other: Field::Label });
            }
        }
        for additive in &self.additives {
            words::check(Field::AdditiveName, &additive.name)?;
        }
        if let Some(currency) = &self.currency {
            words::check_currency(currency)?;
        }
        words::check(Field::Lot, &self.lot)?;
        for learnt in &self.learnt {
            words::check(Field::Lot, &learnt.lot)?;
            words::check_moment(&learnt.at)?;
        }
        words::check(Field::Notes, &self.notes)?;
        words::check(Field::Sheet, &self.sheet.name)?;
        words::check(Field::Sheet, &self.sheet.dated)
    }

    /// None of its lists is longer than a data sheet's can be.
    pub(crate) fn check_rows(&self) -> Result<(), Error> {
        let rows = [
            self.additives.len(),
            self.kits.len(),
            self.pot_life.len(),
            self.open_time.len(),
            self.recoat_opens.len(),
            self.recoat_closes.len(),
            self.light_use.len(),
            self.vehicles.len(),
            self.full_cure.len(),
        ];
        let learnt = u32::try_from(self.learnt.len()).unwrap_or(u32::MAX);
        Field::LearntRows.check(Figure::Count(learnt))?;
        for count in rows {
            Field::Rows.check(Figure::Count(u32::try_from(count).unwrap_or(u32::MAX)))?;
        }
        Ok(())
    }

    /// The label of a part, or the name of an additive; empty for one that is not there.
    pub fn name_of(&self, what: Ingredient) -> &str {
        match what {
            Ingredient::Component(i) => self.components.get(i).map_or("", |c| &c.label),
            Ingredient::Additive(i) => self.additives.get(i).map_or("", |a| &a.name),
        }
    }

    /// Reads a product from JSON.
    ///
    /// # Errors
    /// As [`super::JobRecord::from_json`].
    pub fn from_json(text: &str) -> Result<Self, Unreadable> {
        read(text, Self::FORMAT)
    }
}

/// Several products handed on together.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ShelfRecord {
    /// The kind of record, always "pailwise-products".
    pub format: String,
    /// The version of the format this is written in.
    pub version: u32,
    /// Every product handed on in this file.
    pub products: Vec<ProductRecord>,
}

impl ShelfRecord {
    /// What `format` says in a record of several products.
    pub const FORMAT: &'static str = "pailwise-products";

    /// These products, to be handed on.
    pub fn of(products: Vec<ProductRecord>) -> Self {
        Self { format: Self::FORMAT.to_owned(), version: super::VERSION, products }
    }
}
