//! A product being written: what was typed for each figure of its sheet, as it is kept.

use std::collections::BTreeMap;

use pailwise_calc::calibrate::Sample;
use pailwise_calc::cure::Chemistry;
use pailwise_calc::ratio::Basis;
use pailwise_calc::record::{AfterRecord, ProductRecord, Role, VERSION};
use serde::{Deserialize, Serialize};

use super::Record as _;
use super::sheet::{Row, Single};
use crate::entry::{Entry, Kind};
use crate::units::Units;

/// How a sheet says how thick the film is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FilmWay {
    /// As a spread rate.
    #[default]
    Spread,
    /// As a wet film.
    Wet,
    /// As a dry film, with solids.
    Dry,
}

/// A line of which a sheet has some, as typed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RowRecord {
    /// Which kind of line.
    pub row: Row,
    /// Which of its ways the sheet says it in.
    #[serde(default)]
    pub way: usize,
    /// Its label or name.
    #[serde(default)]
    pub words: String,
    /// Of an additive: what it goes into.
    #[serde(default)]
    pub onto: String,
    /// Of a pot life: how it was measured, where the sheet says so.
    #[serde(default)]
    pub measured: Option<Sample>,
    /// In the order of [`Row::asks`].
    pub entries: Vec<Entry>,
}

impl RowRecord {
    /// An empty line, in the person's units.
    pub fn empty(row: Row, units: Units) -> Self {
        let asks = row.asks(0);
        Self {
            row,
            way: 0,
            words: String::new(),
            onto: String::new(),
            measured: None,
            entries: asks.iter().map(|_| Entry::as_typed("", units)).collect(),
        }
    }

    /// A line with values of the record, as they were most likely printed.
    fn of(row: Row, way: usize, values: &[Option<f64>], units: Units) -> Self {
        let asks = row.asks(way);
        let entries = asks.iter().zip(values).map(|(ask, value)| printed(ask.kind, *value, units));
        Self { way, entries: entries.collect(), ..Self::empty(row, units) }
    }
}

fn printed(kind: Kind, value: Option<f64>, units: Units) -> Entry {
    value.map_or_else(|| Entry::as_typed("", units), |value| Entry::as_printed(kind, value, units))
}

/// A product being written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DraftRecord {
    /// Names the kind of record, here a product being written; always `Self::FORMAT`.
    pub format: String,
    /// The version it was written in.
    pub version: u32,
    /// The product as it stood on the shelf when the form was opened; a new one has none.
    #[serde(default)]
    pub was: Option<ProductRecord>,
    /// The stable name of the product.
    pub id: String,
    /// What the crew calls it.
    pub name: String,
    /// What it is for.
    pub role: Role,
    /// Nothing until it is chosen: neither may be guessed.
    pub chemistry: Option<Chemistry>,
    /// By volume or by weight; nothing until it is chosen.
    pub ratio_by: Option<Basis>,
    /// How its film is given.
    pub film: FilmWay,
    /// Flake is broadcast into it.
    pub flaked: bool,
    /// What prices are in.
    pub currency: String,
    /// What the owner wants the crew to know.
    pub notes: String,
    /// The name of its data sheet.
    pub sheet_name: String,
    /// The date on its data sheet.
    pub sheet_dated: String,
    /// What was typed for each figure; one that is not here is empty.
    pub singles: BTreeMap<Single, Entry>,
    /// Lines of which a sheet has any number.
    pub rows: Vec<RowRecord>,
}

impl DraftRecord {
    /// A new product: two parts, a pot life to fill in, and what nearly every sheet says.
    pub fn new(id: &str, units: Units) -> Self {
        let mut draft =
            Self::of(&ProductRecord::blank(id, Role::Base, Chemistry::AmineEpoxy), units);
        draft.was = None;
        (draft.chemistry, draft.ratio_by) = (None, None);
        for label in ["A", "B"] {
            let words = label.to_owned();
            draft.rows.push(RowRecord { words, ..RowRecord::empty(Row::Part, units) });
        }
        draft.rows.push(RowRecord::empty(Row::PotLife, units));
        draft
    }

    /// The form of a product that stands on the shelf.
    pub fn of(product: &ProductRecord, units: Units) -> Self {
        let mut singles = BTreeMap::new();
        for single in Single::ALL {
            if let Some(value) = value_of(single, product) {
                singles.insert(single, Entry::as_printed(single.ask().kind, value, units));
            }
        }
        let film = if product.wet_film_um.is_some() {
            FilmWay::Wet
        } else if product.dry_film_um.is_some() {
            FilmWay::Dry
        } else {
            FilmWay::Spread
        };
        Self {
            format: Self::FORMAT.to_owned(),
            version: VERSION,
            was: Some(product.clone()),
            id: product.id.clone(),
            name: product.name.clone(),
            role: product.role,
            chemistry: Some(product.chemistry),
            ratio_by: Some(product.ratio_by),
            film,
            flaked: product.flaked,
            currency: product.currency.clone().unwrap_or_default(),
            notes: product.notes.clone(),
            sheet_name: product.sheet.name.clone(),
            sheet_dated: product.sheet.dated.clone(),
            singles,
            rows: rows_of(product, units),
        }
    }

    /// The entry of a figure.
    pub fn single(&self, single: Single, units: Units) -> Entry {
        self.singles.get(&single).cloned().unwrap_or_else(|| Entry::as_typed("", units))
    }

    /// Whether a figure is asked for, as the rest stands.
    pub fn concerns(&self, single: Single) -> bool {
        let filler = self.role == Role::Filler;
        match single {
            Single::Wet => !filler && self.film == FilmWay::Wet,
            Single::Dry | Single::Solids => !filler && self.film == FilmWay::Dry,
            Single::Spread => !filler && self.film == FilmWay::Spread,
            Single::FlakeCover => !filler && self.flaked,
            Single::EquivalentA | Single::EquivalentB => self.rows_of(Row::Part).count() == 2,
            _ => true,
        }
    }

    /// The lines of a kind, each with its place in the list.
    pub fn rows_of(&self, row: Row) -> impl Iterator<Item = (usize, &RowRecord)> {
        self.rows.iter().enumerate().filter(move |(_, record)| record.row == row)
    }

    /// Says the line at a place in another of its ways; what was typed stays where it means the
    /// same.
    pub fn say_in(&mut self, at: usize, way: usize) {
        if let Some(row) = self.rows.get_mut(at) {
            row.way = way;
        }
    }
}

fn value_of(single: Single, product: &ProductRecord) -> Option<f64> {
    let limits = &product.limits;
    match single {
        Single::Tolerance => Some(product.ratio_tolerance_percent),
        Single::EquivalentA => product.equivalent_weights.map(|w| w.a_g_per_mol),
        Single::EquivalentB => product.equivalent_weights.map(|w| w.b_g_per_mol),
        Single::Mixing => Some(product.mixing_min),
        Single::Induction => Some(product.induction_min).filter(|minutes| *minutes != 0.0),
        Single::Wet => product.wet_film_um,
        Single::Dry => product.dry_film_um,
        Single::Solids => product.solids_by_volume_percent,
        Single::Spread => product.spread_m2_per_l,
        Single::FlakeCover => product.flake_kg_per_m2,
        Single::SlabLeast => limits.slab_min_c,
        Single::SlabMost => limits.slab_max_c,
        Single::AirLeast => limits.air_min_c,
        Single::AirMost => limits.air_max_c,
        Single::HumidityMost => limits.humidity_max_percent,
        Single::DewPointSpread => limits.dew_point_spread_k,
        Single::SlabHumidity => limits.slab_humidity_max_percent,
        Single::VaporEmission => limits.vapor_emission_max_g_per_m2_day,
        Single::PhLeast => limits.surface_ph_min,
        Single::PhMost => limits.surface_ph_max,
        Single::ProfileLeast => limits.profile_min_csp.map(f64::from),
        Single::ProfileMost => limits.profile_max_csp.map(f64::from),
        Single::DryAfterWash => limits.dry_after_wash_h,
        Single::ActivationEnergy => product.activation_energy_kj_per_mol,
        Single::Heat => product.heat_of_reaction_j_per_g,
        Single::HeatCapacity => product.heat_capacity_j_per_g_k,
        Single::Kappa => product.kappa,
    }
}

fn rows_of(product: &ProductRecord, units: Units) -> Vec<RowRecord> {
    let mut rows = Vec::new();
    for part in &product.components {
        let values = [Some(part.parts), Some(part.density_kg_per_l)];
        let row = RowRecord::of(Row::Part, 0, &values, units);
        rows.push(RowRecord { words: part.label.clone(), ..row });
    }
    for additive in &product.additives {
        let (way, dose) = match (additive.dose_ml_per_kit, additive.dose_g_per_kit) {
            (Some(ml), _) => (2, Some(ml)),
            (None, Some(g)) => (3, Some(g)),
            _ => (usize::from(additive.dose_by == Basis::Mass), additive.dose_percent),
        };
        let values = [dose, Some(additive.density_kg_per_l)];
        let row = RowRecord::of(Row::Additive, way, &values, units);
        let (words, onto) = (additive.name.clone(), additive.onto.clone());
        rows.push(RowRecord { words, onto, ..row });
    }
    for kit in &product.kits {
        let (way, size) = if kit.volume_l.is_some() { (0, kit.volume_l) } else { (1, kit.mass_kg) };
        rows.push(RowRecord::of(Row::Kit, way, &[size, kit.price], units));
    }
    for point in &product.pot_life {
        let (way, of) =
            if point.volume_l.is_some() { (0, point.volume_l) } else { (1, point.mass_kg) };
        let values = [Some(point.time_min), Some(point.temperature_c), of];
        let row = RowRecord::of(Row::PotLife, way, &values, units);
        rows.push(RowRecord { measured: point.measured, ..row });
    }
    for open in &product.open_time {
        let values = [Some(open.time_min), Some(open.temperature_c), open.humidity_percent];
        rows.push(RowRecord::of(Row::OpenTime, 0, &values, units));
    }
    let after: [(Row, &[AfterRecord]); 5] = [
        (Row::RecoatOpens, &product.recoat_opens),
        (Row::RecoatCloses, &product.recoat_closes),
        (Row::LightUse, &product.light_use),
        (Row::Vehicles, &product.vehicles),
        (Row::FullCure, &product.full_cure),
    ];
    for (row, records) in after {
        for record in records {
            let values = [Some(record.time_h), Some(record.temperature_c)];
            rows.push(RowRecord::of(row, 0, &values, units));
        }
    }
    rows
}
