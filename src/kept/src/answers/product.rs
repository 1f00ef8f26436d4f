//! From what was typed about a product to its record, with everything that is wrong on the way.

use std::collections::BTreeMap;

use pailwise_calc::cure::Chemistry;
use pailwise_calc::error::Error;
use pailwise_calc::product::Product;
use pailwise_calc::ratio::Basis;
use pailwise_calc::record::{
    AdditiveRecord, AfterRecord, ComponentRecord, EquivalentWeightsRecord, KitRecord, LimitsRecord,
    OpenTimeRecord, PotLifeRecord, ProductRecord, Role, SheetRecord,
};
use pailwise_calc::sheet::{Absent, Doubt, absent, doubts};

use super::reading::{self, Reading};
use crate::entry::Entry;
use crate::records::draft::{DraftRecord, FilmWay, RowRecord};
use crate::records::sheet::{Ask, Row, Single};
use crate::text::key;
use crate::units::Units;

/// A field of the form.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetField {
    /// The line it stands in, counted from 0 among its kind.
    pub row: Option<(Row, usize)>,
    /// The key of its label.
    pub label: &'static str,
    /// The name of its field in the page.
    pub id: String,
}

/// A field that keeps the product from being there.
pub type Fault = reading::Fault<SheetField>;

/// What the form has to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// Figures that are invalid or missing.
    Faults(Vec<Fault>),
    /// The calculation refused the product.
    Wrong(Error),
    /// A product, with what is doubtful about it and what its sheet does not say.
    Good(Box<Good>),
}

/// A product as it was typed, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Good {
    /// The product as it is written down to be kept.
    pub record: ProductRecord,
    /// What is calculated with.
    pub product: Product,
    /// What of it is doubtful.
    pub doubts: Vec<Doubt>,
    /// What its sheet does not say.
    pub absent: Vec<Absent>,
}

/// The product that was typed.
pub fn find(draft: &DraftRecord) -> Found {
    let mut reading = Reading::default();
    let record = product(draft, &mut reading);
    let record = match reading.done(record) {
        Ok(record) => record,
        Err(faults) => return Found::Faults(faults),
    };
    match Product::try_from(&record) {
        Ok(product) => Found::Good(Box::new(Good {
            doubts: doubts(&record, &product),
            absent: absent(&record),
            record,
            product,
        })),
        Err(error) => Found::Wrong(error),
    }
}

/// A line that was read: what it says in words, and the value of each of its fields.
struct Line<'a> {
    row: &'a RowRecord,
    values: Vec<Option<f64>>,
}

impl Line<'_> {
    /// A value; nothing where it was left empty, or is invalid.
    fn at(&self, i: usize) -> Option<f64> {
        self.values.get(i).copied().flatten()
    }
}

impl Reading<SheetField> {
    fn field(&mut self, ask: Ask, entry: &Entry, place: SheetField) -> Option<f64> {
        let how = (ask.kind, ask.field);
        if ask.optional {
            self.optional(entry, how, place).flatten()
        } else {
            self.value(entry, how, place)
        }
    }

    /// Something without a line of its own is not there.
    fn lacks(&mut self, label: &'static str, id: String) {
        self.missing(SheetField { row: None, label, id });
    }

    /// Each of name, chemistry and basis of the ratio is a fault where it is missing.
    fn name_and_choices(&mut self, draft: &DraftRecord) {
        if draft.name.trim().is_empty() {
            self.lacks(key::SHEET_NAME, key::SHEET_NAME.to_owned());
        }
        if draft.chemistry.is_none() {
            self.lacks(key::SHEET_CHEMISTRY, key::SHEET_CHEMISTRY.to_owned());
        }
        if draft.ratio_by.is_none() {
            self.lacks(key::SHEET_RATIO_BY, key::SHEET_RATIO_BY.to_owned());
        }
    }

    /// Every figure of which a sheet has one, where it is asked for.
    fn singles(&mut self, draft: &DraftRecord) -> BTreeMap<Single, f64> {
        let asked = Single::ALL.into_iter().filter(|single| draft.concerns(*single));
        let read = asked.filter_map(|single| {
            let (ask, entry) = (single.ask(), draft.single(single, Units::Us));
            let place = SheetField { row: None, label: ask.label, id: single.id() };
            Some((single, self.field(ask, &entry, place)?))
        });
        read.collect()
    }

    /// Each line of a kind; a missing one that the sheet must have is a fault.
    fn lines<'a>(&mut self, draft: &'a DraftRecord, row: Row) -> Vec<Line<'a>> {
        let rows: Vec<_> = draft.rows_of(row).map(|(_, record)| record).collect();
        if rows.len() < row.count().0 {
            self.lacks(row.name(), row.name().to_owned());
        }
        let read = rows.into_iter().enumerate().map(|(n, record)| {
            let asks = row.asks(record.way);
            let entries = asks.iter().zip(&record.entries).enumerate();
            let values = entries.map(|(i, (ask, entry))| {
                let place = SheetField { row: Some((row, n)), label: ask.label, id: row.id(n, i) };
                self.field(*ask, entry, place)
            });
            Line { values: values.collect(), row: record }
        });
        read.collect()
    }

    fn after(&mut self, draft: &DraftRecord, row: Row) -> Option<Vec<AfterRecord>> {
        let lines = self.lines(draft, row);
        let after =
            |line: &Line| Some(AfterRecord { time_h: line.at(0)?, temperature_c: line.at(1)? });
        lines.iter().map(after).collect()
    }

    fn components(&mut self, draft: &DraftRecord) -> Option<Vec<ComponentRecord>> {
        let lines = self.lines(draft, Row::Part);
        let component = |line: &Line| {
            Some(ComponentRecord {
                label: line.row.words.trim().to_owned(),
                parts: line.at(0)?,
                density_kg_per_l: line.at(1)?,
            })
        };
        lines.iter().map(component).collect()
    }

    fn additives(&mut self, draft: &DraftRecord) -> Option<Vec<AdditiveRecord>> {
        let labels: Vec<&str> =
            draft.rows_of(Row::Part).map(|(_, part)| part.words.trim()).collect();
        for (n, (_, row)) in draft.rows_of(Row::Additive).enumerate() {
            if row.onto != "mix" && !labels.contains(&row.onto.as_str()) {
                self.lacks(key::ROW_ONTO, format!("{}-{n}-onto", Row::Additive.name()));
            }
        }
        let lines = self.lines(draft, Row::Additive);
        let additive = |line: &Line| {
            let (amount, way) = (line.at(0)?, line.row.way);
            let dose = |ways: &[usize]| Some(amount).filter(|_| ways.contains(&way));
            Some(AdditiveRecord {
                name: line.row.words.trim().to_owned(),
                onto: line.row.onto.clone(),
                dose_percent: dose(&[0, 1]),
                dose_by: if way == 1 { Basis::Mass } else { Basis::Volume },
                dose_ml_per_kit: dose(&[2]),
                dose_g_per_kit: dose(&[3]),
                density_kg_per_l: line.at(1)?,
            })
        };
        lines.iter().map(additive).collect()
    }

    fn kits(&mut self, draft: &DraftRecord) -> Option<Vec<KitRecord>> {
        let lines = self.lines(draft, Row::Kit);
        let kit = |line: &Line| {
            let amount = line.at(0)?;
            let size = |way: usize| Some(amount).filter(|_| line.row.way == way);
            Some(KitRecord { volume_l: size(0), mass_kg: size(1), price: line.at(1) })
        };
        lines.iter().map(kit).collect()
    }

    fn pot_life(&mut self, draft: &DraftRecord) -> Option<Vec<PotLifeRecord>> {
        let lines = self.lines(draft, Row::PotLife);
        let pot_life = |line: &Line| {
            let of = line.at(2);
            Some(PotLifeRecord {
                time_min: line.at(0)?,
                temperature_c: line.at(1)?,
                mass_kg: of.filter(|_| line.row.way == 1),
                volume_l: of.filter(|_| line.row.way == 0),
                measured: line.row.measured,
            })
        };
        lines.iter().map(pot_life).collect()
    }

    fn open_time(&mut self, draft: &DraftRecord) -> Option<Vec<OpenTimeRecord>> {
        let lines = self.lines(draft, Row::OpenTime);
        let open_time = |line: &Line| {
            Some(OpenTimeRecord {
                time_min: line.at(0)?,
                temperature_c: line.at(1)?,
                humidity_percent: line.at(2),
            })
        };
        lines.iter().map(open_time).collect()
    }

    /// Both of them, or neither: one alone says nothing.
    fn equivalent_weights(
        &mut self,
        draft: &DraftRecord,
        singles: &BTreeMap<Single, f64>,
    ) -> Option<EquivalentWeightsRecord> {
        let of = |single: Single| singles.get(&single).copied();
        let (a, b) = (of(Single::EquivalentA), of(Single::EquivalentB));
        let alone = match (a, b) {
            (Some(_), None) => Some(Single::EquivalentB),
            (None, Some(_)) => Some(Single::EquivalentA),
            _ => None,
        };
        // An invalid one is a fault already.
        let empty = |single: &Single| draft.single(*single, Units::Us).text.trim().is_empty();
        if let Some(missing) = alone.filter(empty) {
            self.lacks(missing.ask().label, missing.id());
        }
        Some(EquivalentWeightsRecord { a_g_per_mol: a?, b_g_per_mol: b? })
    }
}

/// The record, once everything was read; nothing where something is invalid or missing.
fn product(draft: &DraftRecord, reading: &mut Reading<SheetField>) -> Option<ProductRecord> {
    reading.name_and_choices(draft);
    let components = reading.components(draft);
    let (additives, kits) = (reading.additives(draft), reading.kits(draft));
    let (pot_life, open_time) = (reading.pot_life(draft), reading.open_time(draft));
    let singles = reading.singles(draft);
    let equivalent_weights = reading.equivalent_weights(draft, &singles);
    let mut after = |row: Row| reading.after(draft, row);
    let (recoat_opens, recoat_closes) = (after(Row::RecoatOpens), after(Row::RecoatCloses));
    let (light_use, vehicles) = (after(Row::LightUse), after(Row::Vehicles));
    let full_cure = after(Row::FullCure);
    let of = |single: Single| singles.get(&single).copied();
    let film = |way: FilmWay, single: Single| of(single).filter(|_| draft.film == way);
    let was = draft.was.as_ref();
    let chemistry: Chemistry = draft.chemistry?;
    Some(ProductRecord {
        name: draft.name.trim().to_owned(),
        invented: was.is_some_and(|was| was.invented),
        revised: was.and_then(|was| was.revised.clone()),
        ratio_by: draft.ratio_by?,
        components: components?,
        ratio_tolerance_percent: of(Single::Tolerance)?,
        additives: additives?,
        kits: kits?,
        currency: Some(draft.currency.trim().to_uppercase()).filter(|text| !text.is_empty()),
        equivalent_weights,
        pot_life: pot_life?,
        lot: was.map_or_else(String::new, |was| was.lot.clone()),
        learnt: was.map_or_else(Vec::new, |was| was.learnt.clone()),
        open_time: open_time?,
        mixing_min: of(Single::Mixing)?,
        // A sheet that names none asks for none.
        induction_min: of(Single::Induction).unwrap_or(0.0),
        wet_film_um: film(FilmWay::Wet, Single::Wet),
        dry_film_um: film(FilmWay::Dry, Single::Dry),
        solids_by_volume_percent: film(FilmWay::Dry, Single::Solids),
        spread_m2_per_l: film(FilmWay::Spread, Single::Spread),
        flaked: draft.flaked && draft.role != Role::Filler,
        flake_kg_per_m2: of(Single::FlakeCover),
        recoat_opens: recoat_opens?,
        recoat_closes: recoat_closes?,
        light_use: light_use?,
        vehicles: vehicles?,
        full_cure: full_cure?,
        limits: limits(&of),
        activation_energy_kj_per_mol: of(Single::ActivationEnergy),
        heat_of_reaction_j_per_g: of(Single::Heat),
        heat_capacity_j_per_g_k: of(Single::HeatCapacity),
        kappa: of(Single::Kappa),
        notes: draft.notes.trim().to_owned(),
        sheet: SheetRecord {
            name: draft.sheet_name.trim().to_owned(),
            dated: draft.sheet_dated.trim().to_owned(),
        },
        ..ProductRecord::blank(&draft.id, draft.role, chemistry)
    })
}

fn limits(of: &impl Fn(Single) -> Option<f64>) -> LimitsRecord {
    let count = |single: Single| of(single).map(|value| value as u32);
    LimitsRecord {
        slab_min_c: of(Single::SlabLeast),
        slab_max_c: of(Single::SlabMost),
        air_min_c: of(Single::AirLeast),
        air_max_c: of(Single::AirMost),
        humidity_max_percent: of(Single::HumidityMost),
        dew_point_spread_k: of(Single::DewPointSpread),
        slab_humidity_max_percent: of(Single::SlabHumidity),
        vapor_emission_max_g_per_m2_day: of(Single::VaporEmission),
        surface_ph_min: of(Single::PhLeast),
        surface_ph_max: of(Single::PhMost),
        profile_min_csp: count(Single::ProfileLeast),
        profile_max_csp: count(Single::ProfileMost),
        dry_after_wash_h: of(Single::DryAfterWash),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::Invalid;
    use crate::units::Units;
    use pailwise_calc::demo;

    #[test]
    fn a_product_that_is_opened_and_not_changed_is_the_same_to_the_last_bit() {
        for record in demo::records() {
            for units in Units::ALL {
                let Found::Good(good) = find(&DraftRecord::of(&record, units)) else {
                    panic!("{}: {:?}", record.name, find(&DraftRecord::of(&record, units)));
                };
                assert_eq!(good.record, record, "{units:?}");
            }
        }
    }

    #[test]
    fn a_new_product_names_everything_it_lacks() {
        let draft = DraftRecord::new("new", Units::Us);
        let Found::Faults(faults) = find(&draft) else { panic!() };
        let missing =
            |row| faults.iter().filter(|f| f.place.row.is_some_and(|(r, _)| r == row)).count();
        // Parts and density of two parts; time and temperature of one pot life; a spread rate, a
        // name, the chemistry, and how parts are counted.
        assert_eq!((missing(Row::Part), missing(Row::PotLife)), (4, 2));
        assert_eq!(faults.len(), 10, "{faults:?}");
        assert!(faults.iter().all(|fault| fault.invalid == Invalid::Empty));
    }
}
