//! From what was typed about a product to its record, with everything that is wrong on the way.

use pailwise_calc::cure::Chemistry;
use pailwise_calc::error::Error;
use pailwise_calc::product::Product;
use pailwise_calc::ratio::Basis;
use pailwise_calc::record::{
    AdditiveRecord, AfterRecord, ComponentRecord, EquivalentWeightsRecord, KitRecord, LimitsRecord,
    OpenTimeRecord, PotLifeRecord, ProductRecord, Role, SheetRecord,
};
use pailwise_calc::sheet::{Absent, Doubt, absent, doubts};
use pailwise_kept::entry::{Entry, Invalid};
use pailwise_kept::records::draft::{DraftRecord, FilmWay, RowRecord};
use pailwise_kept::records::sheet::{Ask, Row, Single};
use pailwise_kept::units::Units;

use crate::text::key;

/// A figure of the form that keeps the product from being there.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Fault {
    /// The line it stands in, counted from 0 among its kind.
    pub(crate) row: Option<(Row, usize)>,
    pub(crate) label: &'static str,
    /// The name of its field in the page.
    pub(crate) id: String,
    /// What is the matter with it; an empty one is missing.
    pub(crate) unfit: Option<Invalid>,
}

/// What the form has to say.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Found {
    /// Figures that are unfit or missing.
    Faults(Vec<Fault>),
    /// The calculation refused the product.
    Wrong(Error),
    /// A product, with what is doubtful about it and what its sheet does not say.
    Good(Box<Good>),
}

#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Good {
    pub(crate) record: ProductRecord,
    pub(crate) product: Product,
    pub(crate) doubts: Vec<Doubt>,
    pub(crate) absent: Vec<Absent>,
}

/// The product that was typed.
pub(crate) fn find(draft: &DraftRecord) -> Found {
    let mut reading = Reading { draft, faults: Vec::new() };
    let record = reading.product();
    if !reading.faults.is_empty() {
        return Found::Faults(reading.faults);
    }
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

struct Reading<'a> {
    draft: &'a DraftRecord,
    faults: Vec<Fault>,
}

impl Reading<'_> {
    /// The value of an entry; nothing where it is empty or unfit.
    fn value(
        &mut self,
        ask: Ask,
        entry: &Entry,
        row: Option<(Row, usize)>,
        id: String,
    ) -> Option<f64> {
        let empty = entry.text.trim().is_empty();
        if empty && ask.optional {
            return None;
        }
        match entry.value(ask.kind, ask.field) {
            Ok(value) => Some(value),
            Err(unfit) => {
                let unfit = (!empty).then_some(unfit);
                self.faults.push(Fault { row, label: ask.label, id, unfit });
                None
            }
        }
    }

    fn missing(&mut self, label: &'static str, id: String) {
        self.faults.push(Fault { row: None, label, id, unfit: None });
    }

    fn single(&mut self, single: Single) -> Option<f64> {
        if !self.draft.concerns(single) {
            return None;
        }
        self.value(single.ask(), &self.draft.single(single, Units::Us), None, single.id())
    }

    fn count(&mut self, single: Single) -> Option<u32> {
        self.single(single).map(|value| value as u32)
    }

    /// The values of each line of a kind; a missing one that the sheet must have is a fault.
    fn rows(&mut self, row: Row) -> Vec<(&RowRecord, Vec<Option<f64>>)> {
        let draft = self.draft;
        let rows: Vec<_> = draft.rows_of(row).map(|(_, record)| record).collect();
        if rows.len() < row.count().0 {
            self.missing(row.name(), row.name().to_owned());
        }
        rows.into_iter()
            .enumerate()
            .map(|(n, record)| {
                let asks = row.asks(record.way);
                let entries = asks.iter().zip(&record.entries);
                let values = entries
                    .enumerate()
                    .map(|(i, (ask, entry))| self.value(*ask, entry, Some((row, n)), row.id(n, i)));
                (record, values.collect())
            })
            .collect()
    }

    fn after(&mut self, row: Row) -> Vec<AfterRecord> {
        let rows = self.rows(row).into_iter();
        rows.map(|(_, v)| AfterRecord { time_h: at(&v, 0), temperature_c: at(&v, 1) }).collect()
    }

    /// The record; figures that are unfit stand in it as 0, and as faults.
    fn product(&mut self) -> ProductRecord {
        let draft = self.draft;
        // Whatever stands for one that is not chosen is not used: it is a fault.
        let chemistry = draft.chemistry.unwrap_or(Chemistry::AmineEpoxy);
        let blank = ProductRecord::blank(&draft.id, draft.role, chemistry);
        let filler = draft.role == Role::Filler;
        if draft.name.trim().is_empty() {
            self.missing(key::SHEET_NAME, key::SHEET_NAME.to_owned());
        }
        if draft.chemistry.is_none() {
            self.missing(key::SHEET_CHEMISTRY, key::SHEET_CHEMISTRY.to_owned());
        }
        if draft.ratio_by.is_none() {
            self.missing(key::SHEET_RATIO_BY, key::SHEET_RATIO_BY.to_owned());
        }
        let film = |way: FilmWay, value: Option<f64>| value.filter(|_| draft.film == way);
        let components = self.components();
        let additives = self.additives();
        let kits = self.kits();
        let (pot_life, open_time) = (self.pot_life(), self.open_time());
        ProductRecord {
            name: draft.name.trim().to_owned(),
            invented: draft.was.as_ref().is_some_and(|was| was.invented),
            revised: draft.was.as_ref().and_then(|was| was.revised.clone()),
            ratio_by: draft.ratio_by.unwrap_or(Basis::Volume),
            components,
            ratio_tolerance_percent: self.single(Single::Tolerance).unwrap_or_default(),
            additives,
            kits,
            currency: Some(draft.currency.trim().to_uppercase()).filter(|text| !text.is_empty()),
            equivalent_weights: self.equivalent_weights(),
            pot_life,
            lot: draft.was.as_ref().map_or_else(String::new, |was| was.lot.clone()),
            learnt: draft.was.as_ref().map_or_else(Vec::new, |was| was.learnt.clone()),
            open_time,
            mixing_min: self.single(Single::Mixing).unwrap_or_default(),
            induction_min: self.single(Single::Induction).unwrap_or_default(),
            wet_film_um: film(FilmWay::Wet, self.single(Single::Wet)),
            dry_film_um: film(FilmWay::Dry, self.single(Single::Dry)),
            solids_by_volume_percent: film(FilmWay::Dry, self.single(Single::Solids)),
            spread_m2_per_l: film(FilmWay::Spread, self.single(Single::Spread)),
            flaked: draft.flaked && !filler,
            flake_kg_per_m2: self.single(Single::FlakeCover),
            recoat_opens: self.after(Row::RecoatOpens),
            recoat_closes: self.after(Row::RecoatCloses),
            light_use: self.after(Row::LightUse),
            vehicles: self.after(Row::Vehicles),
            full_cure: self.after(Row::FullCure),
            limits: self.limits(),
            activation_energy_kj_per_mol: self.single(Single::ActivationEnergy),
            heat_of_reaction_j_per_g: self.single(Single::Heat),
            heat_capacity_j_per_g_k: self.single(Single::HeatCapacity),
            kappa: self.single(Single::Kappa),
            notes: draft.notes.trim().to_owned(),
            sheet: SheetRecord {
                name: draft.sheet_name.trim().to_owned(),
                dated: draft.sheet_dated.trim().to_owned(),
            },
            ..blank
        }
    }

    fn components(&mut self) -> Vec<ComponentRecord> {
        let rows = self.rows(Row::Part).into_iter();
        rows.map(|(row, v)| ComponentRecord {
            label: row.words.trim().to_owned(),
            parts: at(&v, 0),
            density_kg_per_l: at(&v, 1),
        })
        .collect()
    }

    fn additives(&mut self) -> Vec<AdditiveRecord> {
        let draft = self.draft;
        let labels: Vec<&str> =
            draft.rows_of(Row::Part).map(|(_, part)| part.words.trim()).collect();
        for (n, (_, row)) in draft.rows_of(Row::Additive).enumerate() {
            if row.onto != "mix" && !labels.contains(&row.onto.as_str()) {
                self.missing(key::ROW_ONTO, format!("{}-{n}-onto", Row::Additive.name()));
            }
        }
        let rows = self.rows(Row::Additive);
        rows.into_iter()
            .map(|(row, v)| {
                let dose = |ways: &[usize]| Some(at(&v, 0)).filter(|_| ways.contains(&row.way));
                AdditiveRecord {
                    name: row.words.trim().to_owned(),
                    onto: row.onto.clone(),
                    dose_percent: dose(&[0, 1]),
                    dose_by: if row.way == 1 { Basis::Mass } else { Basis::Volume },
                    dose_ml_per_kit: dose(&[2]),
                    dose_g_per_kit: dose(&[3]),
                    density_kg_per_l: at(&v, 1),
                }
            })
            .collect()
    }

    fn kits(&mut self) -> Vec<KitRecord> {
        let rows = self.rows(Row::Kit).into_iter();
        rows.map(|(row, v)| {
            let size = |way: usize| Some(at(&v, 0)).filter(|_| row.way == way);
            KitRecord { volume_l: size(0), mass_kg: size(1), price: v.get(1).copied().flatten() }
        })
        .collect()
    }

    fn pot_life(&mut self) -> Vec<PotLifeRecord> {
        let rows = self.rows(Row::PotLife).into_iter();
        rows.map(|(row, v)| {
            let of = v.get(2).copied().flatten();
            PotLifeRecord {
                time_min: at(&v, 0),
                temperature_c: at(&v, 1),
                mass_kg: of.filter(|_| row.way == 1),
                volume_l: of.filter(|_| row.way == 0),
                measured: row.measured,
            }
        })
        .collect()
    }

    fn open_time(&mut self) -> Vec<OpenTimeRecord> {
        let rows = self.rows(Row::OpenTime).into_iter();
        rows.map(|(_, v)| OpenTimeRecord {
            time_min: at(&v, 0),
            temperature_c: at(&v, 1),
            humidity_percent: v.get(2).copied().flatten(),
        })
        .collect()
    }

    /// Both of them, or neither: one alone says nothing.
    fn equivalent_weights(&mut self) -> Option<EquivalentWeightsRecord> {
        let (a, b) = (self.single(Single::EquivalentA), self.single(Single::EquivalentB));
        let missing = match (a, b) {
            (Some(_), None) => Some(Single::EquivalentB),
            (None, Some(_)) => Some(Single::EquivalentA),
            _ => None,
        };
        // An unfit one is a fault already.
        if let Some(missing) = missing.filter(|_| self.faults.is_empty()) {
            self.missing(missing.ask().label, missing.id());
        }
        Some(EquivalentWeightsRecord { a_g_per_mol: a?, b_g_per_mol: b? })
    }

    fn limits(&mut self) -> LimitsRecord {
        LimitsRecord {
            slab_min_c: self.single(Single::SlabLeast),
            slab_max_c: self.single(Single::SlabMost),
            air_min_c: self.single(Single::AirLeast),
            air_max_c: self.single(Single::AirMost),
            humidity_max_percent: self.single(Single::HumidityMost),
            dew_point_spread_k: self.single(Single::DewPointSpread),
            slab_humidity_max_percent: self.single(Single::SlabHumidity),
            vapor_emission_max_g_per_m2_day: self.single(Single::VaporEmission),
            surface_ph_min: self.single(Single::PhLeast),
            surface_ph_max: self.single(Single::PhMost),
            profile_min_csp: self.count(Single::ProfileLeast),
            profile_max_csp: self.count(Single::ProfileMost),
            dry_after_wash_h: self.single(Single::DryAfterWash),
        }
    }
}

fn at(values: &[Option<f64>], i: usize) -> f64 {
    values.get(i).copied().flatten().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
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
        let missing = |row| faults.iter().filter(|f| f.row.is_some_and(|(r, _)| r == row)).count();
        // Parts and density of two parts; time and temperature of one pot life; a spread rate, a
        // name, the chemistry, and how parts are counted.
        assert_eq!((missing(Row::Part), missing(Row::PotLife)), (4, 2));
        assert_eq!(faults.len(), 10, "{faults:?}");
        assert!(faults.iter().all(|fault| fault.unfit.is_none()));
    }
}
